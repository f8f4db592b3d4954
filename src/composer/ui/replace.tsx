import { useEffect, useState } from 'preact/hooks';
import {
  DEAD_TESTS_CAUTION,
  MAKER_FIRST,
  ORDER_CAUTION,
  PROVE_WORDS,
  SEALED,
  WARN_CAUTION,
} from '../../components/replacement/work.ts';
import { Caution, href } from '../../job/ui/parts.tsx';
import type { ComposerDesk, Worked } from '../desk.ts';
import type { ReplacingView } from '../replacing.ts';
import { Core } from './core.tsx';

interface Props {
  readonly desk: ComposerDesk;
  readonly worked: Worked;
}

/** What can take the place of each item, and the sheet of the one that is picked. */
export function Replace({ desk, worked: { offers, replaced } }: Props) {
  const [picked, setPicked] = useState<string | null>(null);
  useEffect(() => {
    if (offers === null) desk.askOffers();
  }, [desk, offers]);
  const back = () => {
    setPicked(null);
    desk.replace('', null);
  };
  if (picked !== null)
    return (
      <div class="replace">
        <p class="up">
          <button type="button" class="quiet-button" onClick={back}>
            All items
          </button>
        </p>
        {replaced ? <Sheet sheet={replaced.sheet} /> : <p role="status">Solving both circuits.</p>}
      </div>
    );
  return (
    <div class="replace">
      <p class="lede">
        Pick the item, then the new device: which core goes to which terminal, what becomes of
        links, and what was found when both circuits were solved. Offered are the devices that parts
        are described with. A boiler is changed by a Gas Safe registered engineer to its
        manufacturer’s own instructions.
      </p>
      <Caution>
        {ORDER_CAUTION} The order of the whole work:{' '}
        <a href={href('/procedures/replacing-a-control/')}>replacing a control</a>.
      </Caution>
      {offers === null && <p role="status">Looking for what fits.</p>}
      {offers?.map(({ item, title, place, devices }) => (
        <section key={item} aria-labelledby={`replace-${item}`}>
          <h2 id={`replace-${item}`}>
            {title} <small class="point">{item}</small> <span class="quiet">{place}</span>
          </h2>
          <ul class="pick-list">
            {devices.map(({ id, title: device }) => (
              <li key={id}>
                <button
                  type="button"
                  onClick={() => {
                    setPicked(`${item} ${id}`);
                    desk.replace(item, id);
                    scrollTo(0, 0);
                  }}
                >
                  <strong>{device}</strong>
                </button>
              </li>
            ))}
          </ul>
        </section>
      ))}
    </div>
  );
}

function Sheet({ sheet }: { readonly sheet: ReplacingView }) {
  const { verdict, cautions, notes, atCylinder } = sheet;
  return (
    <>
      <h2>{sheet.title}</h2>
      <p class={`comes-to ${verdict.replaceAll(' ', '-')}`}>
        <strong>{sheet.verdictWord}</strong> <span>{sheet.verdictText}</span>
      </p>
      <div class="cautions" role="note">
        <strong class="caution-word">Caution</strong>
        <ul>
          {cautions.map((line) => (
            <li key={line}>{line}</li>
          ))}
          {atCylinder && (
            <li>
              At an unvented cylinder only by a person qualified for it; without that look and read
              only.
            </li>
          )}
          <li>{MAKER_FIRST}</li>
          <li>{SEALED}</li>
        </ul>
      </div>
      {notes.length > 0 && (
        <>
          <h3>Know before you begin</h3>
          <Lines lines={notes} />
        </>
      )}
      {verdict === 'never' ? (
        <p>There is no sheet for this device here, since no core-by-core list makes it safe.</p>
      ) : (
        <Work sheet={sheet} />
      )}
    </>
  );
}

const Lines = ({ lines }: { readonly lines: readonly string[] }) => (
  <ul class="plain-list">
    {lines.map((line) => (
      <li key={line}>{line}</li>
    ))}
  </ul>
);

/** The work in its order: before, core to terminal, links, dead tests, proof. */
const Work = ({ sheet }: { readonly sheet: ReplacingView }) => (
  <>
    <h3>Before the old device comes off</h3>
    <ol class="steps">
      {sheet.before.map((step, i) => (
        <li key={step.act}>
          <span class="step-number">{i + 1}</span>
          <div>
            {step.caution && <Caution>{step.caution}</Caution>}
            <p class="act">
              {step.isolates ? (
                <a href={href('/procedures/safe-isolation/')}>{step.act}</a>
              ) : (
                step.act
              )}
              {step.isolates}
            </p>
            {step.expect && (
              <p class="expect">
                <b>Expect</b> {step.expect}
              </p>
            )}
            {step.why && (
              <p class="why">
                <b>Why</b> {step.why}
              </p>
            )}
          </div>
        </li>
      ))}
    </ol>
    <h3>Core to terminal</h3>
    {sheet.newCable && <p class="new-cable">{sheet.newCable}</p>}
    <table class="stack core-steps">
      <thead>
        <tr>
          <th scope="col">Core</th>
          <th scope="col">Out of, old</th>
          <th scope="col">Into, new</th>
          <th scope="col">Other end</th>
          <th scope="col">Act</th>
        </tr>
      </thead>
      <tbody>
        {sheet.cores.map(({ cable, colour, sleeve, was, now, far, act }) => (
          <tr key={`${cable}.${colour}`}>
            <th scope="row">
              <b class="point">{cable}</b> <Core colour={colour} sleeve={sleeve} />
            </th>
            <td data-label="Out of, old">
              <span class={was === '' ? 'quiet' : 'point'}>
                {was === '' ? 'new or spare' : was}
              </span>
            </td>
            <td data-label="Into, new">
              {now === '' ? (
                <span class="quiet">no place: a terminal of its own</span>
              ) : (
                <b class="point">{now}</b>
              )}
            </td>
            <td data-label="Other end">
              <span class="point">{far}</span>
            </td>
            <td data-label="Act">{act}</td>
          </tr>
        ))}
      </tbody>
    </table>
    {sheet.links.length > 0 && (
      <>
        <h3>Links</h3>
        <ul class="plain-list link-steps">
          {sheet.links.map(({ act, proof }) => (
            <li key={act}>
              <strong>{act}</strong> {proof}
            </li>
          ))}
        </ul>
      </>
    )}
    <h3>Dead tests before the cover goes on</h3>
    <Caution>{DEAD_TESTS_CAUTION}</Caution>
    <Lines lines={sheet.dead} />
    <h3>Prove it</h3>
    <Caution>
      {WARN_CAUTION} A reading with the supply on is live work: only by a person competent in it,
      dry, others away, tester proved before and after, leads to GS38.{' '}
      <a href={href('/procedures/live-tests/')}>Live tests</a>
    </Caution>
    <p>{PROVE_WORDS}</p>
    <ol class="proving">
      {sheet.proving.map(({ title, asked, bring, seen, readings }) => (
        <li key={title}>
          <h4>{title}</h4>
          <p class="act">{asked}</p>
          {bring && <p class="quiet">{bring}</p>}
          <ul class="seen-list">
            {seen.map(({ item, text, so }) => (
              <li key={`${item} ${text}`} class={so ? 'so' : 'not-so'}>
                {text} <small class="point">{item}</small>
              </li>
            ))}
          </ul>
          <ul class="read-list">
            {readings.map(({ from, to, text, look }) => (
              <li key={`${from} ${to}`}>
                <span>
                  <b class="point">{from}</b> to {to}
                </span>
                <span class={`v ${look}`}>{look === 'dead' ? text : <b>{text}</b>}</span>
              </li>
            ))}
          </ul>
        </li>
      ))}
    </ol>
    {sheet.newConditions.length > 0 && (
      <>
        <h3>What the new device brings with it</h3>
        <Lines lines={sheet.newConditions} />
      </>
    )}
    {sheet.others.map((line) => (
      <Caution key={line}>{line}</Caution>
    ))}
  </>
);
