import { z } from 'zod';
import { entryKey, KINDS } from '../entries/index.ts';
import type { Reference } from '../reference/index.ts';
import { DATA_VERSION } from './system-data.ts';

/** What the data folder holds: where a reader starts. */
export const IndexData = z.strictObject({
  $schema: z.string(),
  version: z.literal(DATA_VERSION),
  reference: z.strictObject({
    name: z.string().meta({ description: 'Whose it is: the firm’s name, or the reference’s own' }),
    version: z.string(),
    date: z.iso.date(),
  }),
  entries: z.string().meta({ description: 'Path of what every entry says in words' }),
  standards: z.string().meta({ description: 'Path of the house standards and their verdicts' }),
  systems: z.array(
    z.strictObject({
      id: z.string(),
      title: z.string(),
      arrangement: z.string(),
      control: z.string(),
      features: z.array(z.string()),
      reviewed: z.iso
        .date()
        .nullable()
        .meta({ description: 'null: nobody has reviewed it as it stands' }),
      checked: z.iso.date().nullable().meta({
        description: 'Day of the last check by the proofs and against sources; null: none',
      }),
      data: z.string().meta({ description: 'Path of its data from this folder' }),
    }),
  ),
});
export type IndexData = z.infer<typeof IndexData>;

/** The index of a reference's open data. */
export function indexData({
  systems,
  built,
  firm,
  drafts,
}: Pick<Reference, 'systems' | 'built' | 'firm' | 'drafts'>): IndexData {
  return {
    $schema: 'schemas/index.schema.json',
    version: DATA_VERSION,
    reference: { name: firm?.settings.name ?? 'Proveline', ...built },
    entries: 'entries.json',
    standards: 'standards.json',
    systems: [...systems.values()].map(({ id, entry: { data } }) => ({
      id,
      title: data.title,
      arrangement: data.arrangement,
      control: data.control,
      features: [...data.features],
      reviewed: drafts.has(entryKey(KINDS.system.folder, id)) ? null : (data.review?.on ?? null),
      checked: data.checked ?? null,
      data: `systems/${id}.json`,
    })),
  };
}
