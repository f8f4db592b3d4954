import type { z } from 'zod';
import { missingDay } from '../../schemas/index.ts';
import type { ProblemCode } from './catalogue.ts';
import { colourMessage, colourNamed, isColours } from './colour-words.ts';
import type { JsonSchema } from './kinds.ts';
import { among, type Details, makeProblem, pathText } from './problem.ts';
import { child, describeAt, keysAt, schemasAt, TYPE_WORDS } from './schema-tree.ts';
import { didYouMeanSpelling, show } from './spelling.ts';
import type { Path, Places, Problem } from './types.ts';
import { type Issue, specificIssues } from './zod-unions.ts';

/** Stands where a schema states no message of its own. Pass it to the parse as `error`. */
export const NO_MESSAGE = '';

/** An entry under validation: its values, where they stand, and what may be said. */
export interface Subject {
  readonly data: unknown;
  readonly places: Places;
  readonly schema: JsonSchema;
}

/** Zod's issues as problems: one for every value, key or gap an author has to mend. */
export function schemaProblems(issues: readonly z.core.$ZodIssue[], subject: Subject): Problem[] {
  const specific = specificIssues(issues);
  const unknown = specific.flatMap((issue) =>
    issue.code === 'unrecognized_keys'
      ? issue.keys.map((key) => ({
          outer: issue.path,
          problem: unknownKey(subject, issue.path, key),
        }))
      : [],
  );
  // A misspelt key is one fault, not an unknown key and a missing one.
  const misspelt = new Set(
    unknown.map(({ outer, problem }) => pathText([...outer, problem.suggestion ?? ''])),
  );
  const rest = specific.flatMap((issue) => {
    if (issue.code === 'unrecognized_keys') return [];
    if (issue.code === 'invalid_key') return [wrongKey(issue, subject)];
    if (!isMissing(subject.data, issue.path)) return [wrong(issue, subject)];
    return misspelt.has(pathText(issue.path)) ? [] : [missing(issue, subject)];
  });
  return [...unknown.map(({ problem }) => problem), ...rest];
}

/** What keys of an entry are called now, and what the new name means. */
const RENAMED: Readonly<Record<string, { readonly to: string; readonly means: string }>> = {
  reviewed: {
    to: 'checked',
    means:
      'the day it was checked by the proofs and against its sources; who read it through is review: { by, on, due }',
  },
};

function unknownKey({ data, places, schema }: Subject, path: Path, key: string): Problem {
  const inner = [...path, key];
  const renamed = path.length === 0 && Object.hasOwn(RENAMED, key) ? RENAMED[key] : undefined;
  if (renamed)
    return makeProblem(
      'key-renamed',
      places.key(inner),
      inner,
      `“${key}” is called “${renamed.to}” now: ${renamed.means}`,
      { found: key, allowed: renamed.to },
    );
  const allowed = keysAt(schema, data, path);
  const used = new Set(Object.keys((valueAt(data, path) ?? {}) as object));
  const details = among(key, allowed);
  if (isColours(allowed))
    return makeProblem('colour-unknown', places.key(inner), inner, colourMessage(key), {
      ...details,
      suggestion: colourNamed(key) ?? details.suggestion,
    });
  const message = `“${key}” is no key here${standsIn({ data, places, schema }, path, key)}`;
  // A key that is already there is not what the author meant.
  const free = among(
    key,
    allowed.filter((name) => !used.has(name)),
  );
  const { suggestion } = free;
  return makeProblem('key-unknown', places.key(inner), inner, message, { ...details, suggestion });
}

/** Where a key that is none here would be one: under a key beside it, or a level further out. */
function standsIn({ data, schema }: Subject, path: Path, key: string): string {
  const inner = valueAt(data, [...path, key]);
  const under = keysAt(schema, data, path).filter((name) => {
    if (keysAt(schema, data, [...path, name]).includes(key)) return true;
    return takesKey(schema, data, [...path, name], key, inner);
  });
  if (under.length === 1) return `; it is one of “${under[0]}”, indented under it`;
  const outer = path.slice(0, -1);
  return path.length > 0 && keysAt(schema, data, outer).includes(key)
    ? `; it is a key of ${outer.length === 0 ? 'the entry' : `“${String(outer.at(-1))}”`}, one level further out`
    : '';
}

/** Whether a table of names of the author's own takes a name, and what stands under it. */
function takesKey(
  schema: JsonSchema,
  data: unknown,
  path: Path,
  key: string,
  inner: unknown,
): boolean {
  const given = typeof inner === 'object' && inner !== null ? Object.keys(inner) : [];
  const takes = schemasAt(schema, data, path).some(({ propertyNames }) => {
    const pattern = (propertyNames as { readonly pattern?: string } | undefined)?.pattern;
    return pattern !== undefined && new RegExp(pattern).test(key);
  });
  if (!takes || given.length === 0) return false;
  const keys = keysAt(schema, data, [...path, key]);
  return given.every((name) => keys.includes(name));
}

function wrongKey(issue: Issue & { code: 'invalid_key' }, { places }: Subject): Problem {
  const key = String(issue.path.at(-1));
  const [inner] = issue.issues;
  return makeProblem(
    'key-form',
    places.key(issue.path),
    issue.path,
    inner?.message || `“${key}” cannot be a key here`,
    {
      found: key,
      suggestion: inner ? didYouMeanSpelling(key, inner) : undefined,
    },
  );
}

function missing(issue: Issue, { data, places, schema }: Subject): Problem {
  const { path } = issue;
  const outer = path.slice(0, -1);
  const name = path.at(-1);
  const allowed = describeAt(schema, data, path);
  if (valueAt(data, path) === null) {
    const what = typeof name === 'number' ? 'this item of the list' : `“${String(name)}”`;
    return makeProblem('value-missing', places.key(path), path, `${what} has no value`, {
      allowed,
    });
  }
  const holder = outer.findLast((part) => typeof part !== 'number');
  const named = holder === undefined ? 'this entry' : `“${String(holder)}”`;
  const where = typeof outer.at(-1) === 'number' ? `this item of ${named}` : named;
  const message = `${where} has no “${String(name)}”`;
  return makeProblem('value-missing', places.key(outer), path, message, { allowed });
}

function wrong(issue: Issue, subject: Subject): Problem {
  const { data, places, schema } = subject;
  const { path } = issue;
  const value = valueAt(data, path);
  const found = show(value);
  const problem = (code: ProblemCode, usual: string, details: Details = {}) =>
    makeProblem(code, places.value(path), path, issue.message || usual, { found, ...details });
  switch (issue.code) {
    case 'invalid_value': {
      const choices = issue.values.map(String);
      if (typeof value === 'object')
        return problem('value-type', `this is ${typeWord(value)}; one value stands here`, {
          allowed: choices.join(', '),
        });
      const details = { ...among(String(value), choices), found };
      if (!isColours(choices))
        return problem('value-not-allowed', 'this is not one of the allowed values', details);
      const suggestion = colourNamed(String(value)) ?? details.suggestion;
      const message = colourMessage(String(value));
      return makeProblem('colour-unknown', places.value(path), path, message, {
        ...details,
        suggestion,
      });
    }
    case 'invalid_union': {
      const choices =
        'options' in issue && issue.options ? issue.options.map(String) : literalsOf(issue);
      if (choices.length > 0)
        return problem('value-not-allowed', 'this is not one of the allowed values', {
          ...among(String(value), choices),
          found,
        });
      const keys = keysAt(schema, data, path);
      const [own] = typeof value === 'object' && value !== null ? Object.keys(value) : [];
      const near = own === undefined ? undefined : among(own, keys).suggestion;
      return problem('value-form', 'this fits none of the allowed forms', { suggestion: near });
    }
    case 'invalid_type': {
      const wanted = TYPE_WORDS[issue.expected] ?? issue.expected;
      const quoted =
        issue.expected === 'string' && typeof value !== 'object'
          ? JSON.stringify(found)
          : undefined;
      const isMap = wanted === TYPE_WORDS.object;
      const begun = typeWord(value) === TYPE_WORDS.object ? '; its items begin with -' : '';
      const usual = `this is ${typeWord(value)}; ${wanted} ${isMap ? 'stand' : 'stands'} here${begun}`;
      return problem('value-type', usual, {
        allowed: isMap ? describeAt(schema, data, path) : wanted,
        suggestion: quoted ?? (issue.expected === 'array' ? asList(value) : undefined),
      });
    }
    case 'invalid_format': {
      const none = issue.format === 'date' ? missingDay(String(value)) : undefined;
      if (none) return problem('date-none', none.why, { suggestion: none.nearest });
      return problem('value-form', 'this is not written in the form asked for', {
        suggestion: didYouMeanSpelling(String(value), issue),
      });
    }
    case 'too_small':
    case 'too_big': {
      const limit = limitOf(issue);
      return problem('value-range', `this must be ${limit}`, { allowed: limit });
    }
    default:
      return problem('value-wrong', 'this value cannot stand here');
  }
}

/** A value that stands where a list of such is meant, as that list. */
function asList(value: unknown): string | undefined {
  const written = typeof value === 'string' && /[,[\]{}:#"]/.test(value) ? undefined : value;
  return typeof written === 'string' || typeof written === 'number' ? `[${written}]` : undefined;
}

function limitOf(issue: Issue & { code: 'too_small' | 'too_big' }): string {
  const least = issue.code === 'too_small';
  const limit = least ? issue.minimum : issue.maximum;
  const letters = Number(limit) === 1 ? 'character' : 'characters';
  const units: Readonly<Record<string, string>> = { string: ` ${letters}`, array: ' in the list' };
  const bound = `${limit}${units[issue.origin] ?? ''}`;
  if (issue.exact) return `exactly ${bound}`;
  if (least) return `${issue.inclusive ? 'at least' : 'more than'} ${bound}`;
  return `${issue.inclusive ? 'at most' : 'less than'} ${bound}`;
}

const valueAt = (data: unknown, path: Path): unknown => path.reduce(child, data);

/** Whether nothing was written at the path, or a key with nothing after it. */
function isMissing(data: unknown, path: Path): boolean {
  return path.length > 0 && (valueAt(data, path) ?? null) === null;
}

function typeWord(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'boolean') return String(value);
  return TYPE_WORDS[typeof value] ?? typeof value;
}

function literalsOf(issue: Issue & { code: 'invalid_union' }): string[] {
  const branches = issue.errors.flat();
  return branches.every((inner) => inner.code === 'invalid_value')
    ? branches.flatMap((inner) => (inner.code === 'invalid_value' ? inner.values.map(String) : []))
    : [];
}
