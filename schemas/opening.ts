import { z } from 'zod';
import { Line, MemberName, TerminalName } from './names.ts';

/** Who may open a place or do an act there. */
export const PEOPLE = [
  'controls engineer',
  'electrician',
  'Gas Safe registered engineer',
  'unvented-qualified engineer',
] as const;
export type Person = (typeof PEOPLE)[number];

/**
 * What has to be off before something is opened.
 * isolated: every supply into it off, locked off and proved dead;
 * switch off: its own switch alone, as for a fuse carrier that draws out from the front;
 * nothing: it may come off as it stands, as a plug or a battery cover.
 */
export const STANDINGS = ['isolated', 'switch off', 'nothing'] as const;

/** What may be read at the terminals of an opening. */
export const READINGS = ['live and dead', 'dead only', 'none'] as const;

/** One way of getting at a device: what comes off, what that does, and what may be read there. */
export const Opening = z
  .strictObject({
    title: Line.meta({ description: 'What comes off, as in "cover of the valve head"' }),
    minutes: z.number().nonnegative().meta({ description: 'Time to open it, minutes' }),
    closing: z.number().nonnegative().optional().meta({
      description: 'Time to close it again, minutes; as long as to open it if absent',
    }),
    by: z
      .enum(PEOPLE, { error: () => `who opens it is one of ${PEOPLE.join(', ')}` })
      .default('controls engineer')
      .meta({ description: 'Who may open it' }),
    needs: z
      .enum(STANDINGS, { error: () => `what it needs is one of ${STANDINGS.join(', ')}` })
      .default('isolated')
      .meta({ description: 'What has to be off before it is opened' }),
    moves: z.record(MemberName, z.boolean()).default({}).meta({
      description:
        'Conditions of the device that opening it brings about, as a float that falls when its pump is lifted',
    }),
    readings: z
      .enum(READINGS, { error: () => `the readings taken there are ${READINGS.join(', ')}` })
      .default('live and dead')
      .meta({ description: 'What may be read on its terminals, by whoever may open it' }),
    because: Line.optional().meta({
      description: 'Why not everything is read there, as in "Its lead is moulded in"',
    }),
    shows: z.array(TerminalName).optional().meta({
      description: 'Terminals one gets at; all that no other opening shows, if absent',
    }),
    holds: z.array(MemberName).default([]).meta({ description: 'Fuse links one gets at' }),
    spindle: z.literal(true).optional().meta({
      description: 'The spindle of a valve is bare there, and is turned by hand',
    }),
    care: Line.optional().meta({ description: 'What to mind at this opening; a caution' }),
  })
  .refine(({ readings, because }) => readings === 'live and dead' || because !== undefined, {
    path: ['because'],
    message: 'say why not everything is read there',
  });
export type Opening = z.infer<typeof Opening>;
