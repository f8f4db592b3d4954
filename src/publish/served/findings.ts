/** Something that a published address does otherwise than the site needs, its cause first. */
export interface Finding {
  /** One for each thing that is wrong; the same thing at several files is told once. */
  readonly what: string;
  readonly path: string;
  readonly found: string;
  readonly allowed: string;
  /** How to put it right. */
  readonly mend: string;
}

/** A finding as it is said of all the files at which it was made. */
export interface Told extends Finding {
  /** Further files at which the same was found. */
  readonly also: readonly string[];
}

/** What is wrong at several files as one finding, told of the first, in the order they were met. */
export const together = (findings: readonly Finding[]): Told[] =>
  [...Map.groupBy(findings, ({ what }) => what).values()].map(([first, ...more]) => ({
    ...first!,
    also: more.map(({ path }) => path),
  }));

/** A finding as text: where, the cause, what was found, what is allowed, how to put it right. */
export function findingText(
  base: string,
  { what, path, found, allowed, mend, also }: Told,
): string {
  const more = also.length === 0 ? '' : ` (and ${also.length} more)`;
  return [
    `${base}${path}${more}: ${what}`,
    `  found    ${found}`,
    `  allowed  ${allowed}`,
    `  mend     ${mend}`,
  ].join('\n');
}
