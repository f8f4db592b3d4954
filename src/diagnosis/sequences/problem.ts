import { ISOLATED } from '../../../schemas/index.ts';
import type { Network } from '../../circuit/index.ts';
import type { Fault } from '../faults/index.ts';
import type { Rules, SearchProblem, SearchTest } from '../search/index.ts';
import type { Signatures } from '../signatures.ts';
import {
  ACT_MINUTES,
  baseMinutes,
  fromTheFront,
  modeMinutes,
  openingMinutes,
  type Test,
  type TestAnswer,
} from '../tests/index.ts';

/** Something that may be the case, with what every test of a system then answers. */
export interface Open {
  /** Null for the sound circuit. */
  readonly fault: Fault | null;
  /** How likely beside the others. */
  readonly weight: number;
  /** By place in the system's list of tests. */
  readonly answers: readonly TestAnswer[];
}

/** What a sequence tells apart and with what, in words and in the search's plain numbers. */
export interface SequenceProblem {
  /** By fault of the problem. */
  readonly open: readonly Open[];
  /** By test of the problem: those that tell any of these apart. */
  readonly tests: readonly Test[];
  /** By test of the problem: what the sound circuit answers. */
  readonly sound: readonly TestAnswer[];
  /** By test of the problem: what each code stands for. */
  readonly answers: readonly (readonly TestAnswer[])[];
  readonly problem: SearchProblem;
}

/** Where a sequence begins. */
export interface Beginning {
  /** Mode the system stands in, every cover still on. */
  readonly mode: string;
  /** Whether every outcome has been looked at in every mode, so that no look tells more. */
  readonly looked?: boolean;
}

/** Repair of the sound circuit: none. */
const NO_REPAIR = 'none';

/** What no saving outweighs, see `Rules`: minutes and shares by trial (common practice, no source). */
const RULES: Rules = {
  coversOn: { minutes: 4, share: 0.02 },
  openBox: { minutes: 1, share: 0.05 },
};

/**
 * The problem of telling apart what may be the case. Tests that answer alike throughout are
 * left out.
 *
 * @throws RangeError when nothing is open, or the system has no such mode.
 */
export function sequenceProblem(
  network: Network,
  { tests, sound }: Pick<Signatures, 'tests' | 'sound'>,
  open: readonly Open[],
  { mode, looked = false }: Beginning,
): SequenceProblem {
  if (open.length === 0) throw new RangeError('a sequence needs something to tell apart');
  const modes = Object.keys(network.system.modes);
  const start = modes.indexOf(mode);
  if (start < 0) {
    throw new RangeError(`${network.id} has no mode ${mode}; it has ${modes.join(', ')}`);
  }
  const telling = tests.flatMap((test, place) => {
    if (looked && test.kind === 'look') return [];
    const first = open[0]!.answers[place]!;
    if (open.some(({ answers }) => answers[place] === 'unsettled')) return [];
    return open.some(({ answers }) => answers[place] !== first) ? [place] : [];
  });
  // A fuse that draws out from the front is got at with its switch off, and isolated as well.
  const ways = telling.flatMap((at) => {
    const front = fromTheFront(network, tests[at]!);
    return front
      ? [
          { at, front, bare: false },
          { at, front: false, bare: true },
        ]
      : [{ at, front, bare: false }];
  });
  const placeOf = ({ at, front, bare }: (typeof ways)[number]) =>
    front || bare ? null : tests[at]!.place;
  const places = [...new Set(ways.flatMap((way) => placeOf(way) ?? []))];
  const alphabets = ways.map(({ at }) => [...new Set(open.map((one) => one.answers[at]!))]);
  const repairs = [...new Set(open.map(repairOf))];
  return {
    open,
    tests: ways.map(({ at }) => tests[at]!),
    sound: ways.map(({ at }) => sound[at]!),
    answers: alphabets,
    problem: {
      faults: open.map((one) => ({ weight: one.weight, repair: repairs.indexOf(repairOf(one)) })),
      tests: ways.map((way, i): SearchTest => {
        const test = tests[way.at]!;
        const place = placeOf(way);
        return {
          id: test.id,
          minutes: baseMinutes(test),
          mode: way.front ? modes.length : modes.indexOf(test.mode),
          place: place === null ? -1 : places.indexOf(place),
          answers: open.map((one) => alphabets[i]!.indexOf(one.answers[way.at]!)),
        };
      }),
      modeMinutes: changesOf(network, modes),
      placeMinutes: places.map((item) => openingMinutes(network, item)),
      ...(modes.includes(ISOLATED) ? { openingMode: modes.indexOf(ISOLATED) } : {}),
      rules: RULES,
      start: { mode: start, opened: [] },
    },
  };
}

/**
 * Minutes from each mode to each. After the modes stands one more: a switch thrown for a fuse that
 * draws out from the front, which is no isolation and is soon thrown back.
 */
function changesOf(network: Network, modes: readonly string[]): number[][] {
  const { switchOff, restore } = ACT_MINUTES;
  return [
    ...modes.map((from) => [
      ...modes.map((to) => modeMinutes(network, from, to)),
      from === ISOLATED ? restore + switchOff : switchOff,
    ]),
    [
      ...modes.map((to) =>
        to === ISOLATED
          ? ACT_MINUTES.isolate
          : switchOff + (network.system.modes[to]!.minutes ?? 0),
      ),
      0,
    ],
  ];
}

const repairOf = ({ fault }: Open): string => (fault ? `repair ${fault.repairKey}` : NO_REPAIR);
