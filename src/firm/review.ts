import { diffLines } from 'diff';
import { parse, stringify } from 'yaml';
import { z } from 'zod';
import { Review } from '../../schemas/index.ts';
import { READ_PARTS, type Read, type ReadPart, sealOf } from '../entries/index.ts';

/** Folder in a firm's folder that holds what each review read. */
export const REVIEWS = 'reviews';

/** What somebody read, and when: kept so that the next reader is shown what changed. */
const ReviewRecord = z.strictObject({
  review: Review,
  read: z.strictObject({ text: z.string(), devices: z.string(), figures: z.string() }),
});
export type ReviewRecord = z.infer<typeof ReviewRecord>;

/** Path of an entry's record within the firm's folder. */
export const recordPath = (folder: string, id: string): string => `${REVIEWS}/${folder}/${id}.yaml`;

/** A record as text. */
export const recordText = (record: ReviewRecord): string =>
  `# What was read; written by npm run review.\n${stringify(record, { lineWidth: 0, blockQuote: 'literal' })}`;

/** A record from its text; null where it is none, or not of the seal it bears. */
export function recordFrom(text: string): ReviewRecord | null {
  try {
    const record = ReviewRecord.safeParse(parse(text)).data;
    return record && record.review.seal === sealOf(record.read) ? record : null;
  } catch {
    return null;
  }
}

/** How a part is headed where its changes are shown. */
const HEADS: Readonly<Record<ReadPart, string>> = {
  text: 'Text and wiring',
  devices: 'Devices it holds',
  figures: 'Figures it gives',
};
/** Lines shown before and after a change. */
const AROUND = 2;

/**
 * What changed between two readings, part by part: lines that went behind `−`, lines that came
 * behind `+`, a few that stayed around them. Empty where nothing did.
 */
export function changesBetween(before: Read, now: Read): string[] {
  return READ_PARTS.flatMap((part) => {
    if (before[part] === now[part]) return [];
    const lines = diffLines(before[part], now[part]).flatMap(({ value, added, removed }) =>
      value
        .replace(/\n$/, '')
        .split('\n')
        .map((line) => ({ line, mark: added ? '+' : removed ? '−' : ' ' })),
    );
    const near = lines.map((_, i) =>
      lines.slice(Math.max(0, i - AROUND), i + AROUND + 1).some(({ mark }) => mark !== ' '),
    );
    const shown = lines.flatMap(({ line, mark }, i) => {
      if (!near[i]) return [];
      const gap = i > 0 && !near[i - 1] ? ['  …'] : [];
      return [...gap, `${mark} ${line}`];
    });
    return [`${HEADS[part]}:`, ...shown, ''];
  });
}

/** A review as one line of frontmatter. */
export function reviewLine({ by, on, due, seal }: Review): string {
  const plain = /^\p{L}[\p{L}.’' -]*$/u.test(by) ? by : JSON.stringify(by);
  return `review: { by: ${plain}, on: "${on}", due: "${due}", seal: "${seal}" }\n`;
}
