import type { Network } from '../../circuit/index.ts';
import { placesOf } from '../../site/index.ts';
import { actsOf } from '../tests/index.ts';
import { explain, type Reasons, whyNext } from './explain.ts';
import type { Hypothesis } from './hypothesis.ts';
import type { Model } from './model.ts';
import { type Choice, chooseTest, type Situated } from './next.ts';
import type { Observation } from './observation.ts';
import type { Order } from './order.ts';
import { pairsFor } from './pairs.ts';
import { type Explanation, needsPairs, posterior, type Ranking } from './posterior.ts';
import { problemWith } from './question.ts';
import { finished, type Steps } from './steps.ts';
import { type Verdict, verdictOf } from './verdict.ts';

/** One job: a system and what was found so far. A value: every act gives another one. */
export interface Case extends Situated {
  readonly model: Model;
  readonly observations: readonly Observation[];
  /** The case before the last observation or removal; null at the start. */
  readonly before: Case | null;
}

interface Found {
  readonly pairs: readonly Hypothesis[];
  readonly ranking: Ranking;
}

/** What was worked out, by the list of observations: `rank` and `next` of a case share it. */
const worked = new WeakMap<readonly Observation[], Found>();

/**
 * Opens a case with nothing observed, in the system's first mode with everything closed.
 * @param orders printed orders of tests, followed while nothing leads off them.
 */
export function openCase(model: Model, orders: readonly Order[] = []): Case {
  const [mode] = model.simulation.modes.keys();
  const opened = new Set<string>();
  return { model, observations: [], before: null, mode: mode!, opened, without: NONE, orders };
}

const NONE: ReadonlySet<string> = new Set();

/**
 * The case with one observation more. The engineer then stands in its mode, with the items
 * open at which it was read.
 * @throws RangeError for a mode, point, outcome or instrument that the system does not have,
 *   or a dead test where the isolator does not make it dead.
 */
export function observe(from: Case, observation: Observation): Case {
  const problem = problemWith(from.model.simulation, observation);
  if (problem !== null) throw new RangeError(problem);
  return {
    ...from,
    observations: [...from.observations, observation],
    before: from,
    mode: observation.mode,
    opened: new Set([...from.opened, ...placesFor(from.model.simulation.network, observation)]),
  };
}

/** The case before its last observation or removal; itself when there is none. */
export const undo = (from: Case): Case => from.before ?? from;

/**
 * The case without one of its observations, wherever it stands; the engineer stays where they
 * are. Undoing brings it back.
 * @param place its place among the observations.
 * @throws RangeError for a place that holds none.
 */
export function remove(from: Case, place: number): Case {
  const { observations } = from;
  if (observations[place] === undefined)
    throw new RangeError(
      `no observation ${place} to remove: the case has ${observations.length}, the first is 0`,
    );
  return { ...from, observations: observations.toSpliced(place, 1), before: from };
}

/** The case with the engineer elsewhere: another mode brought about, other places open. */
export const standAt = (from: Case, standing: Partial<Situated>): Case => ({
  ...from,
  ...standing,
});

/** The posterior after everything observed; with pairs of faults where no single one explains it. */
export const rank = (of: Case): Ranking => workedOut(of).ranking;

/** Works the same out a little at each step: `rank` then has it at once, as the others have. */
export function* ranking(of: Case): Steps<Ranking> {
  return (yield* workOut(of)).ranking;
}

/** A test worth making now, with its reason in plain words. */
export interface Proposal extends Choice {
  readonly why: string;
}

/** The test most worth making now; null when no listed test tells any more. */
export function next(of: Case): Proposal | null {
  const { ranking } = workedOut(of);
  const choice = chooseTest(of.model, ranking, of.observations, of);
  return choice && { ...choice, why: whyNext(of.model, choice, ranking) };
}

/** Whether a cause is found, more is needed, or what was reported is not as the entry shows. */
export const verdict = (of: Case): Verdict => verdictOf(of.model, rank(of), of.observations);

/** What speaks for one of a case's explanations and what against it, in plain words. */
export const reasons = ({ model, observations }: Case, explanation: Explanation): Reasons =>
  explain(model, explanation, observations);

const workedOut = (of: Case): Found => finished(workOut(of));

function* workOut({ model, observations }: Case): Steps<Found> {
  const known = worked.get(observations);
  if (known) return known;
  const pairs = needsPairs(model, observations) ? yield* pairsFor(model, observations) : [];
  const found = { pairs, ranking: posterior(model, observations, pairs) };
  worked.set(observations, found);
  return found;
}

/** Ids of the places that must have been open for an observation. */
function placesFor(network: Network, observation: Observation): string[] {
  if (observation.kind === 'look') return [];
  if (observation.kind === 'act')
    return actsOf(network).flatMap(({ id, place }) => (id === observation.id ? place : []));
  const places = placesOf(network);
  const at =
    observation.kind === 'fuse'
      ? places.filter(({ fuses }) => fuses.includes(observation.branch))
      : places.filter(({ terminals }) =>
          [observation.from, observation.to].some((point) => terminals.includes(point)),
        );
  return at.map(({ id }) => id);
}
