import { MODES, NAMES } from './names.ts';
import { PASTED, TOLD, TWICE } from './pasted.ts';
import { PROSE, REVIEWS, RULES } from './rules.ts';
import { FEATURES, SETTINGS } from './settings.ts';
import type { Mistake } from './slip.ts';
import { WIRING } from './wiring.ts';
import { YAML } from './yaml.ts';

export type { Mistake } from './slip.ts';

/** The slips of authors, as they are counted. */
export const MISTAKES: readonly Mistake[] = [
  ...WIRING,
  ...YAML,
  ...NAMES,
  ...MODES,
  ...RULES,
  ...REVIEWS,
  ...PROSE,
  ...SETTINGS,
  ...FEATURES,
  ...PASTED,
  ...TOLD,
  ...TWICE,
];
