import { z } from 'zod';
import type { Replacement } from '../wiring/replacement/index.ts';

const text = z.string();
const seen = z.union([z.boolean(), z.literal('hunting')]);

const Core = z.strictObject({
  cable: text,
  colour: text,
  far: text.meta({ description: 'Terminal of its other end, ITEM.terminal' }),
  was: text.nullable().meta({ description: 'Terminal of the old device; null: not used there' }),
  now: text
    .nullable()
    .meta({ description: 'Terminal of the new device; null: a terminal of its own' }),
  core: z.enum(['kept', 'spare', 'new']),
  sleeve: text.nullable(),
});

const Difference = z.strictObject({
  mode: text.nullable().meta({ description: 'null: shows only in another combination' }),
  conditions: z.record(text, z.boolean()).meta({ description: 'By the old device’s names' }),
  outcome: text,
  was: seen,
  now: seen,
});

/** One device in place of another, and what simulation of both came to. */
const ReplacementData = z.strictObject({
  item: text,
  old: text.meta({ description: 'Device that is there' }),
  new: text.meta({ description: 'Device in its place' }),
  verdict: z
    .enum(['equal', 'equal with cores', 'different', 'never'])
    .meta({ description: 'never: it makes a danger, so no cores and links are listed' }),
  cores: z.array(Core),
  links: z.array(
    z.strictObject({
      between: z.tuple([text, text]),
      act: z.enum(['stays', 'take out', 'add', 'not put back']),
    }),
  ),
  newCable: z
    .strictObject({
      cable: text,
      inPlaceOf: text.nullable(),
      from: text.meta({ description: 'Item it comes from' }),
      cores: z.array(text),
    })
    .nullable(),
  homeless: z.array(text).meta({ description: 'Old terminals whose function has no home' }),
  empty: z.array(text).meta({ description: 'New terminals that stay empty' }),
  compared: z.strictObject({ modes: z.array(text), combinations: z.number().int() }),
  differences: z.array(Difference),
  dangers: z.array(z.strictObject({ kind: text, at: z.array(text) })),
});

/** Every device that can be offered for every item of a system. */
export const ReplacementsData = z.array(ReplacementData);
export type ReplacementsData = z.infer<typeof ReplacementsData>;

/** The open form of a system's replacements. */
export function replacementsData(replacements: readonly Replacement[]): ReplacementsData {
  return replacements.map(({ plan, verdict, comparison, hazards }) => {
    const told = verdict === 'never' ? undefined : plan;
    const { newCable } = plan;
    return {
      item: plan.item,
      old: plan.oldId,
      new: plan.newId,
      verdict,
      cores: (told?.cores ?? []).map(({ cable, colour, far, was, now, core, sleeve }) => ({
        cable,
        colour,
        far,
        was,
        now,
        core,
        sleeve,
      })),
      links: (told?.links ?? []).map(({ between: [a, b], act }) => ({ between: [a, b], act })),
      newCable:
        told && newCable
          ? {
              cable: newCable.cable,
              inPlaceOf: newCable.inPlaceOf,
              from: newCable.from,
              cores: [...newCable.cores],
            }
          : null,
      homeless: [...plan.homeless],
      empty: [...plan.empty],
      compared: { modes: [...comparison.modes], combinations: comparison.combinations },
      differences: comparison.differences.map((d) => ({
        mode: d.mode,
        conditions: { ...d.conditions },
        outcome: d.outcome,
        was: d.was,
        now: d.now,
      })),
      dangers: hazards.map(({ kind, at }) => ({ kind, at: [...at] })),
    };
  });
}
