import { describe, expect, test } from 'vitest';
import { simulateAsFound } from '../../../src/circuit/index.ts';
import { answerIn } from '../../../src/diagnosis/index.ts';
import {
  ANSWER_CODES,
  type Case,
  next,
  observe,
  openCase,
  rank,
} from '../../../src/diagnosis/inference/index.ts';
import { asFoundOf, differencesOf, foundNetwork } from '../../../src/wiring/as-found/index.ts';
import { firstLooks, modelOf, reported } from '../../diagnosis/inference/jobs.ts';
import { foundFrom } from './notation.ts';

/**
 * A condensate pump needs five cores, two of them for its overflow switch; a lead of three
 * cores is what was at hand (common practice, no source). The readings are those of the
 * three-core cable, simulated from the marks and not from the fault list.
 */
const FOUND: readonly (readonly [what: string, system: string, cable: string, marks: string])[] = [
  ['left off', 'combi-condensate-pump', 'W4', 'W4 = BN BU GNYE'],
  ['linked out', 'combi-condensate-pump', 'W4', 'W4 = BN BU GNYE; X1.2 -- X1.3'],
];
/** Tests that an engineer makes before he looks at the ranking, beside the first looks. */
const MOST_TESTS = 12;

describe.each(FOUND)('three cores where five belong, %s: %s', (_, id, cable, marks) => {
  const model = modelOf(id, 'since work');
  const { network } = model.simulation;
  const found = foundFrom(network, marks);
  const truth = simulateAsFound(foundNetwork(network, found));
  const missing = model.singles.find(({ id }) => id.startsWith(`${cable}:3 cores`))!;
  const report = (of: Case, at: number) => {
    const test = model.tests[at]!;
    // What is to be seen in the box no circuit tells: a cable of other cores is seen at its ends.
    const seen = test.kind === 'act' && (test.act === 'inside' || test.act === 'compare');
    const code = seen ? missing.row![at]! : ANSWER_CODES[answerIn(truth, test)];
    return observe(of, reported(test, code));
  };

  /** The job from its first looks, by the tests that it proposes. */
  const jobOf = () => {
    let open = firstLooks(model).reduce(report, openCase(model));
    for (let made = 0; made < MOST_TESTS; made++) {
      const proposed = next(open);
      if (!proposed) break;
      open = report(open, model.testAt.get(proposed.test.id)!);
    }
    return open;
  };

  test('readings alone put the cable on top', () => {
    const [own, ...others] = rank(jobOf()).repairs;
    expect(own!.key).toBe(`cores ${cable}`);
    expect(own!.share).toBeGreaterThan(10 * others[0]!.share);
    const [fault] = own!.explanations[0]!.hypothesis.faults;
    const wired = fault!.edit.rewire!(network.system);
    expect(asFoundOf(network, wired, fault!.edit.changes)).toEqual(found);
    expect(differencesOf(network, found).at(-1)!.title).toBe(
      `${cable} has 3 cores (brown, blue, green-yellow) where 5 belong: black and grey are not there`,
    );
  });
});
