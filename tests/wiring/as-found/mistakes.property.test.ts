import { describe, expect, test } from 'vitest';
import { type Network, type Simulation, simulateAsFound } from '../../../src/circuit/index.ts';
import { type Fault, faultsOf } from '../../../src/diagnosis/index.ts';
import { COLOUR_CODES } from '../../../src/published/index.ts';
import {
  AS_ENTRY,
  type AsFound,
  afterChange,
  agree,
  asFoundOf,
  changesFor,
  changeText,
  differencesOf,
  foundNetwork,
  tidy,
} from '../../../src/wiring/as-found/index.ts';
import { tried } from '../../support/property.ts';
import { shippedSystems } from '../../support/shipped.ts';

/** Mistakes within the system: what comes in from another circuit has no mark of its own. */
const mistakesOf = (simulation: Simulation) =>
  faultsOf(simulation).filter(
    ({ origin, family }) => origin === 'wiring mistake' && family !== 'otherCircuit',
  );

/** A mistake as the reader would mark it. */
function marked({ network }: Simulation, { edit }: Fault): AsFound {
  const wired = edit.rewire ? edit.rewire(network.system) : network.system;
  const found = asFoundOf(network, wired, edit.changes);
  if (found === null) throw new RangeError('a wiring mistake that cannot be marked');
  return found;
}

const spoken = (point: string) => {
  const [item, name] = point.split('.') as [string, string];
  const said: Record<string, string> = {
    'call feed': 'live to stat',
    'call return': 'switched live back',
    'call out': 'SL out',
  };
  return `${said[name] ?? (/^\d+$/.test(name) ? `terminal ${name}` : name)} at ${item}`;
};
const named = (colour: string) => COLOUR_CODES[colour as keyof typeof COLOUR_CODES];
const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** What a mistake is, said from its id alone: the way the fault list names things. */
function saidOf({ system }: Network, { id, edit }: Fault): string[] {
  const core = (end: string) => {
    const [, cable, colour] = /^(W[0-9]+)\.([A-Z]+)@/.exec(end)!;
    return `${named(colour!)} core of ${cable}`;
  };
  const due = (end: string) => {
    const [, cable, colour, at] = /^(W[0-9]+)\.([A-Z]+)@([12])/.exec(end)!;
    return spoken(
      Object.entries(system.cables[cable!]!.cores).find(([c]) => c === colour)![1].ends[
        Number(at) - 1
      ]!,
    );
  };
  const exchanged = /^(W.*)\/(W.*):exchanged$/.exec(id);
  if (exchanged) {
    // The two are listed in the order of their names.
    const [a, b] = exchanged.slice(1).toSorted() as [string, string];
    return [`${capital(core(a))} and ${core(b)} are crossed: ${due(a)} and ${due(b)}`];
  }
  const moved = /^(W.*):(?:in|fed from) (.*)$/.exec(id);
  if (moved)
    return [`${capital(core(moved[1]!))} is in ${spoken(moved[2]!)} instead of ${due(moved[1]!)}`];
  const left = /^(.*)~(.*):link left in$/.exec(id);
  if (left) {
    const [a, b] = left.slice(1).toSorted().map(spoken);
    return [`A link stands between ${a} and ${b} that does not belong there`];
  }
  const out = /^link ([0-9]+):out$/.exec(id);
  if (out) {
    const [a, b] = system.links[Number(out[1]) - 1]!.between.map(spoken);
    return [`The link between ${a} and ${b} is not fitted`];
  }
  const short = /^(W[0-9]+):([0-9]) cores(, loop linked)?$/.exec(id);
  if (short) {
    const cable = `${short[1]} has ${short[2]} cores (brown, blue, green-yellow) where 5 belong: black and grey are not there`;
    const link = edit.changes.flatMap((c) => (c.kind === 'join' ? [c] : []));
    const linked = link.map(({ from, to }) => {
      const [a, b] = [from, to].toSorted().map(spoken);
      return `A link stands between ${a} and ${b} that does not belong there`;
    });
    return [...linked, cable];
  }
  const asLive = /^(W[0-9]+)\.GNYE:as a live$/.exec(id);
  if (asLive) {
    const cable = asLive[1]!;
    const [before, after] = [system, edit.rewire!(system)].map((s) => s.cables[cable]!.cores);
    const order = ['BN', 'BU', 'BK', 'GY', 'GNYE'];
    const there = Object.keys(after!).toSorted((a, b) => order.indexOf(a) - order.indexOf(b));
    const lost = Object.keys(before!).filter((colour) => !there.includes(colour));
    return [
      `${cable} has ${there.length} cores (${there.map(named).join(', ')}) where ${there.length + 1} belong: ${lost.map(named).join(' and ')} is not there`,
      ...([0, 1] as const).map(
        (end) =>
          `Green-yellow core of ${cable} is in ${spoken(after!.GNYE!.ends[end])} instead of ${spoken(before!.GNYE!.ends[end])}`,
      ),
    ];
  }
  const oversize = /^(.*)\/(.*):oversize$/.exec(id)!;
  return [`Fuse of ${oversize[1]} is 13 A instead of 3 A`];
}

describe.each(tried(shippedSystems(), 4).map(({ id, simulation }) => ({ id, simulation })))(
  '$id: every wiring mistake of the fault list',
  ({ simulation }) => {
    const { network } = simulation;
    const mistakes = mistakesOf(simulation);

    test('can be marked, and is described as exactly that', () => {
      expect(mistakes.length).toBeGreaterThan(15);
      for (const mistake of mistakes) {
        const said = differencesOf(network, marked(simulation, mistake)).map(({ title }) => title);
        expect(said, mistake.id).toEqual(saidOf(network, mistake));
      }
    });

    test('its changes, one after the other, restore the entry, and none less does', () => {
      for (const mistake of mistakes) {
        const found = marked(simulation, mistake);
        const changes = changesFor(network, found);
        const steps = changes.map((_, i) =>
          changes
            .slice(0, i + 1)
            .reduce((state, change) => afterChange(network, state, change), found),
        );
        expect(tidy(network, steps.at(-1)!), mistake.id).toEqual(AS_ENTRY);
        for (const short of steps.slice(0, -1)) expect(tidy(network, short)).not.toEqual(AS_ENTRY);
        // One new cable puts a lost core and the green-yellow that took its place right at once.
        const differences = differencesOf(network, found).length;
        expect(changes.length).toBe(mistake.class === 'earthAsLive' ? 1 : differences);
        for (const change of changes) expect(changeText(network, change)).toMatch(/^[A-Z][^.]+$/);
      }
    });

    test('marked, it is the circuit of the fault; restored, that of the entry', () => {
      let told = 0;
      for (const mistake of mistakes) {
        const found = marked(simulation, mistake);
        const own = simulateAsFound(mistake.circuit());
        if (!agree(simulation, own)) told++;
        expect(agree(own, simulateAsFound(foundNetwork(network, found))), mistake.id).toBe(true);
        const restored = changesFor(network, found).reduce(
          (state, change) => afterChange(network, state, change),
          found,
        );
        expect(agree(simulation, simulateAsFound(foundNetwork(network, restored)))).toBe(true);
      }
      // Most mistakes are told by some reading: to agree says something.
      expect(told).toBeGreaterThan(mistakes.length / 2);
    });
  },
);
