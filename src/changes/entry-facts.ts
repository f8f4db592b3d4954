import { z } from 'zod';

const text = z.string();

/** What a comparison needs of one entry; what its frontmatter says is looked at by name. */
const EntryFacts = z.object({
  title: text,
  formerly: z.array(text).default([]),
  says: z.record(text, z.unknown()),
  sections: z.array(z.object({ heading: text, prose: text })),
});
export type EntryFacts = z.infer<typeof EntryFacts>;

/** What a comparison needs of the open data of entries. */
export const EntriesFacts = z.object({
  firm: z.record(text, z.unknown()).nullable(),
  entries: z.record(text, z.record(text, EntryFacts)),
});
export type EntriesFacts = z.infer<typeof EntriesFacts>;
