import type { Comparison } from './compare.ts';

/** A comparison as plain lines, for a terminal or a message. */
export function comparisonText({ added, removed, changed, same }: Comparison): string {
  const lines = [
    ...changed.flatMap(({ title, changes, effects }) => [
      '',
      title,
      ...changes.map(({ words }) => `  - ${words}`),
      ...effects.map(({ words }) => `    so: ${words}`),
    ]),
    ...added.map(({ title }) => `\nAdded: ${title}`),
    ...removed.map(({ title }) => `\nWithdrawn: ${title}`),
    '',
    `${changed.length} changed, ${added.length} added, ${removed.length} withdrawn, ${same.length} the same`,
  ];
  return lines.join('\n').replace(/^\n/, '');
}
