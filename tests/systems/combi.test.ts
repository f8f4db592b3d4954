import { describe, expect, it } from 'vitest';
import type { Cable, System } from '../../schemas/index.ts';
import {
  classOf,
  INSTRUMENTS,
  type Instrument,
  read,
  resistanceBetween,
  simulate,
} from '../../src/circuit/index.ts';
import { CONTROLS_FUSE } from '../../src/published/index.ts';
import { volts } from '../../src/units/index.ts';
import { loadSystem, modeOf, reader, seen } from './load.ts';

const MAINS_CALL = [
  'combi-two-wire',
  'combi-wireless',
  'combi-condensate-pump',
  'combi-wireless-condensate-pump',
] as const;
const PUMPED = ['combi-condensate-pump', 'combi-wireless-condensate-pump'] as const;
const RADIO = ['combi-wireless', 'combi-wireless-condensate-pump'] as const;
const WALL = ['combi-two-wire', 'combi-volt-free', 'combi-condensate-pump'] as const;
const ALL = [...MAINS_CALL, 'combi-volt-free'] as const;

const [tester, multimeter, lowImpedance] = INSTRUMENTS as [Instrument, Instrument, Instrument];

describe.each(ALL)('%s', (id) => {
  it('comes to rest in every mode as its author expects, with every fuse whole', () => {
    const network = loadSystem(id);
    for (const [mode, settled] of simulate(network).modes) {
      expect(settled.hunting, mode).toEqual([]);
      expect([...settled.state.blown], mode).toEqual([]);
      for (const [outcome, value] of Object.entries(network.system.modes[mode]!.expect))
        expect(settled.outcomes.get(outcome), `${mode} ${outcome}`).toBe(value);
    }
  });

  // Common practice, no source: healthy mains at a control reads about 240 V.
  it.each([230, 240, 242])('reads live at the boiler on a supply of %d V', (supplyVolts) => {
    const { solution } = modeOf(loadSystem(id, { supplyVolts }), 'heating');
    for (const instrument of INSTRUMENTS) {
      const reading = read(solution, 'E1.L', 'E1.N', instrument);
      expect(reading.class, instrument.title).toBe('live');
      expect(Math.abs(reading.ac - supplyVolts)).toBeLessThan(1);
    }
  });

  // Common practice, no source: a heating-control spur takes a 3 A fuse.
  it('feeds its controls through a 3 A fuse', () => {
    const fuse = loadSystem(id).branches.find((b) => b.id === 'Q1/fuse');
    expect(fuse).toMatchObject({ element: { kind: 'fuse', rating: CONTROLS_FUSE } });
    expect(CONTROLS_FUSE).toBe(3);
  });

  // Common practice, no source: a hot tap lights a combi whatever its controls do.
  it('runs hot at the tap without a call', () => {
    expect(seen(id, 'hot-tap', 'E1.hot tap')).toBe(true);
    expect(seen(id, 'hot-tap', 'E1.radiators')).toBe(false);
  });

  // Linsley, Basic Electrical Installation Work: a double-pole switched fused connection unit.
  it('parts line and neutral alike at the isolator', () => {
    const { solution } = modeOf(loadSystem(id), 'isolated');
    for (const pole of ['L', 'N'])
      expect(resistanceBetween(solution, `Q1.supply ${pole}`, `Q1.load ${pole}`)).toBeGreaterThan(
        1e6,
      );
  });

  // HSE HSG85: dead between all conductors, L-N, L-E, N-E (from memory).
  it('is dead beyond the isolator between every two terminals, on every instrument', () => {
    const network = loadSystem(id);
    const { solution } = modeOf(network, 'isolated');
    let pairs = 0;
    for (const item of network.items.keys()) {
      const points = network.nodes.filter(
        (n) => n.terminal && n.item === item && item !== 'F1' && !n.name.startsWith('supply'),
      );
      for (const [i, from] of points.entries()) {
        for (const to of [...points.slice(i + 1).map((n) => n.id), 'Q1.load E', 'F1.N']) {
          if (from.id === to) continue;
          for (const instrument of INSTRUMENTS) {
            const reading = read(solution, from.id, to, instrument);
            expect(reading.class, `${from.id} to ${to}, ${instrument.title}`).toBe('dead');
            expect(Math.abs(reading.dc), `${from.id} to ${to}`).toBeLessThan(0.1);
            pairs++;
          }
        }
      }
    }
    expect(pairs).toBeGreaterThan(100);
    expect(read(solution, 'Q1.supply L', 'Q1.supply N', tester).class).toBe('live');
  });

  // BS 7671 514 (from memory): line and switched line conductors are identified brown.
  it('marks brown every core that works as a line, and no neutral or call core', () => {
    const network = loadSystem(id);
    const { nodes } = network;
    for (const branch of network.branches) {
      if (branch.kind !== 'conductor' || branch.colour === 'GNYE') continue;
      const ends = [nodes[branch.from]!, nodes[branch.to]!].map((n) => n.terminal?.carries);
      if (ends.includes(undefined)) continue;
      const brown = branch.colour === 'BN' || branch.sleeve === 'BN';
      if (ends.every((carries) => carries === 'line' || carries === 'switched'))
        expect(brown, branch.id).toBe(true);
      else expect(branch.sleeve, branch.id).toBeUndefined();
    }
  });
});

describe.each(MAINS_CALL)('the call loop of %s (common practice, no source)', (id) => {
  it('has its feed live and its return dead until the control closes', () => {
    const standby = reader(id, 'standby');
    for (const instrument of INSTRUMENTS) {
      expect(standby('E1.call feed', 'E1.N', instrument).class).toBe('live');
      expect(standby('E1.call return', 'E1.N', instrument).class).toBe('dead');
    }
    expect(seen(id, 'standby', 'E1.burner')).toBe(false);
  });

  it('has both live on a call, and the burner lights', () => {
    const heating = reader(id, 'heating');
    expect(heating('E1.call feed').class).toBe('live');
    expect(heating('E1.call return').class).toBe('live');
    expect(seen(id, 'heating', 'E1.burner')).toBe(true);
  });

  it('stays dead at the return while a hot tap runs', () => {
    expect(reader(id, 'hot-tap')('E1.call return').class).toBe('dead');
  });
});

describe.each(WALL)('%s with its control off the wall (common practice, no source)', (id) => {
  it('keeps the boiler’s permanent live and lit display', () => {
    expect(reader(id, 'control-off')('E1.L').class).toBe('live');
    expect(seen(id, 'control-off', 'E1.display')).toBe(true);
    expect(seen(id, 'control-off', 'E1.burner')).toBe(false);
  });
});

describe('the volt-free call pair (common practice, no source)', () => {
  const id = 'combi-volt-free';

  it('shows its open-circuit voltage while the contact is open, next to none when closed', () => {
    for (const [a, b] of [
      ['E1.call 1', 'E1.call 2'],
      ['B1.COM', 'B1.NO'],
    ] as const) {
      expect(reader(id, 'standby')(a, b, multimeter).dc).toBeCloseTo(24, 1);
      expect(reader(id, 'control-off')(a, b, multimeter).dc).toBeCloseTo(24, 1);
      expect(Math.abs(reader(id, 'heating')(a, b, multimeter).dc)).toBeLessThan(0.1);
    }
  });

  it('is pulled down by a low-impedance meter, which may look like a call', () => {
    const dc = reader(id, 'standby')('E1.call 1', 'E1.call 2', lowImpedance).dc;
    expect(dc).toBeGreaterThan(5);
    expect(dc).toBeLessThan(20);
  });

  it('carries no mains in any mode', () => {
    const network = loadSystem(id);
    for (const [mode, { solution }] of simulate(network).modes) {
      for (const point of ['E1.call 1', 'E1.call 2', 'B1.COM', 'B1.NO'])
        for (const to of ['E1.N', 'E1.E'])
          expect(read(solution, point, to, multimeter).class, `${mode} ${point}`).toBe('dead');
    }
  });
});

describe.each(RADIO)('the receiver of %s (common practice, no source)', (id) => {
  it('flashes and lets go when it has lost its sender', () => {
    expect(seen(id, 'sender-lost', 'K1.sender calling')).toBe(true);
    expect(seen(id, 'sender-lost', 'K1.flashing')).toBe(true);
    expect(reader(id, 'sender-lost')('E1.call return').class).toBe('dead');
    expect(reader(id, 'sender-lost')('K1.L', 'K1.N').class).toBe('live');
  });

  it('calls by its own button without a sender', () => {
    expect(reader(id, 'override')('E1.call return').class).toBe('live');
    expect(seen(id, 'override', 'E1.burner')).toBe(true);
  });
});

describe.each(PUMPED)('the overflow switch of %s (common practice, no source)', (id) => {
  it('takes the boiler’s live when the condensate is high, and not the pump’s', () => {
    const high = reader(id, 'condensate-high');
    for (const instrument of INSTRUMENTS) {
      expect(high('E1.L', 'E1.N', instrument).class).toBe('dead');
      expect(high('E1.call feed', 'E1.N', instrument).class).toBe('dead');
      expect(high('M1.L', 'M1.N', instrument).class).toBe('live');
    }
    expect(seen(id, 'condensate-high', 'E1.display')).toBe(false);
    expect(seen(id, 'condensate-high', 'M1.running')).toBe(true);
  });

  it('leaves the boiler alone while the pump only empties its reservoir', () => {
    expect(reader(id, 'condensate-pumping')('E1.L').class).toBe('live');
    expect(seen(id, 'condensate-pumping', 'E1.burner')).toBe(true);
  });

  it('needs five cores at the pump: three for the pump and two for the switch', () => {
    const runs = cablesAt(loadSystem(id).system, 'M1');
    expect(runs).toHaveLength(1);
    expect(terminalsOf(runs[0]!, 'M1')).toEqual(['E', 'L', 'N', 'overflow COM', 'overflow NC']);
    expect(runs[0]!.spare).toEqual([]);
  });
});

describe('the five-core flex between the boxes (common practice, no source)', () => {
  it('carries the overflow loop on black and grey, with none to spare', () => {
    const { W4 } = loadSystem('combi-condensate-pump').system.cables;
    expect(Object.keys(W4!.cores).sort()).toEqual(['BK', 'BN', 'BU', 'GNYE', 'GY']);
    expect(W4!.cores.BK).toEqual({ ends: ['X1.2', 'X2.2'], sleeve: 'BN' });
    expect(W4!.cores.GY).toEqual({ ends: ['X1.3', 'X2.3'], sleeve: 'BN' });
  });

  it('leaves the receiver of the combined system its lamp and its call on high condensate', () => {
    const id = 'combi-wireless-condensate-pump';
    expect(seen(id, 'condensate-high', 'K1.lamp')).toBe(true);
    expect(seen(id, 'condensate-high', 'K1.calling')).toBe(true);
  });
});

// Common practice, no source: 60 to 120 V is read on a dead switch wire by a high-impedance meter.
describe('a core joined to nothing', () => {
  it('reads between on a high-impedance meter and dead on a low-impedance one, as the spare', () => {
    const standby = reader('combi-condensate-pump', 'standby');
    const reading = standby('W6.GY@2', 'B1.E', multimeter);
    expect(reading.class).toBe('between');
    expect(reading.ac).toBeGreaterThan(60);
    expect(reading.ac).toBeLessThan(120);
    expect(standby('W6.GY@2', 'B1.E', lowImpedance).class).toBe('dead');
  });

  it('does so too when it is the call return, cut off at both ends', () => {
    const network = loadSystem('combi-two-wire', {}, cutCallReturn);
    const { solution } = modeOf(network, 'heating');
    expect(read(solution, 'W3.BU@1', 'E1.N', multimeter).class).toBe('between');
    expect(read(solution, 'W3.BU@1', 'E1.N', lowImpedance).class).toBe('dead');
    expect(modeOf(network, 'heating').outcomes.get('E1.burner')).toBe(false);
  });
});

describe('reading classes', () => {
  // Common practice, no source: 240 and 242 are ordinary readings of healthy mains.
  it.each([240, 242])('calls %d V live', (ac) => expect(classOf(volts(ac))).toBe('live'));
});

function cablesAt({ cables }: System, item: string): Cable[] {
  return Object.values(cables).filter((cable) => terminalsOf(cable, item).length > 0);
}

function terminalsOf(cable: Cable, item: string): string[] {
  return Object.values(cable.cores)
    .flatMap((core) => core?.ends ?? [])
    .filter((end) => end.startsWith(`${item}.`))
    .map((end) => end.slice(item.length + 1))
    .sort();
}

function cutCallReturn(system: System): System {
  const { W3, ...others } = system.cables;
  const { BU: _, ...cores } = W3!.cores;
  return { ...system, cables: { ...others, W3: { ...W3!, cores, spare: ['BU'] } } };
}
