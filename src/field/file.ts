import { z } from 'zod';
import { FAMILIES, type Family, HISTORIES } from '../diagnosis/index.ts';
import { FRAGMENT, MOST_FRAGMENT, MOST_LINE, MOST_PHOTOS, MOST_TEXT } from '../job/limits.ts';
import { FIELD_VERSION, MOST_ACTS, MOST_FIELD_BYTES, MOST_MINUTES, MOST_SEEN } from './limits.ts';

/** What was wrong: a family of causes, nothing at all, or something that no family is of. */
export const CAUSES = ['sound', 'other', ...(Object.keys(FAMILIES) as Family[])] as const;

export const Id = z
  .string()
  .regex(/^[A-Za-z0-9-]{8,64}$/, 'an id is 8 to 64 letters, digits and hyphens');
export const Day = z.iso.date('a day is written YYYY-MM-DD');
export const Slug = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'a name of an entry is small letters, digits and hyphens')
  .max(120, 'a name of an entry has at most 120 characters');
const Line = (most: number) => z.string().max(most, `this has at most ${most} characters`);

/** Build of the site that was read; null where the page could not tell. */
const Build = z
  .strictObject({
    version: z.string().regex(/^[0-9a-f]{8}$/, 'a version is eight hexadecimal digits'),
    date: Day,
  })
  .nullable();

/** Wiring as it was found: the fragment of the page that marks it. */
const AsFound = z
  .string()
  .max(MOST_FRAGMENT, `marks have at most ${MOST_FRAGMENT} characters`)
  .regex(FRAGMENT, 'marks are a fragment of the as-found page, as in as=...')
  .nullable();

const head = { proveline: z.literal('field'), version: z.literal(FIELD_VERSION), id: Id, on: Day };

/** Kinds of entry whose pages a report may be of, as their folders are called. */
export const REPORTED = ['systems', 'devices', 'symptoms', 'procedures', 'standards'] as const;

/** A page that is wrong. */
export const Report = z.strictObject({
  ...head,
  kind: z.literal('report'),
  /** Address within the site, as in `systems/combi-two-wire/readings/`. */
  page: z
    .string()
    .max(300, 'an address has at most 300 characters')
    .regex(
      /^(systems|devices|symptoms|procedures|standards)\/[a-z0-9-]+\/([A-Za-z0-9._~-]+\/)*$/,
      `a page is one of an entry of ${REPORTED.join(', ')}, as in systems/combi-two-wire/readings/`,
    ),
  build: Build,
  /** What was seen, in the reader's words. */
  seen: Line(MOST_SEEN),
  asFound: AsFound,
});
export type Report = z.infer<typeof Report>;

/** What may only be said where the engineer ticks it. */
const Ticked = z.strictObject({
  name: Line(MOST_LINE).optional(),
  place: Line(MOST_LINE).optional(),
  notes: Line(MOST_TEXT).optional(),
  /** JPEG, base64. */
  photographs: z
    .array(
      z
        .string()
        .max(MOST_FIELD_BYTES)
        .regex(/^\/9j\/[A-Za-z0-9+/]*={0,2}$/, 'a photograph is a JPEG as base64'),
    )
    .max(MOST_PHOTOS, `there are at most ${MOST_PHOTOS} photographs`)
    .optional(),
});

/** A finished visit. */
export const Visit = z.strictObject({
  ...head,
  kind: z.literal('visit'),
  build: Build,
  system: Slug,
  /** Version of the system's wiring that the visit was made with. */
  wiring: z.int().min(1).max(100_000),
  /** Entry id of the symptom complained of. */
  complaint: Slug.nullable(),
  history: z.enum(HISTORIES),
  /** Family of what was actually wrong. */
  cause: z.enum(CAUSES),
  /** What was looked at, read and done, in order; no word of it is anybody's own. */
  acts: z.array(Line(200)).max(MOST_ACTS, `there are at most ${MOST_ACTS} acts`),
  readings: z.int().min(0).max(MOST_ACTS),
  /** Minutes on site, where they are known. */
  minutes: z.int().min(0).max(MOST_MINUTES).nullable(),
  asFound: AsFound,
  ticked: Ticked,
});
export type Visit = z.infer<typeof Visit>;

/** Anything that comes back from the field. */
export const FieldFile = z.discriminatedUnion('kind', [Report, Visit]);
export type FieldFile = z.infer<typeof FieldFile>;
