import type { z } from 'zod';
import type { Path } from './types.ts';

/** A Zod issue whose path starts at the entry. */
export type Issue = z.core.$ZodIssue & { readonly path: PropertyKey[] };

/**
 * Replaces each union's issue by those of the form the author most likely meant, when one
 * form stands out; otherwise keeps the union's own.
 */
export function specificIssues(issues: readonly z.core.$ZodIssue[], above: Path = []): Issue[] {
  return issues.flatMap((issue): Issue[] => {
    const whole = { ...issue, path: [...above, ...issue.path] };
    if (whole.code !== 'invalid_union' || whole.errors.length === 0) return [whole];
    const likely = likeliest(whole.errors);
    return likely ? specificIssues(likely, whole.path) : [whole];
  });
}

/**
 * The one form with the fewest keys missing or unknown. A form that wants another type
 * altogether was not meant; forms that tie say nothing.
 */
function likeliest(forms: readonly z.core.$ZodIssue[][]): z.core.$ZodIssue[] | undefined {
  const meant = forms
    .filter((issues) => !issues.some(refusesWhole))
    .map((issues) => ({ issues, strays: issues.filter(isStray).length }))
    .sort((a, b) => a.strays - b.strays);
  const [best, second] = meant;
  if (!best) return undefined;
  if (second) return second.strays > best.strays ? best.issues : undefined;
  return best.issues;
}

const refusesWhole = ({ code, path }: z.core.$ZodIssue) =>
  path.length === 0 && (code === 'invalid_type' || code === 'invalid_value');

function isStray(issue: z.core.$ZodIssue): boolean {
  return issue.code === 'unrecognized_keys' || issue.input === undefined;
}
