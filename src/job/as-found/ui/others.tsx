import { useState } from 'preact/hooks';
import type { AsFound } from '../../../wiring/as-found/index.ts';
import { capital } from '../../../words/index.ts';
import { Choice, Tick } from '../../ui/parts.tsx';
import type { FoundDesk } from '../desk.ts';
import { type FoundSheet, pointWords, type SheetPart, terminalChoices } from '../found-sheet.ts';
import {
  addLink,
  removeLink,
  setRating,
  toggleAbsent,
  toggleBridge,
  toggleLink,
} from '../marks.ts';

interface Props {
  readonly desk: FoundDesk;
  readonly sheet: FoundSheet;
  readonly marks: AsFound;
}

/** What else can be otherwise: links, fuses, bridged switches, what is not fitted. */
export const Others = (props: Props) => (
  <section aria-labelledby="others-title">
    <h2 id="others-title">Links, fuses, switches, equipment</h2>
    <Links {...props} />
    <Fuses {...props} />
    <Switches {...props} />
    <Items {...props} />
  </section>
);

const Head = ({ title, count }: { readonly title: string; readonly count: number }) => (
  <summary>
    <b>{title}</b>
    {count > 0 && <b class="marked">{count} marked</b>}
  </summary>
);

function Links({ desk, sheet, marks }: Props) {
  const [from, setFrom] = useState('');
  const [to, setTo] = useState('');
  const groups = [
    { label: '', options: [{ value: '', text: 'Pick a terminal' }] },
    ...terminalChoices(sheet),
  ];
  return (
    <details class="item-block" name="others">
      <Head title="Links" count={marks.missingLinks.length + marks.extraLinks.length} />
      {sheet.links.map(({ between: [a, b], why }, i) => (
        <Tick
          key={`${a} ${b}`}
          done={marks.missingLinks.includes(i)}
          onChange={() => desk.mark((now) => toggleLink(now, i))}
        >
          No link between {pointWords(sheet, a)} and {pointWords(sheet, b)}
          {why !== '' && <span class="quiet block">{why}</span>}
        </Tick>
      ))}
      {marks.extraLinks.map(([a, b], i) => (
        <p key={`${a} ${b}`} class="core-head">
          <span>
            Link {pointWords(sheet, a)} to {pointWords(sheet, b)}
          </span>
          <button
            type="button"
            class="quiet-button"
            onClick={() => desk.mark((now) => removeLink(now, i))}
          >
            Remove this mark
          </button>
        </p>
      ))}
      <p class="quiet">A link or a core that is not on the drawing:</p>
      <Choice id="link-from" label="From" value={from} onPick={setFrom} groups={groups} />
      <Choice id="link-to" label="To" value={to} onPick={setTo} groups={groups} />
      <button
        type="button"
        class="plain"
        disabled={from === '' || to === '' || from === to}
        onClick={() => {
          desk.mark((now) => addLink(now, from, to));
          setFrom('');
          setTo('');
        }}
      >
        Mark this link
      </button>
    </details>
  );
}

/** Ratings that are met, A: fuse links of BS 1362, circuit-breakers of a house. */
const RATINGS = { fuse: [3, 5, 13], breaker: [6, 10, 16, 20, 32, 40] } as const;

function Fuses({ desk, sheet, marks }: Props) {
  const fuses = sheet.parts.filter(({ rating }) => rating !== null);
  const isMarked = ({ branch }: SheetPart) =>
    marks.ratings[branch] !== undefined || marks.bridged.includes(branch);
  return (
    <details class="item-block" name="others">
      <Head title="Fuses and breakers" count={fuses.filter(isMarked).length} />
      {fuses.map((part) => {
        const { branch, item, name, rating } = part;
        const met = part.kind === 'breaker' ? RATINGS.breaker : RATINGS.fuse;
        const choices = [...new Set([rating!, ...met])].toSorted((a, b) => a - b);
        const bridged = marks.bridged.includes(branch);
        const now = bridged ? null : (marks.ratings[branch] ?? rating);
        return (
          <fieldset key={branch} class="picker">
            <legend>
              {capital(name)} of the {sheet.said[item]}, {rating} A as drawn
            </legend>
            <div class="rating-keys">
              {choices.map((amps) => (
                <button
                  key={amps}
                  type="button"
                  aria-pressed={amps === now}
                  onClick={() => desk.mark((found) => setRating(found, branch, amps))}
                >
                  {amps} A
                </button>
              ))}
              <button
                type="button"
                aria-pressed={bridged}
                onClick={() => desk.mark((found) => toggleBridge(found, branch))}
              >
                bridged
              </button>
            </div>
          </fieldset>
        );
      })}
    </details>
  );
}

function Switches({ desk, sheet, marks }: Props) {
  const contacts = sheet.parts.filter(({ rating }) => rating === null);
  const count = contacts.filter(({ branch }) => marks.bridged.includes(branch)).length;
  return (
    <details class="item-block" name="others">
      <Head title="Switches and cut-outs found bridged" count={count} />
      {contacts.map(({ branch, item, name }) => (
        <Tick
          key={branch}
          done={marks.bridged.includes(branch)}
          onChange={() => desk.mark((now) => toggleBridge(now, branch))}
        >
          {capital(name)} of the {sheet.said[item]} is bridged
        </Tick>
      ))}
    </details>
  );
}

function Items({ desk, sheet, marks }: Props) {
  return (
    <details class="item-block" name="others">
      <Head title="Not fitted here" count={marks.absent.length} />
      <p class="quiet">
        Its cores then lie loose. Where they were joined together instead, mark a link between the
        item’s terminals.
      </p>
      {sheet.items.map(({ ref, title, place }) => (
        <Tick
          key={ref}
          done={marks.absent.includes(ref)}
          onChange={() => desk.mark((now) => toggleAbsent(now, ref))}
        >
          {title}: not fitted
          <span class="quiet block">
            {ref}, {place}
          </span>
        </Tick>
      ))}
    </details>
  );
}
