import { describe, expect, it } from 'vitest';
import { INSTRUMENTS, type Network, read, simulate } from '../../src/circuit/index.ts';
import {
  classAt,
  DEMANDS,
  LOW,
  seen,
  under,
  wantsHeating,
  wantsHotWater,
  withoutCores,
} from './demands.ts';
import { loadSystem } from './load.ts';

const twoPort = loadSystem('heat-only-two-port');
const midPosition = loadSystem('heat-only-mid-position');
const condensate = loadSystem('heat-only-condensate-pump');
const internalPump = loadSystem('system-boiler-internal-pump');

/** What tells that the pump runs: it stands in the pipework, or inside the boiler. */
const pumpOf = ({ items }: Network) => (items.has('M1') ? 'M1.running' : 'E1.pump');

describe('every boiler with a cylinder', () => {
  const systems = [twoPort, midPosition, condensate, internalPump].map((network) => ({
    network,
    id: network.id,
  }));

  // England, Approved Document L guidance: "wired so that when there is no demand for space
  // heating or hot water, the heating appliance and pump are switched off".
  it.each(systems)('$id: boiler and pump follow demand, and are off without it', ({ network }) => {
    for (const conditions of DEMANDS) {
      const settled = under(network, conditions);
      const demand = wantsHeating(conditions) || wantsHotWater(conditions);
      const about = JSON.stringify(conditions);
      expect(seen(settled, 'E1.burner'), about).toBe(demand);
      expect(seen(settled, pumpOf(network)), about).toBe(demand);
      expect(classAt(settled, 'E1.SL'), about).toBe(demand ? 'live' : 'dead');
      expect(settled.hunting, about).toEqual([]);
    }
  });

  // Common practice, no source: the permanent live is there whatever the controls do.
  it.each(systems)('$id: the boiler keeps its permanent live', ({ network }) => {
    for (const conditions of DEMANDS) {
      expect(classAt(under(network, conditions), 'E1.L')).toBe('live');
    }
  });

  // Common practice, no source: overrun carries the heat out after the call.
  it.each(systems)('$id: overrun keeps the pump and not the burner', ({ network }) => {
    for (const before of DEMANDS) {
      const { state } = under(network, before);
      const settled = under(network, { 'E1.overrunning': true }, state);
      expect(seen(settled, pumpOf(network))).toBe(true);
      expect(seen(settled, 'E1.burner')).toBe(false);
      if (network.items.has('M1')) expect(classAt(settled, 'M1.L')).toBe('live');
      expect(classAt(settled, 'E1.SL')).toBe('dead');
    }
  });

  // Common practice, no source: one double-pole switched fused connection unit isolates all
  // of the heating controls.
  it.each(systems)('$id: isolator off leaves every load-side conductor dead', ({ network }) => {
    const points = network.nodes.filter(
      ({ id, item }) => item !== 'F1' && !id.startsWith('Q1.supply') && !id.startsWith('Q1#'),
    );
    expect(points.length).toBeGreaterThan(40);
    for (const conditions of DEMANDS) {
      const { state } = under(network, conditions);
      const isolated = under(network, { ...conditions, 'Q1.off': true }, state);
      for (const { id } of points) {
        for (const by of INSTRUMENTS) {
          expect(read(isolated.solution, id, 'F1.E', by).class, `${id} by ${by.id}`).toBe('dead');
        }
      }
    }
  });
});

describe.each([twoPort, condensate, internalPump])('two-port valves: $id', (network) => {
  const lead = (valve: string) =>
    Object.entries(network.system.cables).find(([, { cores }]) =>
      cores.OG?.ends[1].startsWith(`${valve}.`),
    )![0];
  // Common practice, no source: the end switch and not the thermostat calls the boiler.
  it('opens each valve for its own service', () => {
    for (const conditions of DEMANDS) {
      const settled = under(network, conditions);
      expect(seen(settled, 'Q2.open')).toBe(wantsHeating(conditions));
      expect(seen(settled, 'Q3.open')).toBe(wantsHotWater(conditions));
    }
  });

  it('fires the boiler only through an end switch', () => {
    const cut = withoutCores(network.id, { [lead('Q2')]: 'OG', [lead('Q3')]: 'OG' });
    const heatingCut = withoutCores(network.id, { [lead('Q2')]: 'OG' });
    for (const conditions of DEMANDS) {
      const settled = under(cut, conditions);
      expect(seen(settled, 'Q2.open')).toBe(wantsHeating(conditions));
      expect(seen(settled, 'Q3.open')).toBe(wantsHotWater(conditions));
      expect(seen(settled, 'E1.burner')).toBe(false);
      expect(seen(settled, pumpOf(network))).toBe(false);
      expect(seen(under(heatingCut, conditions), 'E1.burner')).toBe(wantsHotWater(conditions));
    }
  });

  it('keeps both end switches’ grey live whatever the controls do', () => {
    for (const conditions of DEMANDS) {
      const settled = under(network, conditions);
      expect(classAt(settled, 'Q2.end switch feed')).toBe('live');
      expect(classAt(settled, 'Q3.end switch feed')).toBe('live');
    }
  });
});

describe.each([twoPort, condensate])('unvented cylinder: $id', (network) => {
  // Approved Document G3: an indirect cylinder's non-self-resetting cut-out closes the
  // motorised valve on the primary coil.
  it('trips, and shuts the hot-water valve whatever the controls do', () => {
    const { state } = under(network, { 'K1.hot water on': true, 'B2.calling': true });
    expect(state.positions.get('Q3')).toBe('open');
    for (const conditions of DEMANDS) {
      const settled = under(network, { ...conditions, 'F2.overheated': true }, state);
      expect(seen(settled, 'F2.tripped')).toBe(true);
      expect(seen(settled, 'Q3.open')).toBe(false);
      expect(classAt(settled, 'Q3.motor L', LOW)).toBe('dead');
      expect(seen(settled, 'E1.burner')).toBe(wantsHeating(conditions));
    }
  });

  it('stays tripped when cool and through loss of supply, until reset', () => {
    const calls = { 'K1.hot water on': true, 'B2.calling': true };
    const hot = under(network, { ...calls, 'F2.overheated': true });
    const pressed = { ...calls, 'F2.reset pressed': true };
    const tooSoon = under(network, { ...pressed, 'F2.overheated': true }, hot.state);
    expect(seen(tooSoon, 'F2.tripped')).toBe(true);
    const off = under(network, { 'Q1.off': true }, tooSoon.state);
    for (const conditions of DEMANDS) {
      const cool = under(network, conditions, off.state);
      expect(seen(cool, 'F2.tripped')).toBe(true);
      expect(seen(cool, 'Q3.open')).toBe(false);
    }
    const reset = under(network, pressed, off.state);
    expect(seen(reset, 'F2.tripped')).toBe(false);
    expect(seen(reset, 'Q3.open')).toBe(true);
    expect(seen(reset, 'E1.burner')).toBe(true);
    expect(seen(under(network, calls, reset.state), 'Q3.open')).toBe(true);
  });
});

describe('condensate pump', () => {
  // A condensate pump's second level switch stops the appliance; common practice, no source.
  it('puts the burner out by its overflow switch whatever is called', () => {
    for (const conditions of DEMANDS) {
      const high = under(condensate, { ...conditions, 'M2.condensate high': true });
      const demand = wantsHeating(conditions) || wantsHotWater(conditions);
      expect(seen(high, 'E1.burner')).toBe(false);
      expect(seen(high, 'M1.running')).toBe(false);
      expect(seen(high, 'E1.display')).toBe(true);
      expect(classAt(high, 'M2.overflow COM', LOW)).toBe(demand ? 'live' : 'dead');
      expect(classAt(high, 'E1.SL')).toBe('dead');
    }
  });

  // Common practice, no source: in the call rather than the supply, so that overrun goes on.
  it('leaves the overrun', () => {
    const settled = under(condensate, { 'M2.condensate high': true, 'E1.overrunning': true });
    expect(seen(settled, 'M1.running')).toBe(true);
    expect(seen(settled, 'E1.burner')).toBe(false);
  });

  // Common practice, no source: live, neutral and earth, and two for the overflow switch.
  it('takes five cores to the pump', () => {
    const cores = Object.values(condensate.system.cables)
      .flatMap(({ cores }) => Object.values(cores))
      .filter((core) => core?.ends[1].startsWith('M2.'));
    expect(cores).toHaveLength(5);
  });
});

describe('a system boiler, its pump inside', () => {
  /**
   * What a meter shows from a point to neutral whose load takes induced volts away: L live, –
   * dead. Reasoned by hand from the wiring (common practice, no source).
   */
  const READINGS: readonly (readonly [point: string, row: string])[] = [
    ['E1.L', 'L L L L L L –'],
    ['E1.SL', '– L L L – – –'],
    ['X1.2', '– L – L L L –'],
    ['X1.3', '– – L L L L –'],
    ['X1.4', '– L – L – – –'],
    ['X1.5', '– – L L – – –'],
    ['X1.6', '– L L L – – –'],
    ['K1.hot water off', 'L L – – – – –'],
    ['Q2.end switch feed', 'L L L L L L –'],
    ['Q3.end switch feed', 'L L L L L L –'],
  ];
  const MODES = ['standby', 'heating', 'hot-water', 'both', 'satisfied', 'overrun', 'isolated'];

  it.each(READINGS)('%s in every mode', (point, row) => {
    const { modes } = simulate(internalPump);
    expect(Object.keys(internalPump.system.modes)).toEqual(MODES);
    const shown = MODES.map((mode) => {
      const { class: found } = read(modes.get(mode)!.solution, point, 'X1.N', LOW);
      return { live: 'L', dead: '–' }[found as 'live' | 'dead'] ?? found;
    });
    expect(shown).toEqual(row.split(' '));
  });

  // Common practice, no source: live, neutral, switched live and earth.
  it('takes four cores to the boiler', () => {
    const { W3 } = internalPump.system.cables;
    expect(
      Object.values(W3!.cores)
        .map((core) => core!.ends[1])
        .toSorted(),
    ).toEqual(['E1.E', 'E1.L', 'E1.N', 'E1.SL']);
  });

  // Common practice, no source: a permanent live taken from the switched live loses the overrun.
  it('fed by its switched live alone, shows nothing without a call and does not run on', () => {
    const misfed = loadSystem(internalPump.id, {}, (system) => {
      system.cables.W3!.cores.BN!.ends = ['X1.6', 'E1.L'];
      return system;
    });
    for (const conditions of DEMANDS) {
      const demand = wantsHeating(conditions) || wantsHotWater(conditions);
      const settled = under(misfed, conditions);
      expect(seen(settled, 'E1.display')).toBe(demand);
      expect(seen(settled, 'E1.burner')).toBe(demand);
      const after = under(misfed, { 'E1.overrunning': true }, settled.state);
      expect(seen(after, 'E1.pump')).toBe(false);
    }
  });
});
