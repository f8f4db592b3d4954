import { createHash } from 'node:crypto';
import { z } from 'zod';
import { ChangeLine } from '../changes/index.ts';
import { RELEASES } from '../firm/index.ts';

/** What a release may be called: it is a file's name, and read out on a phone. */
export const NAME = /^[A-Za-z0-9][A-Za-z0-9._-]{0,23}$/;
export const NAME_SAYS =
  'letters, digits, full stops and hyphens, at most 24, as in 2026.12; the first a letter or a digit';

const text = z.string();
const Hash = text.regex(/^[0-9a-f]{16,64}$/, 'a hash is hexadecimal digits');
const Packed = text.regex(/^[A-Za-z0-9+/]+=*$/, 'it is packed text: base64 of compressed JSON');

/** A change that a release brings, with the reason for what is dangerous if missed. */
export const ReleasedChange = ChangeLine.extend({
  reason: text.nullable().meta({ description: 'Why it was changed; null where nobody was asked' }),
});

/** What readers are told of a release. */
export const Told = z.strictObject({
  name: text.regex(NAME, `a release is called by ${NAME_SAYS}`),
  date: z.iso.date('this is no day of the calendar, as in 2026-12-01'),
  by: text.min(1).meta({ description: 'Who released it' }),
  version: text.meta({ description: 'Version of the reference as released' }),
  after: text.nullable().meta({ description: 'The release before it; null: the first' }),
  changes: z.array(ReleasedChange).meta({ description: 'Since the one before, gravest first' }),
});
export type Told = z.infer<typeof Told>;

/** A release as its file keeps it: what is told, what to compare with, and how to make it again. */
export const Release = z.strictObject({
  format: z.literal(1, 'this version of Proveline reads format 1'),
  ...Told.shape,
  code: text.meta({ description: 'Hash of the code of Proveline that it was made by' }),
  data: z
    .record(text, Hash)
    .meta({ description: 'SHA-256, its first 32 digits, of every file of its open data' }),
  snapshot: Packed.meta({ description: 'What the next release is compared with' }),
  archive: Packed.meta({ description: 'Every file that it was made from' }),
  seal: text.meta({ description: 'Hash of all else in the file' }),
});
export type Release = z.infer<typeof Release>;

/** The seal of a release: whoever edits its file by hand leaves another. */
export function sealOf({ seal, ...rest }: Omit<Release, 'seal'> & { seal?: string }): string {
  const sorted = (value: unknown): unknown =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? Object.fromEntries(
          Object.entries(value)
            .toSorted(([a], [b]) => (a < b ? -1 : 1))
            .map(([key, inner]) => [key, sorted(inner)]),
        )
      : Array.isArray(value)
        ? value.map(sorted)
        : value;
  return createHash('sha256')
    .update(JSON.stringify(sorted(rest)))
    .digest('hex')
    .slice(0, 32);
}

/** A release as the text of its file. */
export const releaseText = (release: Omit<Release, 'seal'>): string =>
  `${JSON.stringify({ ...release, seal: sealOf(release) }, null, 1)}\n`;

/** Path of a release's file within the firm's folder. */
export const releasePath = (name: string): string => `${RELEASES}/${name}.json`;

/** The part of a release that readers are told. */
export const toldOf = ({ name, date, by, version, after, changes }: Release): Told => ({
  name,
  date,
  by,
  version,
  after,
  changes,
});
