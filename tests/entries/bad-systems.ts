import { type Case, edited } from './bench.ts';

const PLAIN = 'systems/plain-bench.mdx';
const LIT = 'systems/lit-bench.mdx';
const HEATER = 'devices/bench-heater.mdx';
const SWITCH = 'devices/fused-switch.mdx';

/** Systems that name what is not there, cannot be wired so, or do not do what they say. */
export const BAD_SYSTEMS: readonly Case[] = [
  {
    name: 'unknown device',
    folder: edited(PLAIN, ['device: bench-heater', 'device: bench-heeter']),
    problems: [],
  },
  {
    name: 'item with the wrong letter',
    folder: edited(
      LIT,
      ['  X1: {', '  T1: {'],
      ['L out, X1.1]', 'L out, T1.1]'],
      ['N out, X1.2]', 'N out, T1.2]'],
      ['Q1.E, X1.E]', 'Q1.E, T1.E]'],
      ['[X1.1, E1', '[T1.1, E1'],
      ['[X1.2, E1', '[T1.2, E1'],
      ['[X1.E', '[T1.E'],
      ['[X1.3, E1', '[T1.3, E1'],
      ['[X1.1, S1', '[T1.1, S1'],
      ['[X1.3, S1', '[T1.3, S1'],
      ['[X1.2, S1', '[T1.2, S1'],
    ),
    problems: [],
  },
  {
    name: 'label of no terminal',
    folder: edited(LIT, ['labels: { 1: Line, 2: Neutral }', 'labels: { 1: Line, 12: Neutral }']),
    problems: [],
  },
  {
    name: 'rating of what is no fuse',
    folder: edited(PLAIN, ['ratings: { fuse: 3 }', 'ratings: { line pole: 3 }']),
    problems: [],
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
    problems: [],
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
    problems: [],
  },
  {
    name: 'undeclared terminal',
    folder: edited(PLAIN, ['[E1.call feed, S1.call feed]', '[E1.call feed, S1.call fed]']),
    problems: [],
  },
  {
    name: 'undeclared terminal in the long form',
    folder: edited(PLAIN, ['S1.call return]', 'S1.call-return]']),
    problems: [],
  },
  {
    name: 'unknown item',
    folder: edited(PLAIN, ['[Q1.N out, E1.N]', '[Q1.N out, E2.N]']),
    problems: [],
  },
  {
    name: 'core used twice',
    folder: edited(PLAIN, [
      '      BU: { ends: [E1.call return, S1.call return], sleeve: BN }',
      '      BN: [E1.call return, S1.call return]\n    spare: [BU]',
    ]),
    problems: [],
  },
  {
    name: 'core used and spare',
    folder: edited(LIT, ['spare: [GY]', 'spare: [GY, BK]']),
    problems: [],
  },
  {
    name: 'core spare twice',
    folder: edited(LIT, ['spare: [GY]', 'spare: [GY, GY]']),
    problems: [],
  },
  {
    name: 'core to itself',
    folder: edited(PLAIN, ['[E1.call feed, S1.call feed]', '[E1.call feed, E1.call feed]']),
    problems: [],
  },
  {
    name: 'cable within one item',
    folder: edited(LIT, [
      'links:\n  - between: [E1.L, E1.call feed]',
      '  W5:\n    kind: single\n    size: 1\n    length: 1\n    cores:\n      BN: [E1.L, E1.call feed]',
    ]),
    problems: [],
  },
  {
    name: 'core turned round',
    folder: edited(PLAIN, ['[Q1.E, E1.E]', '[E1.E, Q1.E]']),
    problems: [],
  },
  {
    name: 'core to a third item',
    folder: edited(PLAIN, ['[Q1.N out, E1.N]', '[G1.N, E1.N]']),
    problems: [],
  },
  {
    name: 'cable without cores',
    folder: edited(PLAIN, [
      '    cores:\n      BN: [E1.call feed, S1.call feed]\n      BU: { ends: [E1.call return, S1.call return], sleeve: BN }',
      '    cores: {}\n    spare: [BN, BU]',
    ]),
    problems: [],
  },
  { name: 'flex of no core set', folder: edited(LIT, ['    spare: [GY]\n', '']), problems: [] },
  {
    name: 'flex with a white core',
    folder: edited(PLAIN, ['BU: { ends: [E1.call return', 'WH: { ends: [E1.call return']),
    problems: [],
  },
  {
    name: 'twin and earth with a black core',
    folder: edited(PLAIN, ['BU: [G1.N, Q1.N in]', 'BK: [G1.N, Q1.N in]']),
    problems: [],
  },
  {
    name: 'earth size without an earth',
    folder: edited(PLAIN, ['length: 8', 'length: 8\n    earthSize: 0.5']),
    problems: [],
  },
  {
    name: 'green-yellow on a live terminal',
    folder: edited(
      PLAIN,
      ['BN: [Q1.L out, E1.L]', 'GNYE: [Q1.L out, E1.L]'],
      ['GNYE: [Q1.E, E1.E]', 'BN: [Q1.E, E1.E]'],
    ),
    problems: [],
  },
  {
    name: 'earth by a brown single',
    folder: edited(LIT, ['BU: [X1.2, S1.N]', 'BU: [X1.E, S1.N]']),
    problems: [],
  },
  {
    name: 'class I item without its earth',
    folder: edited(PLAIN, ['      GNYE: [Q1.E, E1.E]', '    spare: [GNYE]']),
    problems: [],
  },
  {
    name: 'link between two items',
    folder: edited(LIT, ['between: [E1.L, E1.call feed]', 'between: [E1.L, S1.call feed]']),
    problems: [],
  },
  {
    name: 'link from a terminal to itself',
    folder: edited(LIT, ['between: [E1.L, E1.call feed]', 'between: [E1.L, E1.L]']),
    problems: [],
  },
  {
    name: 'link to earth',
    folder: edited(LIT, ['between: [E1.L, E1.call feed]', 'between: [E1.N, E1.E]']),
    problems: [],
  },
  {
    name: 'item without a conductor',
    folder: edited(PLAIN, ['  S1: {', '  X1: { device: joint-box, place: Loft }\n  S1: {']),
    problems: [],
  },
  { name: 'missing mode', folder: edited(PLAIN, ['  isolated:\n', '  isolatd:\n']), problems: [] },
  {
    name: 'isolated the only mode',
    folder: edited(LIT, [
      '  standby:\n    title: Nobody calls\n    expect:\n      S1.lit: false\n  calling:\n    title: Room calls\n    conditions:\n      S1.calling: true\n    expect:\n      S1.lit: true\n      E1.warm: true\n',
      '',
    ]),
    problems: [],
  },
  {
    name: 'after no mode',
    folder: edited(PLAIN, ['after: calling', 'after: callling']),
    problems: [],
  },
  {
    name: 'modes in a circle',
    folder: edited(PLAIN, [
      '    title: Room calls\n',
      '    title: Room calls\n    after: tripped\n',
    ]),
    problems: [],
  },
  {
    name: 'mode after itself',
    folder: edited(PLAIN, ['after: calling', 'after: tripped']),
    problems: [],
  },
  {
    name: 'undeclared condition',
    folder: edited(PLAIN, ['E1.too hot: true', 'E1.to hot: true']),
    problems: [],
  },
  {
    name: 'condition of an unknown item',
    folder: edited(PLAIN, ['Q1.switched on: false', 'Q2.switched on: false']),
    problems: [],
  },
  {
    name: 'undeclared outcome',
    folder: edited(PLAIN, ['      E1.display: true', '      E1.disply: true']),
    problems: [],
  },
  {
    name: 'wrong expectation',
    folder: edited(PLAIN, ['E1.warm: true', 'E1.warm: false']),
    problems: [],
  },
  {
    name: 'wrong expectation of an inherited lamp',
    folder: edited(LIT, ['S1.lit: false', 'S1.lit: true']),
    problems: [],
  },
  {
    name: 'mode that hunts',
    folder: edited(HEATER, ['closed: { position: ready }', 'closed: { not: { energised: coil } }']),
    problems: [],
  },
  {
    name: 'expectation met only with the switch on',
    folder: edited(SWITCH, ['usual: true', 'usual: false']),
    problems: [],
  },
];
