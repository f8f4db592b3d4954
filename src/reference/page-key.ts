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

/**
 * Names for the pages of one system, by its id: equal names stand for equal pages. A system's
 * pages show of the other systems no more than what these are called; of every other entry
 * they may show anything.
 */
export function systemPageKeys({
  entries,
  firm,
  hidden,
  shared,
}: PageSources): (system: string) => string {
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
  return (id) =>
    common
      .copy()
      .update(JSON.stringify(said(systems.get(id)!)))
      .digest('hex');
}

const said = ({ file, origin, data, body }: Entry<unknown>) => [file, origin, data, body];
