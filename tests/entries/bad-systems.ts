import { type Case, edited } from './fixture.ts';

const PLAIN = 'systems/plain-bench.mdx';
const LIT = 'systems/lit-bench.mdx';
const HEATER = 'devices/bench-heater.mdx';
const SWITCH = 'devices/fused-switch.mdx';

/** Systems that name what is not there, cannot be wired so, or do not do what they say. */
export const BAD_SYSTEMS: readonly Case[] = [
  {
    name: 'unknown device',
    folder: edited(PLAIN, ['device: bench-heater', 'device: bench-heeter']),
    problems: ['systems/plain-bench.mdx:11:17 device-unknown: there is no device “bench-heeter”'],
  },
  {
    name: 'item with the wrong letter',
    folder: edited('devices/joint-box.mdx', ['letter: X', 'letter: T']),
    problems: ['systems/lit-bench.mdx:11:3 letter-differs: X1 is a joint-box, whose letter is T'],
  },
  {
    name: 'label of no terminal',
    folder: edited(LIT, ['labels: { 1: Line, 2: Neutral }', 'labels: { 1: Line, 12: Neutral }']),
    problems: [
      'systems/lit-bench.mdx:11:71 terminal-undeclared: X1 (joint-box) has no terminal “12” to label',
    ],
  },
  {
    name: 'rating of what is no fuse',
    folder: edited(PLAIN, ['ratings: { fuse: 3 }', 'ratings: { line pole: 3 }']),
    problems: [
      'systems/plain-bench.mdx:10:67 element-undeclared: Q1 (fused-switch) has no fuse or breaker “line pole” to rate',
    ],
  },
  {
    name: 'no supply',
    folder: edited(
      PLAIN,
      [
        '  G1: { device: house-supply, place: Blank plate }',
        '  Q2: { device: fused-switch, place: Blank plate }',
      ],
      ['[G1.L, Q1.L in]', '[Q2.L out, Q1.L in]'],
      ['[G1.N, Q1.N in]', '[Q2.N out, Q1.N in]'],
      ['[G1.E, Q1.E]', '[Q2.E, Q1.E]'],
    ),
    problems: ['systems/plain-bench.mdx:8:1 supply-count: no item of this system is a supply'],
  },
  {
    name: 'two supplies',
    folder: edited(
      LIT,
      ['  Q1: {', '  G2: { device: house-supply, place: Elsewhere }\n  Q1: {'],
      [
        '      BK: [X1.3, E1.call return]\n    spare: [GY]',
        '      BK: [X1.3, E1.call return]\n    spare: [GY]\n  W5:\n    kind: single\n    size: 1\n    length: 1\n    cores:\n      GNYE: [G2.E, X1.E]',
      ],
    ),
    problems: ['systems/lit-bench.mdx:10:3 supply-count: G2 is a second supply; G1 is one already'],
  },
  {
    name: 'undeclared terminal',
    folder: edited(PLAIN, ['[E1.call feed, S1.call feed]', '[E1.call feed, S1.call fed]']),
    problems: [
      'systems/plain-bench.mdx:36:26 terminal-undeclared: S1 (room-switch) has no terminal “call fed”',
    ],
  },
  {
    name: 'undeclared terminal in the long form',
    folder: edited(PLAIN, ['S1.call return]', 'S1.call-return]']),
    problems: [
      'systems/plain-bench.mdx:37:36 terminal-undeclared: S1 (room-switch) has no terminal “call-return”',
    ],
  },
  {
    name: 'unknown item',
    folder: edited(PLAIN, ['[Q1.N out, E1.N]', '[Q1.N out, E2.N]']),
    problems: ['systems/plain-bench.mdx:29:22 item-unknown: this system has no item E2'],
  },
  {
    name: 'core used twice',
    folder: edited(PLAIN, [
      '      BU: { ends: [E1.call return, S1.call return], sleeve: BN }',
      '      BN: [E1.call return, S1.call return]\n    spare: [BU]',
    ]),
    problems: [
      'systems/plain-bench.mdx:37:7 core-used-twice: core BN of W3 is used twice; it is joined on line 36',
    ],
  },
  {
    name: 'core used and spare',
    folder: edited(LIT, ['spare: [GY]', 'spare: [GY, BK]']),
    problems: [
      'systems/lit-bench.mdx:40:17 core-used-twice: core BK of W3 is in use, so it is not spare',
    ],
  },
  {
    name: 'core spare twice',
    folder: edited(LIT, ['spare: [GY]', 'spare: [GY, GY]']),
    problems: [
      'systems/lit-bench.mdx:40:17 core-used-twice: core GY of W3 is listed as spare twice',
    ],
  },
  {
    name: 'core to itself',
    folder: edited(PLAIN, ['[E1.call feed, S1.call feed]', '[E1.call feed, E1.call feed]']),
    problems: [
      'systems/plain-bench.mdx:36:26 core-to-itself: core BN of W3 begins and ends at E1.call feed',
    ],
  },
  {
    name: 'cable within one item',
    folder: edited(LIT, [
      'links:\n  - between: [E1.L, E1.call feed]',
      '  W5:\n    kind: single\n    size: 1\n    length: 1\n    cores:\n      BN: [E1.L, E1.call feed]',
    ]),
    problems: [
      'systems/lit-bench.mdx:54:18 cable-astray: core BN of W5 begins and ends at E1; a wire within one item is a link',
    ],
  },
  {
    name: 'core turned round',
    folder: edited(PLAIN, ['[Q1.E, E1.E]', '[E1.E, Q1.E]']),
    problems: [
      'systems/plain-bench.mdx:30:14 cable-astray: core GNYE of W2 is written from E1 to Q1, its other cores from Q1 to E1',
    ],
  },
  {
    name: 'core to a third item',
    folder: edited(PLAIN, ['[Q1.N out, E1.N]', '[G1.N, E1.N]']),
    problems: [
      'systems/plain-bench.mdx:29:12 cable-astray: core BU of W2 begins at G1, its other cores begin at Q1',
    ],
  },
  {
    name: 'core from the far item to a third',
    folder: edited(PLAIN, ['[Q1.E, E1.E]', '[E1.E, G1.E]']),
    problems: [
      'systems/plain-bench.mdx:30:14 cable-astray: core GNYE of W2 begins at E1, its other cores begin at Q1',
      'systems/plain-bench.mdx:30:20 cable-astray: core GNYE of W2 ends at G1, its other cores end at E1',
    ],
  },
  {
    name: 'cable without cores',
    folder: edited(PLAIN, [
      '    cores:\n      BN: [E1.call feed, S1.call feed]\n      BU: { ends: [E1.call return, S1.call return], sleeve: BN }',
      '    cores: {}\n    spare: [BN, BU]',
    ]),
    problems: [
      'systems/plain-bench.mdx:12:3 item-unconnected: no cable reaches S1 (room-switch)',
      'systems/plain-bench.mdx:35:5 cable-astray: W3 joins nothing: it has no core in use',
    ],
  },
  {
    name: 'flex of no core set',
    folder: edited(LIT, ['    spare: [GY]\n', '']),
    problems: [
      'systems/lit-bench.mdx:35:5 core-set-unknown: flex is not made with the cores BN BU GNYE BK alone',
    ],
  },
  {
    name: 'flex with a white core',
    folder: edited(PLAIN, ['BU: { ends: [E1.call return', 'WH: { ends: [E1.call return']),
    problems: [
      'systems/plain-bench.mdx:37:7 core-set-unknown: flex is not made with a white core beside brown',
    ],
  },
  {
    name: 'twin and earth with a black core',
    folder: edited(PLAIN, ['BU: [G1.N, Q1.N in]', 'BK: [G1.N, Q1.N in]']),
    problems: [
      'systems/plain-bench.mdx:21:7 core-set-unknown: twin and earth is not made with a black core beside brown, green-yellow',
    ],
  },
  {
    name: 'earth size without an earth',
    folder: edited(PLAIN, ['length: 8', 'length: 8\n    earthSize: 0.5']),
    problems: [
      'systems/plain-bench.mdx:35:5 earth-size-astray: W3 has no GNYE core, so it has no earthSize',
    ],
  },
  {
    name: 'green-yellow on a live terminal',
    folder: edited(
      PLAIN,
      ['BN: [Q1.L out, E1.L]', 'GNYE: [Q1.L out, E1.L]'],
      ['GNYE: [Q1.E, E1.E]', 'BN: [Q1.E, E1.E]'],
    ),
    problems: [
      'systems/plain-bench.mdx:28:14 earth-core-astray: a GNYE core joins earth terminals only, and Q1.L out does not carry earth',
      'systems/plain-bench.mdx:28:24 earth-core-astray: a GNYE core joins earth terminals only, and E1.L does not carry earth',
      'systems/plain-bench.mdx:30:12 earth-core-colour: Q1.E carries earth, which only a GNYE core joins; this core is BN',
      'systems/plain-bench.mdx:30:18 earth-core-colour: E1.E carries earth, which only a GNYE core joins; this core is BN',
    ],
  },
  {
    name: 'earth by a brown single',
    folder: edited(LIT, ['BU: [X1.2, S1.N]', 'BU: [X1.E, S1.N]']),
    problems: [
      'systems/lit-bench.mdx:48:12 earth-core-colour: X1.E carries earth, which only a GNYE core joins; this core is BU',
    ],
  },
  {
    name: 'class I item without its earth',
    folder: edited(PLAIN, ['      GNYE: [Q1.E, E1.E]', '    spare: [GNYE]']),
    problems: [
      'systems/plain-bench.mdx:11:3 earth-unconnected: E1 (bench-heater) is class I, and no core reaches its earth terminal E1.E',
    ],
  },
  {
    name: 'link between two items',
    folder: edited(LIT, ['between: [E1.L, E1.call feed]', 'between: [E1.L, S1.call feed]']),
    problems: [
      'systems/lit-bench.mdx:50:21 link-across-items: a link joins two terminals of one item; this one goes from E1 to S1',
    ],
  },
  {
    name: 'link to an unknown item',
    folder: edited(LIT, ['between: [E1.L, E1.call feed]', 'between: [E1.L, E9.call feed]']),
    problems: ['systems/lit-bench.mdx:50:21 item-unknown: this system has no item E9'],
  },
  {
    name: 'link from a terminal to itself',
    folder: edited(LIT, ['between: [E1.L, E1.call feed]', 'between: [E1.L, E1.L]']),
    problems: ['systems/lit-bench.mdx:50:21 core-to-itself: this link begins and ends at E1.L'],
  },
  {
    name: 'link to earth',
    folder: edited(LIT, ['between: [E1.L, E1.call feed]', 'between: [E1.N, E1.E]']),
    problems: [
      'systems/lit-bench.mdx:50:14 earth-core-astray: this link joins E1.N to E1.E, and only one of them carries earth',
    ],
  },
  {
    name: 'item without a conductor',
    folder: edited(PLAIN, ['  S1: {', '  X1: { device: joint-box, place: Loft }\n  S1: {']),
    problems: ['systems/plain-bench.mdx:12:3 item-unconnected: no cable reaches X1 (joint-box)'],
  },
  {
    name: 'missing mode',
    folder: edited(PLAIN, ['  isolated:\n', '  isolatd:\n']),
    problems: [
      'systems/plain-bench.mdx:58:3 mode-missing: this system has no mode “isolated”, its isolator off',
    ],
  },
  {
    name: 'isolated the only mode',
    folder: edited(LIT, [
      '  standby:\n    title: Nobody calls\n    expect:\n      S1.lit: false\n  calling:\n    title: Room calls\n    conditions:\n      S1.calling: true\n    expect:\n      S1.lit: true\n      E1.warm: true\n',
      '',
    ]),
    problems: [
      'systems/lit-bench.mdx:51:1 mode-missing: this system has no mode beside “isolated”; it needs one in which it works',
    ],
  },
  {
    name: 'after no mode',
    folder: edited(PLAIN, ['after: calling', 'after: callling']),
    problems: [
      'systems/plain-bench.mdx:52:12 mode-unknown: this system has no mode “callling” to come after',
    ],
  },
  {
    name: 'modes in a circle',
    folder: edited(PLAIN, [
      '    title: Room calls\n',
      '    title: Room calls\n    after: tripped\n',
    ]),
    problems: [
      'systems/plain-bench.mdx:46:12 mode-cycle: these modes come after one another in a circle: calling → tripped → calling',
    ],
  },
  {
    name: 'mode after itself',
    folder: edited(PLAIN, ['after: calling', 'after: tripped']),
    problems: ['systems/plain-bench.mdx:52:12 mode-cycle: mode “tripped” comes after itself'],
  },
  {
    name: 'undeclared condition',
    folder: edited(PLAIN, ['E1.too hot: true', 'E1.to hot: true']),
    problems: [
      'systems/plain-bench.mdx:55:7 condition-undeclared: E1 (bench-heater) has no condition “to hot”',
    ],
  },
  {
    name: 'condition of an unknown item',
    folder: edited(PLAIN, ['Q1.switched on: false', 'Q2.switched on: false']),
    problems: ['systems/plain-bench.mdx:61:7 item-unknown: this system has no item Q2'],
  },
  {
    name: 'undeclared outcome',
    folder: edited(PLAIN, ['      E1.display: true', '      E1.disply: true']),
    problems: [
      'systems/plain-bench.mdx:43:7 outcome-undeclared: E1 (bench-heater) has no outcome “disply”',
    ],
  },
  {
    name: 'wrong expectation',
    folder: edited(PLAIN, ['E1.warm: true', 'E1.warm: false']),
    problems: [
      'systems/plain-bench.mdx:49:16 expectation-differs: in mode “Room calls” this expects “Heater stays cold”; the circuit gives “Heater warms”',
    ],
  },
  {
    name: 'wrong expectation of an inherited lamp',
    folder: edited(LIT, ['S1.lit: false', 'S1.lit: true']),
    problems: [
      'systems/lit-bench.mdx:55:15 expectation-differs: in mode “Nobody calls” this expects “Lamp lit”; the circuit gives “Lamp dark”',
    ],
  },
  {
    name: 'mode that hunts',
    folder: edited(HEATER, ['closed: { position: ready }', 'closed: { not: { energised: coil } }']),
    problems: [
      'systems/lit-bench.mdx:56:3 mode-hunts: in mode “Room calls” the circuit does not settle: E1 changes without end',
      'systems/plain-bench.mdx:44:3 mode-hunts: in mode “Room calls” the circuit does not settle: E1 changes without end',
      'systems/plain-bench.mdx:50:3 mode-hunts: in mode “Cut-out has tripped” the circuit does not settle: E1 changes without end',
    ],
  },
  {
    name: 'expectation met only with the switch on',
    folder: edited(SWITCH, ['usual: true', 'usual: false']),
    problems: [
      'systems/lit-bench.mdx:61:15 expectation-differs: in mode “Room calls” this expects “Lamp lit”; the circuit gives “Lamp dark”',
      'systems/lit-bench.mdx:62:16 expectation-differs: in mode “Room calls” this expects “Heater warms”; the circuit gives “Heater stays cold”',
      'systems/plain-bench.mdx:43:19 expectation-differs: in mode “Nobody calls” this expects “Display lit”; the circuit gives “Display blank”',
      'systems/plain-bench.mdx:49:16 expectation-differs: in mode “Room calls” this expects “Heater warms”; the circuit gives “Heater stays cold”',
    ],
  },
];
