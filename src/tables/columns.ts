/** Columns of a wiring table; the first four must be there. */
export const COLUMNS = [
  'from',
  'core',
  'to',
  'cable',
  'kind',
  'size',
  'earth size',
  'length',
  'sleeve',
  'why',
] as const;
export type Column = (typeof COLUMNS)[number];

/** Columns that every wiring table has. */
export const NEEDED: readonly Column[] = COLUMNS.slice(0, 4);

/** What stands in the cable column of a wire between two terminals of one item. */
export const LINK = 'link';

/** What is wrong with a line of a wiring table. */
export interface LineProblem {
  /** Counted from 1, the heading included. */
  readonly line: number;
  readonly column?: Column | undefined;
  readonly message: string;
  readonly found?: string | undefined;
  readonly allowed?: string | undefined;
  readonly suggestion?: string | undefined;
}

/** A line's problem as the command line prints it. */
export function formatLine({ line, column, message, ...rest }: LineProblem): string {
  const { found, allowed, suggestion } = rest;
  const text = [
    `line ${line}${column ? `, ${column}` : ''}: ${message}`,
    found !== undefined && `  found    ${found}`,
    allowed !== undefined && `  allowed  ${allowed}`,
    suggestion !== undefined && `  did you mean ${suggestion}?`,
  ];
  return text.filter((part) => typeof part === 'string').join('\n');
}
