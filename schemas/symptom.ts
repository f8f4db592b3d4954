import { z } from 'zod';
import { Device } from './device.ts';
import { Aliases, FormerNames, Line, MemberName, Slug } from './names.ts';
import { PEOPLE } from './opening.ts';
import { Author, CheckedOn, Review } from './review.ts';

const about = {
  family: Device.shape.family,
  devices: z.array(Slug).min(1, 'name a device, or leave devices out').optional().meta({
    description:
      'Devices of the family it is about, and those that extend them; the whole family if absent',
  }),
};

/** One thing a person sees in some modes: at every item of a family that can show it, or at any. */
const SeenSign = z.strictObject({
  ...about,
  any: z.literal(true).optional().meta({
    description: 'true where it is so at any one of these items; at every one if absent',
  }),
  outcome: MemberName.meta({ description: 'Outcome of these devices, as in burner' }),
  is: z
    .union([z.boolean(), z.literal('comes and goes')], {
      error: () => 'a sign is true, false or comes and goes',
    })
    .meta({ description: 'Whether it is seen' }),
  modes: z.array(Slug).min(1, 'a sign names at least one mode').meta({
    description: 'Modes, by id, in all of which it is so; systems without one are left out',
  }),
});

/** A fuse link that is found blown when it is taken out, isolated. */
const FuseSign = z.strictObject({
  ...about,
  fuse: z.literal('blown', { error: () => 'a fuse as a sign is blown' }),
});

const Sign = z.union([SeenSign, FuseSign], {
  error: () => 'a sign is a family with outcome, is and modes, or a family with fuse: blown',
});
export type Sign = z.infer<typeof Sign>;

/** One way in which a symptom appears: all its signs together. */
const Appearance = z.strictObject({
  signs: z.array(Sign).min(1, 'a symptom appears by at least one sign'),
});
export type Appearance = z.infer<typeof Appearance>;

/** One thing to look at or try before any search: water, gas, settings, what else looks alike. */
const Check = z.strictObject({
  do: Line.meta({ description: 'The act, as an instruction' }),
  tells: Line.meta({ description: 'What each outcome means, and where it leads' }),
  by: z
    .enum(PEOPLE, { error: () => `who does it is one of ${PEOPLE.join(', ')}` })
    .optional()
    .meta({ description: 'Who does it or takes it over, where that is not the controls engineer' }),
  caution: Line.optional().meta({ description: 'Shown at this act' }),
});

/** Where complaints are listed, in the order of the list; what names none stands last. */
export const SYMPTOM_GROUPS = [
  'heating',
  'hot water',
  'boiler',
  'controls',
  'pump and valves',
  'condensate pump',
  'electrics',
] as const;

/** Letters of a complaint that stand in one line of a narrow phone. */
const MOST_COMPLAINT = 40;

/**
 * What a customer says or an engineer sees first. Defined by outcomes where a circuit shows it,
 * so that its causes are computed over every system that can; where water, gas or settings give
 * it, ordered checks say what to look at.
 */
export const Symptom = z
  .strictObject({
    title: Line,
    summary: Line,
    complaint: Line.refine((line) => line.length <= MOST_COMPLAINT, {
      error: `a complaint is at most ${MOST_COMPLAINT} letters, one line of a phone`,
    })
      .optional()
      .meta({ description: 'In the customer’s words, one line of a phone; as lists show it' }),
    group: z
      .enum(SYMPTOM_GROUPS, { error: () => `a group is one of ${SYMPTOM_GROUPS.join(', ')}` })
      .optional()
      .meta({ description: 'Under which heading it is listed; last, with others, if absent' }),
    common: z.int().positive().optional().meta({
      description:
        'Its place among the commonest complaints, 1 first; the home page shows the first six. Common practice, no source',
    }),
    first: Line.optional().meta({
      description: 'What to look at first, covers on; its first checks stand there if absent',
    }),
    aliases: Aliases,
    formerly: FormerNames,
    says: z.array(Line).default([]).meta({ description: 'In the customer’s words' }),
    seen: z.array(Line).default([]).meta({ description: 'What is seen or heard on the equipment' }),
    shows: z.array(Appearance).default([]).meta({
      description:
        'Ways in which it appears, each by signs; any one of them is the symptom; absent where no circuit shows it',
    }),
    checks: z.array(Check).default([]).meta({
      description: 'What to look at and try, in order; what a symptom without shows consists of',
    }),
    cautions: z.array(Line).default([]),
    see: z.array(Slug).default([]).meta({ description: 'Other symptoms worth reading' }),
    checked: CheckedOn,
    author: Author,
    review: Review.optional(),
  })
  .refine(({ shows, checks }) => shows.length + checks.length > 0, {
    path: ['shows'],
    error: 'a symptom is defined by what it shows, or by checks where no circuit shows it',
  });
export type Symptom = z.infer<typeof Symptom>;
