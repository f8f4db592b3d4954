import type { HandMade } from './by-hand.ts';

const VERDICT = ['tests/diagnosis/inference/verdict.test.ts'];
const POSTERIOR = { file: 'src/diagnosis/inference/posterior.ts', tests: VERDICT };
const SAID = { file: 'src/diagnosis/inference/verdict.ts', tests: VERDICT };
const FOUND = { file: 'src/diagnosis/inference/found.ts', tests: VERDICT };

/** What is believed and said to be found, each rule broken once: a sound part would be condemned. */
export const INFERENCE_BY_HAND: readonly HandMade[] = [
  {
    name: 'a visit begun on a published order follows another as soon',
    file: 'src/diagnosis/inference/order.ts',
    was: 'Number(b.isOwn) - Number(a.isOwn) ||',
    becomes: '',
    tests: ['tests/job/published.property.test.ts'],
  },
  {
    ...POSTERIOR,
    name: 'what the entry does not model never competes',
    was: 'const flat = Math.log(PRIOR.notAsShown) + unmodelledLog(model, observations);',
    becomes: 'const flat = -1e9;',
  },
  {
    ...POSTERIOR,
    name: 'a blown fuse explains itself',
    was: 'isTripAlone(hypothesis) ? 1 - UNEXPLAINED_TRIP : 1',
    becomes: '1',
  },
  {
    ...SAID,
    name: 'two reports against the best are taken for one slip',
    was: 'if (against.length > ALLOWED_MISREADINGS)',
    becomes: 'if (against.length > 9)',
  },
  {
    ...SAID,
    name: 'that nothing drawn fits is never said',
    was: 'if (notAsShown >= NOT_AS_SHOWN_SHARE)',
    becomes: 'if (notAsShown > 1)',
  },
  {
    ...FOUND,
    name: 'a cause is found by its prior alone',
    was: 'return otherwise > OTHERWISE * all;',
    becomes: 'return true;',
  },
  {
    ...FOUND,
    name: 'a cause is found by the one report that is amiss',
    was: 'amiss.some((at) => at !== place) &&',
    becomes: '',
  },
  {
    name: 'nothing seen in an open box counts as a misreading',
    file: 'src/diagnosis/inference/likelihood.ts',
    was: 'return code === predicted ? seen : overlooked;',
    becomes: 'return code === predicted ? seen : wrong;',
    tests: VERDICT,
  },
];
