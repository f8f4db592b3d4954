import { describe, expect, it } from 'vitest';
import { INSTRUMENTS, read, type Simulation } from '../../../src/circuit/index.ts';
import { testPairs } from '../../../src/wiring/index.ts';
import {
  applyPlan,
  candidatesFor,
  planReplacement,
} from '../../../src/wiring/replacement/index.ts';
import { devices, done, shipped, study, systemIds } from './shipped.ts';

/** Laws hold for every device that is offered for every item of every shipped system. */
const EVERY = systemIds.flatMap((system) => {
  const { network } = shipped(system);
  return [...network.items.keys()].flatMap((item) =>
    candidatesFor(network, item, devices).map((device) => ({ system, item, device })),
  );
});

/** What is done, without the proof of what it comes to. */
const madeOf = ({ system, item, device }: (typeof EVERY)[number]) => {
  const before = shipped(system);
  const plan = planReplacement(before, item, device, devices.get(device)!);
  return { plan, before: before.network, changed: applyPlan(before.network, plan) };
};

it('there are devices to offer', () => {
  expect(EVERY.length).toBeGreaterThan(80);
});

describe('a device in place of itself', () => {
  it('is the same system, core by core and link by link', () => {
    for (const pair of EVERY) {
      const { network } = shipped(pair.system);
      if (network.items.get(pair.item)!.deviceId !== pair.device) continue;
      const { changed, plan } = madeOf(pair);
      const links = (system: typeof network.system) =>
        system.links.map(({ between }) => between.toSorted().join()).toSorted();
      expect([pair, changed.network.system.cables]).toEqual([pair, network.system.cables]);
      expect([pair, links(changed.network.system)]).toEqual([pair, links(network.system)]);
      expect([pair, plan.cores.filter(({ was, now }) => was !== now)]).toEqual([pair, []]);
      expect([pair, plan.newCable, plan.homeless]).toEqual([pair, null, []]);
    }
  });
});

describe('no core is lost and none is doubled', () => {
  it('each core of the item has one place, or one terminal of its own', () => {
    for (const pair of EVERY) {
      const { plan } = madeOf(pair);
      const names = plan.cores.map(({ cable, colour }) => `${cable}.${colour}`);
      expect([pair, names.length]).toEqual([pair, new Set(names).size]);
      const due = Object.entries(shipped(pair.system).network.system.cables).flatMap(
        ([cable, { cores }]) =>
          Object.entries(cores)
            .filter(([, { ends }]) => ends.some((end) => end.startsWith(`${pair.item}.`)))
            .map(([colour]) => `${cable}.${colour}`),
      );
      const kept = due.filter((name) => !name.startsWith(`${plan.newCable?.inPlaceOf}.`));
      expect([pair, kept.filter((name) => !names.includes(name))]).toEqual([pair, []]);
    }
  });

  it('every cable that stays has as many cores, joined or spare, as before', () => {
    for (const pair of EVERY) {
      const { changed, plan } = madeOf(pair);
      for (const [cable, data] of Object.entries(shipped(pair.system).network.system.cables)) {
        if (plan.newCable?.inPlaceOf === cable || data.kind === 'fixed lead') continue;
        const now = changed.network.system.cables[cable]!;
        const colours = ({ cores, spare }: typeof data) =>
          [...Object.keys(cores), ...spare].toSorted();
        expect([pair, cable, colours(now)]).toEqual([pair, cable, colours(data)]);
      }
    }
  });

  it('no terminal takes cores of two old ones that were not joined', () => {
    for (const pair of EVERY) {
      const { plan, before } = madeOf(pair);
      const olds = Map.groupBy(
        plan.cores.filter(({ was, now }) => was !== null && now !== null),
        ({ now }) => now,
      );
      for (const [now, cores] of olds) {
        const from = new Set(cores.map(({ was }) => was!));
        const earths = [...from].every(
          (point) => before.nodes[before.nodeIndex.get(point)!]!.terminal?.carries === 'earth',
        );
        expect([pair, now, earths || from.size === 1]).toEqual([pair, now, true]);
      }
    }
  });
});

describe('there and back', () => {
  /** Every outcome, and every pair worth testing in the system as its entry has it. */
  const shown = (simulation: Simulation, entry: Simulation) => {
    const pairs = testPairs(entry.network).filter(({ kind }) => kind === 'line' || kind === 'call');
    return new Map(
      [...simulation.modes].map(([mode, { solution, outcomes }]) => [
        mode,
        [
          ...[...outcomes].map(([id, seen]) => `${id} ${seen}`),
          ...pairs.map(({ id, from, to }) => {
            const { class: found } = read(solution, from, to, INSTRUMENTS[0]!);
            return `${id} ${found === 'live' ? 'live' : 'not live'}`;
          }),
        ].toSorted(),
      ]),
    );
  };

  it('every reading and every outcome is as at first, in the modes both have', () => {
    let tried = 0;
    for (const pair of EVERY) {
      const before = shipped(pair.system);
      if (before.network.items.get(pair.item)!.deviceId === pair.device) continue;
      const there = study(before, pair.item, pair.device, 1);
      if (there.verdict !== 'equal') continue;
      const back = done(study(done(there), pair.item, there.plan.oldId, 1));
      const due = shown(before, before);
      for (const [mode, lines] of shown(back, before))
        expect([pair, mode, lines]).toEqual([pair, mode, due.get(mode)]);
      tried++;
    }
    expect(tried).toBeGreaterThan(15);
  }, 120_000);
});
