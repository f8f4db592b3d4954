import { useState } from 'preact/hooks';
import { COLOUR_CODES, CORE_SETS, type ColourCode } from '../../../published/index.ts';
import type { AsFound } from '../../../wiring/as-found/index.ts';
import { capital, terminalWords } from '../../../words/index.ts';
import { nameOf } from '../../words.ts';
import type { FoundDesk } from '../desk.ts';
import { type FoundSheet, pointWords, type SheetCable, type SheetCore } from '../found-sheet.ts';
import { coresFound, isThere, marksAt, pointFound, setCores, setEnd } from '../marks.ts';
import { TerminalPicker } from './terminal-picker.tsx';

interface Props {
  readonly desk: FoundDesk;
  readonly sheet: FoundSheet;
  readonly marks: AsFound;
}

/** The cables, to be traced one at a time. */
export const Cables = (props: Props) => (
  <section aria-labelledby="cables-title">
    <h2 id="cables-title">Which core is under which terminal?</h2>
    <p class="quiet">Trace one cable at a time. Tap an end that is elsewhere, and say where.</p>
    {props.sheet.cables.map((cable) => (
      <CableBlock key={cable.ref} {...props} cable={cable} />
    ))}
  </section>
);

function CableBlock(props: Props & { readonly cable: SheetCable }) {
  const { desk, sheet, marks, cable } = props;
  const count = marksAt(marks, cable.ref);
  const places = cable.items.map((ref) => sheet.said[ref]);
  return (
    <details class="item-block" name="cable" id={`cable-${cable.ref}`}>
      <summary>
        <span>
          <b>{capital(cable.said)}</b>
          <span class="quiet block">
            {cable.kind}, {cable.cores.length} cores, {places[0]} to {places[1]}
          </span>
        </span>
        {count > 0 && <b class="marked">{count} marked</b>}
      </summary>
      <ul class="core-list">
        {coresFound(cable, marks).map((core) => (
          <CoreRow key={core.colour} {...props} core={core} />
        ))}
      </ul>
      <OtherCable desk={desk} cable={cable} marks={marks} />
    </details>
  );
}

type RowProps = Props & { readonly cable: SheetCable; readonly core: SheetCore };

function CoreRow({ desk, sheet, marks, cable, core }: RowProps) {
  const [open, setOpen] = useState<0 | 1 | null>(null);
  const { colour } = core;
  const there = isThere(marks, cable.ref, colour);
  const all = marks.cables[cable.ref] ?? cable.cores.map((one) => one.colour);
  const toggle = () =>
    desk.mark((now) =>
      setCores(now, cable.ref, there ? all.filter((one) => one !== colour) : [...all, colour]),
    );
  return (
    <li class={there ? '' : 'gone'}>
      <div class="core-head">
        <span class="core-name">
          <span class={`swatch ${colour}`} aria-hidden="true" />
          <b>{COLOUR_CODES[colour]}</b>
          <span class="core-code">{colour}</span>
        </span>
        <button type="button" class="quiet-button" onClick={toggle}>
          {there ? 'Not there' : 'It is there'}
          <span class="unseen">
            {' '}
            {colour} of {cable.ref}
          </span>
        </button>
      </div>
      {there && (
        <div class="core-ends">
          {([0, 1] as const).map((end) => {
            const due = core.due[end];
            const point = pointFound(marks, { cable: cable.ref, colour, end }, due);
            const item = cable.items[end];
            return (
              <button
                key={end}
                type="button"
                class={point === due ? 'end-key' : 'end-key otherwise'}
                aria-expanded={open === end}
                onClick={() => setOpen(open === end ? null : end)}
              >
                <span class="quiet">
                  {capital(sheet.said[item]!)}
                  <span class="unseen">
                    : {COLOUR_CODES[colour]} of {cable.ref} is in
                  </span>
                </span>
                <b>{pointText(sheet, point, item)}</b>
                {point !== due && <span class="quiet">due: {pointText(sheet, due, item)}</span>}
              </button>
            );
          })}
        </div>
      )}
      {there && open !== null && (
        <TerminalPicker
          sheet={sheet}
          marks={marks}
          item={cable.items[open]}
          core={`${colour} of ${cable.ref}`}
          coreWords={`${COLOUR_CODES[colour]} of the ${cable.said}`}
          due={core.due[open]}
          point={pointFound(marks, { cable: cable.ref, colour, end: open }, core.due[open])}
          onPick={(point) => {
            const end = { cable: cable.ref, colour, end: open };
            desk.mark((now) => setEnd(now, end, point));
            setOpen(null);
          }}
        />
      )}
    </li>
  );
}

/** Where an end is, at its own item or at another. */
function pointText(sheet: FoundSheet, point: string, item: string): string {
  if (point === 'loose') return 'in no terminal';
  if (point === 'short') return 'cut short';
  return point.startsWith(`${item}.`) ? terminalWords(nameOf(point)) : pointWords(sheet, point);
}

/** A cable with another set of cores in this one's place. */
function OtherCable({
  desk,
  cable,
  marks,
}: {
  readonly desk: FoundDesk;
  readonly cable: SheetCable;
  readonly marks: AsFound;
}) {
  const due = cable.cores.map(({ colour }) => colour);
  const now = marks.cables[cable.ref] ?? due;
  const sets = [
    { text: `As drawn: ${due.length} cores`, cores: due },
    ...[...Object.values(CORE_SETS.plain), ...Object.values(CORE_SETS.earthed)]
      .filter((cores) => !isSame(cores, due))
      .map((cores) => ({
        text: `${cores.length} cores: ${TRADE_ORDER.filter((c) => cores.includes(c)).join(', ')}`,
        cores,
      })),
  ];
  return (
    <details class="figure">
      <summary>A different cable</summary>
      <div class="set-keys">
        {sets.map(({ text, cores }) => (
          <button
            key={text}
            type="button"
            aria-pressed={isSame(cores, now)}
            onClick={() => desk.mark((found) => setCores(found, cable.ref, cores))}
          >
            {text}
          </button>
        ))}
      </div>
    </details>
  );
}

const TRADE_ORDER: readonly ColourCode[] = ['BN', 'BU', 'BK', 'GY', 'GNYE'];
const isSame = (a: readonly ColourCode[], b: readonly ColourCode[]) =>
  a.length === b.length && a.every((colour) => b.includes(colour));
