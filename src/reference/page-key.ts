import { createHash } from 'node:crypto';
import type { Entries, Entry, Hidden } from '../entries/index.ts';
import type { FirmFolder } from '../firm/index.ts';

/** What the pages of systems are made from. */
export interface PageSources {
  readonly entries: Entries;
  readonly firm: FirmFolder | undefined;
  readonly hidden: Hidden;
  /** Whatever is the same for all: code, packages, solved sequences, the day, the address. */
  readonly shared: unknown;
}

/** Names by what pages are made from, each by a system's id: equal names stand for equal pages. */
export interface PageKeys {
  /** Of pages that show all of the system's entry. */
  readonly pageKey: (system: string) => string;
  /** Of pages of its parts, which show neither its prose nor its summary: an edit there leaves them. */
  readonly partKey: (system: string) => string;
}

/**
 * Names for the pages of one system. They show of the other systems no more than what these are
 * called; of every other entry they may show anything.
 */
export function systemPageKeys({ entries, firm, hidden, shared }: PageSources): PageKeys {
  const { systems, devices, symptoms, procedures, standards, glossary } = entries;
  const common = createHash('sha256').update(
    JSON.stringify([
      shared,
      firm && [firm.settings, firm.logo?.file],
      [...hidden].map(([kind, ids]) => [kind, [...ids]]),
      [...systems].map(([id, { data }]) => [id, data.title]),
      [devices, symptoms, procedures, standards, glossary].map((kind) =>
        [...kind.values()].map(said),
      ),
    ]),
  );
  const named = (what: unknown) => common.copy().update(JSON.stringify(what)).digest('hex');
  return {
    pageKey: (id) => named(said(systems.get(id)!)),
    partKey(id) {
      const entry = systems.get(id)!;
      return named(said({ ...entry, data: { ...entry.data, summary: '' }, body: '' }));
    },
  };
}

const said = ({ file, origin, data, body }: Entry<unknown>) => [file, origin, data, body];
