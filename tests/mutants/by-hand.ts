import { COMPOSE_BY_HAND } from './by-hand-compose.ts';
import { INFERENCE_BY_HAND } from './by-hand-inference.ts';

/** A change that must not pass: each of these once did, or would do harm if it did. */
export interface HandMade {
  readonly name: string;
  readonly file: string;
  /** What stands in the file, once. */
  readonly was: string;
  readonly becomes: string;
  /** Quick tests of which one at least must fail. */
  readonly tests: readonly string[];
}

const SETTLE = { file: 'src/circuit/settle.ts', tests: ['tests/circuit/settle.test.ts'] };
const COSTS = { file: 'src/diagnosis/tests/costs.ts', tests: ['tests/diagnosis/costs.test.ts'] };
const SOLVER = { file: 'src/reference/solver.ts', tests: ['tests/reference/solver.test.ts'] };
const ACTS = { file: 'src/job/acts.ts', tests: ['tests/job/desk.test.ts'] };

export const BY_HAND: readonly HandMade[] = [
  ...COMPOSE_BY_HAND,
  ...INFERENCE_BY_HAND,
  {
    name: 'the record has readings that nobody took',
    file: 'src/job/record.ts',
    was: "if (entry.observation.kind === 'look' || entry.told) continue;",
    becomes: "if (entry.observation.kind === 'look') continue;",
    tests: ['tests/job/job.test.ts'],
  },
  {
    ...SETTLE,
    name: 'mechanisms move before the electrics rest',
    was: 'return isSame(next, state) ? movePositions(network, register, state) : next;',
    becomes: 'return movePositions(network, register, next);',
  },
  {
    ...SETTLE,
    name: 'a mechanism moves while a fuse opens',
    was: 'if (opens >= 0) next[opens] = 1;',
    becomes:
      'if (opens >= 0 && isSame(next, state)) return movePositions(network, register, state).fill(1, opens, opens + 1);',
  },
  {
    ...SETTLE,
    name: 'a winding needs more than the voltage it operates at',
    was: 'share >= winding.operates',
    becomes: 'share > winding.operates',
  },
  {
    ...SETTLE,
    name: 'a winding lets go at the voltage that just holds it',
    was: 'share >= winding.holds',
    becomes: 'share > winding.holds',
  },
  {
    name: 'a fuse that opens is passed over',
    file: 'src/circuit/settle.ts',
    was: 'if (opens >= 0) next[opens] = 1;',
    becomes: '',
    tests: ['tests/circuit/fuses.test.ts'],
  },
  {
    name: 'a winding taken off with its device stays energised',
    file: 'src/circuit/settle.ts',
    was: 'if (winding.isThere && !winding.isThere(state)) return;',
    becomes: '',
    tests: ['tests/circuit/alter.test.ts'],
  },
  {
    name: 'a fuse carries the current at which it must open',
    file: 'src/circuit/settle.ts',
    was: 'excess >= 1 &&',
    becomes: 'excess > 1 &&',
    tests: ['tests/circuit/fuses.test.ts'],
  },
  {
    name: 'a welded contact stays closed with its device taken off',
    file: 'src/circuit/register.ts',
    was: 'isThere(marks) && own(marks)',
    becomes: 'own(marks)',
    tests: ['tests/circuit/alter.test.ts', 'tests/circuit/change.test.ts'],
  },
  { ...COSTS, name: 'isolating takes a minute', was: 'minutes(4)', becomes: 'minutes(1)' },
  { ...COSTS, name: 'a look costs time', was: 'look: minutes(0)', becomes: 'look: minutes(0.1)' },
  {
    ...COSTS,
    name: 'putting the supply back costs nothing',
    was: 'own + ACT_MINUTES.restore',
    becomes: 'own',
  },
  {
    ...SOLVER,
    name: 'what other code found is taken for found',
    was: 'JSON.stringify([code, states,',
    becomes: 'JSON.stringify([states,',
  },
  {
    ...SOLVER,
    name: 'what a smaller budget found is taken for found',
    was: 'JSON.stringify([code, states,',
    becomes: 'JSON.stringify([code,',
  },
  {
    ...SOLVER,
    name: 'every problem is taken for the same',
    was: 'states, problemHash(problem)]);',
    becomes: 'states]);',
  },
  {
    ...ACTS,
    name: 'a change of mode ranks nothing anew',
    was: ' ||\n  before.mode !== after.mode',
    becomes: '',
  },
  {
    ...ACTS,
    name: 'a repair ranks nothing anew',
    was: ' ||\n  before.repairs.length !== after.repairs.length',
    becomes: '',
  },
];
