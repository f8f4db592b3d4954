import type { Branch, Reading, Simulation } from '../circuit/index.ts';
import { itemOf, type TestPair } from '../wiring/index.ts';
import { type Answer, answerOf, readingOf } from './answers.ts';
import { branchesOn, type Complaint } from './complaints.ts';
import type { Suspect } from './suspects.ts';

/** One reading to take, and where each answer leads. */
export interface SequenceTest {
  readonly kind: 'test';
  readonly mode: string;
  readonly pair: TestPair;
  /** What a sound system shows. */
  readonly expected: Reading;
  readonly expectedAnswer: Answer;
  /** Suspects still open before this reading. */
  readonly open: number;
  readonly answers: readonly SequenceBranch[];
}

/** One answer: which suspects are left, and what to do next. */
export interface SequenceBranch {
  readonly answer: Answer;
  readonly expected: boolean;
  readonly next: SequenceTest | SequenceEnd;
}

/** Suspects that no further reading in this mode tells apart; none means the path is sound. */
export interface SequenceEnd {
  readonly kind: 'end';
  readonly suspects: readonly Suspect[];
}

/** The order in which to test for one complaint. */
export interface Sequence {
  readonly complaint: Complaint;
  /** Everything that, come apart, gives this complaint. */
  readonly suspects: readonly Suspect[];
  readonly start: SequenceTest | SequenceEnd;
  /** Readings on the longest way through. */
  readonly mostReadings: number;
}

interface Candidate {
  readonly pair: TestPair;
  readonly expected: Reading;
  readonly expectedAnswer: Answer;
  readonly answers: ReadonlyMap<Suspect | null, Answer>;
}

/**
 * Works out in which order to test along the live paths behind a complaint: each reading is
 * the one that leaves the fewest suspects in its worse answer; of equals, the one nearest
 * the supply. What every suspect would show is simulated, not argued.
 *
 * Paths found sound throughout end in no suspects.
 * @param suspectOf makes the suspect of a branch, see `suspectsOf`.
 */
export function halvingSequence(
  simulation: Simulation,
  complaint: Complaint,
  pairs: readonly TestPair[],
  suspectOf: (branch: Branch) => Suspect,
): Sequence {
  const { mode, outcome, paths } = complaint;
  const suspects = branchesOn(paths)
    .map(suspectOf)
    .filter((s) => s.simulation.modes.get(mode)?.outcomes.get(outcome) !== true);
  const candidates = pairsOn(complaint, pairs).map((pair) =>
    candidate(simulation, suspects, mode, pair),
  );
  const start = next(mode, [null, ...suspects], candidates);
  return { complaint, suspects, start, mostReadings: depth(start) };
}

/** Pairs at the paths' own terminals, from the supply onwards. */
function pairsOn({ paths }: Complaint, pairs: readonly TestPair[]): TestPair[] {
  const points = paths.flatMap((path) => path.hops.map((hop) => hop.point));
  const items = new Set(points.map(itemOf));
  const place = (pair: TestPair) => {
    const at = points.indexOf(pair.from);
    return at >= 0 ? at : points.indexOf(pair.to);
  };
  return pairs
    .filter((pair) => items.has(pair.item) && place(pair) >= 0)
    .toSorted((a, b) => place(a) - place(b));
}

function candidate(
  simulation: Simulation,
  suspects: readonly Suspect[],
  mode: string,
  pair: TestPair,
): Candidate {
  const expected = readingOf(simulation.modes.get(mode)!, pair);
  const expectedAnswer = answerOf(pair, expected);
  const answers = new Map<Suspect | null, Answer>([[null, expectedAnswer]]);
  for (const suspect of suspects) {
    answers.set(suspect, answerOf(pair, readingOf(suspect.simulation.modes.get(mode)!, pair)));
  }
  return { pair, expected, expectedAnswer, answers };
}

function next(
  mode: string,
  open: readonly (Suspect | null)[],
  candidates: readonly Candidate[],
): SequenceTest | SequenceEnd {
  const best = bestOf(open, candidates);
  if (!best) return { kind: 'end', suspects: open.filter((s) => s !== null) };
  const groups = Map.groupBy(open, (suspect) => best.answers.get(suspect)!);
  const answers = [...groups]
    .map(([answer, left]) => ({
      answer,
      expected: answer === best.expectedAnswer,
      next: next(mode, left, candidates),
    }))
    .toSorted((a, b) => Number(b.expected) - Number(a.expected));
  const { pair, expected, expectedAnswer } = best;
  return {
    kind: 'test',
    mode,
    pair,
    expected,
    expectedAnswer,
    open: open.filter((s) => s !== null).length,
    answers,
  };
}

function bestOf(
  open: readonly (Suspect | null)[],
  candidates: readonly Candidate[],
): Candidate | undefined {
  let best: Candidate | undefined;
  let least = open.length;
  for (const candidate of candidates) {
    const counts = new Map<Answer, number>();
    for (const suspect of open) {
      const answer = candidate.answers.get(suspect)!;
      counts.set(answer, (counts.get(answer) ?? 0) + 1);
    }
    const worst = Math.max(...counts.values());
    if (worst < least) {
      least = worst;
      best = candidate;
    }
  }
  return best;
}

function depth(node: SequenceTest | SequenceEnd): number {
  return node.kind === 'end' ? 0 : 1 + Math.max(...node.answers.map((a) => depth(a.next)));
}
