import type { ChangeLine } from './line.ts';
import { RANK_NAMES, RANKS } from './ranks.ts';

/** Effects of a change said in full on a terminal. */
const MOST_FOLLOWING = 4;

/** All that changed as plain lines, gravest first, for a terminal or a message. */
export function changesText(lines: readonly ChangeLine[]): string {
  if (lines.length === 0) return 'Nothing that a reader acts on has changed';
  const ranks = RANK_NAMES.map((rank) => ({
    title: RANKS[rank].title,
    lines: lines.filter((line) => line.rank === rank),
  }));
  return [
    ...ranks
      .filter((rank) => rank.lines.length > 0)
      .flatMap((rank) => ['', `${rank.title}:`, ...rank.lines.flatMap(lineText)]),
    '',
    ranks.map((rank) => `${rank.title.toLowerCase()}: ${rank.lines.length}`).join(', '),
  ]
    .join('\n')
    .trimStart();
}

function lineText(line: ChangeLine): string[] {
  const more = line.follows.length - MOST_FOLLOWING;
  return [
    `  - ${lineWords(line)}`,
    ...line.follows
      .slice(0, MOST_FOLLOWING)
      .map(({ system, words }) => `    so, in ${system}: ${words}`),
    ...(more > 0 ? [`    and ${more} more`] : []),
  ];
}

/** One change in a sentence: what it is of, what is otherwise, and in how many systems. */
export function lineWords({ about, words, systems }: ChangeLine): string {
  const many = systems.length > 1 ? `, in ${systems.length} systems` : '';
  return `${about.title}: ${words}${many}`;
}
