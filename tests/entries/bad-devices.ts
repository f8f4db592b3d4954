import { type Case, edited, textOf, valid } from './bench.ts';

const HEATER = 'devices/bench-heater.mdx';
const SWITCH = 'devices/fused-switch.mdx';
const ROOM = 'devices/room-switch.mdx';
const LIT = 'devices/lit-switch.mdx';
const SUPPLY = 'devices/house-supply.mdx';

/** Devices, and glossary entries, that contradict themselves or name what is not there. */
export const BAD_DEVICES: readonly Case[] = [
  {
    name: 'unknown device to extend',
    folder: edited(LIT, ['extends: room-switch', 'extends: rom-switch']),
    problems: [],
  },
  {
    name: 'device that extends itself',
    folder: edited(LIT, ['extends: room-switch', 'extends: lit-switch']),
    problems: [],
  },
  {
    name: 'device cycle',
    folder: {
      ...edited(ROOM, ['letter: S', 'letter: S\nextends: third-switch']),
      'devices/third-switch.mdx': textOf(LIT)
        .replace('extends: room', 'extends: lit')
        .replace('Lit', 'Third'),
    },
    problems: [],
  },
  {
    name: 'fault in the device extended',
    folder: edited(ROOM, ['closed: calling', 'closed: caling']),
    problems: [],
  },
  {
    name: 'fault made by extending',
    folder: edited(LIT, [
      'outcomes:',
      'conditions:\n  calling: { title: Room asks }\n  lamp out: { titel: Lamp is out }\noutcomes:',
    ]),
    problems: [],
  },
  {
    name: 'element replaced wrongly',
    folder: edited(LIT, [
      'elements:\n',
      'elements:\n  call contact: { kind: contact, between: [call feed, call retrun], closed: calling }\n',
    ]),
    problems: [],
  },
  { name: 'inherited title', folder: edited(LIT, ['title: Lit room switch\n', '']), problems: [] },
  {
    name: 'node with the name of a terminal',
    folder: edited(SWITCH, ['nodes: [fused]', 'nodes: [fused, E]']),
    problems: [],
  },
  {
    name: 'node declared twice',
    folder: edited(SWITCH, ['nodes: [fused]', 'nodes: [fused, fused]']),
    problems: [],
  },
  {
    name: 'element end undeclared',
    folder: edited(SWITCH, ['between: [fused, L out]', 'between: [fused, L-out]']),
    problems: [],
  },
  {
    name: 'supply end undeclared',
    folder: edited(SUPPLY, ['neutral: N, earth: E', 'neutral: M, earth: E']),
    problems: [],
  },
  {
    name: 'condition undeclared',
    folder: edited(HEATER, ['when: too hot', 'when: { not: to hot }']),
    problems: [],
  },
  {
    name: 'element undeclared in a rule',
    folder: edited(HEATER, [
      '{ energised: coil }',
      '{ any: [{ energised: coil }, { held: bord }] }',
    ]),
    problems: [],
  },
  {
    name: 'rule on a link',
    folder: edited(HEATER, ['{ energised: coil }', '{ energised: call link }']),
    problems: [],
  },
  {
    name: 'rule on a word of the language',
    folder: edited(HEATER, ['{ energised: coil }', '{ energised: constructor }']),
    problems: [],
  },
  {
    name: 'source powered by nothing',
    folder: edited(HEATER, [
      'conditions:',
      '  bus: { kind: source, between: [call feed, N], volts: 24, ohms: 10, poweredBy: boart }\nconditions:',
    ]),
    problems: [],
  },
  {
    name: 'position undeclared',
    folder: edited(HEATER, ['closed: { position: ready }', 'closed: { position: [ready, redy] }']),
    problems: [],
  },
  {
    name: 'position without a mechanism',
    folder: edited(ROOM, ['closed: calling', 'closed: { position: up }']),
    problems: [],
  },
  {
    name: 'mechanism at rest nowhere',
    folder: edited(HEATER, ['rest: ready', 'rest: reset']),
    problems: [],
  },
  {
    name: 'mechanism that moves nowhere',
    folder: edited(HEATER, ['to: tripped', 'to: triped']),
    problems: [],
  },
  {
    name: 'class I without an earth terminal',
    folder: edited(ROOM, ['family: control', 'family: control\nprotection: class I']),
    problems: [],
  },
  {
    name: 'mains inside a heater',
    folder: edited(HEATER, [
      'conditions:',
      '  own supply: { kind: mains, line: L, neutral: N, earth: E }\nconditions:',
    ]),
    problems: [],
  },
  {
    name: 'supply without mains',
    folder: edited(SUPPLY, [
      'elements:\n  supply: { kind: mains, line: L, neutral: N, earth: E, earthing: TN-S }\n',
      '',
    ]),
    problems: [],
  },
  {
    name: 'unknown glossary entry',
    folder: edited('glossary/call.mdx', ['see: [spur]', 'see: [spurr]']),
    problems: [],
  },
  {
    name: 'title used twice',
    folder: {
      ...valid,
      'systems/second-bench.mdx': textOf('systems/plain-bench.mdx').replace(
        'Plain bench',
        'plain Bench',
      ),
    },
    problems: [],
  },
];
