/**
 * Where a value comes from.
 * `seen`: read in a copy, quotation or textbook of the source;
 * `from memory`: recalled, not seen; `derived`: worked out here from others;
 * `common practice`: a fact of the trade with no published source.
 */
export interface Source {
  readonly cite: string;
  readonly standing: 'seen' | 'from memory' | 'derived' | 'common practice';
}

/** A published value that was seen in a copy, quotation or textbook of `cite`. */
export const seen = (cite: string): Source => ({ cite, standing: 'seen' });
/** A published value recalled but not seen; pages and tests say so. */
export const fromMemory = (cite: string): Source => ({ cite, standing: 'from memory' });
/** A value derived here; `cite` gives the derivation. */
export const derived = (cite: string): Source => ({ cite, standing: 'derived' });
/** A fact of the trade for which there is no published source. */
export const commonPractice: Source = {
  cite: 'common practice, no source',
  standing: 'common practice',
};
