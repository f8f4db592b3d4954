import { type Case, edited } from './bench.ts';

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
    problems: [],
  },
  {
    name: 'item used twice',
    folder: edited(PLAIN, [
      '  S1: { device: room-switch, place: On the wall }',
      '  S1: { device: room-switch, place: On the wall }\n  S1: { device: room-switch, place: In the hall }',
    ]),
    problems: [],
  },
  { name: 'misspelt key', folder: edited(PLAIN, ['length: 12', 'legnth: 12']), problems: [] },
  {
    name: 'key of another level',
    folder: edited(PLAIN, ['version: 1', 'version: 1\nwatts: 4']),
    problems: [],
  },
  {
    name: 'misspelt rule',
    folder: edited(HEATER, ['{ energised: coil }', '{ energized: coil }']),
    problems: [],
  },
  {
    name: 'rule with two heads',
    folder: edited(HEATER, ['{ energised: coil }', '{ energised: coil, held: coil }']),
    problems: [],
  },
  {
    name: 'rule with a wrong name inside',
    folder: edited(HEATER, ['when: too hot }', 'when: { all: [too hot, { not: Too Hot }] } }']),
    problems: [],
  },
  { name: 'missing title', folder: edited(PLAIN, ['title: Plain bench\n', '']), problems: [] },
  { name: 'empty title', folder: edited(PLAIN, ['title: Plain bench', 'title:']), problems: [] },
  {
    name: 'blank title',
    folder: edited(PLAIN, ['title: Plain bench', "title: '  '"]),
    problems: [],
  },
  {
    name: 'item without a place',
    folder: edited(PLAIN, [
      '{ device: bench-heater, place: On the bench }',
      '{ device: bench-heater }',
    ]),
    problems: [],
  },
  {
    name: 'missing access',
    folder: edited(ROOM, ['access:\n  cover: Snap-on front\n  minutes: 1\n', '']),
    problems: [],
  },
  {
    name: 'element without a kind',
    folder: edited(HEATER, ['call link: { kind: link, ', 'call link: { ']),
    problems: [],
  },
  {
    name: 'unknown kind of element',
    folder: edited(HEATER, ['kind: load, between: [guarded', 'kind: lod, between: [guarded']),
    problems: [],
  },
  {
    name: 'numeric terminal without quotation marks',
    folder: edited(SWITCH, ['[N in, N out]', '[1, N out]']),
    problems: [],
  },
  {
    name: 'element with one end',
    folder: edited(SWITCH, ['[N in, N out]', '[N in]']),
    problems: [],
  },
  {
    name: 'element between one terminal',
    folder: edited(SWITCH, ['[N in, N out]', '[N in, N in]']),
    problems: [],
  },
  {
    name: 'text for a number',
    folder: edited(PLAIN, ['length: 12', 'length: 12 m']),
    problems: [],
  },
  { name: 'length of nothing', folder: edited(PLAIN, ['length: 12', 'length: 0']), problems: [] },
  {
    name: 'length beyond reason',
    folder: edited(PLAIN, ['length: 12', 'length: 1200']),
    problems: [],
  },
  {
    name: 'no such conductor size',
    folder: edited(PLAIN, ['size: 2.5', 'size: 1.25']),
    problems: [],
  },
  {
    name: 'unknown arrangement',
    folder: edited(PLAIN, ['arrangement: combi', 'arrangement: combination']),
    problems: [],
  },
  {
    name: 'unknown core colour',
    folder: edited(PLAIN, ['BU: [G1.N, Q1.N in]', 'blue: [G1.N, Q1.N in]']),
    problems: [],
  },
  {
    name: 'unknown sleeve colour',
    folder: edited(PLAIN, ['sleeve: BN', 'sleeve: green/yellow']),
    problems: [],
  },
  { name: 'cable in the wrong form', folder: edited(PLAIN, ['  W3:', '  w 3:']), problems: [] },
  {
    name: 'core with one end',
    folder: edited(PLAIN, ['[E1.call feed, S1.call feed]', '[E1.call feed]']),
    problems: [],
  },
  {
    name: 'core end without its item',
    folder: edited(PLAIN, ['[E1.call feed, S1.call feed]', '[E1.call feed, call feed]']),
    problems: [],
  },
  {
    name: 'core end with a colon',
    folder: edited(PLAIN, ['[E1.call feed, S1.call feed]', '[E1.call feed, "S1:call feed"]']),
    problems: [],
  },
  {
    name: 'core that is a text',
    folder: edited(PLAIN, ['[E1.call feed, S1.call feed]', 'E1.call feed']),
    problems: [],
  },
  {
    name: 'device name in capitals',
    folder: edited(PLAIN, ['device: room-switch', 'device: Room Switch']),
    problems: [],
  },
  {
    name: 'date the other way round',
    folder: edited(DEAD, ['2025-03-01', '01/03/2025']),
    problems: [],
  },
  {
    name: 'procedure without cautions',
    folder: edited(DEAD, [
      'cautions:\n  - Treat every conductor as live until it is proved dead.',
      'cautions: []',
    ]),
    problems: [],
  },
  {
    name: 'list that is a text',
    folder: edited(DEAD, [
      'sources:\n  - common practice, no source',
      'sources: common practice, no source',
    ]),
    problems: [],
  },
];
