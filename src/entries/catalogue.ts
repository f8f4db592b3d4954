import { FILE_CODES } from './catalogue-file.ts';
import { FIRM_CODES } from './catalogue-firm.ts';
import { MODULE_CODES } from './catalogue-modules.ts';
import { PROSE_CODES } from './catalogue-prose.ts';
import { STANDARD_CODES } from './catalogue-standards.ts';
import { WIRING_CODES } from './catalogue-wiring.ts';

/** What a problem's code means. Codes are permanent: never renamed, never used again. */
export interface Explanation {
  readonly title: string;
  /** What is wrong, and why it matters. */
  readonly why: string;
  /** What the author does about it. */
  readonly mend: string;
}

/** Every code a problem can have. */
export type ProblemCode =
  | keyof typeof FILE_CODES
  | keyof typeof WIRING_CODES
  | keyof typeof PROSE_CODES
  | keyof typeof STANDARD_CODES
  | keyof typeof FIRM_CODES
  | keyof typeof MODULE_CODES;

/** The error catalogue: every code, explained. */
export const CATALOGUE: Readonly<Record<ProblemCode, Explanation>> = {
  ...FILE_CODES,
  ...WIRING_CODES,
  ...PROSE_CODES,
  ...STANDARD_CODES,
  ...FIRM_CODES,
  ...MODULE_CODES,
};
