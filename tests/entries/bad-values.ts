import { type Case, edited } from './fixture.ts';

const PLAIN = 'systems/plain-bench.mdx';
const HEATER = 'devices/bench-heater.mdx';
const SWITCH = 'devices/fused-switch.mdx';
const ROOM = 'devices/room-switch.mdx';
const DEAD = 'procedures/make-dead.mdx';

/** Keys and values that the schemas refuse. */
export const BAD_VALUES: readonly Case[] = [
  {
    name: 'key used twice',
    folder: edited(PLAIN, ['version: 1', 'version: 1\ntitle: Other bench']),
    problems: [
      'systems/plain-bench.mdx:66:1 key-used-twice: “title” stands twice in one place; it is given on line 2',
    ],
  },
  {
    name: 'length of a cable given twice',
    folder: edited(PLAIN, ['length: 12', 'length: 12\n    length: 13']),
    problems: [
      'systems/plain-bench.mdx:19:5 key-used-twice: “length” stands twice in one place; it is given on line 18',
    ],
  },
  {
    name: 'item used twice',
    folder: edited(PLAIN, [
      '  S1: { device: room-switch, place: On the wall }',
      '  S1: { device: room-switch, place: On the wall }\n  S1: { device: room-switch, place: In the hall }',
    ]),
    problems: [
      'systems/plain-bench.mdx:13:3 key-used-twice: “S1” stands twice in one place; it is given on line 12',
    ],
  },
  {
    name: 'misspelt key',
    folder: edited(PLAIN, ['length: 12', 'legnth: 12']),
    problems: ['systems/plain-bench.mdx:18:5 key-unknown: “legnth” is no key here'],
  },
  {
    name: 'key of another level',
    folder: edited(PLAIN, ['version: 1', 'version: 1\nwatts: 4']),
    problems: ['systems/plain-bench.mdx:66:1 key-unknown: “watts” is no key here'],
  },
  {
    name: 'key under its old name',
    folder: edited(PLAIN, ['checked: 2025-03-01', 'reviewed: 2025-03-01']),
    problems: [
      'systems/plain-bench.mdx:64:1 key-renamed: “reviewed” is called “checked” now: the day it was checked by the proofs and against its sources; who read it through is review: { by, on, due }',
    ],
  },
  {
    name: 'misspelt rule',
    folder: edited(HEATER, ['{ energised: coil }', '{ energized: coil }']),
    problems: [
      'devices/bench-heater.mdx:27:68 value-form: a rule is true, false, a condition name, or exactly one of energised, held, blown, position, not, all, any',
    ],
  },
  {
    name: 'rule with two heads',
    folder: edited(HEATER, ['{ energised: coil }', '{ energised: coil, held: coil }']),
    problems: [
      'devices/bench-heater.mdx:27:68 value-form: a rule is true, false, a condition name, or exactly one of energised, held, blown, position, not, all, any',
    ],
  },
  {
    name: 'rule with a wrong name inside',
    folder: edited(HEATER, ['when: too hot }', 'when: { all: [too hot, { not: Too Hot }] } }']),
    problems: [
      'devices/bench-heater.mdx:25:65 value-form: a name here is lower-case words and digits, as in end switch',
    ],
  },
  {
    name: 'missing title',
    folder: edited(PLAIN, ['title: Plain bench\n', '']),
    problems: ['systems/plain-bench.mdx:1:1 value-missing: this entry has no “title”'],
  },
  {
    name: 'empty title',
    folder: edited(PLAIN, ['title: Plain bench', 'title:']),
    problems: ['systems/plain-bench.mdx:2:1 value-missing: “title” has no value'],
  },
  {
    name: 'blank title',
    folder: edited(PLAIN, ['title: Plain bench', "title: '  '"]),
    problems: ['systems/plain-bench.mdx:2:8 value-range: this line is empty'],
  },
  {
    name: 'item without a place',
    folder: edited(PLAIN, [
      '{ device: bench-heater, place: On the bench }',
      '{ device: bench-heater }',
    ]),
    problems: ['systems/plain-bench.mdx:11:3 value-missing: “E1” has no “place”'],
  },
  {
    name: 'missing openings',
    folder: edited(ROOM, ['openings:\n  front: { title: snap-on front, minutes: 1 }\n', '']),
    problems: ['devices/room-switch.mdx:1:1 value-missing: this entry has no “openings”'],
  },
  {
    name: 'element without a kind',
    folder: edited(HEATER, ['call link: { kind: link, ', 'call link: { ']),
    problems: ['devices/bench-heater.mdx:16:3 value-missing: “call link” has no “kind”'],
  },
  {
    name: 'unknown kind of element',
    folder: edited(HEATER, ['kind: load, between: [guarded', 'kind: lod, between: [guarded']),
    problems: [
      'devices/bench-heater.mdx:18:17 value-not-allowed: an element’s kind is one of link, contact, fuse, breaker, load, motor, sensing, resistor, source, mains',
    ],
  },
  {
    name: 'numeric terminal without quotation marks',
    folder: edited(SWITCH, ['[N in, N out]', '[1, N out]']),
    problems: ['devices/fused-switch.mdx:18:44 value-type: this is a number; text stands here'],
  },
  {
    name: 'element with one end',
    folder: edited(SWITCH, ['[N in, N out]', '[N in]']),
    problems: [
      'devices/fused-switch.mdx:18:43 value-range: an element lies between exactly two terminals or nodes',
    ],
  },
  {
    name: 'element between one terminal',
    folder: edited(SWITCH, ['[N in, N out]', '[N in, N in]']),
    problems: ['devices/fused-switch.mdx:18:43 value-wrong: an element needs two different ends'],
  },
  {
    name: 'keys for a colour',
    folder: edited('systems/lit-bench.mdx', ['spare: [GY]', 'spare: [{}]']),
    problems: [
      'systems/lit-bench.mdx:40:13 value-type: a colour is one of the IEC 60757 codes BK, BN, RD, OG, YE, GN, BU, VT, GY, WH, PK, GD, TQ, SR, GNYE',
    ],
  },
  {
    name: 'a list for a colour',
    folder: edited('systems/lit-bench.mdx', ['spare: [GY]', 'spare: [[GY]]']),
    problems: [
      'systems/lit-bench.mdx:40:13 value-type: a colour is one of the IEC 60757 codes BK, BN, RD, OG, YE, GN, BU, VT, GY, WH, PK, GD, TQ, SR, GNYE',
    ],
  },
  {
    name: 'text for a number',
    folder: edited(PLAIN, ['length: 12', 'length: 12 m']),
    problems: ['systems/plain-bench.mdx:18:13 value-type: this is text; a number stands here'],
  },
  {
    name: 'length of nothing',
    folder: edited(PLAIN, ['length: 12', 'length: 0']),
    problems: ['systems/plain-bench.mdx:18:13 value-range: this must be more than 0'],
  },
  {
    name: 'length beyond reason',
    folder: edited(PLAIN, ['length: 12', 'length: 1200']),
    problems: ['systems/plain-bench.mdx:18:13 value-range: this must be at most 100'],
  },
  {
    name: 'no such conductor size',
    folder: edited(PLAIN, ['size: 2.5', 'size: 1.25']),
    problems: [
      'systems/plain-bench.mdx:16:11 value-not-allowed: a size is one of 0.5, 0.75, 1, 1.5, 2.5, 4 mm² (IEC 60228)',
    ],
  },
  {
    name: 'former name of another entry of now',
    folder: edited(PLAIN, ['arrangement:', 'formerly: [lit-bench]\narrangement:']),
    problems: [
      'systems/plain-bench.mdx:4:12 former-name-live: there is a system of this name: systems/lit-bench.mdx',
    ],
  },
  {
    name: 'former name given twice',
    folder: edited(PLAIN, ['arrangement:', 'formerly: [old-bench, old-bench]\narrangement:']),
    problems: [
      'systems/plain-bench.mdx:4:23 former-name-twice: this former name stands here twice',
    ],
  },
  {
    name: 'unknown arrangement',
    folder: edited(PLAIN, ['arrangement: combi', 'arrangement: combination']),
    problems: [
      'systems/plain-bench.mdx:4:14 value-not-allowed: this is not one of the allowed values',
    ],
  },
  {
    name: 'unknown core colour',
    folder: edited(PLAIN, ['BU: [G1.N, Q1.N in]', 'blue: [G1.N, Q1.N in]']),
    problems: ['systems/plain-bench.mdx:21:7 colour-unknown: “blue” is no IEC 60757 colour code'],
  },
  {
    name: 'unknown sleeve colour',
    folder: edited(PLAIN, ['sleeve: BN', 'sleeve: green/yellow']),
    problems: [
      'systems/plain-bench.mdx:37:61 colour-unknown: “green/yellow” is no IEC 60757 colour code',
    ],
  },
  {
    name: 'cable in the wrong form',
    folder: edited(PLAIN, ['  W3:', '  w 3:']),
    problems: [
      'systems/plain-bench.mdx:31:3 key-form: a cable reference is W and a number, as in W3',
    ],
  },
  {
    name: 'core with one end',
    folder: edited(PLAIN, ['[E1.call feed, S1.call feed]', '[E1.call feed]']),
    problems: ['systems/plain-bench.mdx:36:11 value-range: a core joins exactly two terminals'],
  },
  {
    name: 'core end without its item',
    folder: edited(PLAIN, ['[E1.call feed, S1.call feed]', '[E1.call feed, call feed]']),
    problems: [
      'systems/plain-bench.mdx:36:26 value-form: a terminal reference is ITEM.terminal, as in A1.call feed',
    ],
  },
  {
    name: 'core end with a colon',
    folder: edited(PLAIN, ['[E1.call feed, S1.call feed]', '[E1.call feed, "S1:call feed"]']),
    problems: [
      'systems/plain-bench.mdx:36:26 value-form: a terminal reference is ITEM.terminal, as in A1.call feed',
    ],
  },
  {
    name: 'core that is a text',
    folder: edited(PLAIN, ['[E1.call feed, S1.call feed]', 'E1.call feed']),
    problems: [
      'systems/plain-bench.mdx:36:11 value-form: a core is [ITEM.terminal, ITEM.terminal], or ends and sleeve',
    ],
  },
  {
    name: 'device name in capitals',
    folder: edited(PLAIN, ['device: room-switch', 'device: Room Switch']),
    problems: [
      'systems/plain-bench.mdx:12:17 value-form: an entry name is lower-case words joined by hyphens',
    ],
  },
  {
    name: 'date the other way round',
    folder: edited(DEAD, ['2025-03-01', '01/03/2025']),
    problems: [
      'procedures/make-dead.mdx:13:10 value-form: a date is written YYYY-MM-DD, in quotation marks',
    ],
  },
  {
    name: 'day after the last of its month',
    folder: edited(DEAD, ['2025-03-01', '"2027-11-31"']),
    problems: [
      'procedures/make-dead.mdx:13:10 date-none: there is no 31 November: 30 November is the last day of that month',
    ],
  },
  {
    name: 'leap day in a common year',
    folder: edited('standards/small-fuse.mdx', ['2095-03-01', '2095-02-29']),
    problems: [
      'standards/small-fuse.mdx:8:49 date-none: there is no 29 February 2095: 28 February is the last day of that month',
    ],
  },
  {
    name: 'month after the twelfth',
    folder: edited(DEAD, ['2025-03-01', '2025-13-01']),
    problems: [
      'procedures/make-dead.mdx:13:10 date-none: there is no month 13; after the year come month and day',
    ],
  },
  {
    name: 'day before the first of its month',
    folder: edited(DEAD, ['2025-03-01', '2025-03-00']),
    problems: [
      'procedures/make-dead.mdx:13:10 date-none: March has no day 0; its first is the 1st',
    ],
  },
  {
    name: 'procedure without cautions',
    folder: edited(DEAD, [
      'cautions:\n  - Treat every conductor as live until it is proved dead.',
      'cautions: []',
    ]),
    problems: [
      'procedures/make-dead.mdx:6:11 value-range: a procedure states at least one caution',
    ],
  },
  {
    name: 'list that is a text',
    folder: edited(DEAD, [
      'sources:\n  - common practice, no source',
      'sources: common practice, no source',
    ]),
    problems: ['procedures/make-dead.mdx:11:10 value-type: this is text; a list stands here'],
  },
];
