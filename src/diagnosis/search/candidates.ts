import type { AndNode, Branching, OrNode } from './and-or-graph.ts';
import { type Reduced, setupMinutes } from './reduce.ts';

/**
 * Tests that may be taken from an OR node: what each costs there, which of them another one
 * dominates, and which promise most information for their minutes.
 */

/** What a share may come out smaller by than it is. */
const ROUNDING = 1e-9;

/** How the engineer stands: the mode brought about, the places open. */
export interface Standing {
  readonly mode: number;
  /** Places open, by bit. */
  readonly opened: number;
}

/** A test that may be taken from a node. */
export interface Candidate {
  readonly test: number;
  /** Minutes from there: change of mode, opening and reading. */
  readonly minutes: number;
}

/** How the engineer stands after a test. */
export function afterTest({ tests }: Reduced, from: Standing, index: number): Standing {
  const { mode, place } = tests[index]!;
  return { mode, opened: place < 0 ? from.opened : from.opened | (1 << place) };
}

/**
 * The rule that narrows the choice at a node, see `Rules`; null where none does.
 */
function ruleAt(node: OrNode): OrNode['rule'] {
  if (node.rule !== undefined) return node.rule;
  const { problem, sets } = node.search;
  const { rules, openingMode, tests } = problem;
  node.rule = null;
  if (!rules) return null;
  const atBox = node.mode === openingMode;
  const tells = sets.branchings(node.suspects).some(({ tests: own, told }) =>
    own.some((index) => {
      const test = tests[index]!;
      if (!atBox) {
        const { minutes, share } = rules.coversOn;
        return (
          test.place < 0 && told >= share - ROUNDING && minutesOf(problem, node, index) <= minutes
        );
      }
      const { minutes, share } = rules.openBox;
      const isHere = test.place >= 0 && isOpen(node, test.place) && test.mode === openingMode;
      return isHere && test.minutes <= minutes && told >= share * test.minutes - ROUNDING;
    }),
  );
  if (tells) node.rule = atBox ? 'open box' : 'covers on';
  return node.rule;
}

/** Whether a rule lets a test be made at a node. */
function keepsRule(node: OrNode, index: number): boolean {
  const rule = ruleAt(node);
  if (!rule) return true;
  const { place, mode } = node.search.problem.tests[index]!;
  if (rule === 'covers on') return place < 0;
  return place >= 0 && isOpen(node, place) && mode === node.mode;
}

/** Tests of one branching that the rules allow from a node, ascending. */
export function allowed(node: OrNode, { tests }: Branching): Candidate[] {
  const { problem } = node.search;
  const candidates: Candidate[] = [];
  for (const test of tests) {
    if (!keepsRule(node, test)) continue;
    candidates.push({ test, minutes: minutesOf(problem, node, test) });
  }
  return candidates;
}

/**
 * The tests allowed from a node that no other of the same branching dominates there. One
 * dominates another where it, with the change of mode and the opening that lead on to the
 * other's setup, costs no more than the other. A place that it leaves closed is opened with a
 * test there, from whatever mode one has come to by then: by way of the opening mode that may
 * take the longest detour there is. Under rules, only one that leaves one standing alike.
 */
export function undominatedFrom(node: OrNode, branching: Branching): Candidate[] {
  const { tests, modeMinutes, placeMinutes, openingDetour, rules } = node.search.problem;
  const kept: Candidate[] = [];
  const dominates = (b: Candidate, a: Candidate) => {
    const one = tests[b.test]!;
    const other = tests[a.test]!;
    const opens = other.place !== one.place && !isOpen(node, other.place);
    if (rules) {
      // Where one stands decides what the rules then allow: only what leaves one alike compares.
      const opensOther = opens || (other.place !== one.place && !isOpen(node, one.place));
      return one.mode === other.mode && !opensOther && b.minutes <= a.minutes;
    }
    const opening = opens ? placeMinutes[other.place]! + openingDetour : 0;
    return b.minutes + modeMinutes[one.mode]![other.mode]! + opening <= a.minutes;
  };
  for (const candidate of allowed(node, branching)) {
    if (kept.some((other) => dominates(other, candidate))) continue;
    for (let i = kept.length - 1; i >= 0; i--) {
      if (dominates(candidate, kept[i]!)) kept.splice(i, 1);
    }
    kept.push(candidate);
  }
  return kept;
}

/**
 * The branchings that give the most information about the repairs for their minutes, each by
 * its cheapest test; best first, and the lower index of equals.
 * @param most how many of them.
 */
export function promising(node: OrNode, most: number): AndNode[] {
  const { suspects, search } = node;
  const found: { worth: number; candidate: Candidate; branching: Branching }[] = [];
  for (const branching of search.sets.branchings(suspects)) {
    let candidate: Candidate | null = null;
    for (const one of allowed(node, branching)) {
      if (!candidate || one.minutes < candidate.minutes) candidate = one;
    }
    if (!candidate) continue;
    // The small terms rank tests that cost nothing, and tests that say nothing of the repairs yet.
    const worth = (search.sets.bitsOf(suspects, branching) + 1e-9) / (candidate.minutes + 1e-6);
    found.push({ worth, candidate, branching });
  }
  found.sort((a, b) => b.worth - a.worth || a.candidate.test - b.candidate.test);
  return found.slice(0, most).map(({ candidate: { test, minutes }, branching }) => ({
    test,
    branching,
    cost: minutes * suspects.weight,
    readings: 0,
    where: -1,
    lower: 0,
    successors: null,
  }));
}

const minutesOf = (problem: Reduced, from: Standing, index: number): number =>
  problem.tests[index]!.minutes + setupMinutes(problem, from, problem.tests[index]!);

const isOpen = ({ opened }: Standing, place: number) => place < 0 || ((opened >> place) & 1) === 1;
