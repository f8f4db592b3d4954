import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { formatProblem } from '../../src/entries/index.ts';
import { changesBetween, checkReference, recordFrom, recordText } from '../../src/firm/index.ts';
import { FIXTURE_FIRM } from './fixture-firm.ts';
import { CONTENT, checkFirm, EXAMPLE, FIXTURE, filesOf, ROOT, withFirm } from './memory.ts';
import { sealed } from './sealed.ts';

const FIRM = sealed(FIXTURE_FIRM, FIXTURE);
const edited = (file: string, from: string | RegExp, to: string) => {
  const text = FIRM[file]!.replace(from, to);
  expect(text).not.toBe(FIRM[file]);
  return { ...FIRM, [file]: text };
};
const draftsOf = (files: Readonly<Record<string, string>>) =>
  [...checkFirm(files, FIXTURE).drafts].map(([key, { changed }]) => [key, ...changed].join(' '));

describe('a review is of what was read', () => {
  test('and stands while nothing of it changes', () => {
    expect(draftsOf(FIRM)).toEqual([]);
    const system = 'content/systems/our-bench.mdx';
    expect(draftsOf(edited(system, 'version: 1', '# A remark.\nversion: 1'))).toEqual([]);
    expect(draftsOf(edited(system, 'notes: [Ours.]', 'notes:\n  - Ours.'))).toEqual([]);
  });

  test.each([
    [
      'a word of its prose',
      'content/glossary/rag.mdx',
      'Wash it.',
      'Burn it.',
      ['glossary/rag text'],
    ],
    ['a caution', 'content/systems/our-bench.mdx', '[Hot.]', '[Cold.]', ['systems/our-bench text']],
    [
      'a device that systems hold',
      'content/devices/room-switch.mdx',
      'aliases: [our knob]',
      'aliases: [our knob]\nconditions: { stuck: { title: Knob stuck } }',
      ['systems/our-bench devices', 'systems/plain-bench devices', 'devices/room-switch text'],
    ],
  ])('%s makes it a draft again', (_, file, from, to, drafts) => {
    expect(draftsOf(edited(file, from, to)).toSorted()).toEqual([...drafts].toSorted());
  });

  test('a length, which changes figures and nothing in words, is told as wiring', () => {
    const longer = draftsOf(edited('content/systems/our-bench.mdx', 'length: 12', 'length: 13'));
    expect(longer[0]).toMatch(/^systems\/our-bench text/);
  });

  test('what is told names who read it, when, and what changed', () => {
    const { warnings } = checkFirm(
      edited('content/glossary/rag.mdx', 'Wash it.', 'Burn it.'),
      FIXTURE,
    );
    expect(warnings.map(formatProblem).join('\n')).toContain(
      `review-stale
  its text or wiring changed since A. Reader reviewed it on 2026-01-01
  at       review
  mend     Read it through, then: npm run review -- term rag --by "your name"`,
    );
  });

  test('without a seal nobody can tell, and that is said', () => {
    const { warnings, drafts } = checkFirm(FIXTURE_FIRM, FIXTURE);
    expect(drafts.size).toBe(6);
    expect(warnings.every(({ message }) => /bears no seal/.test(message))).toBe(true);
  });

  test('the example firm has been reviewed as it stands', () => {
    const { drafts } = checkFirm(filesOf(EXAMPLE));
    // After a change there: npm run review -- KIND NAME --firm tests/example-firm --by … --yes
    expect([...drafts.keys()]).toEqual([]);
  });
});

describe('a second person', () => {
  const written = edited('content/glossary/rag.mdx', 'review:', 'author: A. Reader\nreview:');
  const asks = (files: typeof written) => ({
    ...files,
    'firm.yaml': files['firm.yaml']!.replace('overdue: warn', 'overdue: warn, second person: true'),
  });

  test('is asked for where the firm says so', () => {
    const told = (files: typeof written) =>
      checkFirm(files, FIXTURE).problems.map(({ code, message }) => `${code}: ${message}`);
    expect(told(written)).toEqual([]);
    expect(told(asks(written))).toEqual(['review-own: A. Reader wrote this entry and reviewed it']);
  });
});

test('a name written over by hand is told from the record of what was read', () => {
  const files = filesOf(EXAMPLE);
  const check = (changed: Readonly<Record<string, string>>, publish = false) =>
    checkReference({
      content: CONTENT,
      firm: ROOT,
      effects: withFirm({ ...files, ...changed }),
      today: '2026-11-25',
      publish,
    });
  const file = 'content/glossary/heating-switch.mdx';
  const [, by = '', on = ''] = /^review: \{ by: ([^,]*), on: "([^"]*)"/m.exec(files[file]!)!;
  const altered = { [file]: files[file]!.replace(`by: ${by}, on`, 'by: S. Other, on') };
  expect(check({}).warnings.map(({ code }) => code)).not.toContain('review-altered');
  const [told] = check(altered).warnings.filter(({ code }) => code === 'review-altered');
  expect(told).toMatchObject({
    file: `firm/${file}`,
    message: `reviews/glossary/heating-switch.yaml says that ${by} reviewed it on ${on}`,
    found: `S. Other, ${on}`,
    allowed: `${by}, ${on}`,
  });
  expect(check(altered, true).problems.map(({ code }) => code)).toEqual(['review-altered']);
  // A record that is damaged, or of another reading, says nothing of this review.
  const record = 'reviews/glossary/heating-switch.yaml';
  expect(check({ ...altered, [record]: '{{{' }).warnings).toEqual(check({}).warnings);
});

describe('publishing', () => {
  const publish = (files: Readonly<Record<string, string>>) =>
    checkReference({
      content: FIXTURE,
      firm: ROOT,
      effects: withFirm(files),
      today: '2026-11-25',
      publish: true,
    });
  const draft = edited('content/glossary/rag.mdx', 'Wash it.', 'Burn it.');
  const leavesOut = {
    'firm.yaml': FIRM['firm.yaml']!.replace('overdue: warn', 'overdue: warn, drafts: leave out'),
  };

  test('goes through with no drafts', () => {
    expect(publish(FIRM).problems).toEqual([]);
  });

  test('refuses a draft', () => {
    const { problems, warnings } = publish(draft);
    expect(problems.map(({ code, file }) => `${code} ${file}`)).toEqual([
      'review-stale firm/content/glossary/rag.mdx',
    ]);
    expect(warnings).toEqual([]);
  });

  test('leaves it out where the firm says so, with the reference’s own in its place', () => {
    const { problems, leftOut, entries } = publish({ ...draft, ...leavesOut });
    expect([problems, leftOut]).toEqual([[], ['glossary/rag']]);
    expect(entries.glossary.has('rag')).toBe(false);
    const over = edited('content/systems/plain-bench.mdx', 'notes: [', 'notes: [Mind the step., ');
    const below = publish({ ...over, ...leavesOut });
    expect([below.problems, below.leftOut]).toEqual([[], ['systems/plain-bench']]);
    expect(below.entries.systems.get('plain-bench')!.origin).toBe('reference');
  });
});

describe('what was read is kept', () => {
  const read = {
    text: 'title: A\nnotes: []\n',
    devices: 'fuse: 3\n',
    figures: 'on: L live, 230 V\n',
  };

  test('as a record that reads back, and no other is taken for one', () => {
    const text = readFileSync(join(EXAMPLE, 'reviews/systems/combi-joint-box.yaml'), 'utf8');
    const record = recordFrom(text)!;
    expect(recordFrom(recordText(record))).toEqual(record);
    for (const other of ['', 'review: 3', '{', text.slice(0, 400), text.replace('230 V', '231 V')])
      expect(recordFrom(other)).toBeNull();
  });

  test('and the next reader is shown what changed, part by part', () => {
    const now = { ...read, text: 'title: B\nnotes: []\n', figures: 'on: L dead, 0 V\n' };
    expect(changesBetween(read, read)).toEqual([]);
    expect(changesBetween(read, now)).toEqual([
      'Text and wiring:',
      '− title: A',
      '+ title: B',
      '  notes: []',
      '',
      'Figures it gives:',
      '− on: L live, 230 V',
      '+ on: L dead, 0 V',
      '',
    ]);
  });
});

describe('npm run review', () => {
  let firm: string;
  beforeAll(() => {
    firm = join(mkdtempSync(join(tmpdir(), 'review-')), 'firm');
    cpSync(EXAMPLE, firm, { recursive: true });
  });
  afterAll(() => rmSync(join(firm, '..'), { recursive: true }));
  const review = (...words: string[]) => {
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      ['src/cli/review.ts', ...words, '--firm', firm],
      { encoding: 'utf8', input: '', env: { ...process.env, CI: '1' } },
    );
    return { status, text: stdout + stderr };
  };
  const term = () => join(firm, 'content/glossary/heating-switch.mdx');

  test('shows what changed, and writes on yes alone', () => {
    const before = readFileSync(term(), 'utf8');
    writeFileSync(term(), before.replace('aliases: [', 'aliases: [the red one, '));
    const asked = review('term', 'heating-switch', '--by', 'Q. Holloway');
    expect(asked.text).toContain('+   - the red one');
    expect([asked.status, asked.text.includes('Nothing is written')]).toEqual([1, true]);
    const done = review('term', 'heating-switch', '--by', 'Q. Holloway', '--yes');
    expect(done.status, done.text).toBe(0);
    expect(readFileSync(term(), 'utf8')).toMatch(
      /^review: \{ by: Q\. Holloway, on: ".*", seal: "[0-9a-f]{8}" \}$/m,
    );
    expect(review('term', 'heating-switch', '--by', 'Q. Holloway').text).toContain(
      'Nothing has changed since Q. Holloway reviewed it',
    );
  });

  test('refuses the author, a wrong date and what is not the firm’s own', () => {
    const say = (...words: string[]) =>
      review(...words)
        .text.trim()
        .split('\n')
        .slice(-4)
        .join('\n');
    expect(say('term', 'heating-switch', '--by', 'N. Adderley', '--yes')).toContain(
      'N. Adderley wrote this entry: a second person reviews it.',
    );
    expect(say('term', 'heating-switch', '--by', 'R. O', '--due', '2027-11-31')).toContain(
      '--due 2027-11-31: ',
    );
    expect(say('term', 'spur', '--by', 'R. O')).toContain(
      'The firm has no term “spur” of its own\n  allowed  heating-switch',
    );
  });
});
