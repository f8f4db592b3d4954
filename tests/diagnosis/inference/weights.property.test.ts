import { expect, test } from 'vitest';
import type { FaultKind } from '../../../src/diagnosis/faults/index.ts';
import { PROVING, SEED } from '../../support/property.ts';
import { random } from '../../support/random.ts';
import { detectable, historyOf, job, modelOf, onTop, reweighed, some } from './jobs.ts';

/** Systems on which every class is weighed otherwise, and faults drawn for each weighing. */
const SYSTEMS = PROVING
  ? ['combi-two-wire', 'combi-wireless', 'combi-condensate-pump']
  : ['combi-two-wire'];
const FAULTS = PROVING ? 6 : 3;
/** Published rates differ ten to a hundred times: each class ten times up, and ten times down. */
const FACTORS = [10, 0.1];

test(`seed ${SEED}: with any class weighed ten times more or less, proposals still end at the truth`, () => {
  const pick = random(SEED);
  for (const id of SYSTEMS) {
    const faults = detectable(modelOf(id));
    const classes = new Set(faults.map(({ faults: [fault] }) => fault!.class));
    expect(classes.size).toBeGreaterThan(8);
    for (const kind of classes) {
      for (const factor of FACTORS) {
        // One of the class, and others at random.
        const own = pick.pick(faults.filter(({ faults: [fault] }) => fault!.class === kind));
        for (const { id: fault } of [own, ...some(faults, FAULTS - 1, pick)]) {
          const listed = faults.find((single) => single.id === fault)!;
          const history = historyOf(listed);
          const model = reweighed(id, (of) => (of.class === kind ? factor : 1), history);
          const truth = model.singles.find((single) => single.id === fault)!;
          expect(onTop(job(model, truth.row!), truth), `${id}: ${fault}, ${kind} ×${factor}`).toBe(
            true,
          );
        }
      }
    }
  }
});

test('a weighing changes beliefs by what it multiplies, and nothing else', () => {
  const [plain, more] = [
    modelOf('combi-two-wire'),
    reweighed('combi-two-wire', (fault) => (fault.class === 'looseEnd' ? 10 : 1)),
  ];
  const prior = (model: typeof plain, kind: FaultKind) =>
    model.singles.reduce(
      (sum, { faults: [fault], prior }) => sum + (fault?.class === kind ? prior : 0),
      0,
    );
  const odds = (model: typeof plain) => prior(model, 'looseEnd') / prior(model, 'coreBroken');
  expect(odds(more) / odds(plain)).toBeCloseTo(10, 8);
  expect(plain.singles.every(({ prior }) => prior > 0)).toBe(true);
});
