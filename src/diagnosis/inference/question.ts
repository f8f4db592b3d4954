import { ISOLATED } from '../../../schemas/index.ts';
import {
  INSTRUMENTS,
  type Network,
  resistanceBetween,
  type Simulation,
} from '../../circuit/index.ts';
import { placeOfTerminal, type Situation, settledIn, situationIn } from '../../site/index.ts';
import { instrumentFor } from '../answers.ts';
import { type ActTest, actsOf, OPEN_OHMS, type Test } from '../tests/index.ts';
import {
  ALTERNATING,
  type Alphabet,
  DEAD,
  DIRECT,
  FUSE,
  INSPECT,
  INSULATION,
  LOOK,
  PROVE,
} from './codes.ts';
import {
  type DeadReading,
  type Done,
  type FuseFound,
  isDirect,
  type LiveReading,
  type Look,
  type Observation,
} from './observation.ts';

/** What was asked, whatever was answered. */
export type Question =
  | Omit<Look, 'answer'>
  | (Omit<LiveReading, 'answer'> & { readonly current: 'ac' | 'dc' })
  | Omit<DeadReading, 'answer'>
  | Omit<FuseFound, 'answer'>
  | Omit<Done, 'answer'>;

/** The question that an observation answers. */
export function questionOf(observation: Observation): Question {
  if (observation.kind !== 'live') return observation;
  return { ...observation, current: isDirect(observation) ? 'dc' : 'ac' };
}

/** The question that a listed test asks. */
export function askedBy(test: Test): Question {
  if (test.kind === 'act') return { kind: 'act', mode: test.mode, id: test.id };
  if (test.kind === 'look' || test.kind === 'fuse') return test;
  const { mode, pair } = test;
  const { from, to } = pair;
  if (test.kind === 'dead') return { kind: 'dead', mode, from, to };
  const current = pair.kind === 'call' ? 'dc' : 'ac';
  return { kind: 'live', mode, from, to, instrument: instrumentFor(pair).id, current };
}

/** The situation that a question is asked in: its mode, as opening the place it is read at leaves it. */
export const situationFor = (network: Network, question: Question): Situation =>
  situationIn(question.mode, 'from' in question ? placeOfTerminal(network, question.from) : null);

/** Answers a question can have. */
export function alphabetOf(question: Question): Alphabet {
  switch (question.kind) {
    case 'look':
      return LOOK;
    case 'dead':
      return DEAD;
    case 'fuse':
      return FUSE;
    case 'live':
      return question.current === 'dc' ? DIRECT : ALTERNATING;
    case 'act':
      return ALPHABETS[question.id.slice(0, question.id.indexOf(':')) as ActTest['act']] ?? INSPECT;
  }
}

const ALPHABETS: Readonly<Record<ActTest['act'], Alphabet>> = {
  prove: PROVE,
  inside: INSPECT,
  compare: INSPECT,
  core: DEAD,
  part: DEAD,
  insulation: INSULATION,
  spindle: LOOK,
  link: LOOK,
};

/** One word for a question. Leads laid on the other way round ask the same. */
export function questionKey(question: Question): string {
  const { mode } = question;
  if (question.kind === 'look') return `look:${question.outcome}@${mode}`;
  if (question.kind === 'fuse') return `fuse:${question.branch}`;
  if (question.kind === 'act') return `act:${question.id}`;
  const points = [question.from, question.to].sort().join('|');
  if (question.kind === 'dead') return `dead:${points}`;
  return `live:${points}@${mode}:${question.instrument}:${question.current}`;
}

/**
 * What is wrong with an observation, in one line that says what would be right; null for one
 * that this system can have.
 */
export function problemWith(simulation: Simulation, observation: Observation): string | null {
  const { network, modes } = simulation;
  const { mode } = observation;
  if (!modes.has(mode)) return unknown(network, 'mode', mode, modes.keys());
  if (observation.kind === 'look') {
    const outcomes = modes.get(mode)!.outcomes;
    const { outcome } = observation;
    return outcomes.has(outcome) ? null : unknown(network, 'outcome', outcome, outcomes.keys());
  }
  if (observation.kind === 'act') {
    const acts = actsOf(network).map(({ id }) => id);
    return acts.includes(observation.id) ? null : unknown(network, 'act', observation.id, acts);
  }
  if (observation.kind !== 'live' && mode !== ISOLATED)
    return `a ${observation.kind} test is made in mode ${ISOLATED}, proved dead; got ${mode}`;
  if (observation.kind === 'fuse') {
    const fuses = network.branches.flatMap((b) =>
      b.kind === 'element' && b.element.kind === 'fuse' ? [b.id] : [],
    );
    const { branch } = observation;
    return fuses.includes(branch) ? null : unknown(network, 'fuse', branch, fuses);
  }
  return pointsProblem(simulation, observation);
}

function pointsProblem(
  simulation: Simulation,
  observation: Extract<Observation, { from: string }>,
): string | null {
  const { network } = simulation;
  const { from, to } = observation;
  for (const point of [from, to]) {
    if (!reachable(network, point)) {
      const item = point.split('.')[0]!;
      const own = network.nodes.filter((n) => n.item === item && n.terminal).map((n) => n.id);
      return unknown(network, 'point', point, own.length > 0 ? own : network.items.keys());
    }
  }
  if (from === to) return `a reading needs two points; got ${from} twice`;
  if (observation.kind === 'live') {
    const ids = INSTRUMENTS.map(({ id }) => id);
    const { instrument } = observation;
    return ids.includes(instrument) ? null : unknown(network, 'instrument', instrument, ids);
  }
  const place = placeOfTerminal(network, from);
  const { solution } = settledIn(simulation, situationIn(ISOLATED, place));
  const live = [from, to].find((point) => !isSeparated(network, solution, point));
  return live
    ? `${live} stays joined to the supply with the isolator off: no dead test is made there`
    : null;
}

const reachable = (network: Network, point: string) =>
  network.nodeIndex.has(point) && !point.includes('#');

/** Whether the isolator parts a point from the supply's line and neutral; earth stays joined. */
function isSeparated(
  network: Network,
  solution: Parameters<typeof resistanceBetween>[0],
  point: string,
): boolean {
  const node = network.nodes[network.nodeIndex.get(point)!]!;
  if (node.terminal?.carries === 'earth') return true;
  const supplies = network.branches.filter((b) => b.kind === 'supply' && !b.id.endsWith('earth'));
  return supplies.every(
    ({ from }) =>
      from !== node.index &&
      resistanceBetween(solution, point, network.nodes[from]!.id) > OPEN_OHMS,
  );
}

const unknown = (network: Network, what: string, got: string, known: Iterable<string>) =>
  `${network.id} has no ${what} ${got}; it has ${[...known].join(', ')}`;
