import { Composition, type Device, type Module } from '../../schemas/index.ts';
import { compose, Refusal, type Specification } from '../compose/index.ts';
import { jsonSchemaOf } from './kinds.ts';
import { mergeWritten, type Written } from './merge.ts';
import { among, makeProblem } from './problem.ts';
import type { ReadEntry } from './read-entry.ts';
import { child } from './schema-tree.ts';
import type { Path, Places, Problem } from './types.ts';
import { NO_MESSAGE, schemaProblems } from './zod-problems.ts';

/** What compositions are made from: modules and devices that their schemas accept. */
interface Parts {
  readonly modules: ReadonlyMap<string, Module>;
  readonly devices: ReadonlyMap<string, Device>;
}

/** Systems with what they are composed from written out, by id, before any schema. */
export interface Expanded {
  /** Absent: a system that cannot be read or composed. */
  readonly systems: ReadonlyMap<string, Written>;
  readonly problems: readonly Problem[];
}

/**
 * Writes out every system that says `compose`: the composed system, with what the entry itself
 * says laid over it key by key; cues of its own replace the composed ones. A generated value
 * stands where `compose` stands in the file.
 */
export function expandAll(files: readonly ReadEntry[], parts: Parts): Expanded {
  const systems = new Map<string, Written>();
  const problems: Problem[] = [];
  for (const { id, frontmatter } of files) {
    const { data, places } = frontmatter;
    if (!data) continue;
    const own: Written = { data, places };
    if (data.compose === undefined) systems.set(id, own);
    else {
      const { written, found } = expand(own, parts);
      if (written) systems.set(id, written);
      problems.push(...found);
    }
  }
  return { systems, problems };
}

function expand(
  own: Written,
  parts: Parts,
): { readonly written?: Written; readonly found: readonly Problem[] } {
  const { data, places } = own;
  const read = Composition.safeParse(data.compose, { reportInput: true, error: () => NO_MESSAGE });
  if (!read.success) {
    const issues = read.error.issues.map((issue) => ({
      ...issue,
      path: ['compose', ...issue.path],
    }));
    const subject = { data, places, schema: jsonSchemaOf('system') };
    return { found: schemaProblems(issues, subject) };
  }
  try {
    const title = typeof data.title === 'string' ? { title: data.title } : {};
    const specification = { ...read.data, ...title } as Specification;
    const { system } = compose(specification, parts);
    const composed = JSON.parse(JSON.stringify(system));
    // Who wrote down by what the whole is known has no need of what its parts are known by.
    if (data.recognise !== undefined) delete composed.recognise;
    const base: Written = {
      data: composed,
      places: generatedFrom(places, system),
    };
    return { written: mergeWritten(base, own), found: [] };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    const path = ['compose', ...pathTo(data.compose, error.at)];
    const names = allowedFor(
      error,
      parts,
      child(valueIn(data.compose, path.slice(1, -1)), 'module'),
    );
    const details = names ? among(error.at, names) : {};
    const at = path.length > 1 ? places.value(path) : places.key(path);
    const message = `nothing composes this: ${error.message}`;
    return { found: [makeProblem('composition-refused', at, path, message, details)] };
  }
}

/** What might stand in the place of a name that is refused; undefined where it is no name that is wrong. */
function allowedFor(
  { reason }: Refusal,
  { modules }: Parts,
  module: unknown,
): readonly string[] | undefined {
  if (reason === 'no such module') return [...modules.keys()];
  if (reason !== 'no such variant') return undefined;
  return Object.keys(modules.get(String(module))?.variants ?? {});
}

const valueIn = (value: unknown, path: readonly (string | number)[]): unknown =>
  path.reduce(child, value);

/** Where a name stands in what is written; nowhere where it is not itself a value of it. */
function pathTo(value: unknown, name: string): (string | number)[] {
  if (typeof value !== 'object' || value === null) return [];
  for (const [key, one] of Object.entries(value)) {
    const at = Array.isArray(value) ? Number(key) : key;
    if (one === name) return [at];
    const within = pathTo(one, name);
    if (within.length > 0) return [at, ...within];
  }
  return [];
}

/** Every generated value stands where the composition does. */
function generatedFrom(places: Places, system: unknown): Places {
  const place = () => places.key(['compose']);
  const has = (path: Path): boolean => {
    let at = system;
    for (const key of path) at = child(at, key);
    return at !== undefined;
  };
  return { has, value: place, key: place };
}
