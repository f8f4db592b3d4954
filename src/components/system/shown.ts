import {
  INSTRUMENTS,
  type Instrument,
  isExtraLow,
  type Network,
  type Reading,
  read,
  type Settled,
  type Simulation,
} from '../../circuit/index.ts';
import { placeOfTerminal, readInstead, readsAt, settledIn, situationIn } from '../../site/index.ts';
import { READING_WORDS } from '../../words/index.ts';

/** Where a terminal is read: at itself, instead at another, or nowhere. */
export function readingPlace(
  network: Network,
  point: string,
): { here: boolean; instead: string | null } {
  const place = placeOfTerminal(network, point);
  const here = place !== undefined && readsAt(place) !== 'none';
  return { here, instead: here ? null : readInstead(network, point) };
}

/** A reading as a page shows it. */
export interface Shown {
  readonly figure: string;
  /** `V`, or `V DC`. */
  readonly unit: string;
  /** Class in a word. */
  readonly word: string;
  /** Class name of its look. */
  readonly look: 'live' | 'dead' | 'between' | 'high' | 'dc' | 'no-dc';
}

/**
 * A reading in figures and a word. An extra-low-voltage pair is read in volts DC, unless
 * mains stands on it, which is shown before anything else.
 */
export function shownReading(reading: Reading, extraLow: boolean): Shown {
  if (extraLow && reading.class === 'dead') {
    const present = isExtraLow(reading.dc);
    return {
      figure: whole(reading.dc),
      unit: 'V DC',
      // It is there while nobody calls, and gone while the contact is closed: never said as a call.
      word: present ? 'there' : 'none',
      look: present ? 'dc' : 'no-dc',
    };
  }
  return {
    figure: whole(reading.ac),
    unit: 'V',
    word: reading.class === 'between' ? 'part' : READING_WORDS[reading.class],
    look: reading.class,
  };
}

/** A reading in one phrase: `230 V live`, `no volts (6 V)`. */
export const shownText = ({ figure, unit, word, look }: Shown): string =>
  look === 'dead' ? `${word} (${figure} ${unit})` : `${figure} ${unit} ${word}`;

const whole = (n: number) => String(Math.round(n)).replace('-', '−').replace('−0', '0');

/** One look of a reading and the modes and instruments that give it. */
export interface Variant {
  readonly shown: Shown;
  /** Classes `m0 m2 i0`; `am` and `ai` where every mode or instrument gives it. */
  readonly when: string;
}

/**
 * Every different reading between two points, as opening the place of the first leaves the
 * circuit, each once, with the modes and instruments that give it: a page then shows one of them by style alone.
 * @param only modes to keep; all when not given.
 */
export function variantsOf(
  simulation: Simulation,
  from: string,
  to: string,
  extraLow: boolean,
  only?: readonly string[],
): Variant[] {
  const place = placeOfTerminal(simulation.network, from);
  const modes = [...simulation.modes.keys()]
    .filter((id) => only?.includes(id) ?? true)
    .map((id) => [id, settledIn(simulation, situationIn(id, place))] as const);
  const order = [...simulation.modes.keys()];
  const rows = INSTRUMENTS.map((instrument, i) => ({
    i,
    row: modes.map(([, settled]) => shownIn(settled, from, to, instrument, extraLow)),
  }));
  const alike = Map.groupBy(rows, ({ row }) => JSON.stringify(row));
  return [...alike.values()].flatMap((group) => {
    const byLook = Map.groupBy(group[0]!.row.keys(), (m) => JSON.stringify(group[0]!.row[m]));
    return [...byLook.values()].map((columns) => ({
      shown: group[0]!.row[columns[0]!]!,
      when: [
        columns.length === modes.length
          ? 'am'
          : columns.map((m) => `m${order.indexOf(modes[m]![0])}`).join(' '),
        group.length === INSTRUMENTS.length ? 'ai' : group.map(({ i }) => `i${i}`).join(' '),
      ].join(' '),
    }));
  });
}

function shownIn(
  settled: Settled,
  from: string,
  to: string,
  instrument: Instrument,
  extraLow: boolean,
): Shown {
  return shownReading(read(settled.solution, from, to, instrument), extraLow);
}

/** Texts that differ by mode, each once with the classes of its modes. */
export function byMode(
  simulation: Simulation,
  text: (settled: Settled) => string,
): { readonly text: string; readonly when: string }[] {
  const settled = [...simulation.modes.values()];
  const texts = settled.map(text);
  return [...new Set(texts)].map((one) => {
    const modes = texts.flatMap((t, m) => (t === one ? [`m${m}`] : []));
    return { text: one, when: modes.length === texts.length ? 'am' : modes.join(' ') };
  });
}
