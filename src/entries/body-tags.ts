import type { Place } from './types.ts';

/** An attribute of a component in a body. */
export interface TagAttribute {
  /** Absent for one that is an expression in braces with no name. */
  readonly name?: string;
  /** Its text; absent where the value is not a text, as in `mode={1}` or `mode` alone. */
  readonly value?: string;
  /** Where its name stands. */
  readonly place: Place;
  /** Where its text stands; its name where it has none. */
  readonly valuePlace: Place;
}

/** A component named in a body, as in `<Reading at="E1.L" mode="standby" />`. */
export interface BodyTag {
  readonly name: string;
  readonly attributes: readonly TagAttribute[];
  readonly place: Place;
}

/** A tag as the parser gives it, without the places of its attributes. */
interface ParsedTag {
  readonly name: string;
  readonly attributes: readonly {
    readonly name?: string;
    readonly value?: unknown;
  }[];
}

/**
 * A parsed tag with the places of its attributes, which the parser does not give: they are
 * looked for one after another in the text that begins at the tag.
 */
export function readTag(place: Place, { name, attributes }: ParsedTag): BodyTag {
  const { source, position } = place;
  const lines = source.lines.slice(position.line - 1);
  const text = [lines[0]?.slice(position.column - 1) ?? '', ...lines.slice(1)].join('\n');
  const placeAt = (offset: number): Place => {
    const before = text.slice(0, offset).split('\n');
    const last = before.at(-1)!.length;
    const column = before.length === 1 ? position.column + last : last + 1;
    return { source, position: { line: position.line + before.length - 1, column } };
  };
  let from = name.length + 1;
  return {
    name,
    place,
    attributes: attributes.map((attribute) => {
      const found = findAttribute(text, attribute.name, from);
      from = found.end;
      return {
        ...(attribute.name === undefined ? {} : { name: attribute.name }),
        ...(typeof attribute.value === 'string' ? { value: attribute.value } : {}),
        place: placeAt(found.name),
        valuePlace: placeAt(found.value),
      };
    }),
  };
}

/** Offsets of an attribute's name and text, and of what follows it, from `from` onwards. */
function findAttribute(
  text: string,
  name: string | undefined,
  from: number,
): { name: number; value: number; end: number } {
  const pattern = name === undefined ? '\\{' : `(?<=[\\s"'}])${escaped(name)}(?![\\w:-])`;
  const at = text.slice(from).search(new RegExp(pattern));
  if (at === -1) return { name: from, value: from, end: from };
  const start = from + at;
  const after = start + (name?.length ?? 1);
  const quoted = /^\s*=\s*(["'])([^"']*)\1/.exec(text.slice(after));
  if (!quoted) return { name: start, value: start, end: after };
  const value = after + quoted[0].length - 1 - quoted[2]!.length;
  return { name: start, value, end: after + quoted[0].length };
}

const escaped = (name: string) => name.replaceAll(/[^\w]/g, '\\$&');
