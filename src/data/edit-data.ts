import { z } from 'zod';
import type { System } from '../../schemas/index.ts';
import type { Edit } from '../diagnosis/faults/index.ts';

const text = z.string();
const number = z.number();
const branch = text.meta({ description: 'Branch id' });

const ChangeData = z.discriminatedUnion('kind', [
  z
    .strictObject({ kind: z.literal('open'), branch })
    .meta({ description: 'Come apart: conducts nothing, whatever its rule' }),
  z
    .strictObject({ kind: z.literal('closed'), branch })
    .meta({ description: 'Bridged from end to end' }),
  z
    .strictObject({ kind: z.literal('welded'), branch })
    .meta({ description: 'A contact that is closed whatever its rule' }),
  z
    .strictObject({ kind: z.literal('parted'), end: text })
    .meta({ description: 'A core’s end out of its terminal, as W3.BN@2' }),
  z
    .strictObject({
      kind: z.literal('join'),
      from: text,
      to: text,
      ohms: number,
      inside: text.optional().meta({ description: 'Item that it comes off with' }),
    })
    .meta({ description: 'A path that should not be there, Ω' }),
  z
    .strictObject({ kind: z.literal('stuck'), item: text, position: text })
    .meta({ description: 'A mechanism that does not leave a position' }),
  z
    .strictObject({ kind: z.literal('rated'), branch, rating: number })
    .meta({ description: 'A fuse or breaker of another rating, A' }),
  z
    .strictObject({ kind: z.literal('series'), branch, ohms: number })
    .meta({ description: 'A resistance in series with it, Ω' }),
  z
    .strictObject({ kind: z.literal('idle'), branch })
    .meta({ description: 'A load or motor that takes its current and does not do its work' }),
  z
    .strictObject({ kind: z.literal('set'), condition: text, value: z.boolean() })
    .meta({ description: 'A condition that stands so whatever a mode sets' }),
]);

/** What a fault changes: the wiring first, then the circuit built from it. */
export const EditData = z.strictObject({
  cores: z.record(text, z.tuple([text, text]).nullable()).meta({
    description:
      'Where the two ends of a core are instead, by core; a loose end as W3.BN@2; null: no such core',
  }),
  changes: z.array(ChangeData).meta({ description: 'In this order' }),
  touches: z.array(text).meta({
    description: 'What it takes hold of: two faults that share one are no two faults of a circuit',
  }),
});

const endsOf = ({ cables }: System): Map<string, [string, string]> =>
  new Map(
    Object.entries(cables).flatMap(([cable, { cores }]) =>
      Object.entries(cores).map(([colour, { ends }]) => [`${cable}.${colour}`, [...ends]] as const),
    ),
  );

/** The open form of what a fault changes; rewiring moves ends of cores and nothing else. */
export function editData(
  system: System,
  { rewire, changes, touches }: Edit,
): z.infer<typeof EditData> {
  const before = endsOf(system);
  const after = rewire ? endsOf(rewire(system)) : before;
  const differ = [...new Set([...before.keys(), ...after.keys()])].filter(
    (core) => before.get(core)?.join() !== after.get(core)?.join(),
  );
  return {
    cores: Object.fromEntries(differ.map((core) => [core, after.get(core) ?? null])),
    changes: changes.map((change) => ({ ...change })),
    touches: [...touches],
  };
}
