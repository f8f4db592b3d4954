/** Splits ITEM.name at its first full stop. */
export function splitReference(reference: string): readonly [item: string, name: string] {
  const dot = reference.indexOf('.');
  return [reference.slice(0, dot), reference.slice(dot + 1)];
}
