import { z } from 'zod';
import { Line, Slug, TerminalName } from './names.ts';
import { FeatureName } from './system.ts';

/** Name of the settings file in a firm's folder. */
export const FIRM_FILE = 'firm.yaml';

const short = (most: number) => Line.max(most, `this line has at most ${most} characters`);

/** A colour of the sRGB screen. */
const Hex = z
  .string('a colour is text in quotation marks, as in "#0b5c4b"')
  .regex(/^#[0-9a-fA-F]{6}$/, 'a colour is # and six hexadecimal digits, as in "#0b5c4b"');

/** A host by its name (RFC 1123, 2.1), and a port where it has one; no path, name or password. */
const SITE =
  /^https:\/\/(?=.{1,253}(?::|\/|$))[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?(\.[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?)*(:[1-9]\d{0,4})?\/?$/i;

/** An entry by folder and file name. */
const EntryPath = z
  .string()
  .regex(
    /^[a-z]+\/[a-z0-9]+(-[a-z0-9]+)*$/,
    'an entry is its folder and its name, as in systems/combi-two-wire',
  )
  .meta({ description: 'Folder and file name of an entry, as in systems/combi-two-wire' });

const Names = z
  .array(short(60))
  .min(1, 'give at least one name')
  .max(12, 'there are at most twelve names');

/** How readers reach the firm. */
const Contact = z.strictObject({
  phone: z
    .string('a telephone number is text in quotation marks')
    .regex(/^\+?[0-9][0-9 ()-]{3,22}$/, 'a telephone number is digits, spaces and brackets')
    .optional(),
  email: z.email('an address is written name@host').max(120).optional(),
  address: short(200).optional(),
  hours: short(120).optional().meta({ description: 'When somebody answers' }),
});

/** A feature of the firm's own, by which its readers choose a system. */
const OwnFeature = z.strictObject({
  under: short(40).optional().meta({
    description: 'Heading that readers choose it under; beside the reference’s features if absent',
  }),
  aliases: Names.default([]).meta({ description: 'Other words for it; searched' }),
});
export type OwnFeature = z.infer<typeof OwnFeature>;

/** Regions whose supply is published here: ISO 3166 code. */
export const REGIONS = ['GB'] as const;

/** Voltage instruments that readings are shown on. */
export const INSTRUMENT_IDS = ['tester', 'multimeter', 'low-impedance'] as const;

/** A firm's settings, laid over the reference together with its entries. */
export const Firm = z.strictObject({
  name: short(60).meta({ description: 'The firm’s name as readers know it' }),
  proveline: z
    .string('a version is three numbers, as in 0.1.0')
    .regex(/^\d+\.\d+\.\d+$/, 'a version is three numbers, as in 0.1.0')
    .optional()
    .meta({
      description: 'Version of Proveline that the entries are for; npm run upgrade keeps it',
    }),
  shortName: short(12).optional().meta({
    description: 'Under the icon on a phone; the first word of the name if absent',
  }),
  contact: Contact.default({}),
  logo: z
    .string()
    .regex(
      /^[A-Za-z0-9][A-Za-z0-9._-]*\.(png|jpe?g|svg)$/i,
      'a logo is a PNG, JPEG or SVG file beside firm.yaml, named in letters, digits and hyphens',
    )
    .optional()
    .meta({ description: 'PNG, JPEG or plain SVG beside this file, at most 100 KB' }),
  accent: z
    .strictObject({ light: Hex, dark: Hex })
    .optional()
    .meta({ description: 'Colour of links and buttons on light paper and on dark slate' }),
  base: z
    .string()
    .regex(
      /^\/([A-Za-z0-9][A-Za-z0-9._~-]*\/)*$/,
      'a base path begins and ends with a slash, as in /reference/',
    )
    .default('/')
    .meta({ description: 'Path of the host that the site is served under' }),
  site: z
    .string('an address is text, as in https://reference.example')
    .regex(
      SITE,
      'an address is https:// and the name of the host, as in https://reference.example; the path on the host is base',
    )
    .optional()
    .meta({
      description:
        'Where the site is served, without the path of base, as in https://reference.example: labels’ codes lead there, the pack’s cover names it, npm run check -- --published asks it',
    }),
  region: z.enum(REGIONS).default('GB').meta({ description: 'Whose supply limits hold' }),
  instrument: z.enum(INSTRUMENT_IDS).default('tester').meta({
    description: 'Instrument that system pages show readings on until a reader chooses another',
  }),
  cautions: z
    .array(short(300))
    .max(6, 'there are at most six cautions of the house')
    .default([])
    .meta({ description: 'Cautions of the house: on every system’s page and at the foot of all' }),
  hide: z
    .array(EntryPath)
    .max(500)
    .default([])
    .meta({ description: 'Entries of the reference that are not shown' }),
  aliases: z
    .strictObject({
      entries: z.record(EntryPath, Names).default({}),
      terminals: z.record(Slug, z.record(TerminalName, Names)).default({}),
    })
    .default({ entries: {}, terminals: {} })
    .meta({ description: 'The firm’s own names for entries, and by device for terminals' }),
  features: z.record(FeatureName, OwnFeature).default({}).meta({
    description:
      'Features of the firm’s own that its systems may have, as buffer vessel: readers choose by them, and search finds them',
  }),
  reviews: z
    .strictObject({
      overdue: z.enum(['warn', 'fail']).default('warn').meta({
        description: 'Whether an overdue review of the firm’s entries only warns, or fails',
      }),
      'second person': z.boolean().default(false).meta({
        description: 'Whether the reviewer of an entry must be another than its author',
      }),
      drafts: z.enum(['refuse', 'leave out']).default('refuse').meta({
        description:
          'What build --publish does with the firm’s entries that nobody has reviewed as they stand',
      }),
    })
    .default({ overdue: 'warn', 'second person': false, drafts: 'refuse' }),
  field: z
    .strictObject({
      'prior strength': z
        .number()
        .min(1, 'our shares are worth at least one visit')
        .max(100_000, 'our shares are worth at most 100000 visits')
        .optional()
        .meta({
          description:
            'How many visits our shares of the causes are worth beside the firm’s own counts; 100 if absent. Fewer: the firm’s visits weigh sooner',
        }),
    })
    .optional()
    .meta({ description: 'What is made of the visits counted in field/counts.json' }),
});
export type Firm = z.infer<typeof Firm>;
