export type Path = readonly (string | number)[];

/** The value at a path; undefined where there is none. */
export const valueAt = (value: unknown, path: Path): unknown =>
  path.reduce<unknown>(
    (at, key) => (at as Readonly<Record<string | number, unknown>> | null | undefined)?.[key],
    value,
  );

/** A value with another at a path; what stands around it is left as it is. Undefined takes it away. */
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
