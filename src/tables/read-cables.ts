import { type Cable, CableReference, type System } from '../../schemas/index.ts';
import { among, colourNamed, insideSmartQuotes } from '../entries/index.ts';
import { COLOUR_CODES, CONDUCTOR_SIZES } from '../published/index.ts';
import { COLUMNS, type Column, LINK, type LineProblem, NEEDED } from './columns.ts';
import { readCsv, separatorOf } from './csv.ts';

/** A system's conductors as a table gives them. */
export interface TableWiring {
  readonly cables: System['cables'];
  readonly links: System['links'];
  /** Line of the table by path inside the entry, as `cables.W2.cores.BN`. */
  readonly lines: ReadonlyMap<string, number>;
}

/** What a table is read against: what there is to join. */
export interface Ground {
  /** Terminals of each item by reference designation. */
  readonly items: ReadonlyMap<string, readonly string[]>;
  /** Cables as they are: what the table does not say of one stays. */
  readonly cables: System['cables'];
}

type Draft = { -readonly [K in keyof Cable]?: Cable[K] } & Pick<Cable, 'cores' | 'spare'>;

const KINDS = ['flex', 'twin and earth', 'fixed lead', 'single'] as const;

/**
 * Reads a wiring table: a line for each core, from terminal to terminal, in a cable. A line
 * without terminals is a core cut back and joined to nothing; a line whose cable is `link` is
 * a wire between two terminals of one item. Kind, size and length may stand on any line of
 * a cable. Every line that cannot be placed is a problem, all of them in one run.
 */
export function readCables(
  text: string,
  ground: Ground,
): TableWiring & { readonly problems: readonly LineProblem[] } {
  const problems: LineProblem[] = [];
  const drafts = new Map<string, Draft>();
  const links: { between: [string, string]; why?: string | undefined }[] = [];
  const lines = new Map<string, number>();
  const decimal = separatorOf(text) === ',' ? '.' : ',';
  const { rows, open } = readCsv(text);
  if (open !== undefined) problems.push({ line: open, message: 'a quotation mark is not closed' });
  const [heading, ...body] = rows;
  const columns = columnsOf(heading, problems);
  if (!columns) return { cables: {}, links, lines, problems };

  for (const { line, cells } of body) {
    const cell = (column: Column) => cells[columns.indexOf(column)] ?? '';
    const refuse = (column: Column, message: string, details = {}) =>
      void problems.push({ line, column, message, ...details });
    const curly = cells.findIndex((text) => insideSmartQuotes(text) !== undefined);
    if (curly !== -1) {
      const found = cells[curly]!;
      const suggestion = insideSmartQuotes(found);
      problems.push({ line, column: columns[curly], message: CURLY, found, suggestion });
      continue;
    }
    if (cells.length > columns.length)
      problems.push({
        line,
        message: `this line has ${cells.length} cells for ${columns.length} columns`,
      });
    const end = (column: 'from' | 'to') => terminalIn(cell(column), ground, column, refuse);
    if (cell('cable').toLowerCase() === LINK) {
      const [from, to] = [end('from'), end('to')];
      lines.set(`links[${links.length}]`, line);
      if (cell('core') !== '') refuse('core', 'a link has no core; leave the cell empty');
      if (from && to)
        links.push({ between: [from, to], ...(cell('why') ? { why: cell('why') } : {}) });
      continue;
    }
    const reference = cableIn(cell('cable'), refuse);
    if (reference === undefined) continue;
    const draft = drafts.get(reference) ?? { cores: {}, spare: [] };
    if (!drafts.has(reference)) lines.set(`cables.${reference}`, line);
    drafts.set(reference, draft);
    readFacts(draft, cell, decimal, refuse);
    const colour = colourIn('core', cell, refuse);
    if (colour === undefined) {
      if (cell('core') === '') refuse('core', 'the core’s colour is missing', { allowed: CODES });
      continue;
    }
    const taken = draft.cores[colour] !== undefined || draft.spare.includes(colour);
    if (taken) {
      refuse('core', `${reference} has a core ${colour} already`, { found: cell('core') });
      continue;
    }
    lines.set(`cables.${reference}.cores.${colour}`, line);
    if (cell('from') === '' && cell('to') === '') draft.spare.push(colour);
    else {
      const [from, to] = [end('from'), end('to')];
      const sleeve = cell('sleeve') === '' ? undefined : colourIn('sleeve', cell, refuse);
      if (from && to) draft.cores[colour] = { ends: [from, to], sleeve };
    }
  }
  const cables: Record<string, Cable> = {};
  for (const [reference, draft] of drafts) {
    const line = lines.get(`cables.${reference}`)!;
    const before = Object.hasOwn(ground.cables, reference) ? ground.cables[reference] : undefined;
    const { kind = before?.kind, size = before?.size, length = before?.length } = draft;
    const earthSize = draft.earthSize ?? (draft.size === undefined ? before?.earthSize : undefined);
    for (const [column, value, allowed] of [
      ['kind', kind, KINDS.join(', ')],
      ['size', size, SIZES],
      ['length', length, 'metres, as in 12.5'],
    ] as const)
      if (value === undefined)
        problems.push({
          line,
          column,
          message: `no line of ${reference} says its ${column}`,
          allowed,
        });
    if (kind === undefined || size === undefined || length === undefined) continue;
    const { cores, spare } = draft;
    cables[reference] = {
      ...{ kind, size },
      ...(earthSize === undefined ? {} : { earthSize }),
      ...{ length, cores, spare },
    };
  }
  return { cables, links, lines, problems: problems.sort((a, b) => a.line - b.line) };
}

const CURLY =
  'typographic quotation marks would become part of this; a table knows only straight ones, and needs them only around a separator';

type Refuse = (column: Column, message: string, details?: object) => void;

const CODES = Object.keys(COLOUR_CODES).join(', ');
const SIZES = `${CONDUCTOR_SIZES.join(', ')} (mm²)`;

/** The columns by place, from the heading. */
function columnsOf(
  heading: { readonly line: number; readonly cells: readonly string[] } | undefined,
  problems: LineProblem[],
): readonly (Column | undefined)[] | undefined {
  if (!heading) {
    problems.push({ line: 1, message: 'the table is empty', allowed: COLUMNS.join(', ') });
    return undefined;
  }
  const { line, cells } = heading;
  const names = cells.map((cell) => cell.toLowerCase().replaceAll(/[\s_-]+/g, ' '));
  const columns = names.map((name) => COLUMNS.find((one) => one === name));
  names.forEach((name, i) => {
    if (columns[i] === undefined && name !== '')
      problems.push({ line, message: `“${cells[i]}” is no column`, ...among(name, COLUMNS) });
    else if (name !== '' && names.indexOf(name) < i)
      problems.push({ line, message: `the column “${cells[i]}” stands twice` });
  });
  const missing = NEEDED.filter((column) => !columns.includes(column));
  for (const column of missing)
    problems.push({ line, message: `there is no column “${column}”`, allowed: COLUMNS.join(', ') });
  return missing.length > 0 ? undefined : columns;
}

function cableIn(found: string, refuse: Refuse): string | undefined {
  if (CableReference.safeParse(found).success) return found;
  const near = /^w?\s*0*(\d{1,2})$/i.exec(found)?.[1];
  const message =
    found === '' ? 'the cable is missing' : 'a cable is W and a number, or the word link';
  refuse('cable', message, {
    ...(found === '' ? {} : { found }),
    allowed: 'W1, W2 … or link',
    ...(near === undefined ? {} : { suggestion: `W${near}` }),
  });
  return undefined;
}

/** A terminal of an item that there is, written ITEM.terminal. */
function terminalIn(
  found: string,
  { items }: Ground,
  column: Column,
  refuse: Refuse,
): string | undefined {
  if (found === '') {
    refuse(column, 'the terminal is missing', { allowed: 'ITEM.terminal, as in E1.call feed' });
    return undefined;
  }
  const [, item = '', name = ''] = /^([A-Za-z]{1,2}\d{1,2})\s*[.:/\s]\s*(.+)$/.exec(found) ?? [];
  if (item === '') {
    const allowed = 'ITEM.terminal, as in E1.call feed';
    refuse(column, 'a terminal is its item, a full stop and its name', { found, allowed });
    return undefined;
  }
  const terminals = items.get(item);
  if (!terminals) {
    refuse(column, `this system has no item ${item}`, {
      ...among(item, items.keys()),
      found,
    });
    return undefined;
  }
  if (terminals.includes(name) && found === `${item}.${name}`) return found;
  const message = terminals.includes(name)
    ? 'a terminal is its item, a full stop and its name'
    : `${item} has no terminal “${name}”`;
  const details = among(name, terminals, (one) => `${item}.${one}`);
  const suggestion = terminals.includes(name) ? `${item}.${name}` : details.suggestion;
  refuse(column, message, {
    ...details,
    found,
    ...(suggestion === undefined ? {} : { suggestion }),
  });
  return undefined;
}

function colourIn(
  column: 'core' | 'sleeve',
  cell: (column: Column) => string,
  refuse: Refuse,
): keyof Cable['cores'] | undefined {
  const found = cell(column);
  if (found === '') return undefined;
  const code = Object.hasOwn(COLOUR_CODES, found) ? found : colourNamed(found);
  if (code !== undefined) return code as keyof Cable['cores'];
  const details = among(found.toUpperCase(), Object.keys(COLOUR_CODES));
  refuse(column, `“${found}” is no core colour`, { ...details, found });
  return undefined;
}

/** Kind, sizes and length, where a line gives them; two lines of a cable must agree. */
function readFacts(
  draft: Draft,
  cell: (column: Column) => string,
  decimal: string,
  refuse: Refuse,
): void {
  const take = <K extends 'kind' | 'size' | 'earthSize' | 'length'>(
    key: K,
    column: Column,
    read: (text: string) => Cable[K] | undefined,
    allowed: string,
  ) => {
    const found = cell(column);
    if (found === '') return;
    const value = read(found);
    if (value === undefined) refuse(column, `this is no ${column}`, { found, allowed });
    else if (draft[key] !== undefined && draft[key] !== value)
      refuse(column, `another line of this cable says ${String(draft[key])}`, { found });
    else (draft as { [key: string]: unknown })[key] = value;
  };
  const number = (found: string, unit: RegExp) => {
    const plain = found.replace(unit, '').trim().replace(decimal, '.');
    return /^\d+(\.\d+)?$/.test(plain) ? Number(plain) : undefined;
  };
  const size = (found: string) => {
    const value = number(found, /mm(²|2|\^2)?$/i);
    return CONDUCTOR_SIZES.find((one) => one === value);
  };
  take(
    'kind',
    'kind',
    (found) => KINDS.find((one) => one === found.toLowerCase()),
    KINDS.join(', '),
  );
  take('size', 'size', size, SIZES);
  take('earthSize', 'earth size', size, SIZES);
  const metres = (found: string) => {
    const value = number(found, /m$/i);
    return value !== undefined && value > 0 && value <= 100 ? value : undefined;
  };
  take('length', 'length', metres, 'metres above 0 and up to 100');
}
