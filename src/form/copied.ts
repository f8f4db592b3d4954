import { pathText } from '../entries/problem.ts';

/** Words from which on a line is taken to say something, and not to name a thing. */
const A_SENTENCE = 4;

/**
 * Where an entry says word for word what stands anywhere in another: what was copied, and speaks
 * of the other until it is written anew. Names of things and short labels are passed over.
 */
export function copiedIn(own: unknown, other: unknown): string[] {
  const found: string[] = [];
  const lines = new Set<string>();
  eachLine(other, [], (line) => lines.add(line));
  eachLine(own, [], (line, path) => {
    if (line.split(/\s+/).length >= A_SENTENCE && lines.has(line)) found.push(pathText(path));
  });
  return found;
}

function eachLine(
  value: unknown,
  path: readonly PropertyKey[],
  tell: (line: string, path: readonly PropertyKey[]) => void,
): void {
  if (typeof value === 'string') tell(value, path);
  else if (Array.isArray(value))
    for (const [i, one] of value.entries()) eachLine(one, [...path, i], tell);
  else if (typeof value === 'object' && value !== null)
    for (const [key, one] of Object.entries(value)) eachLine(one, [...path, key], tell);
}
