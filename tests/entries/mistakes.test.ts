import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { formatProblem } from '../../src/entries/index.ts';
import { AUTHORS, checkAuthors } from './authors-firm.ts';
import { MISTAKES, type Mistake } from './mistakes/index.ts';

/** Of a hundred slips, those whose first message must name the cause: 36 of 40. */
const LEAST_SHARE = 36 / 40;
/** Every slip with the first message that is printed of it, whole. */
const SAID = fileURLToPath(new URL('../fixtures/entries/mistakes.md', import.meta.url));

/** The first message of a check, as `npm run check` prints it, and what of the cause it leaves out. */
function told({ files, today, file, line, says }: Mistake): { text: string; lacks: string[] } {
  const { problems, warnings } = checkAuthors(files, today);
  const [first] = [...problems, ...warnings];
  if (!first) return { text: 'Nothing is told.', lacks: ['a message'] };
  const text = formatProblem(first);
  const framed = /^ *> *\d+ \| (.*)$/m.exec(first.frame)?.[1] ?? '';
  return {
    text,
    lacks: [
      ...(first.file === `firm/${file}` ? [] : [`file ${file}`]),
      ...(framed.includes(line) ? [] : [`line ${line}`]),
      ...says.filter((one) => !one.test(text)).map(String),
    ],
  };
}

test('a firm in order is told nothing', () => {
  const { problems, warnings } = checkAuthors(AUTHORS);
  expect([...problems, ...warnings].map(formatProblem)).toEqual([]);
});

describe('the first message', () => {
  const all = new Map<string, { readonly text: string; readonly lacks: readonly string[] }>();

  test.each(MISTAKES)('is told when the author $did', (mistake) => {
    expect(all.has(mistake.did), 'each slip stands there once').toBe(false);
    all.set(mistake.did, told(mistake));
    expect(all.get(mistake.did)!.text).toContain(mistake.file);
  });

  test('names the cause: file, line, found, allowed', async () => {
    expect(all.size).toBe(MISTAKES.length);
    expect(all.size).toBeGreaterThanOrEqual(40);
    const unnamed = [...all].filter(([, { lacks }]) => lacks.length > 0);
    console.log(`${all.size - unnamed.length} of ${all.size} named by the first message`);
    const pages = [...all].map(
      ([did, { text, lacks }], i) =>
        // A seal changes with every device that a system holds.
        `## ${i + 1}. The author ${did}\n\n${lacks.length > 0 ? 'The first message does not name it.\n\n' : ''}\`\`\`text\n${text.replaceAll(/seal: "[^\n]*/g, 'seal: …')}\n\`\`\`\n`,
    );
    await expect(
      `# What authors are told first\n\nEach slip of \`tests/entries/mistakes/\` with the first message of \`npm run check\`.\n\n${pages.join('\n')}`,
    ).toMatchFileSnapshot(SAID);
    expect(
      unnamed.length,
      unnamed.map(([did, { lacks }]) => `${did}: ${lacks.join(', ')}`).join('\n'),
    ).toBeLessThanOrEqual(all.size * (1 - LEAST_SHARE));
  });
});
