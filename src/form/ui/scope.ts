import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { JsonSchema } from '../../entries/kinds.ts';
import { pathText } from '../../entries/problem.ts';
import type { DeviceFacts, EntryToWrite, Wrong } from '../messages.ts';
import type { Path } from '../values.ts';

export { type Path, withAt } from '../values.ts';

/** One value of an entry, where it stands and what it may be. */
export interface FieldProps {
  readonly schema: JsonSchema;
  readonly path: Path;
  readonly value: unknown;
}

/** What every field of an entry's form may look at, and how it changes its value. */
export interface Scope {
  readonly entry: EntryToWrite;
  readonly values: Readonly<Record<string, unknown>>;
  readonly problems: readonly Wrong[];
  /** Sets a value; undefined takes it away. */
  readonly change: (path: Path, value: unknown) => void;
}

export const InScope = createContext<Scope | null>(null);

export function useScope(): Scope {
  const scope = useContext(InScope);
  if (!scope) throw new Error('a field stands outside its form');
  return scope;
}

/** A record with one key called otherwise, in the same place. */
export const renamed = (record: object, from: string, to: string): Record<string, unknown> =>
  Object.fromEntries(
    Object.entries(record).map(([name, value]) => [name === from ? to : name, value] as const),
  );

/** What is wrong at a path itself and, where no field stands inside it, within it. */
export function wrongAt({ problems }: Scope, path: Path, within: boolean): readonly Wrong[] {
  const at = pathText(path);
  const isWithin = (found: string) => found.startsWith(at) && /^[.[]/.test(found.slice(at.length));
  return problems.filter((one) => one.path === at || (within && isWithin(one.path)));
}

/** Items of the entry with what their devices offer. */
export function itemsOf({ values, entry }: Scope): { item: string; device: DeviceFacts }[] {
  const items = (values.items ?? {}) as Record<string, { device?: string } | undefined>;
  return Object.entries(items).flatMap(([item, about]) => {
    const device = entry.devices.find(({ id }) => id === about?.device);
    return device ? [{ item, device }] : [];
  });
}
