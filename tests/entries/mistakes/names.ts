import { AUTHORS, TODAY } from '../authors-firm.ts';
import { FUSE, HOUSE, LIST, type Mistake, slip } from './slip.ts';

/** Slips in names, dates and modes. */
export const NAMES: readonly Mistake[] = [
  slip(
    'gave a review on a day that there is not',
    HOUSE,
    [['on: "2026-11-02"', 'on: "2026-11-31"']],
    '2026-11-31',
    /there is no 31 November/,
    /2026-11-30/,
  ),
  slip(
    'wrote a date the other way round',
    HOUSE,
    [['due: "2027-11-02"', 'due: "02-11-2027"']],
    '02-11-2027',
    /YYYY-MM-DD/,
    /found +02-11-2027/,
  ),
  slip(
    'made a review due before it was made',
    LIST,
    [['due: "2027-11-02"', 'due: "2025-11-02"']],
    '2025-11-02',
    /due again after the day it was made/,
  ),
  slip(
    'misspelt a device',
    HOUSE,
    [['device: circulating-pump, place', 'device: circulating-pmup, place']],
    'circulating-pmup',
    /no device “circulating-pmup”/,
    /did you mean circulating-pump\?/,
  ),
  slip(
    'named an item in small letters',
    HOUSE,
    [['  B1: { device: room-thermostat-wired', '  b1: { device: room-thermostat-wired']],
    '  b1:',
    /b1/,
    /capital letters|B1/,
  ),
  {
    did: 'named a file as a title',
    files: {
      ...AUTHORS,
      'content/glossary/Van list 2.mdx': AUTHORS[LIST]!.replace(
        'title: Van list',
        'title: Second list',
      ),
    },
    file: 'content/glossary/Van list 2.mdx',
    line: '',
    says: [/file name|named/, /lower-case|small letters|hyphens/],
    today: TODAY,
  },
  {
    did: 'copied an entry of the reference under its name',
    files: {
      ...AUTHORS,
      'content/glossary/fuse.mdx': '---\ntitle: Our fuse\nsummary: The one on our vans.\n---\n',
    },
    file: 'content/glossary/fuse.mdx',
    line: '---',
    says: [/fuse/, /replaces: fuse/, /extends: fuse/],
    today: TODAY,
  },
  slip(
    'misspelt the entry in whose place one stands',
    FUSE,
    [['replaces: fuse-3-amp', 'replaces: fuse-3-ampere']],
    'fuse-3-ampere',
    /fuse-3-ampere/,
    /did you mean fuse-3-amp\?/,
  ),
  slip(
    'gave a title that another entry has',
    HOUSE,
    [['title: Our house with two valves', 'title: Combi boiler with two-wire room stat']],
    'title: Combi boiler',
    /combi-two-wire/,
  ),
  slip(
    'misspelt a feature',
    HOUSE,
    [['features: [two-port valves,', 'features: [two port valves,']],
    'two port valves',
    /found +two port valves/,
    /did you mean two-port valves\?/,
  ),
  slip(
    'named another glossary entry that is not there',
    LIST,
    [['see: [fuse]', 'see: [fuses]']],
    'see: [fuses]',
    /no glossary entry “fuses”/,
    /did you mean fuse\?/,
  ),
];

export const MODES: readonly Mistake[] = [
  slip(
    'misspelt the mode that every system has',
    HOUSE,
    [['  isolated:\n', '  isolatd:\n']],
    'isolatd:',
    /no mode “isolated”/,
    /did you mean isolated\?/,
  ),
  slip(
    'misspelt a condition',
    HOUSE,
    [['conditions: { B2.calling: true }', 'conditions: { B2.caling: true }']],
    'B2.caling',
    /found +B2\.caling|B2\.caling/,
    /did you mean B2\.calling\?/,
  ),
  slip(
    'expected one thing that the circuit does not do',
    HOUSE,
    [
      [
        'K1.display: true, K1.heating lamp: false, K1.hot water lamp: false, F2.tripped: false,',
        'K1.display: true, K1.heating lamp: true, K1.hot water lamp: false, F2.tripped: false,',
      ],
    ],
    'K1.heating lamp: true',
    /expects “Programmer shows heating on”; the circuit gives “Programmer shows heating off”/,
  ),
];
