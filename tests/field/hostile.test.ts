import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  countsText,
  gather,
  keptOf,
  readCounts,
  readFieldText,
  readReports,
  shown,
} from '../../src/field/index.ts';
import { HOSTILE_KINDS, REPORT, VISIT, writeHostile, writeOddities } from './hostile-files.ts';

const PROJECT = fileURLToPath(new URL('../../', import.meta.url));
const SYSTEMS = ['combi-two-wire'];
const known = {
  current: (path: string) =>
    SYSTEMS.some((id) => path.startsWith(`systems/${id}/`)) ? path : undefined,
  systems: SYSTEMS,
};

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'hostile-field-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const inFolder = (name: string, files: Readonly<Record<string, string>>) => {
  const into = join(folder, name);
  mkdirSync(into);
  for (const [file, body] of Object.entries(files)) writeFileSync(join(into, file), body);
  return into;
};

/** Runs the command as it is typed, on a machine where nothing of it may be executed. */
function run(...words: string[]) {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [join(PROJECT, 'src/cli/gather.ts'), ...words],
    { cwd: PROJECT, encoding: 'utf8' },
  );
  return { status, said: stdout, error: stderr };
}

describe('two hundred hostile files in one folder', () => {
  let written: ReturnType<typeof writeHostile>;
  let odd: string[];
  let into: string;
  beforeAll(() => {
    into = inFolder('all', {});
    written = writeHostile(into);
    odd = writeOddities(into);
  });

  test('are two hundred, each with a name of its own', () => {
    expect(HOSTILE_KINDS.map(({ files }) => files.length)).toEqual(Array(20).fill(10));
    expect(new Set(written.map(({ file }) => file)).size).toBe(200);
  });

  test('are refused or held as data, each by itself, and nothing is thrown', () => {
    const { reports, visits, again, refused } = gather(into, known);
    const held = new Set([...reports, ...visits].map(({ name }) => name));
    const out = new Set(refused.map(({ name }) => name));
    expect(
      written.filter(({ file, fate }) => (fate === 'held' ? held : out).has(file) === false),
    ).toEqual([]);
    for (const name of odd) expect([name, out.has(name)]).toEqual([name, true]);
    expect(again).toEqual([]);
    expect(held.size + out.size).toBe(200 + odd.length);
    for (const { problem, allowed } of refused)
      expect([problem, allowed].every((text) => text.length > 3)).toBe(true);
    expect(Object.hasOwn(Object.prototype, 'owned')).toBe(false);
    expect((globalThis as { owned?: unknown }).owned).toBeUndefined();
  });

  test('what was written stays as it was written', () => {
    const { reports } = gather(into, known);
    const script = reports.find(({ name }) => name === '00-1.json')!;
    expect(script.file.seen).toBe('<script>globalThis.owned=1</script>');
  });

  test('the command reads them all, steers no terminal and runs nothing', () => {
    const before = readdirSync(PROJECT);
    const { status, said, error } = run(into);
    expect([status, error]).toEqual([0, '']);
    expect(said).toMatch(/^40 reports, 20 visits, \d+ files not taken\n/);
    // Nothing but lines: no control character, no mark of direction.
    expect(said.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Cf}]/u);
    expect(readdirSync(PROJECT)).toEqual(before);
    expect(existsSync(join(into, 'owned'))).toBe(false);
    expect(said).toContain('sparse.json: the file has 2048.0 MB\n    allowed  at most 2 MB');
    expect(said).toContain('link.json: it is a link\n');
  });
});

describe('a saved conversation', () => {
  test('is read message by message, with who sent them and when before them', () => {
    const other = { ...VISIT, id: 'visit-00002', cause: 'valve' };
    const into = inFolder('talk', {
      'talk.txt': [
        `21/11/2026, 16:02 - A. Name: ${JSON.stringify(VISIT)}`,
        '21/11/2026, 16:03 - B. Name: thanks {"proveline" again',
        `> ${JSON.stringify(REPORT)}`,
        `[22/11/2026 08:15] A. Name: ${JSON.stringify(other)} ok?`,
        JSON.stringify({ ...REPORT, id: 'report-0002', page: 'systems/none/' }),
        JSON.stringify(VISIT),
      ].join('\r\n'),
    });
    const { visits, reports, again, refused } = gather(into, known);
    expect(visits.map(({ name, file }) => [name, file.cause])).toEqual([
      ['talk.txt, message 1', 'control'],
      ['talk.txt, message 4', 'valve'],
    ]);
    expect(reports.map(({ name }) => name)).toEqual(['talk.txt, message 3']);
    expect(again).toEqual([{ name: 'talk.txt, message 6', first: 'talk.txt, message 1' }]);
    expect(refused.map(({ name, problem }) => `${name}: ${problem}`)).toEqual([
      'talk.txt, message 2: it is not whole JSON: it may be cut short',
      'talk.txt, message 5: there is no entry systems/none here',
    ]);
  });

  test('of more messages than anybody sends is read as far as that', () => {
    const line = (i: number) => JSON.stringify({ ...REPORT, id: `report-${10_000 + i}` });
    const into = inFolder('long', {
      'long.txt': Array.from({ length: 1200 }, (_, i) => line(i)).join('\n'),
    });
    const { reports, refused } = gather(into, known);
    expect(reports).toHaveLength(1000);
    expect(refused.map(({ problem, allowed }) => [problem, allowed])).toEqual([
      ['200 more messages stand in it', 'the first 1000'],
    ]);
  });
});

describe('what comes twice', () => {
  test('is counted once, and what has the same id and says otherwise is held', () => {
    const into = inFolder('twice', {
      'a.json': JSON.stringify(VISIT),
      'b.json': JSON.stringify(VISIT),
      'c.json': JSON.stringify({ ...VISIT, cause: 'valve' }),
    });
    const { visits, again, refused } = gather(into, known);
    expect(visits.map(({ name }) => name)).toEqual(['a.json']);
    expect(again).toEqual([{ name: 'b.json', first: 'a.json' }]);
    expect(refused.map(({ name, problem }) => [name, problem])).toEqual([
      ['c.json', 'it has the id of a.json and says something else'],
    ]);
  });

  test('a report is kept, of nobody’s house, and told once', () => {
    const into = inFolder('reported', { 'a.json': JSON.stringify(REPORT) });
    const firm = inFolder('reporting-firm', { 'firm.yaml': 'name: Invented Firm\n' });
    const file = join(firm, 'field/reports.json');
    const first = run(into, '--firm', firm).said;
    expect(first).toMatch(/^1 report, 0 visits\n\nReported as wrong\n/);
    expect(first).toContain('1 report added to');
    const kept = readFileSync(file, 'utf8');
    expect(readReports(kept)).toEqual({ reports: [keptOf(REPORT)] });
    // In the next month the same folder holds one more.
    const later = { ...REPORT, id: 'report-of-december', on: '2026-12-01' };
    writeFileSync(join(into, 'b.json'), JSON.stringify(later));
    const second = run(into, '--firm', firm).said;
    expect(second).toMatch(/^2 reports \(1 told before\), 0 visits\n/);
    expect(second).toMatch(/^ {4}2026-12-01 /m);
    expect(second).not.toContain(`    ${REPORT.on} `);
    expect(readFileSync(file, 'utf8').split('\n').slice(0, 2)).toEqual([
      kept.split('\n')[0],
      `${kept.split('\n')[1]},`,
    ]);
    expect(run(into, '--firm', firm).said).toMatch(/^2 reports \(2 told before\), 0 visits\n$/);
    // One that is not in order is not written over.
    writeFileSync(file, kept.slice(0, 60));
    const refused = run(into, '--firm', firm);
    expect([refused.status, refused.error]).toEqual([
      1,
      expect.stringContaining('reports.json: it is not whole JSON. Put this right first'),
    ]);
    expect(readFileSync(file, 'utf8')).toBe(kept.slice(0, 60));
  });

  test('in two months is counted once too, and the file of counts stays as it is', () => {
    const into = inFolder('months', { 'a.json': JSON.stringify(VISIT) });
    const firm = inFolder('firm', { 'firm.yaml': 'name: Invented Firm\n' });
    expect(run(into, '--firm', firm).said).toContain('1 visit added to');
    const counts = readFileSync(join(firm, 'field/counts.json'), 'utf8');
    expect(readCounts(counts)).toEqual({
      visits: [
        {
          id: VISIT.id,
          on: VISIT.on,
          system: VISIT.system,
          history: VISIT.history,
          family: VISIT.cause,
          minutes: VISIT.minutes,
        },
      ],
    });
    expect(run(into, '--firm', firm).said).toContain('No new visit: the counts stand');
    expect(readFileSync(join(firm, 'field/counts.json'), 'utf8')).toBe(counts);
    writeFileSync(join(into, 'a.json'), JSON.stringify({ ...VISIT, cause: 'pump' }));
    expect(run(into, '--firm', firm).said).toContain('this visit is counted already, as control');
  });
});

describe('a message', () => {
  test('says which version made it where that is newer, and what to do', () => {
    const newer = readFieldText(JSON.stringify({ ...REPORT, version: 2 }));
    expect(newer).toEqual({
      problem: 'it is of version 2, made by a newer Proveline than this',
      allowed: 'versions up to 1; update Proveline, then gather again',
    });
  });

  test('names the place of what is wrong, and quotes little of it', () => {
    const long = readFieldText(JSON.stringify({ ...REPORT, page: 'x'.repeat(100_000) }));
    expect('problem' in long && long.problem.startsWith('at page: ')).toBe(true);
    expect('problem' in long && long.problem.length).toBeLessThan(200);
  });

  test('shows foreign text on one line, with what would steer a terminal written out', () => {
    expect(shown('a\nb\u001b[2J\u202ec')).toBe('a / b\\u001b[2J\\u202ec');
  });
});

describe('a file of counts', () => {
  const visits = [
    {
      id: 'visit-00001',
      on: '2026-11-21',
      system: 'x',
      history: 'since work',
      family: 'link',
      minutes: null,
    },
  ] as const;

  test('is read as it was written, a visit a line', () => {
    expect(readCounts(countsText(visits))).toEqual({ visits });
    expect(countsText(visits).split('\n')).toHaveLength(4);
    expect(readCounts(countsText([]))).toEqual({ visits: [] });
  });

  test.each([
    ['', 'it is not whole JSON'],
    ['{"proveline":"field"}', 'this is no file of counts'],
    [countsText(visits).replace('"version":1', '"version":2'), 'this version reads version 1'],
    [countsText(visits).replace('link', 'gremlins'), 'family'],
    [countsText(visits).replace('"minutes":null', '"minutes":null,"name":"A"'), 'name'],
    [countsText([...visits, ...visits]), 'the visit visit-00001 stands there twice'],
  ])('%j is refused with its cause', (text, cause) => {
    const read = readCounts(text);
    expect('problem' in read && read.problem).toContain(cause);
  });
});
