import { createHash } from 'node:crypto';
import type { Network } from '../../../src/circuit/index.ts';
import type { ComplaintFigures } from '../../../src/components/about/sensitivity.ts';
import { FACTORS } from '../../../src/components/about/sensitivity.ts';
import { ACT_MINUTES } from '../../../src/diagnosis/index.ts';
import { type SequenceProblem, sequenceProblem } from '../../../src/diagnosis/planning/index.ts';
import {
  type SearchProblem,
  type SearchResult,
  type SearchTree,
  solveSequence,
  walkTree,
} from '../../../src/diagnosis/search/index.ts';
import type { Open, Start } from '../../../src/diagnosis/sequences/index.ts';
import type { ComputedSystem } from '../../../src/reference/index.ts';

/** States that each search may expand: a sixth of a build's, for some thousands are made. */
export const STATES = 400;

/** Minutes that stand in the one table of costs, by the name under which they are told. */
const ACTS: Readonly<Record<string, readonly (keyof typeof ACT_MINUTES)[]>> = {
  reading: ['live', 'dead', 'longLead'],
  disconnected: ['core', 'part'],
  fuse: ['fuse', 'switchOff'],
  seen: ['lookInside', 'tug'],
  compare: ['compare'],
  insulation: ['insulation'],
  spindle: ['spindle'],
  link: ['link'],
  isolate: ['isolate'],
  restore: ['restore'],
};

/** A network whose entry gives its openings other minutes. */
function withOpenings(network: Network, times: number): Network {
  const items = [...network.items].map(([id, item]) => {
    const openings = Object.entries(item.device.openings).map(
      ([name, opening]) => [name, { ...opening, minutes: opening.minutes * times }] as const,
    );
    return [
      id,
      { ...item, device: { ...item.device, openings: Object.fromEntries(openings) } },
    ] as const;
  });
  return { ...network, items: new Map(items) };
}

/** A network whose entry gives its modes other minutes; a mode takes one unless it says. */
function withModes(network: Network, times: number): Network {
  const modes = Object.entries(network.system.modes).map(
    ([id, mode]) => [id, { ...mode, minutes: (mode.minutes ?? 1) * times }] as const,
  );
  return { ...network, system: { ...network.system, modes: Object.fromEntries(modes) } };
}

/** What is made with some acts of the table taking other minutes; the table is put back. */
function withActs<T>(names: readonly (keyof typeof ACT_MINUTES)[], times: number, make: () => T) {
  const before = { ...ACT_MINUTES };
  try {
    for (const name of names) Object.assign(ACT_MINUTES, { [name]: before[name] * times });
    return make();
  } finally {
    Object.assign(ACT_MINUTES, before);
  }
}

/** The problem with what is of a class met so many times as often. */
const reweighed = (
  { open, problem }: SequenceProblem<Open>,
  isOf: (one: Open) => boolean,
  times: number,
): SearchProblem => ({
  ...problem,
  faults: problem.faults.map((fault, i) =>
    isOf(open[i]!) ? { ...fault, weight: fault.weight * times } : fault,
  ),
});

/** Every class of figure that a problem may hang on, with the problem that another figure makes. */
function variantsOf(
  system: ComputedSystem,
  start: Start,
  made: SequenceProblem<Open>,
): ReadonlyMap<string, (times: number) => SearchProblem> {
  const { network } = system.simulation;
  const faults = made.open.flatMap(({ fault }) => fault ?? []);
  const families = [...new Set(faults.map(({ family }) => family))];
  const origins = (['part', 'connection', 'wiring mistake'] as const).filter((origin) =>
    faults.some((fault) => fault.origin === origin),
  );
  const again = (other: Network) =>
    sequenceProblem(other, system.signatures, start.open, start).problem;
  return new Map([
    ...families.map(
      (family) =>
        [
          family as string,
          (times: number) => reweighed(made, ({ fault }) => fault?.family === family, times),
        ] as const,
    ),
    ...origins.map(
      (origin) =>
        [
          origin as string,
          (times: number) => reweighed(made, ({ fault }) => fault?.origin === origin, times),
        ] as const,
    ),
    ...Object.entries(ACTS).map(
      ([name, acts]) =>
        [name, (times: number) => withActs(acts, times, () => again(network))] as const,
    ),
    ['opening', (times: number) => again(withOpenings(network, times))] as const,
    ['mode', (times: number) => again(withModes(network, times))] as const,
  ]);
}

/** Whether two problems are one but for a common factor of all weights. */
function isSame(a: SearchProblem, b: SearchProblem): boolean {
  const bare = (problem: SearchProblem) => {
    const whole = problem.faults.reduce((sum, { weight }) => sum + weight, 0);
    return JSON.stringify([
      problem.faults.map(({ weight }) => (weight / whole).toPrecision(9)),
      problem.tests.map(({ minutes }) => minutes),
      problem.modeMinutes,
      problem.placeMinutes,
    ]);
  };
  return bare(a) === bare(b);
}

/** The first two acts of a visit, by number of the test: looks are taken on the way and do not count. */
function firstActs(
  made: SequenceProblem<Open>,
  tree: SearchTree,
  fault: number,
): (number | undefined)[] {
  const acts: number[] = [];
  for (let node = tree; node.kind === 'test' && acts.length < 2; ) {
    const { test, branches } = node;
    if (made.tests[test]!.kind !== 'look') acts.push(test);
    const given = made.problem.tests[test]!.answers[fault]!;
    node = branches.find(({ answer }) => answer === given)!.next;
  }
  return [acts[0], acts[1]];
}

/** Shares of the visits whose first act, and whose second only, is another; and the cost of not minding. */
function effectOf(
  made: SequenceProblem<Open>,
  printed: SearchResult,
  problem: SearchProblem,
): [first: number, second: number, costs: number] {
  const other = solveSequence(problem, STATES);
  const kept = walkTree(problem, printed.tree).minutes;
  // Orders of equal minutes are one as good as the other.
  if (Math.abs(kept - other.minutes) < 1e-9) return [0, 0, 0];
  const whole = problem.faults.reduce((sum, { weight }) => sum + weight, 0);
  let first = 0;
  let second = 0;
  problem.faults.forEach(({ weight }, fault) => {
    const before = firstActs(made, printed.tree, fault);
    const after = firstActs(made, other.tree, fault);
    if (before[0] !== after[0]) first += weight / whole;
    else if (before[1] !== after[1]) second += weight / whole;
  });
  return [first, second, Math.max(0, kept / other.minutes - 1)];
}

/** A name for all that the figures of a complaint are worked out from, but the search itself. */
export function problemHash(system: ComputedSystem, start: Start): string {
  const { problem, tests, open } = sequenceProblem(
    system.network,
    system.signatures,
    start.open,
    start,
  );
  const told = [
    problem,
    tests.map(({ kind }) => kind),
    open.map(({ fault }) => [fault?.family, fault?.origin]),
  ];
  return createHash('sha256').update(JSON.stringify(told)).digest('hex').slice(0, 12);
}

/** How the order of one complaint changes with each figure taken twice and half as much. */
export function sensitivityOf(system: ComputedSystem, start: Start): ComplaintFigures {
  const { network } = system.simulation;
  const made = sequenceProblem(network, system.signatures, start.open, start);
  const printed = solveSequence(made.problem, STATES);
  const concerns: string[] = [];
  const changes: ComplaintFigures['changes'] = {};
  for (const [name, problemWith] of variantsOf(system, start, made)) {
    const problems = Object.entries(FACTORS).map(
      ([factor, times]) => [factor, problemWith(times)] as const,
    );
    if (problems.every(([, problem]) => isSame(problem, made.problem))) continue;
    concerns.push(name);
    for (const [factor, problem] of problems) {
      const effect = effectOf(made, printed, problem).map((share) => Number(share.toFixed(4)));
      if (effect.some((share) => share > 0))
        changes[`${name} ${factor}`] = effect as ComplaintFigures['changes'][string];
    }
  }
  const of = problemHash(system, start);
  return { system: system.id, complaint: start.id, of, proven: printed.proven, concerns, changes };
}
