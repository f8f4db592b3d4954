import { z } from 'zod';
import { PEOPLE, READINGS, STANDINGS } from '../../schemas/index.ts';
import type { Network, Simulation } from '../circuit/index.ts';
import { actsOf, situationOf } from '../diagnosis/tests/index.ts';
import {
  changesCircuit,
  LINK_OHMS,
  type Place,
  placeOfTerminal,
  placesOf,
  readInstead,
  readsAt,
  type Situation,
  settledIn,
  situationsOf,
} from '../site/index.ts';

const text = z.string();

/** One opening of one item: where a hand and a probe get, and what getting there does. */
export const PlaceData = z.strictObject({
  id: text.meta({ description: 'ITEM/opening' }),
  title: text.meta({ description: 'What comes off' }),
  minutes: z.number().meta({ description: 'To open it, as its device says; nothing else in it' }),
  by: z.enum(PEOPLE).meta({ description: 'Who may open it' }),
  needs: z.enum(STANDINGS).meta({ description: 'What has to be off before it is opened' }),
  readings: z.enum(READINGS).meta({ description: 'What a controls engineer may read there' }),
  because: text.nullable().meta({ description: 'Why not everything is read there' }),
  terminals: z.array(text).meta({ description: 'Nodes one gets at' }),
  fuses: z.array(text).meta({ description: 'Branch ids of the fuse links one gets at' }),
  brings: z.record(text, z.boolean()).meta({
    description:
      'Conditions that opening it brings about: what is read there is read in such a situation',
  }),
});

/** A mode as an open place, or a link laid there, leaves the circuit. */
export const SituationData = z.strictObject({
  id: text.meta({ description: 'By which branches say what they are in it' }),
  mode: text,
  place: text,
  link: z
    .strictObject({ from: text, to: text, ohms: z.number() })
    .nullable()
    .meta({ description: 'Terminals that a link is laid across, once isolated' }),
  conditions: z.record(text, z.boolean()),
  outcomes: z.record(text, z.union([z.boolean(), z.literal('hunting')])),
  positions: z.record(text, text),
  blown: z.array(text),
});

/** Every place of a system in open form. */
export const placesData = (network: Network): z.infer<typeof PlaceData>[] =>
  placesOf(network).map((place) => ({
    id: place.id,
    title: place.opening.title,
    minutes: place.opening.minutes,
    by: place.opening.by,
    needs: place.opening.needs,
    readings: readsAt(place),
    because: place.opening.because ?? null,
    terminals: [...place.terminals],
    fuses: [...place.fuses],
    brings: { ...place.brings },
  }));

/** Where the conductor of each terminal is read with everything connected and working. */
export const readInsteadData = (network: Network): Record<string, string | null> =>
  Object.fromEntries(
    network.nodes.flatMap(({ id, terminal }) => {
      const at = terminal ? placeOfTerminal(network, id) : undefined;
      const asItIs = at && readsAt(at) === 'live and dead' && !changesCircuit(at);
      return terminal && !asItIs ? [[id, readInstead(network, id)]] : [];
    }),
  );

/** Every situation of a system that is no mode as it stands. */
export function alteredSituations(network: Network): (Situation & { readonly place: Place })[] {
  const links = actsOf(network).flatMap((test) =>
    test.act === 'link' ? situationOf(network, test) : [],
  );
  const all = [...situationsOf(network), ...links].flatMap((one) =>
    one.place ? [{ ...one, place: one.place }] : [],
  );
  return [...new Map(all.map((one) => [one.id, one])).values()];
}

/** The same in open form, each as the circuit comes to rest in it. */
export const situationsData = (simulation: Simulation): z.infer<typeof SituationData>[] =>
  alteredSituations(simulation.network).map((situation) => {
    const { state, outcomes } = settledIn(simulation, situation);
    return {
      id: situation.id,
      mode: situation.mode,
      place: situation.place.id,
      link: situation.link
        ? { from: situation.link[0], to: situation.link[1], ohms: LINK_OHMS }
        : null,
      conditions: Object.fromEntries(state.conditions),
      outcomes: Object.fromEntries(outcomes),
      positions: Object.fromEntries(state.positions),
      blown: [...state.blown],
    };
  });
