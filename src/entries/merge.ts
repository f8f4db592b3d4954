import type { Frontmatter } from './frontmatter.ts';
import { among, compareText, makeProblem } from './problem.ts';
import { child } from './schema-tree.ts';
import type { Path, Places, Problem } from './types.ts';

/** Values as written, with their places: a device alone, or with what it extends. */
export interface Written {
  readonly data: Readonly<Record<string, unknown>>;
  readonly places: Places;
}

/** What an entry adds to the one it extends, key by key; a key it repeats replaces the other's. */
const RECORDS: readonly PropertyKey[] = [
  ...['terminals', 'elements', 'conditions', 'outcomes'],
  ...['items', 'cables', 'modes'],
];
/** What an entry adds to the end of the list of the one it extends. */
const LISTS: readonly PropertyKey[] = [
  ...['aliases', 'cautions', 'nodes'],
  ...['features', 'recognise', 'links', 'notes', 'exceptions'],
  ...['says', 'seen', 'shows', 'see'],
  ...['tools', 'steps', 'sources', 'abbreviations'],
];

/**
 * An entry's own values over those of the entry it extends, before any schema: a default
 * must not replace what the other one states. Anything that is no record or list above is
 * replaced whole.
 */
export function mergeWritten(base: Written, own: Written): Written {
  // Whoever read or checked the one has not thereby read the other, nor was the other ever called so.
  const { review, author, checked, formerly, ...inherited } = base.data;
  const data: Record<string, unknown> = { ...inherited, ...own.data };
  for (const key of RECORDS) {
    const [a, b] = [child(base.data, key), child(own.data, key)];
    if (isRecord(a) && isRecord(b)) data[String(key)] = { ...a, ...b };
  }
  for (const key of LISTS) {
    const [a, b] = [child(base.data, key), child(own.data, key)];
    if (Array.isArray(a) && Array.isArray(b)) data[String(key)] = [...a, ...b];
  }
  return { data, places: mergedPlaces(base, own) };
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function mergedPlaces(base: Written, own: Written): Places {
  const route = (path: Path): [places: Places, path: Path] => {
    const [key, part] = path;
    if (key === undefined) return [own.places, path];
    const list = child(base.data, key);
    if (LISTS.includes(key) && Array.isArray(list) && own.places.has([key])) {
      if (typeof part !== 'number') return [own.places, path];
      if (part < list.length) return [base.places, path];
      return [own.places, [key, part - list.length, ...path.slice(2)]];
    }
    const unit = path.slice(0, RECORDS.includes(key) ? 2 : 1);
    return !own.places.has(unit) && base.places.has(unit)
      ? [base.places, path]
      : [own.places, path];
  };
  return {
    has(path) {
      const [places, inner] = route(path);
      return places.has(inner);
    },
    value(path) {
      const [places, inner] = route(path);
      return places.value(inner);
    },
    key(path) {
      const [places, inner] = route(path);
      return places.key(inner);
    },
  };
}

/** Devices with what they extend merged in, in the order given. */
export interface Merged {
  /** Absent: a device that extends what is not there, cannot be read, or leads in a circle. */
  readonly devices: ReadonlyMap<string, Written>;
  readonly problems: readonly Problem[];
}

/** Follows every `extends`; a cycle is reported once, whole, at its first device by name. */
export function mergeAll(files: ReadonlyMap<string, Frontmatter>): Merged {
  const devices = new Map<string, Written>();
  const problems: Problem[] = [];
  const broken = new Set<string>();

  const visit = (id: string, trail: readonly string[]): Written | undefined => {
    const done = devices.get(id);
    if (done || broken.has(id)) return done;
    const file = files.get(id);
    if (!file?.data) return undefined;
    const own: Written = { data: file.data, places: file.places };
    const baseId = child(file.data, 'extends');
    if (typeof baseId === 'string' && !files.has(baseId)) {
      problems.push(unknownBase(id, baseId, own, files));
      broken.add(id);
      return undefined;
    }
    // Anything but a name is left to the schema.
    if (typeof baseId !== 'string') {
      devices.set(id, own);
      return own;
    }
    const along = [...trail, id];
    const start = along.indexOf(baseId);
    if (start !== -1) {
      const cycle = along.slice(start);
      problems.push(cycleProblem(cycle, files));
      for (const member of cycle) broken.add(member);
      return undefined;
    }
    const base = visit(baseId, along);
    if (!base || broken.has(id)) {
      broken.add(id);
      return undefined;
    }
    const merged = mergeWritten(base, own);
    devices.set(id, merged);
    return merged;
  };
  for (const id of files.keys()) visit(id, []);
  return { devices, problems };
}

function unknownBase(
  of: string,
  id: string,
  { places }: Written,
  files: ReadonlyMap<string, unknown>,
): Problem {
  const message = `there is no device “${id}” to extend`;
  const others = [...files.keys()].filter((other) => other !== of);
  const details = among(id, others);
  return makeProblem('device-unknown', places.value(['extends']), ['extends'], message, details);
}

function cycleProblem(cycle: readonly string[], files: ReadonlyMap<string, Frontmatter>): Problem {
  const [least = ''] = [...cycle].sort(compareText);
  const at = cycle.indexOf(least);
  const round = [...cycle.slice(at), ...cycle.slice(0, at), least];
  const message =
    cycle.length === 1
      ? `${least} extends itself`
      : `these devices extend one another in a circle: ${round.join(' → ')}`;
  return makeProblem(
    'device-cycle',
    files.get(least)!.places.value(['extends']),
    ['extends'],
    message,
    {
      found: round[1],
    },
  );
}
