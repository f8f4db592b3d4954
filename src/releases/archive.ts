import { join } from 'node:path';
import { z } from 'zod';
import { FIRM_FILE } from '../../schemas/index.ts';
import { COUNTS_FILE } from '../field/index.ts';
import { type FolderEffects, folders } from '../folder/index.ts';
import { pack, unpack } from './packed.ts';

/** Files by path: text as it is, anything else as base64. */
const Files = z.record(
  z.string().regex(/^(?:content|firm)\/(?!.*(?:^|\/)\.\.(?:\/|$))[^\\]+$/),
  z.union([z.string(), z.strictObject({ base64: z.string() })]),
);

/** Folders that an archive holds. */
export interface Archived {
  /** The reference's content. */
  readonly content: string;
  readonly firm: string;
}

/** What open data is made from in each folder; reviews kept, tables and releases are not. */
const MADE_FROM = {
  content: (path: string) => /^[a-z]+\/[^/]+\.mdx$|^sequences\.lock\.json$/.test(path),
  firm: (path: string) =>
    path === FIRM_FILE ||
    // The shares of causes, and with them every order of tests, hang on what was counted.
    path === COUNTS_FILE ||
    /^content\/[a-z]+\/[^/]+\.mdx$|^sequences\.lock\.json$|^[^/]+\.(?:png|jpe?g|svg)$/i.test(path),
} as const;

/** Every file that a reference is made from, as one line of text. */
export async function archiveOf(
  from: Archived,
  { list, read }: Pick<FolderEffects, 'list' | 'read'> = folders,
): Promise<string> {
  const files: z.infer<typeof Files> = {};
  for (const name of ['content', 'firm'] as const) {
    const paths = (await list(from[name])).map(({ path }) => path).filter(MADE_FROM[name]);
    for (const path of paths.sort())
      files[`${name}/${path}`] = kept(await read(join(from[name], path)));
  }
  return pack(files);
}

/** Writes the files of an archive into a folder: `content/` and `firm/` within it. */
export async function unpackInto(
  folder: string,
  archive: string,
  { write }: Pick<FolderEffects, 'write'> = folders,
): Promise<Archived> {
  for (const [path, file] of Object.entries(Files.parse(unpack(archive))))
    await write(
      join(folder, path),
      typeof file === 'string' ? file : new Uint8Array(Buffer.from(file.base64, 'base64')),
    );
  return { content: join(folder, 'content'), firm: join(folder, 'firm') };
}

/** Text that comes back as the same bytes stays text. */
function kept(bytes: Uint8Array): z.infer<typeof Files>[string] {
  const text = new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
  return Buffer.compare(Buffer.from(text), bytes) === 0
    ? text
    : { base64: Buffer.from(bytes).toString('base64') };
}
