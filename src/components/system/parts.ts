/** The pages of a system, each by the end of its address, and what stands on which. */
export type Part = '' | 'live-path' | 'readings' | 'diagram' | 'wiring' | 'sheet';

/** Sections in order: id, the page it stands on, and the name its link has. */
export const SECTIONS = [
  ['sequence', '', 'What is wrong'],
  ['live-path', 'live-path', 'Live path'],
  ['cautions', '', 'Cautions'],
  ['readings', 'readings', 'Readings'],
  ['diagram', 'diagram', 'Diagram'],
  ['wiring', 'wiring', 'Wiring'],
  ['cables', 'wiring', 'Cables'],
  ['facts', '', 'Recognise'],
  ['symptoms', '', 'Symptoms'],
  ['standards', '', 'Standards'],
  ['how', '', 'How it works'],
  ['record', '', 'Notes and version'],
] as const satisfies readonly (readonly [string, Part, string])[];

/** Sections that the sheet to print has too. */
export const ON_SHEET: ReadonlySet<string> = new Set([
  ...['sequence', 'cautions', 'readings', 'diagram', 'wiring', 'facts', 'how', 'record'],
]);

/** Address of a part of a system below the site's root. */
export const partPath = (system: string, part: Part): string =>
  `/systems/${system}/${part === '' ? '' : `${part}/`}`;

/** Beginnings of anchors that stand on a page of their own; all once stood on the system's page. */
const MOVED: readonly (readonly [RegExp, Part])[] = [
  [/^(terminal-|readings|pair-)/, 'readings'],
  [/^(live-path|path-)/, 'live-path'],
  [/^diagram/, 'diagram'],
  [/^(wiring|core-|cable|continuity)/, 'wiring'],
];

/** The page that an anchor of a system stands on: its first page unless it has moved. */
export const partOfAnchor = (anchor: string): Part =>
  MOVED.find(([beginning]) => beginning.test(anchor))?.[1] ?? '';
