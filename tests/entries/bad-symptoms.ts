import { type Case, edited, valid } from './fixture.ts';

const COLD = 'symptoms/stays-cold.mdx';
const WARM = '{ family: heater, outcome: warm, is: false, modes: [calling] }';
const DISPLAY =
  '{ family: heater, devices: [bench-heater], outcome: display, is: true, modes: [calling] }';
const FUSE = '{ family: isolation, fuse: blown }';

/** A bench in whose calling mode nobody can look. */
const untestable = (file: string) => {
  const title = '    title: Room calls\n';
  return { [file]: edited(file, [title, `${title}    testable: false\n`])[file]! };
};

/** Symptoms whose signs name what is not there, what cannot be seen, or what is no fault. */
export const BAD_SYMPTOMS: readonly Case[] = [
  {
    name: 'symptom beside no symptom',
    folder: edited(COLD, ['checked:', 'see: [stay-cold]\nchecked:']),
    problems: ['symptoms/stays-cold.mdx:12:7 symptom-unknown: there is no symptom “stay-cold”'],
  },
  {
    name: 'symptom of nothing',
    folder: edited(COLD, [
      `shows:\n  - signs:\n      - ${WARM}\n      - ${DISPLAY}\n  - signs:\n      - ${FUSE}\n`,
      '',
    ]),
    problems: ['symptoms/stays-cold.mdx:1:1 value-missing: this entry has no “shows”'],
  },
  {
    name: 'symptom without appearances',
    folder: edited(COLD, [
      `shows:\n  - signs:\n      - ${WARM}\n      - ${DISPLAY}\n  - signs:\n      - ${FUSE}`,
      'shows: []',
    ]),
    problems: [
      'symptoms/stays-cold.mdx:6:8 value-wrong: a symptom is defined by what it shows, or by checks where no circuit shows it',
    ],
  },
  {
    name: 'sign of an unknown family',
    folder: edited(COLD, [WARM, WARM.replace('heater', 'heeter')]),
    problems: [
      'symptoms/stays-cold.mdx:8:19 value-not-allowed: this is not one of the allowed values',
    ],
  },
  {
    name: 'sign of an unknown outcome',
    folder: edited(COLD, [WARM, WARM.replace('warm', 'wram')]),
    problems: [
      'symptoms/stays-cold.mdx:8:36 outcome-undeclared: no device of the family heater shows an outcome “wram”',
    ],
  },
  {
    name: 'sign of a family that shows nothing',
    folder: edited(COLD, [WARM, WARM.replace('heater', 'isolation')]),
    problems: [
      'symptoms/stays-cold.mdx:8:39 outcome-undeclared: no device of the family isolation shows an outcome “warm”',
    ],
  },
  {
    name: 'sign of an unknown device',
    folder: edited(COLD, [DISPLAY, DISPLAY.replace('bench-heater', 'bench-heter')]),
    problems: ['symptoms/stays-cold.mdx:9:37 device-unknown: there is no device “bench-heter”'],
  },
  {
    name: 'sign of a device of another family',
    folder: edited(COLD, [DISPLAY, DISPLAY.replace('bench-heater', 'lit-switch')]),
    problems: [
      'symptoms/stays-cold.mdx:9:37 family-differs: lit-switch is of the family control, not heater',
    ],
  },
  {
    name: 'sign of a device that does not show it',
    folder: edited(COLD, [DISPLAY, DISPLAY.replace('display', 'dispaly')]),
    problems: [
      'symptoms/stays-cold.mdx:9:37 outcome-undeclared: bench-heater shows no outcome “dispaly”',
    ],
  },
  {
    name: 'fuse in a family without one',
    folder: edited(COLD, [FUSE, FUSE.replace('isolation', 'control')]),
    problems: [
      'symptoms/stays-cold.mdx:11:19 element-undeclared: no device of the family control holds a fuse',
    ],
  },
  {
    name: 'fuse in a device without one',
    folder: edited(COLD, [FUSE, '{ family: heater, devices: [bench-heater], fuse: blown }']),
    problems: ['symptoms/stays-cold.mdx:11:37 element-undeclared: bench-heater holds no fuse'],
  },
  {
    name: 'fuse that is whole',
    folder: edited(COLD, [FUSE, FUSE.replace('blown', 'whole')]),
    problems: ['symptoms/stays-cold.mdx:11:36 value-not-allowed: a fuse as a sign is blown'],
  },
  {
    name: 'sign in an unknown mode',
    folder: edited(COLD, [WARM, WARM.replace('calling', 'caling')]),
    problems: ['symptoms/stays-cold.mdx:8:61 mode-unknown: no system has a mode “caling”'],
  },
  {
    name: 'sign without an outcome',
    folder: edited(COLD, [WARM, '{ family: heater, is: false, modes: [calling] }']),
    problems: ['symptoms/stays-cold.mdx:8:9 value-missing: this item of “signs” has no “outcome”'],
  },
  {
    name: 'sign with an outcome and a fuse',
    folder: edited(COLD, [FUSE, '{ family: isolation, fuse: blown, modes: [calling] }']),
    problems: ['symptoms/stays-cold.mdx:11:43 key-unknown: “modes” is no key here'],
  },
  {
    name: 'sign that is sometimes so',
    folder: edited(COLD, [WARM, WARM.replace('false', 'sometimes')]),
    problems: ['symptoms/stays-cold.mdx:8:46 value-form: a sign is true, false or comes and goes'],
  },
  {
    name: 'signs that no system has together',
    folder: edited(COLD, [
      DISPLAY,
      '{ family: control, outcome: lit, is: true, modes: [calling] }\n      - { family: heater, outcome: warm, is: false, modes: [tripped] }',
    ]),
    problems: [
      'symptoms/stays-cold.mdx:7:5 symptom-unshown: no system can show these signs together: lit-bench has no mode tripped, plain-bench has no control with the outcome lit',
    ],
  },
  {
    name: 'sign looked for with the isolator off',
    folder: edited(COLD, [WARM, WARM.replace('calling', 'isolated')]),
    problems: [
      'symptoms/stays-cold.mdx:7:5 symptom-unshown: no system can show these signs together: nobody looks at lit-bench in isolated, nobody looks at plain-bench in isolated',
    ],
  },
  {
    name: 'sign in a mode that is not testable',
    folder: {
      ...valid,
      ...untestable('systems/lit-bench.mdx'),
      ...untestable('systems/plain-bench.mdx'),
    },
    problems: [
      'symptoms/stays-cold.mdx:7:5 symptom-unshown: no system can show these signs together: nobody looks at lit-bench in calling, nobody looks at plain-bench in calling',
    ],
  },
  {
    name: 'symptom of a sound system',
    folder: edited(COLD, [WARM, WARM.replace('false', 'true')]),
    problems: [
      'symptoms/stays-cold.mdx:7:5 symptom-sound: a sound system shows this: lit-bench, plain-bench',
    ],
  },
  {
    name: 'two symptoms of one title',
    folder: {
      ...edited(COLD, ['checked:', 'aliases: [cold]\nchecked:']),
      'symptoms/too-cold.mdx': `---\ntitle: heater stays cold\nsummary: The same again.\nshows:\n  - signs:\n      - ${FUSE}\nchecked: 2025-03-01\n---\n`,
    },
    problems: [
      'symptoms/too-cold.mdx:2:8 title-used-twice: another entry has this title already: symptoms/stays-cold.mdx:2',
    ],
  },
];
