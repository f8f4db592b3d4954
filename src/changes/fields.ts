import type { Found } from './line.ts';
import type { ChangeKind } from './ranks.ts';
import { type Step, type StepChange, stepChanges } from './steps.ts';
import { nowAndWas, type Paired, quoted, same, textPairs } from './values.ts';

export type Says = Readonly<Record<string, unknown>>;

/** What is known of both states of an entry while one field of it is compared. */
export interface Context {
  readonly was: Says;
  readonly now: Says;
  /** How grave a house standard is, by its id; the graver of what it was and is. */
  readonly severityOf?: (standard: string) => 'danger' | 'fault' | 'advice' | undefined;
}

/** How a field is compared and of what kind its changes are. */
export type Field = (was: unknown, now: unknown, context: Context) => readonly Found[];

type KindOf = ChangeKind | ((context: Context) => ChangeKind);
const kindIn = (kind: KindOf, context: Context): ChangeKind =>
  typeof kind === 'function' ? kind(context) : kind;

/** One value: what it is now and what it was. */
export const value =
  (kind: KindOf, label: string): Field =>
  (was, now, context) =>
    same(was, now)
      ? []
      : [{ kind: kindIn(kind, context), words: `${label}: ${nowAndWas(now, was)}` }];

/** Texts in any order: reworded, added, taken out, a line each. */
export const texts =
  (kind: KindOf, label: string): Field =>
  (was, now, context) =>
    textPairs(listOf(was), listOf(now)).map((pair) => ({
      kind: kindIn(kind, context),
      words: pairWords(label, pair),
    }));

/** Short names in any order, all that came and went in one line. */
export const names =
  (kind: KindOf, label: string): Field =>
  (was, now, context) => {
    const [old, is] = [listOf(was), listOf(now)];
    const come = is.filter((one) => !old.includes(one));
    const gone = old.filter((one) => !is.includes(one));
    const parts = [
      ...(come.length > 0 ? [`added ${come.map(quoted).join(', ')}`] : []),
      ...(gone.length > 0 ? [`taken out ${gone.map(quoted).join(', ')}`] : []),
    ];
    return parts.length === 0
      ? []
      : [{ kind: kindIn(kind, context), words: `${label}: ${parts.join('; ')}` }];
  };

/** Acts in order; the kind of each may hang on its fields. */
export const steps =
  (kindOf: (change: StepChange, context: Context) => ChangeKind): Field =>
  (was, now, context) =>
    stepChanges(listOf<Step>(was), listOf<Step>(now)).map((change) => ({
      kind: kindOf(change, context),
      words: change.words,
    }));

/** Whatever is inside, told as a whole: for what no reader reads word by word. */
export const whole =
  (kind: KindOf, label: string): Field =>
  (was, now, context) =>
    same(was, now) ? [] : [{ kind: kindIn(kind, context), words: `${label}: otherwise` }];

/** What stands in the file of a system and is compared as a circuit, or is told by another field. */
export const elsewhere: Field = () => [];

/** By name: what came, what went, and field by field what stayed. */
export const record =
  (
    label: string,
    kind: ChangeKind,
    fields: Readonly<Record<string, Field>>,
    called: (name: string, one: Says) => string = (name) => quoted(name),
  ): Field =>
  (was, now, context) => {
    const [old, is] = [recordOf(was), recordOf(now)];
    return [...new Set([...Object.keys(old), ...Object.keys(is)])].flatMap((name): Found[] => {
      const [a, b] = [old[name], is[name]];
      if (!b) return [{ kind, words: `${label} ${called(name, a!)} taken out` }];
      if (!a) return [{ kind, words: `${label} ${called(name, b)} added` }];
      return fieldChanges(fields, a, b, { ...context, was: a, now: b }).map((found) => ({
        ...found,
        words: `${label} ${called(name, b)}: ${uncapital(found.words)}`,
      }));
    });
  };

/**
 * Every field of both states by its rule. A field that no rule is about is compared as a value:
 * what is new in a schema is told before anybody thought of it here.
 */
export function fieldChanges(
  fields: Readonly<Record<string, Field>>,
  was: Says,
  now: Says,
  context: Context = { was, now },
): Found[] {
  return [...new Set([...Object.keys(was), ...Object.keys(now)])].flatMap((name) => [
    ...(Object.hasOwn(fields, name) ? fields[name]! : value('place', name))(
      was[name],
      now[name],
      context,
    ),
  ]);
}

function pairWords(label: string, { was, now }: Paired<string>): string {
  if (was === undefined) return `${label} added: ${quoted(now!)}`;
  if (now === undefined) return `${label} taken out: ${quoted(was)}`;
  return `${label} reworded: now ${quoted(now)}, was ${quoted(was)}`;
}

export const listOf = <T = string>(value: unknown): T[] => (Array.isArray(value) ? value : []);
export const recordOf = (value: unknown): Record<string, Says> =>
  (value ?? {}) as Record<string, Says>;

const uncapital = (words: string) =>
  /^[A-Z][a-z]/.test(words) ? words.charAt(0).toLowerCase() + words.slice(1) : words;
