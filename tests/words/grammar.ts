/** What can be wrong with a sentence that is put together, and the pattern that shows it. */
const FAULTS: readonly (readonly [what: string, pattern: RegExp])[] = [
  // A vowel is heard in hour and in MCB, L, N, RCD; none in one, unit, use, U and W.
  [
    '“a” before a vowel',
    /(?<!\d )\b(?:a|A) (?:[aeio](?!ne\b|nce\b|u\b)|u(?!n[iv]|s[aeu]|k\b))[a-z]/,
  ],
  [
    '“a” before an abbreviation that begins with a vowel',
    /(?<!\d )\ba (?:MCB|RCD|RCBO|LED|L|N|E|SL|FCU|NO|NC)\b/,
  ],
  ['“an” before a consonant', /\b(?:an|An) (?![aeiouhAEFHILMNORSX8“(]|11\b|18\b)[a-zA-Z]/],
  ['a word twice', /\b(?!that\b|had\b|is\b)([a-z]{2,}) \1\b(?!-)/],
  ['“the” before an article', /\b(?:the|a|an) (?:the|a|an|its|their|his)\b/i],
  ['two stops', /[.,;:][.,;]|[,;:]\s+[.,;:]|\.\s+\.|\?\./],
  ['a space before a stop', /\w [.,;](?:\s|$)/],
  ['a missing space', /[a-z][,;][A-Za-z]|[a-z]\.[A-Z][a-z]/],
  ['an empty bracket or mark', /\(\s*\)|“\s*”|\bundefined\b|\bNaN\b|\[object/],
  [
    'one of many',
    /(?<![\d.,–-])\b1 (?:others|faults|repairs|cores|steps|links|modes|systems|readings|calls|things|minutes|terminals)\b/,
  ],
  [
    'many of one',
    /\b(?:[2-9]|\d{2,}) (?:fault|repair|core|step|link|mode|system|reading|terminal|other(?! \w))\b(?!-)/,
  ],
  ['a verb of many for one', /(?:^|[.,;:] )(?:it|this) are\b|(?:^|[.,;:] )these is\b/i],
  [
    'off and off, out and out',
    /\b(comes|taken?|lifted|goes) (off|out) [^.,;]{0,20}\b(?:is|are) (?:lifted|taken) \2\b/i,
  ],
  ['a small letter behind a stop', /[a-z]{2}\. [a-z]{3}/],
  ['“not so:”', /\bnot so:/i],
  ['a key and no words', /\b[a-z]+(?:-[a-z]+){2,}:|\b[A-Z]\d\.[a-z]/],
];

/** Abbreviations behind whose stop a small letter may stand. */
const ABBREVIATED = /\b(?:e\.g|i\.e|etc|approx|no)\./i;

/** Everything that is wrong with a sentence by these patterns. */
export const faultsOfGrammar = (sentence: string): string[] =>
  ABBREVIATED.test(sentence)
    ? []
    : FAULTS.flatMap(([what, pattern]) => (pattern.test(sentence) ? [what] : []));
