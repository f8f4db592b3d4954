import type { Draft } from './edits.ts';

export const COMBI = 'combi-two-wire';
export const TWO_PORT = 'heat-only-two-port';

/** One edit of a shipped system, and what an engineer must be told of it. */
export interface Case {
  readonly name: string;
  readonly system: string;
  readonly edit: (draft: Draft) => void;
  readonly changes: readonly string[];
  /** Some of what it does; what is not named here is not denied. */
  readonly effects: readonly string[];
}

type Ends = [string, string];
export const core = (d: Draft, cable: string, colour: 'BN' | 'BU' | 'BK' | 'GY', ends?: Ends) => {
  const cores = d.system.cables[cable]!.cores;
  if (ends) cores[colour] = { sleeve: undefined, ...cores[colour], ends };
  else delete cores[colour];
};
const swap = (d: Draft, cable: string, a: 'BN' | 'BK', b: 'BU' | 'GY', end: 0 | 1) => {
  const [x, y] = [d.system.cables[cable]!.cores[a]!, d.system.cables[cable]!.cores[b]!];
  [x.ends[end], y.ends[end]] = [y.ends[end], x.ends[end]];
};
const part = (d: Draft, device: string, element: string) =>
  d.devices[device]!.elements[element] as Record<string, unknown>;

/** Twenty-odd edits, each electrical or of the marking. */
export const CASES: readonly Case[] = [
  {
    name: 'a core moved at one end',
    system: COMBI,
    edit: (d) => core(d, 'W3', 'BN', ['E1.L', 'B1.COM']),
    changes: [
      'Cable W3: brown (BN) moved from E1.call feed to E1.L; its other end stays at B1.COM',
    ],
    effects: [],
  },
  {
    name: 'a core moved at both ends',
    system: TWO_PORT,
    edit: (d) => core(d, 'W4', 'GY', ['X1.9', 'K1.heating on']),
    changes: ['Cable W4: grey (GY) moved from K1.hot water on – X1.3 onto K1.heating on – X1.9'],
    effects: [
      '“Boiler firing” at Heat-only boiler with pump overrun E1: now not so, was so (Hot water only; Cut-out reset)',
      '“Valve lever slack, valve open” at Hot-water valve Q3: now not so, was so (Hot water only; Heating and hot water; Cut-out reset)',
    ],
  },
  {
    name: 'two cores crossed at one end',
    system: TWO_PORT,
    edit: (d) => swap(d, 'W4', 'BK', 'GY', 1),
    changes: ['Cable W4: black (BK) and grey (GY) crossed at K1'],
    effects: [
      '“Boiler firing” at Heat-only boiler with pump overrun E1: now not so, was so (Heating only; Hot water only; Cut-out reset)',
      '“Valve lever slack, valve open” at Heating valve Q2: now not so, was so (Heating only)',
    ],
  },
  {
    name: 'live and neutral exchanged',
    system: COMBI,
    edit: (d) => swap(d, 'W2', 'BN', 'BU', 0),
    changes: ['Cable W2: brown (BN) and blue (BU) crossed at Q1'],
    effects: [
      "E1.L to E1.E: now dead, was live (Nothing calling; Heating call; Hot tap open; Heating call, flow at temperature; Control off the wall; Control's battery flat)",
      "E1.call feed to E1.E: now dead, was live (Nothing calling; Heating call; Hot tap open; Heating call, flow at temperature; Control off the wall; Control's battery flat)",
    ],
  },
  {
    name: 'two cores crossed at both ends',
    system: COMBI,
    edit: (d) => {
      swap(d, 'W2', 'BN', 'BU', 0);
      swap(d, 'W2', 'BN', 'BU', 1);
    },
    changes: ['Cable W2: brown (BN) and blue (BU) crossed at both ends'],
    effects: [],
  },
  {
    name: 'a core taken off and left spare',
    system: TWO_PORT,
    edit: (d) => {
      core(d, 'W3', 'GY');
      d.system.cables.W3!.spare = ['GY'];
    },
    changes: ['Cable W3: grey (GY) taken off E1.pump L – X1.8; it is now spare'],
    effects: [
      '“Pump running” at Pump M1: now not so, was so (Heating only; Hot water only; Heating and hot water; Pump overrun; Cut-out tripped, heating called; Cut-out reset)',
      'X1.8 to X1.N: now dead, was live (Heating only; Hot water only; Heating and hot water; Pump overrun; Cut-out tripped, heating called; Cut-out reset)',
    ],
  },
  {
    name: 'a core of another colour for the same work',
    system: TWO_PORT,
    edit: (d) => {
      core(d, 'W3', 'GY');
      d.system.cables.W3!.cores.OG = { ends: ['X1.8', 'E1.pump L'], sleeve: undefined };
    },
    changes: ['Cable W3: E1.pump L – X1.8 is now orange (OG) instead of grey (GY)'],
    effects: [],
  },
  {
    name: 'a new core',
    system: TWO_PORT,
    edit: (d) => {
      d.system.cables.W6!.cores.GY = { ends: ['X1.1', 'B2.satisfied'], sleeve: undefined };
    },
    changes: ['Cable W6: grey (GY) now joins B2.satisfied and X1.1'],
    effects: [
      'X1.3 to X1.N: now live, was between (Heating only)',
      'X1.3 to X1.E: now live, was between (Heating only)',
    ],
  },
  {
    name: 'a sleeve left off',
    system: COMBI,
    edit: (d) => {
      d.system.cables.W3!.cores.BU!.sleeve = undefined;
    },
    changes: ['Cable W3: blue (BU) B1.NO – E1.call return no longer sleeved'],
    effects: [],
  },
  {
    name: 'a thicker and longer cable',
    system: COMBI,
    edit: (d) => {
      d.system.cables.W2!.size = 1.5;
      d.system.cables.W2!.length = 4;
    },
    changes: ['Cable W2: now 1.5 mm², was 0.75 mm²', 'Cable W2: now 4 m long, was 1.5 m long'],
    effects: [],
  },
  {
    name: 'a cable of another kind',
    system: COMBI,
    edit: (d) => {
      d.system.cables.W3!.kind = 'flex';
    },
    changes: ['Cable W3: now flex, was twin and earth'],
    effects: [],
  },
  {
    name: 'a cable under another reference',
    system: COMBI,
    edit: (d) => {
      d.system.cables.W9 = d.system.cables.W3!;
      delete d.system.cables.W3;
    },
    changes: ['Cable W3 is now called W9'],
    effects: [],
  },
  {
    name: 'a cable and its item removed',
    system: TWO_PORT,
    edit: (d) => {
      delete d.system.items.F2;
      delete d.system.cables.W7;
      core(d, 'W6', 'BU', ['X1.6', 'B2.call']);
      for (const mode of Object.values(d.system.modes))
        for (const name of Object.keys(mode.conditions))
          if (name.startsWith('F2.')) delete mode.conditions[name];
    },
    changes: [
      'Overheat cut-out, non-self-resetting F2 removed',
      'Cable W6: blue (BU) moved from X1.5 to X1.6; its other end stays at B2.call',
      'Cable W7 removed: brown (BN) F2.live in – X1.5, blue (BU) F2.live out – X1.6, green-yellow (GNYE) F2.E – X1.E',
    ],
    effects: [
      '“Boiler firing” at Heat-only boiler with pump overrun E1: now so, was not so (Cylinder overheated; Cut-out still tripped)',
      '“Valve lever slack, valve open” at Hot-water valve Q3: now so, was not so (Cylinder overheated; Cut-out still tripped; Cut-out tripped, heating called)',
    ],
  },
  {
    name: 'another fuse',
    system: COMBI,
    edit: (d) => {
      d.system.items.Q1!.ratings = { fuse: 13 };
    },
    changes: ['Switched fused spur Q1: fuse: rating now 13 A, was 3 A'],
    effects: [],
  },
  {
    name: 'a contact the other way round',
    system: COMBI,
    edit: (d) => {
      const contact = part(d, 'room-control-two-wire', 'contact');
      contact.closed = { not: contact.closed };
    },
    changes: [
      'Room stat, two-wire B1: stat contact now closes when it opened before, and opens when it closed',
    ],
    effects: [
      "“Boiler firing” at Combi boiler, mains call E1: now so, was not so (Nothing calling; Control's battery flat)",
      "“Boiler pump running” at Combi boiler, mains call E1: now so, was not so (Nothing calling; Control's battery flat)",
    ],
  },
  {
    name: 'a contact under another rule',
    system: COMBI,
    edit: (d) => {
      part(d, 'room-control-two-wire', 'contact').closed = 'calling';
    },
    changes: ['Room stat, two-wire B1: stat contact closes under another rule'],
    effects: [
      "“Boiler firing” at Combi boiler, mains call E1: now so, was not so (Control's battery flat)",
      "“Boiler pump running” at Combi boiler, mains call E1: now so, was not so (Control's battery flat)",
    ],
  },
  {
    name: 'a stronger motor',
    system: TWO_PORT,
    edit: (d) => {
      part(d, 'circulating-pump', 'motor').watts = 90;
    },
    changes: ['Pump M1: pump motor: power now 90 W, was 45 W'],
    effects: [],
  },
  {
    name: 'another earthing of the supply',
    system: COMBI,
    edit: (d) => {
      part(d, 'supply-circuit', 'supply').earthing = 'TT';
    },
    changes: ['Circuit at the consumer unit F1: supply: earthing of the supply now TT, was TN-C-S'],
    effects: [],
  },
  {
    name: 'a link put in',
    system: COMBI,
    edit: (d) => {
      d.system.links.push({ between: ['E1.call feed', 'E1.call return'] });
    },
    changes: ['Link E1.call feed to E1.call return added'],
    effects: [
      "“Boiler firing” at Combi boiler, mains call E1: now so, was not so (Nothing calling; Control off the wall; Control's battery flat)",
      "“Boiler pump running” at Combi boiler, mains call E1: now so, was not so (Nothing calling; Control off the wall; Control's battery flat)",
    ],
  },
  {
    name: 'another device in its place',
    system: COMBI,
    edit: (d) => {
      d.system.items.B1!.device = 'room-thermostat-wired';
      for (const { conditions } of Object.values(d.system.modes)) {
        delete conditions['B1.fitted'];
        delete conditions['B1.battery flat'];
      }
    },
    changes: ['B1 is now Room thermostat, wired, was Room stat, two-wire'],
    effects: [
      "“Boiler firing” at Combi boiler, mains call E1: now so, was not so (Control off the wall; Control's battery flat)",
      "“Boiler pump running” at Combi boiler, mains call E1: now so, was not so (Control off the wall; Control's battery flat)",
    ],
  },
  {
    name: 'an item under another reference',
    system: COMBI,
    edit: (d) => {
      const text = JSON.stringify(d.system).replaceAll('B1', 'B7');
      Object.assign(d.system, JSON.parse(text));
    },
    changes: ['Item B1 is now called B7'],
    effects: [],
  },
  {
    name: 'a condition set in a mode',
    system: COMBI,
    edit: (d) => {
      d.system.modes.standby!.conditions['E1.tap open'] = true;
    },
    changes: ['Mode “Nothing calling”: E1.tap open is now so'],
    effects: [
      '“Boiler firing” at Combi boiler, mains call E1: now so, was not so (Nothing calling)',
      '“Boiler pump running” at Combi boiler, mains call E1: now so, was not so (Nothing calling)',
    ],
  },
  {
    name: 'a mode removed and another added',
    system: COMBI,
    edit: (d) => {
      delete d.system.modes['flat-battery'];
      d.system.modes.both = {
        ...d.system.modes.heating!,
        title: 'Tap open on a call',
        conditions: { 'B1.calling': true, 'E1.tap open': true },
      };
    },
    changes: ["Mode “Control's battery flat” removed", 'Mode “Tap open on a call” added'],
    effects: [],
  },
];
