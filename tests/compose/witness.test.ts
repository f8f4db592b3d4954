import { describe, expect, it } from 'vitest';
import type { System } from '../../schemas/index.ts';
import {
  buildNetwork,
  INSTRUMENTS,
  type Network,
  read,
  simulate,
} from '../../src/circuit/index.ts';
import { compose, type Specification } from '../../src/compose/index.ts';
import { catalogue, entries, networkOf } from './catalogue.ts';
import { breaches, contentProblems, missedModes } from './judged.ts';
import { leadColours, netsOf } from './nets.ts';
import { WRITTEN } from './specifications.ts';

/**
 * The systems that were written by hand, core by core, are the witnesses: what is composed
 * of a few names is held to them. Nothing here knows how a system is composed.
 */
const CASES = [...entries().systems.values()]
  .filter(({ data }) => !data.compose)
  .map(({ id, data }) => ({ id, written: data, specification: WRITTEN[id] as Specification }));

/**
 * Cores that may change places: the permanent live to the condensate pump and the live to its
 * overflow switch are linked in the box.
 */
const HARMLESS: Readonly<Record<string, readonly string[]>> = {
  'combi-condensate-pump': ['W5 BN GY', 'W6 BN WH'],
  'combi-wireless-condensate-pump': ['W5 BN WH'],
};

/** The composed circuit with the modes that were written by hand. */
function withWrittenModes(id: string, composed: System, written: System): Network {
  const system = { ...composed, modes: written.modes };
  return buildNetwork(id, system, catalogue().devices);
}

/** Terminals of a network that are no way of a box and lie on some net. */
const terminalsOf = (network: Network): string[] =>
  network.nodes.flatMap(({ id, item, terminal }) =>
    terminal && item && !item.startsWith('X') ? [id] : [],
  );

describe('every system written by hand, composed', () => {
  it('has a specification of few lines', () => {
    for (const { specification } of CASES) {
      expect(specification).toBeDefined();
      expect(Object.keys(specification).length).toBeLessThanOrEqual(8);
    }
  });

  describe.each(CASES)('$id', ({ id, written, specification }) => {
    const composed = compose(specification, catalogue());
    const { system } = composed;

    it('has the items of the entry under the same references', () => {
      const devices = ({ items }: System) =>
        Object.fromEntries(
          Object.entries(items)
            .filter(([reference]) => !reference.startsWith('X'))
            .map(([reference, { device }]) => [reference, device]),
        );
      expect(devices(system)).toEqual(devices(written));
    });

    it('joins the same terminals, boxes contracted', () => {
      expect(netsOf(system, catalogue())).toEqual(netsOf(written, catalogue()));
    });

    // Where the entry draws a flex instead of the lead an item comes with, there is nothing to compare.
    it('has the colours of the leads that items come with', () => {
      const ours = leadColours(system);
      for (const [terminal, colour] of leadColours(written))
        expect(`${terminal} ${ours.get(terminal)}`).toBe(`${terminal} ${colour}`);
    });

    it('shows the same outcomes and readings in the modes written by hand', () => {
      const ours = simulate(withWrittenModes(id, system, written));
      const theirs = simulate(buildNetwork(id, written, catalogue().devices));
      let compared = 0;
      for (const [mode, settled] of theirs.modes) {
        const same = ours.modes.get(mode)!;
        expect(Object.fromEntries(same.outcomes), mode).toEqual(
          Object.fromEntries(settled.outcomes),
        );
        for (const terminal of terminalsOf(theirs.network))
          for (const instrument of INSTRUMENTS) {
            const by = (network: typeof settled) =>
              read(network.solution, terminal, 'F1.E', instrument).class;
            expect(by(same), `${mode}, ${terminal}, ${instrument.id}`).toBe(by(settled));
            compared++;
          }
      }
      expect(compared).toBeGreaterThan(300);
    });

    it('is in order, keeps the house standards, and does in its own modes what it must', () => {
      expect(contentProblems(composed)).toEqual([]);
      expect(breaches(simulate(networkOf(id, composed)))).toEqual([]);
      expect(missedModes(composed)).toEqual([]);
    });

    it('would not be equal with two core ends exchanged', () => {
      const before = netsOf(system, catalogue());
      const unseen: string[] = [];
      let exchanged = 0;
      for (const [reference, { cores }] of Object.entries(system.cables)) {
        const colours = Object.keys(cores) as (keyof typeof cores)[];
        for (const [i, a] of colours.entries())
          for (const b of colours.slice(i + 1)) {
            const other = structuredClone(system);
            const [first, second] = [a, b].map((colour) => other.cables[reference]!.cores[colour]!);
            [first!.ends[1], second!.ends[1]] = [second!.ends[1], first!.ends[1]];
            const same = netsOf(other, catalogue()).join() === before.join();
            if (same) unseen.push(`${reference} ${[a, b].toSorted().join(' ')}`);
            exchanged++;
          }
      }
      expect(exchanged).toBeGreaterThan(6);
      expect(unseen).toEqual(HARMLESS[id] ?? []);
    });
  });
});
