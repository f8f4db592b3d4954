import { ISOLATED } from '../../schemas/index.ts';
import { type Simulation, simulateAsFound } from '../circuit/index.ts';
import type { ColourCode } from '../published/index.ts';
import { settledIn, situationsOf } from '../site/index.ts';
import { coreEnds, itemOf, type TestPair } from '../wiring/index.ts';
import { type Fault, faultsOf, seenAt } from './faults/index.ts';
import { type CompactSettledStates, SettledStatesPacker } from './settled-states.ts';
import {
  type ActTest,
  answerIn,
  mayBeOne,
  situationOf,
  type Test,
  type TestAnswer,
  takesOut,
  testsOf,
} from './tests/index.ts';

/** A fault with what every test answers in its circuit. */
export interface Signature {
  readonly fault: Fault;
  /** By place in the list of tests. */
  readonly answers: readonly TestAnswer[];
}

/** Everything a system's faults show. */
export interface Signatures {
  readonly tests: readonly Test[];
  /** What every test answers in the sound circuit. */
  readonly sound: readonly TestAnswer[];
  readonly faults: readonly Signature[];
  /** Faults that change no answer: only a look at the part itself finds them. */
  readonly silent: readonly Fault[];
  /** Where the circuit of every fault comes to rest in every mode. */
  readonly settled: CompactSettledStates;
}

/**
 * Simulates every fault of a system in every mode, once, and notes what every test answers and
 * where the circuit rests.
 */
export function signaturesOf(simulation: Simulation, pairs: readonly TestPair[]): Signatures {
  const tests = testsOf(simulation, pairs);
  const sound = tests.map((test) => answerIn(simulation, test));
  const faults: Signature[] = [];
  const silent: Fault[] = [];
  const { network } = simulation;
  const situations = [
    ...situationsOf(network),
    ...tests.flatMap((test) =>
      test.kind === 'act' && test.act === 'link' ? situationOf(network, test) : [],
    ),
  ];
  const settled = new SettledStatesPacker(situations.map(({ id }) => id));
  for (const fault of faultsOf(simulation)) {
    const found = simulateAsFound(fault.circuit());
    const answers = answersOf(simulation, found, fault, tests, sound);
    settled.add(
      fault.id,
      situations.map((situation) => settledIn(found, situation).round),
    );
    if (answers.every((answer, i) => mayBeOne(answer, sound[i]!))) silent.push(fault);
    else faults.push({ fault, answers });
  }
  return { tests, sound, faults, silent, settled: settled.packed() };
}

/** What every test answers with a fault: of what its circuit cannot tell, what is to be seen. */
function answersOf(
  { network }: Simulation,
  found: Simulation,
  fault: Fault,
  tests: readonly Test[],
  sound: readonly TestAnswer[],
): TestAnswer[] {
  const seen = seenAt(network, fault);
  const concerns = concernsOf(found, fault);
  return tests.map((test, i) => {
    if (test.kind !== 'act') return answerIn(found, test);
    if (test.act === 'inside' || test.act === 'compare')
      return seen[test.act].has(test.place) ? 'found' : 'nothing';
    if (test.act === 'spindle') return seen.spindle.has(test.place) ? 'not seen' : 'seen';
    if (takesOut(test)) return concerns(test) ? answerIn(found, test) : sound[i]!;
    return answerIn(found, test);
  });
}

/**
 * Whether a fault can show in a test with the cores of a lead disconnected: such a test sees the
 * lead and the part behind it, and nothing else. A fuse that the fault blew is touched by it.
 */
function concernsOf(
  { network: { system }, modes }: Simulation,
  { edit }: Fault,
): (test: ActTest) => boolean {
  const blown = modes.get(ISOLATED)?.state.blown ?? [];
  const touched = [...edit.touches, ...blown].join(' ');
  const moved = edit.rewire ? coreEnds(system) : [];
  return ({ part, points: [point] }) => {
    const [, cable, colour, end] = /^(.+)\.([A-Z]+)@([12])$/.exec(point!) ?? [];
    const far = cable && system.cables[cable]?.cores[colour as ColourCode]?.ends[2 - Number(end)];
    const behind = part ?? (far && itemOf(far));
    const names = [behind, cable].flatMap((name) => name || []);
    return (
      names.some((name) => word(name).test(touched)) ||
      moved.some((end) => behind === itemOf(end.point) && touched.includes(`${end.cable}.`))
    );
  };
}

const words = new Map<string, RegExp>();

function word(name: string): RegExp {
  const before = words.get(name);
  if (before) return before;
  const made = new RegExp(`\\b${name}\\b`);
  words.set(name, made);
  return made;
}
