import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { JsonSchema } from '../../entries/kinds.ts';
import { pathText } from '../../entries/problem.ts';
import type { DeviceFacts, EntryToWrite, Wrong } from '../messages.ts';

export type Path = readonly (string | number)[];

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

/** A value with another at a path; what stands around it is left as it is. */
export function withAt(value: unknown, [key, ...rest]: Path, next: unknown): unknown {
  if (key === undefined) return next;
  if (Array.isArray(value)) {
    const at = Number(key);
    const inner = rest.length === 0 ? next : withAt(value[at], rest, next);
    return inner === undefined
      ? value.filter((_, i) => i !== at)
      : Object.assign([...value], { [at]: inner });
  }
  const record = (value ?? {}) as Readonly<Record<string, unknown>>;
  const inner = rest.length === 0 ? next : withAt(record[key], rest, next);
  if (inner !== undefined) return { ...record, [key]: inner };
  return Object.fromEntries(Object.entries(record).filter(([name]) => name !== key));
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
