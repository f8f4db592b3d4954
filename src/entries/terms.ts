import { wrongTerms } from '../words/index.ts';
import { entriesByKind } from './kinds.ts';
import { type Finder, problemsInTexts } from './texts.ts';
import type { Entries, Problem } from './types.ts';

/**
 * One problem for each word of an entry that the trade does not use so. The glossary is where
 * such words are explained, and holds any.
 */
export const termProblems = (entries: Entries): Problem[] =>
  entriesByKind(entries).flatMap(([kind, , entry]) =>
    kind === 'term' ? [] : problemsInTexts(entry, wrongWords),
  );

const wrongWords: Finder = (text) =>
  wrongTerms(text).map(({ found, say, at }) => ({
    code: 'word-not-used',
    message: `the trade does not say “${found}” here`,
    details: { found, mend: `Say ${say}.` },
    at,
  }));
