import { expect, test } from 'vitest';
import { exceptionsText, formatProblem } from '../../src/entries/index.ts';
import { checkFirm } from './memory.ts';
import { STRICT } from './strict-firm.ts';

test('what the reference does not meet is one message, at the firm’s own rule, with three ways out', () => {
  const { problems, conflicts } = checkFirm(STRICT);
  expect(problems).toHaveLength(1);
  const [first, second, ...rest] = formatProblem(problems[0]!).split('\n');
  expect(first).toBe('firm/content/standards/conductor-size.mdx:4:1  standard-conflicts');
  expect(second).toMatch(/^ {2}\d+ of the reference’s own systems do not meet this$/);
  expect(rest.filter((line) => line.startsWith('  - ')).length).toBeLessThanOrEqual(5);
  expect(rest.join('\n')).toMatch(
    /an exception with its reason.*; an entry of yours.*; or the system hidden/,
  );
  expect(conflicts.map(({ standard }) => standard)).toEqual(['conductor-size']);
  expect(Number(/\d+/.exec(second!)![0])).toBe(conflicts[0]!.systems.size);
});

test('the exceptions that are written as drafts put it right, and say that nobody has read them', () => {
  const [conflict] = checkFirm(STRICT).conflicts;
  const dates = { from: '2026-11-25', until: '2027-11-25' };
  const written = Object.fromEntries(
    [...conflict!.systems.keys()].map((id) => [
      `content/systems/${id}.mdx`,
      exceptionsText(id, ['conductor-size'], dates),
    ]),
  );
  const { problems, drafts, conflicts } = checkFirm({ ...STRICT, ...written });
  expect(problems.map(formatProblem)).toEqual([]);
  expect(conflicts).toEqual([]);
  for (const id of conflict!.systems.keys()) expect([...drafts.keys()]).toContain(`systems/${id}`);
});
