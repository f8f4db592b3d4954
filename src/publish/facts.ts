import { EntriesFacts, type ReferenceFacts, SystemFacts } from '../changes/index.ts';
import { entriesData, systemData } from '../data/index.ts';
import type { Reference } from '../reference/index.ts';

/** What a comparison asks of a reference; without entries circuits alone are compared. */
export type Told = Pick<Reference, 'systems' | 'built'> &
  Partial<Pick<Reference, 'entries' | 'firm'>>;

const known = new WeakMap<Told, ReferenceFacts>();

/** A reference as a comparison sees it: what its open data says. Worked out once for each. */
export function factsOf(reference: Told): ReferenceFacts {
  const before = known.get(reference);
  if (before) return before;
  const { systems, entries, firm } = reference;
  const facts = {
    systems: new Map(
      [...systems].map(([id, system]) => [id, SystemFacts.parse(systemData(system))]),
    ),
    entries:
      entries && EntriesFacts.parse(plain(entriesData({ entries, ...(firm ? { firm } : {}) }))),
  };
  known.set(reference, facts);
  return facts;
}

/** As it is once written: what is undefined is not there. */
const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value));
