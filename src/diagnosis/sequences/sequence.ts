import type { Network, Simulation } from '../../circuit/index.ts';
import type { Fault, History } from '../faults/index.ts';
import {
  isSteadyLook,
  type Proof,
  proofOf,
  type SequenceProblem,
  sequenceProblem,
} from '../planning/index.ts';
import type { SearchProblem, SearchResult, SearchTree } from '../search/index.ts';
import type { Signatures } from '../signatures.ts';
import type { Test, TestAnswer } from '../tests/index.ts';
import { ambiguityGroup } from './ambiguity-group.ts';
import type { Open, Start } from './complaint.ts';
import { liveOrderMinutes } from './live-order.ts';

/** Where an answer leads: to a step or to an end, by number from 1. */
export interface Next {
  readonly kind: 'step' | 'end';
  readonly number: number;
}

/** One answer to a step's test. */
export interface StepAnswer {
  readonly answer: TestAnswer;
  /** Key of the repair of what is found, where something is to be seen; null for any other answer. */
  readonly finds: string | null;
  /** Whether the sound circuit answers so. */
  readonly expected: boolean;
  /** How likely among what is open at the step, as a share of one. */
  readonly share: number;
  readonly next: Next;
}

/** One test to make. */
export interface Step {
  readonly number: number;
  readonly test: Test;
  /** Whether its fuse is drawn from the front with no more than the switch off. */
  readonly front: boolean;
  /** What the sound circuit answers. */
  readonly expected: TestAnswer;
  /** Whether the mode is another than that of the step before. */
  readonly changesMode: boolean;
  /** Whether the item's cover comes off for this step. */
  readonly opens: boolean;
  /** Repairs still open before it. */
  readonly open: number;
  /** The expected answer first, then the likeliest. */
  readonly answers: readonly StepAnswer[];
}

/** What is left when a sequence ends. */
export interface SequenceEnd {
  readonly number: number;
  /** Likeliest first. */
  readonly faults: readonly Fault[];
  /** Whether the sound circuit answers so too: nothing may be wrong here. */
  readonly sound: boolean;
  /** Whether one repair mends them all. */
  readonly oneRepair: boolean;
  /** Share of the likeliest repair of what is left here, the sound circuit counted. */
  readonly leading: number;
  /** Why no test tells them apart; empty where one repair mends them all. */
  readonly reason: string;
  /** What would tell them apart; empty where one repair mends them all. */
  readonly wouldTell: string;
  /** How likely among all that is open at the start, as a share of one. */
  readonly share: number;
  /** The reading that proves it, where none on the way has; null elsewhere. */
  readonly proof: Proof | null;
}

/** The order in which to test from one start. */
export interface TestSequence {
  readonly id: string;
  readonly title: string;
  /** Mode in which whoever starts stands. */
  readonly mode: string;
  /** What the customer says of the time before. */
  readonly history: History;
  /** Faults open at the start. */
  readonly faults: number;
  /** Groups of faults to tell apart: by repair, or by what no test tells apart. */
  readonly groups: number;
  /** Tests that tell any of them apart. */
  readonly tests: number;
  /** Expected minutes until one group is left. */
  readonly minutes: number;
  /** No sequence of these tests takes fewer expected minutes than this. */
  readonly lowerBound: number;
  /** Share of the minutes not proven necessary. */
  readonly gap: number;
  /** Whether no sequence of these tests takes fewer expected minutes. */
  readonly proven: boolean;
  /** States that the search expanded. */
  readonly expanded: number;
  /** Expected minutes of someone who works along the live paths. */
  readonly liveOrderMinutes: number;
  readonly first: Next;
  /** By number, the first has 1; the expected way through is numbered first. */
  readonly steps: readonly Step[];
  /** By number, the first has 1. */
  readonly ends: readonly SequenceEnd[];
}

/** A test sequence without its steps and ends. */
export type SequenceFigures = Omit<TestSequence, 'steps' | 'ends'>;

/** Share of the live-path order's minutes that a sequence saves. */
export const savingOf = ({ minutes, liveOrderMinutes: along }: SequenceFigures): number =>
  along > 0 ? 1 - minutes / along : 0;

const problems = new WeakMap<Start, SequenceProblem<Open>>();

/**
 * The problem of one start, made once: what solves it and what is made of the tree share it.
 * @param signatures those that the start was made from
 */
export function problemOf(
  network: Network,
  signatures: Signatures,
  start: Start,
): SequenceProblem<Open> {
  const known = problems.get(start);
  if (known) return known;
  const made = sequenceProblem(network, signatures, start.open, start);
  problems.set(start, made);
  return made;
}

/**
 * The sequence of tests from one start. It is solved, and its steps, ends and figures are worked out,
 * when first asked for: of systems whose pages stand, nobody needs them.
 *
 * @param solve finds a tree, see `solveSequence`; another may keep what it found before.
 */
export function testSequence(
  simulation: Simulation,
  signatures: Signatures,
  start: Start,
  solve: (problem: SearchProblem, start: Start) => SearchResult,
): TestSequence {
  const { id, title, mode, history, open } = start;
  const { network } = simulation;
  const solved = once(() => {
    const made = problemOf(network, signatures, start);
    return { made, ...solve(made.problem, start) };
  });
  const laidOut = once(() =>
    numbered(network, solved().made, solved().tree, mode, (faults, way) =>
      proofOf(network, signatures, faults, mode, way),
    ),
  );
  const groups = once(() => groupsIn(solved().made, [...solved().made.open.keys()]));
  const along = once(() => liveOrderMinutes(simulation, solved().made, mode));
  return {
    id,
    title,
    mode,
    history,
    faults: open.filter(({ fault }) => fault !== null).length,
    get groups() {
      return groups();
    },
    get tests() {
      return solved().made.tests.length;
    },
    get minutes() {
      return solved().minutes;
    },
    get lowerBound() {
      return solved().lowerBound;
    },
    get gap() {
      return solved().gap;
    },
    get proven() {
      return solved().proven;
    },
    get expanded() {
      return solved().expanded;
    },
    get liveOrderMinutes() {
      return along();
    },
    get first() {
      const { tree } = solved();
      return { kind: tree.kind === 'end' ? 'end' : 'step', number: 1 } as const;
    },
    get steps() {
      return laidOut().steps;
    },
    get ends() {
      return laidOut().ends;
    },
  };
}

/** Groups among some of what is open: by repair, or by what no test tells apart. */
function groupsIn({ problem }: SequenceProblem<Open>, members: readonly number[]): number {
  const alike = alikeIn(problem);
  /** By what answers alike: its one repair, or null where it has several. */
  const repairs = new Map<number, number | null>();
  for (const i of members) {
    const { repair } = problem.faults[i]!;
    const before = repairs.get(alike[i]!);
    repairs.set(alike[i]!, before === undefined || before === repair ? repair : null);
  }
  const own = [...repairs.values()];
  return new Set(own.filter((one) => one !== null)).size + own.filter((one) => one === null).length;
}

const kept = new WeakMap<SearchProblem, readonly number[]>();

/** By fault of a problem: a number, equal for faults that no test tells apart. */
function alikeIn(problem: SearchProblem): readonly number[] {
  const known = kept.get(problem);
  if (known) return known;
  const alike = problem.faults.map(() => 0);
  let count = 1;
  for (const { answers } of problem.tests) {
    if (count === alike.length) break;
    const given = new Map<number, number>();
    for (let i = 0; i < alike.length; i++) {
      const pair = answers[i]! * alike.length + alike[i]!;
      const own = given.get(pair) ?? given.size;
      given.set(pair, own);
      alike[i] = own;
    }
    count = given.size;
  }
  kept.set(problem, alike);
  return alike;
}

/** What is worked out when somebody asks for it: most pages show a step or two of a sequence. */
function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

/** A tree as steps and ends that name one another by number. */
function numbered(
  network: Network,
  made: SequenceProblem<Open>,
  tree: SearchTree,
  mode: string,
  prove: (faults: readonly Fault[], way: ReadonlySet<number>) => Proof | null,
) {
  const steps: (Step | null)[] = [];
  const ends: SequenceEnd[] = [];
  const whole = weightOf(made, made.open.keys());
  const visit = (
    node: SearchTree,
    from: string,
    off: ReadonlySet<string>,
    way: ReadonlySet<number>,
  ): Next => {
    if (node.kind === 'end') {
      const end = endOf(made, node.faults, ends.length + 1, whole);
      const isOne = end.oneRepair && !end.sound && end.faults.length > 0;
      const proof = once(() => (isOne ? prove(end.faults, way) : null));
      ends.push({
        ...end,
        get proof() {
          return proof();
        },
      });
      return { kind: 'end', number: ends.length };
    }
    const number = steps.push(null);
    const test = made.tests[node.test]!;
    // What no mode changes is looked at in the mode that stands.
    const stands = isSteadyLook(network, test) ? from : test.mode;
    const item = test.place;
    const opens = item !== null && !off.has(item);
    const opened = opens ? new Set([...off, item]) : off;
    const weight = weightOf(made, node.faults);
    const expected = made.sound[node.test]!;
    const front = made.front[node.test]!;
    const done = new Set([...way, made.listed[node.test]!]);
    const answers = node.branches
      .map(({ answer, next }) => {
        const left = facing(made, node.faults, node.test, answer);
        const word = made.answers[node.test]![answer]!;
        return {
          answer: word,
          finds: word === 'found' ? made.open[left[0]!]!.fault!.repairKey : null,
          share: weightOf(made, left) / weight,
          next,
        };
      })
      .sort(
        (a, b) =>
          Number(b.answer === expected) - Number(a.answer === expected) || b.share - a.share,
      )
      .map(({ answer, finds, share, next }) => ({
        answer,
        finds,
        expected: answer === expected,
        share,
        // A switch thrown for the front fuse isolates nothing: whatever comes next is brought about.
        next: visit(next, front ? '' : stands, opened, done),
      }));
    const open = once(() => groupsIn(made, node.faults));
    steps[number - 1] = {
      number,
      test,
      front,
      expected,
      changesMode: stands !== from,
      opens,
      get open() {
        return open();
      },
      answers,
    };
    return { kind: 'step', number };
  };
  visit(tree, mode, new Set(), new Set());
  return { steps: steps as Step[], ends };
}

/** What is said where the sound circuit is left beside faults that show in no test. */
const NO_FAULT_FOUND = {
  oneRepair: false,
  reason:
    'Looking and comparing miss one in seven of what is to be seen, and some faults show in no test made here.',
  wouldTell:
    'compare and tug again, line and neutral to earth; then an insulation test of each cable with electronics disconnected, and a note of what it does when.',
};

const facing = (
  made: SequenceProblem<Open>,
  faults: readonly number[],
  test: number,
  answer: number,
) => faults.filter((i) => made.problem.tests[test]!.answers[i] === answer);

function endOf(
  made: SequenceProblem<Open>,
  members: readonly number[],
  number: number,
  whole: number,
): Omit<SequenceEnd, 'proof'> {
  const weights = new Map<Fault, number>();
  for (const { fault, weight } of members.map((i) => made.open[i]!))
    if (fault) weights.set(fault, (weights.get(fault) ?? 0) + weight);
  const faults = [...weights.keys()].sort((a, b) => weights.get(b)! - weights.get(a)!);
  const all = weightOf(made, members);
  const ofRepair = faults
    .filter(({ repairKey }) => repairKey === faults[0]!.repairKey)
    .reduce((sum, fault) => sum + weights.get(fault)!, 0);
  const sound = members.some((i) => made.open[i]!.fault === null);
  const { oneRepair, reason, wouldTell } =
    faults.length === 0
      ? { oneRepair: true, reason: '', wouldTell: '' }
      : sound
        ? NO_FAULT_FOUND
        : ambiguityGroup(faults);
  return {
    number,
    faults,
    sound,
    oneRepair,
    leading: all > 0 ? ofRepair / all : 0,
    reason: oneRepair ? '' : reason,
    wouldTell,
    share: all / whole,
  };
}

function weightOf({ open }: { open: readonly Open[] }, members: Iterable<number>): number {
  let sum = 0;
  for (const i of members) sum += open[i]!.weight;
  return sum;
}
