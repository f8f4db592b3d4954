import { EntriesFacts, type ReferenceFacts, SystemFacts } from '../changes/index.ts';
import { pack, unpack } from './packed.ts';

/** A state of a reference as one line of text, from which it is compared with a later one. */
export const snapshotOf = ({ systems, entries }: ReferenceFacts): string =>
  pack({ entries, systems: [...systems.values()].map(compact) });

/**
 * The state that a snapshot is of.
 * @throws Error where it is none.
 */
export function factsIn(snapshot: string): ReferenceFacts {
  const { entries, systems } = unpack(snapshot) as { entries: unknown; systems: unknown[] };
  return {
    entries: EntriesFacts.parse(entries),
    systems: new Map(
      systems.map((one) => {
        const facts = SystemFacts.parse(one);
        return [facts.id, facts];
      }),
    ),
  };
}

/** Without what no comparison looks at: readings on other instruments than the first, volts. */
function compact(facts: SystemFacts): SystemFacts {
  const [instrument] = facts.instruments;
  if (!instrument) return facts;
  const readings = Object.fromEntries(
    Object.entries(facts.readings).map(([mode, { [instrument.id]: column = {} }]) => [
      mode,
      {
        [instrument.id]: Object.fromEntries(
          Object.entries(column).map(([pair, [, , kind]]) => [
            pair,
            [0, 0, kind] as [number, number, string],
          ]),
        ),
      },
    ]),
  );
  return { ...facts, nodes: [], instruments: [instrument], readings };
}
