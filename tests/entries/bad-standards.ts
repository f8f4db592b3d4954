import { type Case, edited, type Folder, valid } from './fixture.ts';

const FUSE = 'standards/small-fuse.mdx';
const PLAIN = 'systems/plain-bench.mdx';
const RULE = '  check: fuse rating\n  ratings: [3]';

/** The fixture with another rule in its house standard. */
const ruled = (...lines: readonly string[]): Folder =>
  edited(FUSE, [RULE, lines.map((line) => `  ${line}`).join('\n')]);

/** The plain bench with an exception, and perhaps a fuse that the standard does not allow. */
const excepted = (exception: string, fuse = '3'): Folder =>
  edited(
    PLAIN,
    ['checked: 2025-03-01', `exceptions:\n  - ${exception}\nchecked: 2025-03-01`],
    ['ratings: { fuse: 3 }', `ratings: { fuse: ${fuse} }`],
  );

const DATES = 'from: "2020-01-01", until: "2095-01-01"';
const WHY = 'why: An older bench, by: The bench';

/** House standards that cannot be read or name what is not there, and exceptions that except nothing. */
export const BAD_STANDARDS: readonly Case[] = [
  {
    name: 'check of no such name',
    folder: ruled('check: fuse ratting', 'ratings: [3]'),
    problems: ['standards/small-fuse.mdx:6:10 value-not-allowed: there is no check of that name'],
  },
  {
    name: 'rule without a check',
    folder: ruled('ratings: [3]'),
    problems: ['standards/small-fuse.mdx:5:1 value-missing: “rule” has no “check”'],
  },
  {
    name: 'limit missing',
    folder: ruled('check: fuse rating'),
    problems: ['standards/small-fuse.mdx:5:1 value-missing: “rule” has no “ratings”'],
  },
  {
    name: 'limit misspelt',
    folder: ruled('check: fuse rating', 'rating: [3]'),
    problems: ['standards/small-fuse.mdx:7:3 key-unknown: “rating” is no key here'],
  },
  {
    name: 'limit of another check',
    folder: ruled('check: fuse rating', 'ratings: [3]', 'smallest: 0.75'),
    problems: ['standards/small-fuse.mdx:8:3 key-unknown: “smallest” is no key here'],
  },
  {
    name: 'rating that is a text',
    folder: ruled('check: fuse rating', 'ratings: [3 A]'),
    problems: ['standards/small-fuse.mdx:7:13 value-type: this is text; a number stands here'],
  },
  {
    name: 'rating beyond the standard',
    folder: ruled('check: fuse rating', 'ratings: [3, 16]'),
    problems: ['standards/small-fuse.mdx:7:16 value-range: this must be at most 13'],
  },
  {
    name: 'no rating allowed',
    folder: ruled('check: fuse rating', 'ratings: []'),
    problems: ['standards/small-fuse.mdx:7:12 value-range: allow at least one rating'],
  },
  {
    name: 'least size that is not made',
    folder: ruled('check: minimum conductor size', 'smallest: 0.8'),
    problems: [
      'standards/small-fuse.mdx:7:13 value-not-allowed: a size is one of 0.5, 0.75, 1, 1.5, 2.5, 4 mm² (IEC 60228)',
    ],
  },
  {
    name: 'approved device that is not there',
    folder: ruled('check: approved devices', 'devices: [fused-swich]', 'families: [isolation]'),
    problems: ['standards/small-fuse.mdx:7:13 device-unknown: there is no device “fused-swich”'],
  },
  {
    name: 'device of a core count that is not there',
    folder: ruled('check: cable core count', 'device: bench-heter', 'least: 3'),
    problems: ['standards/small-fuse.mdx:7:11 device-unknown: there is no device “bench-heter”'],
  },
  {
    name: 'family that is not there',
    folder: ruled('check: approved devices', 'devices: [fused-switch]', 'families: [isolator]'),
    problems: [
      'standards/small-fuse.mdx:8:14 value-not-allowed: this is not one of the allowed values',
    ],
  },
  {
    name: 'colour by its word',
    folder: ruled('check: blue core as a live sleeved', 'sleeves: [brown]'),
    problems: ['standards/small-fuse.mdx:7:13 colour-unknown: “brown” is no IEC 60757 colour code'],
  },
  {
    name: 'outcome that no device shows',
    folder: ruled('check: system interlock', 'stops: [wram]'),
    problems: ['standards/small-fuse.mdx:7:11 outcome-undeclared: no device has an outcome “wram”'],
  },
  {
    name: 'demand of no such name',
    folder: ruled('check: safety cut-out', 'devices: [fused-switch]', 'wants: hot watr'),
    problems: [
      'standards/small-fuse.mdx:8:10 value-not-allowed: a demand is one of heating, hot water, heating by hand, frost protection',
    ],
  },
  {
    name: 'overflow switch that no device has',
    folder: ruled('check: overflow interlock', 'contact: cutout', 'stops: [warm]'),
    problems: [
      'standards/small-fuse.mdx:7:12 element-undeclared: no device has a contact “cutout”',
    ],
  },
  {
    name: 'severity of no such name',
    folder: edited(FUSE, ['severity: danger', 'severity: grave']),
    problems: [
      'standards/small-fuse.mdx:4:11 value-not-allowed: this is not one of the allowed values',
    ],
  },
  {
    name: 'review due before it was made',
    folder: edited(FUSE, ['2095-03-01', '2025-02-01']),
    problems: [
      'standards/small-fuse.mdx:8:49 value-wrong: a review is due again after the day it was made',
    ],
  },
  {
    name: 'standard without a source',
    folder: edited(FUSE, ['sources:\n  - common practice, no source', 'sources: []']),
    problems: [
      'standards/small-fuse.mdx:9:10 value-range: a standard names its sources, or says "common practice, no source"',
    ],
  },
  {
    name: 'standard without its reason',
    folder: edited(FUSE, ['\nA short circuit is over before a lead burns.\n', '']),
    problems: [
      'standards/small-fuse.mdx:2:1 standard-without-why: the body does not say why this standard exists',
    ],
  },
  {
    name: 'standard for a feature that is not there',
    folder: edited(FUSE, ['review:', 'applies: { features: [unvented] }\nreview:']),
    problems: ['standards/small-fuse.mdx:8:23 value-not-allowed: there is no feature “unvented”'],
  },
  {
    name: 'two standards of one title',
    folder: {
      ...valid,
      'standards/thin-fuse.mdx': String(valid[FUSE]),
    },
    problems: [
      'standards/thin-fuse.mdx:2:8 title-used-twice: another entry has this title already: standards/small-fuse.mdx:2',
    ],
  },
  {
    name: 'standard not met',
    folder: edited(PLAIN, ['ratings: { fuse: 3 }', 'ratings: { fuse: 13 }']),
    problems: [
      'systems/plain-bench.mdx:10:67 standard-breached: the fuse of Q1 is of 13 A (house standard small-fuse)',
    ],
  },
  {
    name: 'exception to an unknown standard',
    folder: excepted(`{ standard: small-fuze, ${WHY}, ${DATES} }`),
    problems: [
      'systems/plain-bench.mdx:65:17 standard-unknown: there is no house standard “small-fuze”',
    ],
  },
  {
    name: 'exception for a core that is not there',
    folder: excepted(`{ standard: small-fuse, at: [W1.BK], ${WHY}, ${DATES} }`),
    problems: [
      'systems/plain-bench.mdx:65:34 exception-astray: this system has no conductor, cable or item “W1.BK”',
    ],
  },
  {
    name: 'exception without a reason',
    folder: excepted(`{ standard: small-fuse, by: The bench, ${DATES} }`, '13'),
    problems: [
      'systems/plain-bench.mdx:65:5 value-missing: this item of “exceptions” has no “why”',
    ],
  },
  {
    name: 'exception that ends before it begins',
    folder: excepted(
      `{ standard: small-fuse, ${WHY}, from: "2025-01-01", until: "2024-12-31" }`,
      '13',
    ),
    problems: [
      'systems/plain-bench.mdx:65:92 value-wrong: an exception does not end before it begins',
    ],
  },
  {
    name: 'exception that has ended',
    folder: excepted(
      `{ standard: small-fuse, ${WHY}, from: "2020-01-01", until: "2020-12-31" }`,
      '13',
    ),
    problems: [
      'systems/plain-bench.mdx:10:67 standard-breached: the fuse of Q1 is of 13 A (house standard small-fuse)',
      'systems/plain-bench.mdx:65:92 exception-out-of-date: the exception to small-fuse ended on 2020-12-31, and the standard is not met',
    ],
  },
  {
    name: 'exception that has not begun',
    folder: excepted(
      `{ standard: small-fuse, ${WHY}, from: "2094-01-01", until: "2094-12-31" }`,
      '13',
    ),
    problems: [
      'systems/plain-bench.mdx:10:67 standard-breached: the fuse of Q1 is of 13 A (house standard small-fuse)',
      'systems/plain-bench.mdx:65:71 exception-out-of-date: the exception to small-fuse begins on 2094-01-01, and the standard is not met',
    ],
  },
  {
    name: 'exception for another item',
    folder: excepted(`{ standard: small-fuse, at: [E1], ${WHY}, ${DATES} }`, '13'),
    problems: [
      'systems/plain-bench.mdx:10:67 standard-breached: the fuse of Q1 is of 13 A (house standard small-fuse)',
    ],
  },
];
