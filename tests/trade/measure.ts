import { ISOLATED } from '../../schemas/index.ts';
import type { Network } from '../../src/circuit/index.ts';
import type { Test } from '../../src/diagnosis/index.ts';
import type { SequenceProblem } from '../../src/diagnosis/planning/index.ts';
import {
  type SearchProblem,
  type SearchResult,
  solveSequence,
} from '../../src/diagnosis/search/index.ts';
import type { ActKind, ActLike, Family, Position, Role } from './orders/order.ts';

/** How an engineer stands: what may still be the case, the mode, the places open. */
export interface State {
  readonly faults: readonly number[];
  readonly mode: number;
  readonly opened: ReadonlySet<number>;
}

/** How one position came out. */
export interface Judged {
  readonly position: string;
  /** `no such act`: none of the accepted acts is built or tells anything in this state. */
  readonly verdict: 'agrees' | 'differs' | 'no such act' | 'settled';
  /** The best act and its expected minutes to the end; null where settled. */
  readonly best: { readonly act: string; readonly minutes: number } | null;
  /** The best act where it is accepted, else the cheapest that is; null where there is none. */
  readonly accepted: { readonly act: string; readonly minutes: number } | null;
  /** Whether the best act is itself an accepted one. */
  readonly strict: boolean;
  /** Share of the telling acts that are accepted: what blind choice would score. */
  readonly chance: number;
}

/** An accepted act may cost this much more than the best: minutes, or a share of the best. */
const TOLERANCE = { minutes: 0.5, share: 0.05 };
/** States that one search may expand: near enough, as most are proven in fewer. */
const BUDGET = 60;

const FAMILIES: Readonly<Record<Family, RegExp>> = {
  spur: /^fused-connection-unit$/,
  boiler: /boiler/,
  centre: /^(wiring-centre|terminal-strip)/,
  control: /^room-control/,
  receiver: /^wireless-receiver/,
  programmer: /^programmer/,
  'room stat': /^room-thermostat/,
  'cylinder stat': /^cylinder-thermostat/,
  'cut-out': /^overheat-cut-out$/,
  'heating valve': /^two-port-valve/,
  'hot-water valve': /^two-port-valve/,
  'mid-position valve': /^mid-position-valve$/,
  pump: /^circulating-pump/,
  'condensate pump': /^condensate-pump$/,
};

/** A terminal on the conductor of each role, by device and terminal, as entries name them. */
const ROLES: Readonly<Record<Role, RegExp>> = {
  'permanent live': /boiler\S*\.L$|condensate-pump\.L$/,
  'live to stat': /boiler\S*\.call feed$/,
  'switched live': /boiler\S*\.(SL|call return)$/,
  'heating on': /^programmer\S*\.heating on$/,
  'hot water on': /^programmer\S*\.hot water on$/,
  'hot water off': /^programmer\S*\.hot water off$/,
  satisfied: /^cylinder-thermostat\S*\.satisfied$/,
  'room call': /^room-thermostat\S*\.NO$/,
  'cylinder call': /^cylinder-thermostat\S*\.call$/,
  'valve motor': /^two-port-valve\S*\.(brown|motor)$/,
  white: /^mid-position-valve\.white$/,
  grey: /^mid-position-valve\.grey$/,
  orange: /valve\S*\.orange$/,
  'pump live': /^(circulating-pump\S*\.L|\S*boiler\S*\.pump L)$/,
  overflow: /^condensate-pump\.overflow/,
  contact: /^(room-control|wireless-receiver)\S*\.(COM|NO)$/,
};

/** `boiler.SL` for each terminal that a point's conductor reaches, over cores and links. */
function reached(network: Network, point: string): string[] {
  const found = new Set([network.nodeIndex.get(point)!]);
  for (const node of found)
    for (const { kind, from, to } of network.branches)
      if (kind === 'conductor' || kind === 'wire link') {
        if (from === node) found.add(to);
        if (to === node) found.add(from);
      }
  return [...found].flatMap((node) => {
    const { id, terminal } = network.nodes[node]!;
    const item = id.slice(0, id.indexOf('.'));
    const device = network.system.items[item]?.device;
    return terminal && device ? `${device}.${id.slice(item.length + 1)}` : [];
  });
}

/** The terminals that an act is about: of a disconnected core, that which it is taken out of. */
const pointsOf = ({ system }: Network, test: Test): string[] =>
  test.kind !== 'act'
    ? []
    : test.points.flatMap((point) => {
        const [, cable, colour, end] = /^(.+)\.([A-Z]+)@([12])$/.exec(point) ?? [];
        if (!cable) return [point];
        const core = system.cables[cable]?.cores[colour as 'BN'];
        return core ? [core.ends[Number(end) - 1]!] : [];
      });

/** What hands do for a test. */
function kindsOf(test: Test): readonly ActKind[] {
  if (test.kind !== 'act') return [test.kind];
  switch (test.act) {
    case 'inside':
      return ['inside', 'tug'];
    case 'core':
    case 'part':
      return ['parted'];
    default:
      return [test.act];
  }
}

/** Whether a test is one of the acts that are alike. */
export function isLike(network: Network, test: Test, like: ActLike): boolean {
  const own = kindsOf(test);
  if (!like.kinds.some((kind) => own.includes(kind))) return false;
  const item =
    test.kind === 'look' ? test.outcome.split('.')[0]! : (test.place?.split('/')[0] ?? '');
  const { device = '', title = '' } = network.system.items[item] ?? {};
  const there = (family: Family) =>
    FAMILIES[family].test(device) &&
    (family !== 'heating valve' || /heating/i.test(title)) &&
    (family !== 'hot-water valve' || /hot/i.test(title));
  if (like.at && !like.at.some(there)) return false;
  if (like.on) {
    const points = 'pair' in test ? [test.pair.from, test.pair.to] : pointsOf(network, test);
    const names = points.flatMap((point) => reached(network, point));
    if (!like.on.some((role) => names.some((name) => ROLES[role].test(name)))) return false;
  }
  const calling = { nothing: /standby/, heating: /^heating/, 'hot water': /^hot|^both/ };
  return !like.calling || test.mode === ISOLATED || calling[like.calling].test(test.mode);
}

/** The problem of what is left, from where the engineer stands. */
function within(problem: SearchProblem, state: State): SearchProblem {
  return {
    ...problem,
    faults: state.faults.map((fault) => problem.faults[fault]!),
    tests: problem.tests.map((test) => ({
      ...test,
      answers: state.faults.map((fault) => test.answers[fault]!),
    })),
    start: { mode: state.mode, opened: [...state.opened] },
  };
}

/** Whether a test is one of a minute at a box that lies open, isolated. */
function isInOpenBox({ tests, openingMode }: SearchProblem, state: State, index: number): boolean {
  const { place, mode, minutes } = tests[index]!;
  return (
    state.mode === openingMode && mode === openingMode && minutes <= 1 && state.opened.has(place)
  );
}

const solutions = new WeakMap<SearchProblem, Map<string, SearchResult>>();

/** What the planner does from a state: many ways of a problem lead to the same one, solved once. */
function solvedFrom(problem: SearchProblem, state: State): SearchResult {
  const own = solutions.get(problem) ?? new Map<string, SearchResult>();
  solutions.set(problem, own);
  const key = [state.faults, state.mode, [...state.opened]].join(';');
  const known = own.get(key) ?? solveSequence(within(problem, state), BUDGET);
  own.set(key, known);
  return known;
}

/** Expected minutes to the end from a state. */
export const minutesFrom = (problem: SearchProblem, state: State): number =>
  new Set(state.faults.map((fault) => problem.faults[fault]!.repair)).size < 2
    ? 0
    : solvedFrom(problem, state).minutes;

/** What a test costs from a state, and how the engineer stands after it. */
function stepFrom(
  { modeMinutes, placeMinutes, openingMode, tests }: SearchProblem,
  state: State,
  index: number,
) {
  const test = tests[index]!;
  const direct = (from: number, to: number) => {
    const row = modeMinutes[from]!;
    return from === to ? 0 : typeof row === 'number' ? (modeMinutes[to] as number) : row[to]!;
  };
  // By way of one other mode where that takes less, as the search changes modes.
  const change = (from: number, to: number) =>
    Math.min(...modeMinutes.map((_, by) => direct(from, by) + direct(by, to)));
  const opens = test.place >= 0 && !state.opened.has(test.place);
  const by = opens ? (openingMode ?? test.mode) : test.mode;
  const minutes =
    test.minutes +
    change(state.mode, by) +
    change(by, test.mode) +
    (opens ? placeMinutes[test.place]! : 0);
  const opened = opens ? new Set([...state.opened, test.place]) : state.opened;
  return { minutes, mode: test.mode, opened };
}

/** States that the answers to a test lead to, each with its share. */
export function after(problem: SearchProblem, state: State, index: number) {
  const { mode, opened } = stepFrom(problem, state, index);
  const parts = Map.groupBy(state.faults, (fault) => problem.tests[index]!.answers[fault]!);
  const weight = (faults: readonly number[]) =>
    faults.reduce((sum, fault) => sum + problem.faults[fault]!.weight, 0);
  const whole = weight(state.faults);
  return [...parts].map(([answer, faults]) => ({
    answer,
    share: weight(faults) / whole,
    state: { faults, mode, opened } satisfies State,
  }));
}

/** Expected minutes to the end with one test first; the best way on from each of its answers. */
export const minutesWith = (problem: SearchProblem, state: State, index: number): number =>
  after(problem, state, index).reduce(
    (sum, { share, state: next }) => sum + share * minutesFrom(problem, next),
    stepFrom(problem, state, index).minutes,
  );

/**
 * Holds one position against the planner in the state that the experienced steps lead to.
 * @param best the planner's own first act there, by index, where it keeps rules that cost minutes.
 */
export function judge(
  network: Network,
  { tests, problem }: SequenceProblem,
  state: State,
  position: Position,
): Judged {
  const repairs = new Set(state.faults.map((fault) => problem.faults[fault]!.repair));
  const base = { position: position.id, strict: false, chance: 0, accepted: null, best: null };
  if (repairs.size < 2) return { ...base, verdict: 'settled' };
  const solved = solvedFrom(problem, state);
  if (solved.tree.kind === 'end') return { ...base, verdict: 'settled' };
  const best = { act: tests[solved.tree.test]!.id, minutes: solved.minutes };
  const telling = tests.flatMap((_, i) => (after(problem, state, i).length > 1 ? [i] : []));
  const listed = telling.filter((i) =>
    position.accepts.some((like) => isLike(network, tests[i]!, like)),
  );
  // With a box open and isolated, its looks, tugs and dead tests of a minute come before restoring.
  const here = telling.filter((i) => isInOpenBox(problem, state, i));
  const liked = listed.length > 0 ? [...new Set([...listed, ...here])] : [];
  if (liked.length === 0) return { ...base, best, verdict: 'no such act' };
  const strict = liked.includes(solved.tree.test);
  const accepted = strict
    ? best
    : liked
        .map((i) => ({ act: tests[i]!.id, minutes: minutesWith(problem, state, i) }))
        .reduce((a, b) => (b.minutes < a.minutes ? b : a));
  const allowed = Math.max(TOLERANCE.minutes, TOLERANCE.share * best.minutes);
  return {
    position: position.id,
    verdict: strict || accepted.minutes - best.minutes <= allowed ? 'agrees' : 'differs',
    best,
    accepted,
    strict,
    chance: liked.length / telling.length,
  };
}

/**
 * Every position of an order, each from the state that the steps before it lead to: all looks
 * first, the heaviest of what they leave; then at each earlier position the cheapest accepted
 * act, answered as the sound circuit answers, or otherwise where the position says so.
 */
export function judgeOrder(
  network: Network,
  made: SequenceProblem,
  positions: readonly Position[],
): Judged[] {
  const { problem, tests, sound, answers } = made;
  const take = (state: State, index: number, wrong: boolean): State => {
    const parts = after(problem, state, index).sort((a, b) => b.share - a.share);
    const isSound = ({ answer }: { answer: number }) => answers[index]![answer] === sound[index];
    return (parts.find((part) => isSound(part) !== wrong) ?? parts[0]!).state;
  };
  const heaviest = (state: State, index: number): State =>
    after(problem, state, index).reduce((a, b) => (b.share > a.share ? b : a)).state;
  const lead = (state: State, position: Position, wrong: boolean): State => {
    const liked = tests.flatMap((test, i) =>
      position.accepts.some((like) => isLike(network, test, like)) ? [i] : [],
    );
    if (position.id === 'looks')
      return liked.reduce((now, i) => (tests[i]!.kind === 'look' ? heaviest(now, i) : now), state);
    const telling = liked.filter((i) => after(problem, state, i).length > 1);
    if (telling.length === 0) return state;
    const costs = telling.map((i) => minutesWith(problem, state, i));
    return take(state, telling[costs.indexOf(Math.min(...costs))]!, wrong);
  };
  const start: State = {
    faults: problem.faults.map((_, fault) => fault),
    mode: problem.start.mode,
    opened: new Set(problem.start.opened),
  };
  return positions.map((position, at) => {
    const before = positions
      .slice(0, at)
      .reduce((state, one) => lead(state, one, position.after?.[one.id] === 'wrong'), start);
    return judge(network, made, before, position);
  });
}
