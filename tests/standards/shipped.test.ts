import { describe, expect, it } from 'vitest';
import type { System } from '../../schemas/index.ts';
import type { Network } from '../../src/circuit/index.ts';
import { type Damage, judged, standards, systemIds } from './shipped.ts';

/** Moves the first end of a core, in a copy of an entry. */
const feed = (cable: string, colour: 'BN' | 'BU' | 'BK' | 'GY', from: string): Damage => {
  return ({ cables }) => {
    cables[cable]!.cores[colour]!.ends[0] = from;
  };
};
const link = (from: string, to: string): Damage => {
  return ({ links }) => void links.push({ between: [from, to] });
};
const cable = (name: string, change: (cable: System['cables'][string]) => void): Damage => {
  return ({ cables }) => change(cables[name]!);
};
const fuse = (rating: number): Damage => {
  return ({ items }) => {
    items.Q1!.ratings.fuse = rating;
  };
};
const all = (...damages: readonly Damage[]): Damage => {
  return (system) => {
    for (const damage of damages) damage(system);
  };
};

interface Case {
  readonly standard: string;
  readonly system: string;
  readonly name: string;
  readonly damage?: Damage;
  readonly change?: (network: Network) => Network;
  readonly said: readonly string[];
}

const CASES: readonly Case[] = [
  {
    standard: 'fuse-3-amp',
    system: 'combi-two-wire',
    name: 'a 13 A fuse in the spur',
    damage: fuse(13),
    said: ['Q1: the fuse of Q1 is of 13 A'],
  },
  {
    standard: 'conductor-size',
    system: 'combi-two-wire',
    name: 'a 0.5 mm² flex to the boiler',
    damage: cable('W2', (w) => {
      w.size = 0.5;
    }),
    said: ['W2: the cores of W2 are 0.5 mm²'],
  },
  {
    standard: 'one-isolator',
    system: 'heat-only-two-port',
    name: 'a boiler fed from the circuit itself',
    damage: feed('W3', 'BN', 'F1.L'),
    said: [
      'W3.BN: the brown core of W3 stays live with the fused spur Q1 off, in “Nothing calling”, and 26 conductors beside it',
    ],
  },
  {
    standard: 'one-isolator',
    system: 'heat-only-two-port',
    name: 'a neutral borrowed from before the isolator',
    damage: feed('W10', 'BU', 'Q1.supply N'),
    said: [
      'W10.BU: the blue core of W10 stays joined to the supply’s neutral with the fused spur Q1 off',
    ],
  },
  {
    standard: 'permanent-live',
    system: 'heat-only-two-port',
    name: 'a boiler fed by the programmer',
    damage: feed('W3', 'BN', 'X1.2'),
    said: [
      'W3.BN: L at E1 takes its permanent live through the heating contact of K1, as in “Heating only”',
    ],
  },
  {
    standard: 'overflow-stops-the-boiler',
    system: 'combi-condensate-pump',
    name: 'a link across the overflow switch',
    damage: link('X1.2', 'X1.3'),
    said: ['M1: “Boiler firing” at E1 with the overflow switch of M1 open, in “Heating call”'],
  },
  {
    standard: 'overflow-stops-the-boiler',
    system: 'heat-only-condensate-pump',
    name: 'a boiler called from before the overflow switch',
    damage: feed('W3', 'BK', 'X1.7'),
    said: ['M2: “Boiler firing” at E1 with the overflow switch of M2 open, in “Heating only”'],
  },
  {
    standard: 'no-switched-neutral',
    system: 'heat-only-two-port',
    name: 'a cylinder thermostat in the neutral of its valve',
    damage: all(
      feed('W6', 'BN', 'X1.N'),
      feed('W6', 'BU', 'X1.9'),
      feed('W7', 'BN', 'X1.3'),
      feed('W9', 'BU', 'X1.9'),
    ),
    said: ['W6.BN: the call contact of B2 stands in the neutral of the valve motor of Q3'],
  },
  {
    standard: 'green-yellow',
    system: 'heat-only-two-port',
    name: 'the green-yellow core as the thermostat’s way back',
    damage: cable('W6', (w) => {
      w.cores.GNYE = { ends: ['X1.5', 'B2.call'], sleeve: 'BN' };
      w.cores.BU = { ends: ['X1.N', 'B2.satisfied'], sleeve: undefined };
    }),
    said: ['W6.GNYE: the green-yellow core of W6 is sleeved brown'],
  },
  {
    standard: 'blue-live-sleeved',
    system: 'combi-two-wire',
    name: 'no sleeve on the switched live',
    damage: cable('W3', (w) => {
      w.cores.BU!.sleeve = undefined;
    }),
    said: ['W3.BU: the blue core of W3 is live in “Heating call” and not sleeved'],
  },
  {
    standard: 'class-i-earthed',
    system: 'heat-only-mid-position',
    name: 'a pump without its earth',
    damage: ({ cables }) => {
      for (const { cores } of Object.values(cables))
        if (cores.GNYE?.ends.includes('M1.E')) delete cores.GNYE;
    },
    said: ['M1: the pump M1 is class I, and nothing joins it to the supply’s earth'],
  },
  {
    standard: 'no-mains-on-extra-low-voltage',
    system: 'combi-volt-free',
    name: 'a live on the control’s common',
    damage: feed('W3', 'BN', 'E1.L'),
    said: [
      'E1: call 1 at E1 is made for extra-low voltage and stands at 227 V in “Heating call”',
      'W3.BU: call 2 at E1 is made for extra-low voltage and stands at 230 V in “Heating call”',
      'W3.BN: COM at B1 is made for extra-low voltage and stands at 230 V in “Nothing calling”',
      'W3.BU: NO at B1 is made for extra-low voltage and stands at 230 V in “Heating call”',
    ],
  },
  {
    standard: 'extra-low-voltage-apart',
    system: 'combi-volt-free',
    name: 'a mains neutral in the cable of the call',
    damage: cable('W3', (w) => {
      w.cores.BK = { ends: ['E1.N', 'B1.E'], sleeve: undefined };
    }),
    said: [
      'W3.BN: the brown core of W3 carries extra-low voltage beside the black core of W3, which is mains',
      'W3.BU: the blue core of W3 carries extra-low voltage beside the black core of W3, which is mains',
    ],
  },
  {
    standard: 'core-colours',
    system: 'heat-only-two-port',
    name: 'a permanent live on grey without its sleeve',
    damage: all(feed('W3', 'GY', 'X1.1'), feed('W3', 'BN', 'X1.8'), ({ cables }) => {
      const { cores } = cables.W3!;
      [cores.GY!.ends[1], cores.BN!.ends[1]] = [cores.BN!.ends[1], cores.GY!.ends[1]];
      delete cores.GY!.sleeve;
    }),
    said: ['W3.GY: the grey core of W3 is live in every working mode and grey'],
  },
  {
    standard: 'approved-isolators',
    system: 'combi-wireless',
    name: 'another isolator',
    change: (network) => {
      const items = new Map(network.items);
      items.set('Q1', { ...items.get('Q1')!, deviceId: 'plug-and-socket' });
      return { ...network, items };
    },
    said: ['Q1: Q1 is plug-and-socket, which is not approved'],
  },
  {
    standard: 'cut-out-shuts-the-valve',
    system: 'heat-only-two-port',
    name: 'a link across the cut-out',
    damage: link('X1.5', 'X1.6'),
    said: [
      'F2: “Boiler firing” at E1 and “Valve lever slack, valve open” at Q3 with the cut-out contact of F2 open',
    ],
  },
  {
    standard: 'cut-out-shuts-the-valve',
    system: 'heat-only-condensate-pump',
    name: 'a cut-out in the heating valve',
    damage: all(feed('W9', 'BN', 'X1.5'), feed('W8', 'BN', 'X1.6'), feed('W7', 'BN', 'X1.4')),
    said: [
      'F2: “Boiler firing” at E1 and “Valve lever slack, valve open” at Q3 with the cut-out contact of F2 open',
    ],
  },
  {
    standard: 'cut-out-shuts-the-valve',
    system: 'heat-only-two-port',
    name: 'no cut-out',
    damage: (system) => {
      delete system.items.F2;
      delete system.cables.W7;
      for (const mode of Object.values(system.modes))
        for (const id of Object.keys(mode.conditions))
          if (id.startsWith('F2.')) delete mode.conditions[id];
    },
    said: ['items: there is no overheat-cut-out'],
  },
  {
    standard: 'boiler-interlock',
    system: 'heat-only-two-port',
    name: 'a boiler called by the programmer itself',
    damage: link('X1.2', 'X1.7'),
    said: [
      'E1: “Boiler firing” at E1 and “Pump running” at M1 with nothing asking for heat, when K1.heating on',
    ],
  },
  {
    standard: 'boiler-interlock',
    system: 'heat-only-mid-position',
    name: 'a call left on the permanent live',
    damage: link('X1.1', 'X1.6'),
    said: ['E1: “Boiler firing” at E1 and “Pump running” at M1 with nothing asking for heat'],
  },
  {
    standard: 'five-cores-to-a-condensate-pump',
    system: 'combi-condensate-pump',
    name: 'a core cut back at the pump',
    damage: cable('W5', (w) => {
      delete w.cores.OG;
      w.spare.push('OG');
    }),
    said: ['W5: 4 cores reach the condensate pump M1'],
  },
  {
    standard: 'earth-fault-clears',
    system: 'combi-two-wire',
    name: '13 A before sixty metres of flex',
    damage: all(
      fuse(13),
      cable('W2', (w) => {
        w.length = 60;
      }),
    ),
    said: [
      'E1: an earth fault at the boiler E1 meets 4.95 Ω, and fuse at Q1, 13 A, needs 2.30 Ω or less to open in 0.4 s',
      'B1: an earth fault at the room stat B1 meets 4.95 Ω, and fuse at Q1, 13 A, needs 2.30 Ω or less to open in 0.4 s',
    ],
  },
  {
    standard: 'cable-protected',
    system: 'heat-only-two-port',
    name: '13 A before 6 A flexes',
    damage: fuse(13),
    said: [
      'W2: W2 stands 10 A at 1 mm², and fuse at Q1 lets 13 A through',
      'W3: W3 stands 6 A at 0.75 mm², and fuse at Q1 lets 13 A through',
      'W4: W4 stands 6 A at 0.75 mm², and fuse at Q1 lets 13 A through',
      'W5: W5 stands 6 A at 0.75 mm², and fuse at Q1 lets 13 A through',
      'W6: W6 stands 6 A at 0.75 mm², and fuse at Q1 lets 13 A through',
      'W7: W7 stands 6 A at 0.75 mm², and fuse at Q1 lets 13 A through',
      'W8: W8 stands 6 A at 0.75 mm², and fuse at Q1 lets 13 A through',
      'W9: W9 stands 6 A at 0.75 mm², and fuse at Q1 lets 13 A through',
    ],
  },
  {
    standard: 'volt-drop',
    system: 'combi-two-wire',
    name: 'a boiler far from its supply',
    damage: all(
      cable('W1', (w) => {
        w.length = 300;
      }),
      cable('W2', (w) => {
        w.length = 380;
      }),
    ),
    said: ['E1: the cables to the boiler E1 lose 17.2 V in “Heating call”'],
  },
];

describe('the project’s own standards', () => {
  it('are eighteen or more, each with another check or other limits', () => {
    expect(standards.length).toBeGreaterThanOrEqual(18);
    const rules = standards.map(({ standard }) => JSON.stringify(standard.rule));
    expect(new Set(rules).size).toBe(rules.length);
  });

  it.each(standards.map(({ id }) => id))(
    '%s: no shipped system breaks it, and one meets it',
    (id) => {
      const found = systemIds.map((system) => [system, judged(id, system)] as const);
      const broken = found
        .filter(([, { findings }]) => findings.length > 0)
        .map(([system]) => system);
      expect(broken).toEqual([]);
      expect(found.some(([, { state }]) => state === 'holds')).toBe(true);
    },
  );

  it('are each broken by some damage below', () => {
    const broken = new Set(CASES.map(({ standard }) => standard));
    expect([...broken].toSorted()).toEqual(standards.map(({ id }) => id).toSorted());
  });
});

describe('a shipped system, damaged', () => {
  it.each(CASES)('$system with $name', ({ standard, system, damage, change, said }) => {
    expect(judged(standard, system).state).toBe('holds');
    const { findings } = judged(standard, system, damage, change);
    expect(findings.map(({ at, message }) => `${at}: ${message}`)).toEqual(said);
  });
});
