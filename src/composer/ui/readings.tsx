import { terminalAnchor } from '../../diagram/anchor.ts';
import { wayMark } from '../../wiring/spoken.ts';
import { PART_VOLTS_WHY } from '../../words/index.ts';
import type { PlaceView, View } from '../view.ts';
import { Value } from './value.tsx';
import { type Chosen, shownOf } from './when.ts';

interface Props {
  readonly view: View;
  readonly chosen: Chosen;
  /** Whether the circuit is not in order: then nothing read in it is as it should be. */
  readonly isWrong: boolean;
}

/** What every pair of points reads, place by place: the mode chosen on a phone, all of them beside. */
export function Readings({ view, chosen, isWrong }: Props) {
  const { modes, places, instruments } = view;
  const firstPartVolts = places
    .flatMap(({ rows }) => rows)
    .find(({ values }) => shownOf(values, chosen)?.look === 'between')?.id;
  return (
    <section id="readings" aria-labelledby="readings-title">
      <h2 id="readings-title">Readings</h2>
      {isWrong && <NotAsItShould />}
      <p class="instrument-line">
        On the <b>{instruments[chosen.instrument]!.toLowerCase()}</b>, in volts AC unless marked DC.{' '}
        <span class="off-paper">
          A few volts more or less is the same reading: live, part volts or no volts is what counts.
        </span>
      </p>
      <p class="print-legend">
        Bar and bold: live. Light: no volts. In a frame: part volts. Dashed line: call voltage, DC.
      </p>
      <table class={modes.length > 6 ? 'readings-table many-modes' : 'readings-table'}>
        <thead>
          <tr>
            <th scope="col">Between</th>
            {modes.map(({ id, title }, m) => (
              <th key={id} scope="col" class={m === chosen.mode ? 'c chosen' : 'c'}>
                <span>{title}</span>
              </th>
            ))}
          </tr>
        </thead>
        {places.map((place) => (
          <Place
            key={place.reference}
            place={place}
            modes={modes.length}
            chosen={chosen}
            firstPartVolts={firstPartVolts}
          />
        ))}
      </table>
    </section>
  );
}

/** Said before any reading of a circuit that is not in order. */
export const NotAsItShould = () => (
  <p class="caution not-as-it-should">
    <strong class="caution-word">Not normal</strong> These parts make a circuit that is not in
    order. What follows is what it would do, and none of it is as it should be.
  </p>
);

interface PlaceProps {
  readonly place: PlaceView;
  readonly modes: number;
  readonly chosen: Chosen;
  readonly firstPartVolts: string | undefined;
}

function Place({ place, modes, chosen, firstPartVolts }: PlaceProps) {
  const { reference, title, place: where, bare, caution, rows, why, elsewhere, unread } = place;
  return (
    <tbody>
      <tr class="group">
        <th scope="rowgroup" colSpan={modes + 1} id={`readings-${reference}`}>
          <b class="point">{reference}</b> {title}{' '}
          <span class="quiet">
            {where}
            {bare && '. Read on the bare terminals: the device is off its base'}
          </span>
          {rows.length > 0 && (
            <span class="live-strip off-paper">
              Live readings: only if competent, tester proved before and after, its cover taken off
              while isolated
            </span>
          )}
          {caution && <span class="live-strip off-paper">{caution}</span>}
        </th>
      </tr>
      {rows.map(({ id, from, to, note, values }) => (
        <>
          <tr key={id}>
            <th scope="row">
              <span class="point" data-at={terminalAnchor(from)}>
                {wayMark(from)}
              </span>{' '}
              to{' '}
              <span class="point" data-at={terminalAnchor(to)}>
                {wayMark(to)}
              </span>
              {note && <span class="quiet">{note}</span>}
            </th>
            {Array.from({ length: modes }, (_, mode) => (
              // Modes have one order for good.
              <td key={String(mode)} class={mode === chosen.mode ? 'c chosen' : 'c'}>
                <Value shown={shownOf(values, { ...chosen, mode })} bare />
              </td>
            ))}
          </tr>
          {id === firstPartVolts && (
            <tr key={`${id} why`} class="off-paper">
              <th scope="row" colSpan={modes + 1} class="quiet-row">
                {PART_VOLTS_WHY}
              </th>
            </tr>
          )}
        </>
      ))}
      {elsewhere.length > 0 && (
        <tr>
          <th scope="row" colSpan={modes + 1} class="quiet-row">
            {why.length > 0 && (
              <>
                {why.join(' ')}
                <br />
              </>
            )}
            {elsewhere
              .map(({ point, instead }) =>
                instead === null ? `${point}: not read` : `${point}: read at ${instead}`,
              )
              .join('; ')}
          </th>
        </tr>
      )}
      {unread.length > 0 && (
        <tr class="off-paper">
          <th scope="row" colSpan={modes + 1} class="quiet-row">
            Nothing to read at {unread.join(', ')}
          </th>
        </tr>
      )}
    </tbody>
  );
}
