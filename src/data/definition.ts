import { z } from 'zod';
import type { Network } from '../circuit/index.ts';

const text = z.string();

/** What the entry and its devices say, before anything is computed. */
export const Definition = z.strictObject({
  items: z.array(
    z.strictObject({
      reference: text,
      title: text,
      place: text,
      device: text.meta({ description: 'Id of the device entry' }),
      elements: z
        .record(text, z.looseObject({ kind: text }))
        .meta({ description: 'By name, as the device says, with this item’s ratings' }),
      mechanism: z.looseObject({}).nullable(),
      outcomes: z
        .record(text, z.looseObject({ title: text }))
        .meta({ description: 'What a person sees, and when' }),
    }),
  ),
  cables: z.array(
    z.strictObject({
      id: text,
      kind: text,
      mm2: z.number(),
      earthMm2: z.number().nullable(),
      metres: z.number(),
      spare: z.array(text).meta({ description: 'Colours of cores joined to nothing' }),
    }),
  ),
});
export type Definition = z.infer<typeof Definition>;

/** The open form of what a system is made of. */
export function definitionOf({ items, system, branches }: Network): Definition {
  const rated = new Map(
    branches.flatMap((branch) =>
      branch.kind === 'element' ? [[branch.id, branch.element] as const] : [],
    ),
  );
  return {
    items: [...items.values()].map(({ reference, title, place, deviceId, device }) => ({
      reference,
      title,
      place,
      device: deviceId,
      elements: Object.fromEntries(
        Object.entries(device.elements).map(([name, element]) => [
          name,
          { ...(rated.get(`${reference}/${name}`) ?? element) },
        ]),
      ),
      mechanism: device.mechanism ? { ...device.mechanism } : null,
      outcomes: Object.fromEntries(
        Object.entries(device.outcomes).map(([name, outcome]) => [name, { ...outcome }]),
      ),
    })),
    cables: Object.entries(system.cables).map(([id, cable]) => ({
      id,
      kind: cable.kind,
      mm2: cable.size,
      earthMm2: cable.earthSize ?? null,
      metres: cable.length,
      spare: [...cable.spare],
    })),
  };
}
