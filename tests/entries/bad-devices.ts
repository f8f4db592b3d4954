import { type Case, edited, textOf, valid } from './fixture.ts';

const HEATER = 'devices/bench-heater.mdx';
const SWITCH = 'devices/fused-switch.mdx';
const ROOM = 'devices/room-switch.mdx';
const LIT = 'devices/lit-switch.mdx';
const SUPPLY = 'devices/house-supply.mdx';

const onlyFile = (file: string, ...changes: readonly [string, string][]) => ({
  [file]: edited(file, ...changes)[file]!,
});

/** Devices, and glossary entries, that contradict themselves or name what is not there. */
export const BAD_DEVICES: readonly Case[] = [
  {
    name: 'unknown device to extend',
    folder: edited(LIT, ['extends: room-switch', 'extends: rom-switch']),
    problems: [
      'devices/lit-switch.mdx:6:10 device-unknown: there is no device “rom-switch” to extend',
    ],
  },
  {
    name: 'device that extends itself',
    folder: edited(LIT, ['extends: room-switch', 'extends: lit-switch']),
    problems: ['devices/lit-switch.mdx:6:10 device-cycle: lit-switch extends itself'],
  },
  {
    name: 'device cycle',
    folder: {
      ...edited(ROOM, ['letter: S', 'letter: S\nextends: third-switch']),
      'devices/third-switch.mdx': textOf(LIT)
        .replace('extends: room', 'extends: lit')
        .replace('Lit', 'Third'),
    },
    problems: [
      'devices/lit-switch.mdx:6:10 device-cycle: these devices extend one another in a circle: lit-switch → room-switch → third-switch → lit-switch',
    ],
  },
  {
    name: 'fault in the device extended',
    folder: edited(ROOM, ['closed: calling', 'closed: caling']),
    problems: [
      'devices/room-switch.mdx:12:77 condition-undeclared: this device has no condition “caling”',
    ],
  },
  {
    name: 'fault made by extending',
    folder: edited(LIT, [
      'outcomes:',
      'conditions:\n  calling: { title: Room asks }\n  lamp out: { titel: Lamp is out }\noutcomes:',
    ]),
    problems: ['devices/lit-switch.mdx:13:15 key-unknown: “titel” is no key here'],
  },
  {
    name: 'faults of both in one place',
    folder: {
      ...edited(ROOM, ['title: Room asks for heat', 'titel: Room asks for heat']),
      ...onlyFile(LIT, ['outcomes:', 'conditions:\n  calling: { usual: true }\noutcomes:']),
    },
    problems: [
      'devices/lit-switch.mdx:12:3 value-missing: “calling” has no “title”',
      'devices/room-switch.mdx:14:14 key-unknown: “titel” is no key here',
    ],
  },
  {
    name: 'element replaced wrongly',
    folder: edited(LIT, [
      'elements:\n',
      'elements:\n  call contact: { kind: contact, between: [call feed, call retrun], closed: calling }\n',
    ]),
    problems: [
      'devices/lit-switch.mdx:10:55 end-undeclared: “call retrun” is neither a terminal nor a node of this device',
    ],
  },
  {
    name: 'inherited title',
    folder: edited(LIT, ['title: Lit room switch\n', '']),
    problems: [
      'devices/lit-switch.mdx:5:10 title-used-twice: a device that extends another needs a title of its own',
    ],
  },
  {
    name: 'node with the name of a terminal',
    folder: edited(SWITCH, ['nodes: [fused]', 'nodes: [fused, E]']),
    problems: [
      'devices/fused-switch.mdx:14:16 node-name-taken: “E” is a terminal already; a node needs a name of its own',
    ],
  },
  {
    name: 'node declared twice',
    folder: edited(SWITCH, ['nodes: [fused]', 'nodes: [fused, fused]']),
    problems: ['devices/fused-switch.mdx:14:16 node-name-taken: node “fused” is declared twice'],
  },
  {
    name: 'openings of what is not there',
    folder: edited(ROOM, [
      'front: { title: snap-on front, minutes: 1 }',
      'front: { title: snap-on front, minutes: 1, shows: [call feed, call retrun], holds: [fuse], moves: { fited: false } }\n  back: { title: back, minutes: 1, shows: [call feed] }',
    ]),
    problems: [
      'devices/room-switch.mdx:18:65 terminal-undeclared: “call retrun” is no terminal of this device',
      'devices/room-switch.mdx:18:87 element-undeclared: “fuse” is no fuse of this device',
      'devices/room-switch.mdx:18:103 condition-undeclared: this device has no condition “fited” for an opening to bring about',
      'devices/room-switch.mdx:19:44 terminal-shown-twice: “front” shows “call feed” already; a terminal has one way to it',
    ],
  },
  {
    name: 'element end undeclared',
    folder: edited(SWITCH, ['between: [fused, L out]', 'between: [fused, L-out]']),
    problems: [
      'devices/fused-switch.mdx:17:40 end-undeclared: “L-out” is neither a terminal nor a node of this device',
    ],
  },
  {
    name: 'supply end undeclared',
    folder: edited(SUPPLY, ['neutral: N, earth: E', 'neutral: M, earth: E']),
    problems: [
      'devices/house-supply.mdx:11:44 end-undeclared: “M” is neither a terminal nor a node of this device',
    ],
  },
  {
    name: 'condition undeclared',
    folder: edited(HEATER, ['when: too hot', 'when: { not: to hot }']),
    problems: [
      'devices/bench-heater.mdx:25:48 condition-undeclared: this device has no condition “to hot”',
    ],
  },
  {
    name: 'element undeclared in a rule',
    folder: edited(HEATER, [
      '{ energised: coil }',
      '{ any: [{ energised: coil }, { held: bord }] }',
    ]),
    problems: [
      'devices/bench-heater.mdx:27:105 element-undeclared: this device has no element “bord”',
    ],
  },
  {
    name: 'rule on a link',
    folder: edited(HEATER, ['{ energised: coil }', '{ energised: call link }']),
    problems: [
      'devices/bench-heater.mdx:27:81 element-not-felt: “call link” is a link; only a load, motor or sensing input is energised',
    ],
  },
  {
    name: 'rule on a load that blows',
    folder: edited(HEATER, ['{ energised: coil }', '{ blown: coil }']),
    problems: [
      'devices/bench-heater.mdx:27:77 element-not-blown: “coil” is a load; only a fuse or a breaker blows',
    ],
  },
  {
    name: 'rule on a word of the language',
    folder: edited(HEATER, ['{ energised: coil }', '{ energised: constructor }']),
    problems: [
      'devices/bench-heater.mdx:27:81 element-undeclared: this device has no element “constructor”',
    ],
  },
  {
    name: 'source powered by nothing',
    folder: edited(HEATER, [
      'conditions:',
      '  bus: { kind: source, between: [call feed, N], volts: 24, ohms: 10, poweredBy: boart }\nconditions:',
    ]),
    problems: [
      'devices/bench-heater.mdx:19:81 element-undeclared: this device has no element “boart”',
    ],
  },
  {
    name: 'position undeclared',
    folder: edited(HEATER, ['closed: { position: ready }', 'closed: { position: [ready, redy] }']),
    problems: [
      'devices/bench-heater.mdx:17:90 position-undeclared: “redy” is no position of this mechanism',
    ],
  },
  {
    name: 'position without a mechanism',
    folder: edited(ROOM, ['closed: calling', 'closed: { position: up }']),
    problems: [
      'devices/room-switch.mdx:12:89 position-undeclared: this device has no mechanism, so it has no position “up”',
    ],
  },
  {
    name: 'mechanism at rest nowhere',
    folder: edited(HEATER, ['rest: ready', 'rest: reset']),
    problems: [
      'devices/bench-heater.mdx:23:9 position-undeclared: “reset” is no position of this mechanism',
    ],
  },
  {
    name: 'mechanism that moves nowhere',
    folder: edited(HEATER, ['to: tripped', 'to: triped']),
    problems: [
      'devices/bench-heater.mdx:25:26 position-undeclared: “triped” is no position of this mechanism',
    ],
  },
  {
    name: 'part that no terminal plays',
    folder: edited(ROOM, [
      'Feed from the heater, carries: line }',
      'Feed from the heater, carries: line, does: [heating fed] }',
    ]),
    problems: [
      'devices/room-switch.mdx:9:70 value-not-allowed: a part a terminal plays is one of supply line, supply neutral, heating feed, heating call, heating rest, hot water feed, hot water call, hot water rest, valve line, valve neutral, end switch feed, end switch call, satisfied in, pump line, pump neutral',
    ],
  },
  {
    name: 'part played by two terminals',
    folder: edited(
      ROOM,
      ['carries: line }', 'carries: line, does: [heating feed] }'],
      ['Return to the heater }', 'Return to the heater, does: [heating feed] }'],
    ),
    problems: [
      'devices/room-switch.mdx:10:57 part-twice: “call feed” plays the part “heating feed” already; a part has one terminal',
    ],
  },
  {
    name: 'clock that asks for nothing',
    folder: edited(ROOM, ['Room asks for heat }', 'Room asks for heat, timed: true }']),
    problems: [
      'devices/room-switch.mdx:14:48 value-wrong: a clock asks for something: say what this condition wants',
    ],
  },
  {
    name: 'service asked for twice',
    folder: edited(ROOM, [
      'Room asks for heat }',
      'Room asks for heat, wants: heating }\n  pressed: { title: Knob pressed, wants: heating }',
    ]),
    problems: [
      'devices/room-switch.mdx:15:42 wants-twice: “calling” asks for heating already; a service has one condition',
    ],
  },
  {
    name: 'link of a device at no terminal',
    folder: edited(ROOM, [
      'conditions:',
      'links:\n  - between: [call feed, call retrun]\nconditions:',
    ]),
    problems: [
      'devices/room-switch.mdx:14:26 end-undeclared: “call retrun” is no terminal of this device; a wire link lies between two',
    ],
  },
  {
    name: 'class I without an earth terminal',
    folder: edited(ROOM, ['family: control', 'family: control\nprotection: class I']),
    problems: [
      'devices/room-switch.mdx:8:13 earth-terminal-missing: class I equipment has an earth terminal; none here carries earth',
    ],
  },
  {
    name: 'mains inside a heater',
    folder: edited(HEATER, [
      'conditions:',
      '  own supply: { kind: mains, line: L, neutral: N, earth: E }\nconditions:',
    ]),
    problems: [
      'devices/bench-heater.mdx:19:23 mains-misplaced: only a supply holds mains; this device is of the family heater',
    ],
  },
  {
    name: 'supply without mains',
    folder: edited(SUPPLY, [
      'elements:\n  supply: { kind: mains, line: L, neutral: N, earth: E, earthing: TN-S }\n',
      '',
    ]),
    problems: [
      'devices/house-supply.mdx:5:9 mains-misplaced: a supply holds one element of kind mains; this one holds 0',
    ],
  },
  {
    name: 'unknown glossary entry',
    folder: edited('glossary/call.mdx', ['see: [spur]', 'see: [spurr]']),
    problems: ['glossary/call.mdx:4:7 term-unknown: there is no glossary entry “spurr”'],
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
    problems: [
      'systems/second-bench.mdx:2:8 title-used-twice: another entry has this title already: systems/plain-bench.mdx:2',
    ],
  },
];
