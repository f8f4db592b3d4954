import { type Case, edited } from './fixture.ts';

const BOX = 'modules/bench-box.mdx';

/** Modules that name what their items do not have, or lack what their slot asks for. */
export const BAD_MODULES: readonly Case[] = [
  {
    name: 'module of an unknown device',
    folder: edited(BOX, ['device: joint-box', 'device: join-box']),
    problems: ['modules/bench-box.mdx:6:18 device-unknown: there is no device “join-box”'],
  },
  {
    name: 'module with an unknown item',
    folder: edited(BOX, ['[box.E]', '[bix.E]']),
    problems: ['modules/bench-box.mdx:8:18 module-name-unknown: this module has no item “bix”'],
  },
  {
    name: 'module with an unknown terminal',
    folder: edited(BOX, ['[box.E]', '[box.F]']),
    problems: [
      'modules/bench-box.mdx:8:18 module-name-unknown: box (joint-box) has no terminal “F”',
    ],
  },
  {
    name: 'module with an unknown condition',
    folder: edited(BOX, ['ways: 3', 'ways: 3\nsees: { box.lit: box.wet }']),
    problems: [
      'modules/bench-box.mdx:8:9 module-name-unknown: box (joint-box) has no outcome “lit”',
      'modules/bench-box.mdx:8:18 module-name-unknown: box (joint-box) has no condition “wet”',
    ],
  },
  {
    name: 'module without what its slot asks for',
    folder: edited(BOX, ['ways: 3\n', '']),
    problems: ['modules/bench-box.mdx:4:7 module-incomplete: a module of the slot box says ways'],
  },
  {
    name: 'control without contacts',
    folder: edited(BOX, ['slot: box', 'slot: control']),
    problems: [
      'modules/bench-box.mdx:4:7 module-incomplete: a module of the slot control says control',
      'modules/bench-box.mdx:4:7 module-incomplete: a module of the slot control says contacts',
    ],
  },
];
