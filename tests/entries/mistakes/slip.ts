import type { FirmFiles } from '../../firm/memory.ts';
import { AUTHORS, TODAY } from '../authors-firm.ts';

/** One slip that an author of a firm makes, and what names its cause. */
export interface Mistake {
  /** What the author did, in words. */
  readonly did: string;
  readonly files: FirmFiles;
  /** Where the first message must point. */
  readonly file: string;
  /** A piece of the line that it must frame. */
  readonly line: string;
  /** What the first message must say: what was found, what may stand there, the cause in words. */
  readonly says: readonly RegExp[];
  readonly today: string;
}

type Edits = readonly (readonly [from: string, to: string])[];

/** The firm with one file edited, each text standing there once. */
function edited(file: string, edits: Edits): FirmFiles {
  const text = edits.reduce((before, [from, to]) => {
    const parts = before.split(from);
    if (parts.length !== 2)
      throw new Error(`“${from}” stands ${parts.length - 1} times in ${file}`);
    return parts.join(to);
  }, AUTHORS[file]!);
  return { ...AUTHORS, [file]: text };
}

/** A slip in one file, of which the line that is framed is the one where it was made. */
export const slip = (
  did: string,
  file: string,
  edits: Edits,
  line: string,
  ...says: readonly RegExp[]
): Mistake => ({ did, files: edited(file, edits), file, line, says, today: TODAY });

export const HOUSE = 'content/systems/our-house.mdx';
export const STAT = 'content/devices/our-loft-stat.mdx';
export const FUSE = 'content/standards/fuse-3-amp.mdx';
export const PAIR = 'content/modules/our-frost-pair.mdx';
export const COMPOSED = 'content/systems/our-composed.mdx';
export const KEYS = 'content/procedures/keys.mdx';
export const LIST = 'content/glossary/van-list.mdx';
export const FIRM = 'firm.yaml';
