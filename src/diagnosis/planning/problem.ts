import { ISOLATED } from '../../../schemas/index.ts';
import type { Network } from '../../circuit/index.ts';
import { isSteady } from '../../site/index.ts';
import { HISTORIES, type History, SEEN_SHARE } from '../faults/index.ts';
import type { Rules, SearchProblem, SearchTest } from '../search/index.ts';
import type { Signatures } from '../signatures.ts';
import {
  ACT_MINUTES,
  baseMinutes,
  comparingMinutes,
  fromTheFront,
  modeMinutes,
  openingMinutes,
  type Test,
  type TestAnswer,
} from '../tests/index.ts';

/** Something that may be the case, with what every test of a system then answers. */
export interface Suspect {
  /** What repairs it: suspects of one repair need not be told apart. Null where nothing is to repair. */
  readonly repairKey: string | null;
  /** How likely beside the others. */
  readonly weight: number;
  /** By place in the system's list of tests. */
  readonly answers: readonly TestAnswer[];
}

/** What is to be told apart and with what, in words and in the search's plain numbers. */
export interface SequenceProblem<S extends Suspect = Suspect> {
  /** By fault of the problem. */
  readonly open: readonly S[];
  /** By test of the problem: those that tell any of these apart. */
  readonly tests: readonly Test[];
  /** By test of the problem: its place in the system's list. */
  readonly listed: readonly number[];
  /** By test of the problem: whether its fuse is drawn from the front. */
  readonly front: readonly boolean[];
  /** By test of the problem: what the sound circuit answers. */
  readonly sound: readonly TestAnswer[];
  /** By test of the problem: what each code stands for. */
  readonly answers: readonly (readonly TestAnswer[])[];
  readonly problem: SearchProblem;
}

/** Where whoever plans stands, and what is known beside what may be the case. */
export interface Beginning {
  /** Mode the system stands in. */
  readonly mode: string;
  /** Ids of the places that stand open; none unless given. */
  readonly opened?: ReadonlySet<string>;
  /**
   * What the customer says of the time before. Where somebody has worked on it, each box that is
   * opened is compared with the wiring table there and then.
   */
  readonly history?: History;
  /** Whether a test may be made, by its place in the list; any unless given. */
  readonly allows?: (at: number) => boolean;
}

/** Repair where nothing is to repair. */
const NO_REPAIR = 'none';

const NONE: ReadonlySet<string> = new Set();

/** What no saving outweighs, see `Rules`: minutes and shares by trial (common practice, no source). */
const RULES: Rules = {
  coversOn: { minutes: 4, share: 0.02 },
  openBox: { minutes: 2, share: 0.05 },
};

/**
 * The one planner: the problem of telling apart what may be the case, with the site's acts, times
 * and rules. The printed sequences solve it from a complaint, a job from what it believes.
 * Tests that answer alike throughout are left out.
 *
 * @throws RangeError when nothing is open, or the system has no such mode.
 */
export function sequenceProblem<S extends Suspect>(
  network: Network,
  { tests, sound }: Pick<Signatures, 'tests' | 'sound'>,
  open: readonly S[],
  { mode, opened = NONE, history = HISTORIES[0], allows = () => true }: Beginning,
): SequenceProblem<S> {
  if (open.length === 0) throw new RangeError('a plan needs something to tell apart');
  const modes = Object.keys(network.system.modes);
  const start = modes.indexOf(mode);
  if (start < 0) {
    throw new RangeError(`${network.id} has no mode ${mode}; it has ${modes.join(', ')}`);
  }
  const all = open.flatMap(seenOrNot);
  const told = tests.map((_, at) => (allows(at) ? toldBy(all, at) : null));
  const telling = [...tests.keys()].filter((at) => told[at] != null);
  const links = [...new Set(telling.flatMap((at) => linkOf(tests[at]!) ?? []))];
  const ways = telling.flatMap((at) => waysTo(network, tests[at]!, at));
  const places = [...new Set(ways.flatMap(({ place }) => place ?? []))];
  const repairs = [...new Set(all.map(repairOf))];
  const compares = history === 'since work';
  const modeOf = ({ at, front }: Way): number => {
    const link = linkOf(tests[at]!);
    if (front) return modes.length;
    // What no mode changes is looked at where one stands.
    if (mode !== ISOLATED && isSteadyLook(network, tests[at]!)) return start;
    return link ? modes.length + 1 + links.indexOf(link) : modes.indexOf(tests[at]!.mode);
  };
  return {
    open: all,
    tests: ways.map(({ at }) => tests[at]!),
    listed: ways.map(({ at }) => at),
    front: ways.map(({ front }) => front),
    sound: ways.map(({ at }) =>
      told[at]!.answers.includes('no short') ? noShort(sound[at]!) : sound[at]!,
    ),
    answers: ways.map(({ at }) => told[at]!.answers),
    problem: {
      faults: all.map((one) => ({ weight: one.weight, repair: repairs.indexOf(repairOf(one)) })),
      tests: ways.map(
        (way): SearchTest => ({
          id: tests[way.at]!.id,
          minutes:
            compares && isComparing(tests[way.at]!) ? 0 : baseMinutes(network, tests[way.at]!),
          mode: modeOf(way),
          place: way.place === null ? -1 : places.indexOf(way.place),
          answers: told[way.at]!.codes,
        }),
      ),
      modeMinutes: changesOf(network, modes, links),
      placeMinutes: places.map(
        (place) =>
          openingMinutes(network, place) + (compares ? comparingMinutes(network, place) : 0),
      ),
      ...(modes.includes(ISOLATED) ? { openingMode: modes.indexOf(ISOLATED) } : {}),
      rules: RULES,
      start: { mode: start, opened: places.flatMap((place, i) => (opened.has(place) ? i : [])) },
    },
  };
}

/** Whether a test looks at what is the same in every mode. */
export const isSteadyLook = (network: Network, test: Test): boolean =>
  test.kind === 'look' && isSteady(network, test.outcome);

const isComparing = (test: Test): boolean => test.kind === 'act' && test.act === 'compare';

/** A way to make a test: by its place in the list, where, and whether from the front. */
interface Way {
  readonly at: number;
  readonly place: string | null;
  readonly front: boolean;
}

/** A fuse that draws out from the front is got at with its switch off, and isolated as well. */
function waysTo(network: Network, test: Test, at: number): Way[] {
  if (!fromTheFront(network, test)) return [{ at, place: test.place, front: false }];
  return [true, false].map((front) => ({ at, place: null, front }));
}

/**
 * What is to be seen in an open box is found or not: a share of it looking and tugging miss, and
 * then a measurement must tell. Each is a case of its own, so that the search stays exact.
 */
function seenOrNot<S extends Suspect>(one: S): S[] {
  if (!one.answers.includes('found')) return [one];
  const answers = one.answers.map((answer) => (answer === 'found' ? 'nothing' : answer));
  return [
    { ...one, weight: one.weight * SEEN_SHARE },
    { ...one, weight: one.weight * (1 - SEEN_SHARE), answers },
  ];
}

/** What suspects answer to one test. */
interface Told {
  /** By code: what it stands for. */
  readonly answers: readonly TestAnswer[];
  /** By suspect: the code of its answer. */
  readonly codes: readonly number[];
}

/**
 * What each suspect answers to a test, as far as anybody can tell the answers apart; null where
 * all answer alike, or one settles to nothing. Whoever finds something sees what it is, and so
 * which repair: those are answers of their own.
 */
function toldBy(all: readonly Suspect[], at: number): Told | null {
  const first = all[0]!.answers[at]!;
  let [differs, hasBoard] = [false, false];
  for (const { answers } of all) {
    const answer = answers[at]!;
    if (answer === 'unsettled') return null;
    if (answer !== first) differs = true;
    if (answer === 'no short') hasBoard = true;
  }
  if (!differs) return null;
  const answers: TestAnswer[] = [];
  const keys: string[] = [];
  const codes = all.map((one) => {
    const own = one.answers[at]!;
    const answer = hasBoard ? noShort(own) : own;
    const key = answer === 'found' ? `found ${repairOf(one)}` : answer;
    const known = keys.indexOf(key);
    if (known >= 0) return known;
    answers.push(answer);
    return keys.push(key) - 1;
  });
  return answers.every((answer) => answer === answers[0]) ? null : { answers, codes };
}

/** An answer where a board decides between ohms and open for another. */
const noShort = (answer: TestAnswer): TestAnswer => (answer === 'joined' ? answer : 'no short');

/** The mode that a link laid across a control makes, by name; undefined for any other test. */
const linkOf = (test: Test): string | undefined =>
  test.kind === 'act' && test.act === 'link' ? test.mode : undefined;

/**
 * Minutes from each mode to each. After the modes stands a switch thrown for a fuse that draws out
 * from the front, which is no isolation and is soon thrown back; then each mode brought about
 * with a link laid, which is laid and taken out again isolated.
 * @param links the modes brought about with a link
 */
function changesOf(
  network: Network,
  modes: readonly string[],
  links: readonly string[],
): number[][] {
  const { switchOff, restore, isolate, link } = ACT_MINUTES;
  const change = (from: string, to: string) => modeMinutes(network, from, to);
  const linked = links.map((mode) => link + change(ISOLATED, mode));
  return [
    ...modes.map((from) => [
      ...modes.map((to) => change(from, to)),
      from === ISOLATED ? restore + switchOff : switchOff,
      ...linked.map((own) => change(from, ISOLATED) + own),
    ]),
    [
      ...modes.map((to) =>
        // The switch is off already: it is locked off and proved dead.
        to === ISOLATED
          ? isolate - switchOff
          : switchOff + (network.system.modes[to]!.minutes ?? 0),
      ),
      0,
      ...linked.map((own) => isolate + own),
    ],
    ...links.map((_, i) => [
      ...modes.map((to) => isolate + change(ISOLATED, to)),
      isolate + restore + switchOff,
      ...linked.map((own, j) => (i === j ? 0 : isolate + own)),
    ]),
  ];
}

const repairOf = ({ repairKey }: Suspect): string =>
  repairKey === null ? NO_REPAIR : `repair ${repairKey}`;
