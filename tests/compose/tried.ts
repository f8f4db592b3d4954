import { simulate } from '../../src/circuit/index.ts';
import { type Composed, compose, Refusal } from '../../src/compose/index.ts';
import { againstDemands } from '../../src/composer/against-demands.ts';
import { catalogue, networkOf } from './catalogue.ts';
import { type Combination, specificationOf } from './combinations.ts';
import { contentProblems, firstBreach } from './judged.ts';

/** What became of a combination. */
export interface Verdict {
  /** Why it is not sound; undefined where it is. */
  readonly refused?: string;
  /** Conditions under which it was settled, from new and after demands. */
  readonly settled: number;
}

/** Composes a combination and judges it: has it a circuit, is it in order, sound, as it must be? */
export function tried(combination: Combination): Verdict {
  let composed: Composed;
  try {
    composed = compose(specificationOf(combination), catalogue());
  } catch (error) {
    if (error instanceof Refusal) return { refused: `no circuit: ${error.reason}`, settled: 0 };
    throw error;
  }
  const [problem] = contentProblems(composed);
  if (problem !== undefined) return { refused: `content: ${problem}`, settled: 0 };
  const network = networkOf('composed', composed);
  const simulation = simulate(network);
  const broken = firstBreach(simulation);
  if (broken !== undefined) return { refused: `standard: ${broken}`, settled: 0 };
  return againstTable(composed, simulation);
}

/** Settles a composed system under every set of conditions and compares with the demand table. */
export function againstTable(
  composed: Composed,
  simulation = simulate(networkOf('composed', composed)),
): Verdict {
  const steps = againstDemands(composed, simulation);
  for (;;) {
    const { value, done } = steps.next();
    if (!done) continue;
    const { tried: settled, miss } = value;
    return miss ? { refused: `table: ${miss.what}`, settled } : { settled };
  }
}
