import { z } from 'zod';
import { type Entry, entriesByKind, KINDS, type Kind } from '../entries/index.ts';
import type { Reference } from '../reference/index.ts';
import { sectionsOf } from './sections.ts';
import { DATA_VERSION } from './system-data.ts';

const text = z.string();

const EntryData = z.strictObject({
  title: text,
  origin: z
    .enum(['reference', 'added', 'replaced', 'extended'])
    .meta({ description: 'Whose it is: the reference’s own, or what a firm made of it' }),
  formerly: z.array(text).meta({ description: 'Ids it had before' }),
  says: z.looseObject({}).meta({
    description:
      'Its frontmatter as the schemas of entries have it, with defaults filled in; without what the file of its system says',
  }),
  sections: z
    .array(
      z.strictObject({
        heading: text.meta({ description: 'Empty before the first heading' }),
        prose: text.meta({ description: 'Its words, however the lines were broken' }),
      }),
    )
    .meta({ description: 'Its explanation, by heading' }),
});
type EntryData = z.infer<typeof EntryData>;

const Firm = z.strictObject({
  name: text,
  contact: z.record(text, text),
  instrument: text.meta({ description: 'That readings are first shown on' }),
  region: text,
  cautions: z.array(text),
});

const FOLDERS = Object.values(KINDS).map(({ folder }) => folder) as [string, ...string[]];

/** What every entry says in words, beside the circuits that are computed from them. */
export const EntriesData = z.strictObject({
  $schema: text,
  version: z.literal(DATA_VERSION),
  firm: Firm.nullable().meta({ description: 'The firm whose reference it is; null: none' }),
  entries: z
    .record(z.enum(FOLDERS), z.record(text, EntryData))
    .meta({ description: 'By folder, then by id' }),
});
export type EntriesData = z.infer<typeof EntriesData>;

/** What stands in the file of the system, or is nobody's business but the author's. */
const LEFT_OUT: Readonly<Partial<Record<Kind, readonly string[]>>> = {
  system: ['cables', 'compose', 'version', 'links'],
};
const NEVER = ['title', 'formerly', 'author'];

/** The open form of all that entries and a firm's settings say. */
export function entriesData({ entries, firm }: Pick<Reference, 'entries' | 'firm'>): EntriesData {
  const folders: Record<string, Record<string, EntryData>> = Object.fromEntries(
    FOLDERS.map((folder) => [folder, {}]),
  );
  for (const [kind, { folder }, entry] of entriesByKind(entries))
    folders[folder]![entry.id] = entryData(kind, entry as Entry<Says>);
  const { settings } = firm ?? {};
  return {
    $schema: 'schemas/entries.schema.json',
    version: DATA_VERSION,
    firm: settings
      ? {
          name: settings.name,
          contact: Object.fromEntries(
            Object.entries(settings.contact).flatMap(([name, said]) =>
              said === undefined ? [] : [[name, said]],
            ),
          ),
          instrument: settings.instrument,
          region: settings.region,
          cautions: [...settings.cautions],
        }
      : null,
    entries: folders,
  };
}

interface Says {
  readonly title: string;
  readonly formerly?: readonly string[];
  readonly review?: { readonly by: string; readonly on: string; readonly due: string };
}

function entryData(kind: Kind, { data, origin, body }: Entry<Says>): EntryData {
  const left = new Set([...NEVER, ...(LEFT_OUT[kind] ?? [])]);
  const says = Object.fromEntries(
    Object.entries(data).filter(([key, value]) => !left.has(key) && value !== undefined),
  );
  // A seal is of what was read, which stands here itself.
  if (data.review) says.review = { by: data.review.by, on: data.review.on, due: data.review.due };
  return {
    title: data.title,
    origin,
    formerly: [...(data.formerly ?? [])],
    says: JSON.parse(JSON.stringify(says)),
    sections: sectionsOf(body),
  };
}
