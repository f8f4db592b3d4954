import { buildNetwork, simulate } from '../../circuit/index.ts';
import {
  candidatesFor,
  type Replacement,
  studyReplacement,
} from '../../wiring/replacement/index.ts';
import type { Source } from './source.ts';

/** A replacement as it is kept: the system as its entry has it is put back when it is read. */
export type KeptReplacement = Omit<Replacement, 'before'>;

/** Studies every device of the source in place of every item it can be offered for: seconds of work. */
export function makeReplacements({ id, system, devices }: Source): KeptReplacement[] {
  const known = new Map(Object.entries(devices));
  const network = buildNetwork(id, system, known);
  const simulation = simulate(network);
  return [...network.items.keys()].flatMap((item) =>
    candidatesFor(network, item, known).map((newId) => {
      const { before, ...kept } = studyReplacement(simulation, item, newId, known.get(newId)!);
      return kept;
    }),
  );
}
