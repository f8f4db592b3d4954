/** A stretch of prose under one heading. */
export interface Section {
  /** Empty before the first heading. */
  readonly heading: string;
  /** Paragraphs, points of lists and rows of tables, a line each. */
  readonly prose: string;
}

/** A point of a list or a row of a table: a line of its own wherever the text breaks. */
const OWN_LINE = /^(?:[-*+] |\d+[.)] |\|)/;

/**
 * Prose by its headings, the same however an author breaks and indents its lines. Sections with
 * nothing in them are left out.
 */
export function sectionsOf(body: string): Section[] {
  const sections: { heading: string; lines: string[] }[] = [{ heading: '', lines: [] }];
  let open = false;
  for (const raw of plain(body).split(/\r?\n/)) {
    const line = raw.trim().replaceAll(/\s+/g, ' ');
    const heading = /^#{1,6} (.+?)(?: #+)?$/.exec(line)?.[1];
    if (heading !== undefined) sections.push({ heading, lines: [] });
    const { lines } = sections.at(-1)!;
    if (line === '' || heading !== undefined) {
      open = false;
      continue;
    }
    if (open && !OWN_LINE.test(line)) lines.push(`${lines.pop()} ${line}`);
    else lines.push(isRule(line) ? '' : line);
    open = true;
  }
  return sections
    .map(({ heading, lines }) => ({ heading, prose: lines.filter(Boolean).join('\n') }))
    .filter(({ heading, prose }) => heading !== '' || prose !== '');
}

/** The line under a table's head says nothing. */
const isRule = (line: string) => /^\|[\s|:-]+$/.test(line);

/** Without comments, which stand on no page; a component is said by what it is of: `[E1.L, standby]`. */
const plain = (body: string) =>
  body
    .replaceAll(/\{\/\*.*?\*\/\}/gs, '')
    .replaceAll(/<[A-Z]\w*((?:\s+[\w-]+="[^"]*")*)\s*\/>/g, (_, attributes: string) => {
      const values = [...attributes.matchAll(/="([^"]*)"/g)].map(([, value]) => value);
      return values.length === 1 ? values[0]! : `[${values.join(', ')}]`;
    });
