import type { FirmFiles } from '../firm/memory.ts';
import { AUTHORS, TODAY } from './authors-firm.ts';

/** One slip that an author of a firm makes, and what names its cause. */
export interface Mistake {
  /** What the author did, in words. */
  readonly did: string;
  readonly files: FirmFiles;
  /** Where the first message must point. */
  readonly file: string;
  /** A piece of the line that it must frame. */
  readonly line: string;
  /** What the first message must say: what was found, what may stand there, the cause in words. */
  readonly says: readonly RegExp[];
  readonly today: string;
}

type Edits = readonly (readonly [from: string, to: string])[];

/** The firm with one file edited, each text standing there once. */
function edited(file: string, edits: Edits): FirmFiles {
  const text = edits.reduce((before, [from, to]) => {
    const parts = before.split(from);
    if (parts.length !== 2)
      throw new Error(`“${from}” stands ${parts.length - 1} times in ${file}`);
    return parts.join(to);
  }, AUTHORS[file]!);
  return { ...AUTHORS, [file]: text };
}

/** A slip in one file, of which the line that is framed is the one where it was made. */
const slip = (
  did: string,
  file: string,
  edits: Edits,
  line: string,
  ...says: readonly RegExp[]
): Mistake => ({ did, files: edited(file, edits), file, line, says, today: TODAY });

const HOUSE = 'content/systems/our-house.mdx';
const STAT = 'content/devices/our-loft-stat.mdx';
const FUSE = 'content/standards/fuse-3-amp.mdx';
const PAIR = 'content/modules/our-frost-pair.mdx';
const COMPOSED = 'content/systems/our-composed.mdx';
const KEYS = 'content/procedures/keys.mdx';
const LIST = 'content/glossary/van-list.mdx';

const WIRING: readonly Mistake[] = [
  slip(
    'exchanged black and grey of the programmer’s flex at the programmer',
    HOUSE,
    [
      ['BK: { ends: [X1.2, K1.heating on]', 'BK: { ends: [X1.2, K1.hot water on]'],
      ['GY: { ends: [X1.3, K1.hot water on]', 'GY: { ends: [X1.3, K1.heating on]'],
    ],
    'BK: { ends: [X1.2,',
    /exchange black and grey of .*W4/,
    /expectations that differ hold/,
  ),
  slip(
    'put the cylinder stat’s core in the contact that opens',
    HOUSE,
    [['ends: [X1.5, B2.call]', 'ends: [X1.5, B2.satisfied]']],
    'BU: { ends: [X1.5,',
    /move blue core of .*W6 from .*satisfied to .*call/,
  ),
  slip(
    'put the orange of a valve one way further in the wiring centre',
    HOUSE,
    [['OG: [X1.7, Q2.end switch out]', 'OG: [X1.8, Q2.end switch out]']],
    'OG: [X1.8',
    /move orange core of .*W8 from .*8 to .*7/,
  ),
  slip(
    'exchanged permanent and switched live at the boiler',
    HOUSE,
    [
      ['BN: [X1.1, E1.L]', 'BN: [X1.1, E1.SL]'],
      ['BK: { ends: [X1.7, E1.SL]', 'BK: { ends: [X1.7, E1.L]'],
    ],
    'BN: [X1.1, E1.SL]',
    /exchange brown and black of .*W3/,
  ),
  slip(
    'exchanged live and neutral at the fused spur',
    HOUSE,
    [
      ['BN: [Q1.load L, X1.1]', 'BN: [Q1.load N, X1.1]'],
      ['BU: [Q1.load N, X1.N]', 'BU: [Q1.load L, X1.N]'],
    ],
    'BN: [Q1.load N',
    /brown|blue/,
    /neutral/,
    /W2|Q1/,
  ),
  slip(
    'left the pump’s live out',
    HOUSE,
    [
      ['      GY: { ends: [X1.8, E1.pump L], sleeve: BN }\n', ''],
      ['length: 8\n', 'length: 8\n    spare: [GY]\n'],
    ],
    'M1',
    /[Pp]ump/,
  ),
  slip(
    'left the earth of the pump out',
    HOUSE,
    [[', GNYE: [X1.E, M1.E] }', ' }']],
    'M1: {',
    /M1/,
    /earth/,
  ),
  slip(
    'used a core twice',
    HOUSE,
    [['BU: { ends: [X1.6, F2.live out]', 'BN: { ends: [X1.6, F2.live out]']],
    'BN: { ends: [X1.6',
    /core BN of W7 is used twice/,
  ),
  slip(
    'misspelt a terminal',
    HOUSE,
    [['F2.live in]', 'F2.live-in]']],
    'F2.live-in',
    /found +F2\.live-in/,
    /allowed .*live in/,
    /did you mean F2\.live in\?/,
  ),
  slip(
    'took a core of the cut-out to the valve',
    HOUSE,
    [['[X1.6, F2.live out]', '[X1.6, Q3.motor L]']],
    'Q3.motor L',
    /BU of W7 ends at Q3, its other cores end at F2/,
    /found +Q3\.motor L/,
  ),
  slip(
    'gave a flex a colour that no flex has',
    HOUSE,
    [['GY: { ends: [X1.N, B1.N]', 'WH: { ends: [X1.N, B1.N]']],
    'WH:',
    /a white core/,
    /found +WH/,
    /did you mean GY\?/,
  ),
  slip(
    'put a 13 A fuse into the spur',
    HOUSE,
    [
      [
        'Q1: { device: fused-connection-unit, place: Beside the wiring centre }',
        'Q1: { device: fused-connection-unit, place: Beside the wiring centre, ratings: { fuse: 13 } }',
      ],
    ],
    'fuse: 13',
    /13 A/,
    /3 A/,
  ),
];

const YAML: readonly Mistake[] = [
  slip(
    'indented with a tab',
    HOUSE,
    [['  W7:\n    kind: flex', '  W7:\n\tkind: flex']],
    'kind: flex',
    /spaces, not tabs/,
  ),
  slip(
    'indented a key too deep',
    HOUSE,
    [
      [
        '    length: 1\n    cores: { BN: [Q1.load L',
        '      length: 1\n    cores: { BN: [Q1.load L',
      ],
    ],
    '      length: 1',
    /deep|indent/,
  ),
  slip(
    'left out the room after a colon',
    HOUSE,
    [['    length: 15\n', '    length:15\n']],
    'length:15',
    /no space after the colon; write length: 15/,
  ),
  slip(
    'left a bracket open',
    HOUSE,
    [['GNYE: [X1.E, F2.E]', 'GNYE: [X1.E, F2.E']],
    'GNYE: [X1.E, F2.E',
    /\[ has no closing \]/,
  ),
  slip(
    'wrote the items as a list',
    HOUSE,
    [['  F1: { device: supply-circuit', '  - F1: { device: supply-circuit']],
    '- F1',
    /a list begins here with -/,
  ),
  slip(
    'pasted typographic quotation marks',
    HOUSE,
    [['title: Heating valve', 'title: “Heating valve”']],
    '“Heating valve”',
    /typographic quotation marks|quotation marks/,
    /Heating valve/,
  ),
  slip(
    'wrote a colon in a plain title',
    HOUSE,
    [['title: Our house with two valves', 'title: Our house: two valves']],
    'Our house: two valves',
    /colon|quotation/,
  ),
  slip('gave two cables one name', HOUSE, [['  W7:\n', '  W6:\n']], '  W6:', /W6/, /twice|already/),
  slip(
    'misspelt a key',
    HOUSE,
    [['length: 15', 'lenght: 15']],
    'lenght: 15',
    /found +lenght/,
    /did you mean length\?/,
  ),
  slip(
    'wrote the unit behind a number',
    HOUSE,
    [['length: 15', 'length: 15 m']],
    'length: 15 m',
    /number/,
    /found +15 m/,
  ),
  slip(
    'wrote a decimal comma',
    HOUSE,
    [['    size: 1\n    length: 1\n', '    size: 0,75\n    length: 1\n']],
    'size: 0,75',
    /found +0,75/,
    /0\.75/,
  ),
  slip(
    'wrote no for false',
    HOUSE,
    [
      [
        'bring: Switch both channels off at the programmer, turn the room stat down and leave',
        'testable: no\n    bring: Switch both channels off at the programmer, turn the room stat down and leave',
      ],
    ],
    'testable: no',
    /found +no/,
    /true|false/,
  ),
  slip(
    'left out what a key needs',
    HOUSE,
    [
      [
        'M1: { device: circulating-pump, place: Cylinder cupboard }',
        'M1: { device: circulating-pump }',
      ],
    ],
    'M1: {',
    /place/,
  ),
  slip(
    'wrote a colour without its quotation marks',
    'firm.yaml',
    [['light: "#0b5c4b", dark: "#8fd8c2" }', 'light: #0b5c4b, dark: #8fd8c2 }']],
    'light: #0b5c4b',
    /a text that begins with # stands in quotation marks/,
  ),
];

const NAMES: readonly Mistake[] = [
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

const MODES: readonly Mistake[] = [
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

const RULES: readonly Mistake[] = [
  slip(
    'misspelt the check of a rule',
    FUSE,
    [['check: fuse rating', 'check: fuse ratings']],
    'fuse ratings',
    /fuse ratings/,
    /did you mean fuse rating\?/,
  ),
  slip(
    'misspelt the limit of a rule',
    FUSE,
    [['ratings: [3]', 'rating: [3]']],
    'rating: [3]',
    /rating/,
    /did you mean ratings\?/,
  ),
  slip(
    'changed a rule and not its title',
    FUSE,
    [
      ['ratings: [3]', 'ratings: [3, 5]'],
      ['through a 3 A fuse', 'through a 13 A fuse'],
    ],
    '13 A',
    /13 A/,
  ),
  slip(
    'made a rule that the reference’s systems do not meet',
    FUSE,
    [
      ['ratings: [3]', 'ratings: [2]'],
      ['through a 3 A fuse', 'through a 2 A fuse'],
    ],
    'rule:',
    /of the reference’s own systems do(es)? not meet this/,
    /Three ways/,
  ),
  slip(
    'misspelt a terminal in a module',
    PAIR,
    [['{ from: pipe.COM, to: pipe.NO }', '{ from: pipe.COMM, to: pipe.NO }']],
    'pipe.COMM',
    /found +COMM/,
    /allowed .*COM/,
    /did you mean COM\?/,
  ),
  slip(
    'composed a system from a module that is not there',
    COMPOSED,
    [['valve: two-port-valve', 'valve: two-port-vlave']],
    'two-port-vlave',
    /two-port-vlave/,
    /did you mean two-port-valve\?/,
  ),
  slip(
    'misspelt a device’s condition in its contact',
    STAT,
    [['closed: frost }', 'closed: frosty }']],
    'closed: frosty',
    /frosty/,
    /allowed .*frost|did you mean frost\?/,
  ),
];

const REVIEWS: readonly Mistake[] = [
  slip(
    'changed a word of what was reviewed',
    LIST,
    [['What every van carries.', 'What every van has in it.']],
    'review:',
    /text or wiring changed since B\. Reader reviewed it on 2026-11-02/,
  ),
  slip(
    'reviewed what the author wrote',
    KEYS,
    [['author: A. Writer', 'author: B. Reader']],
    'by: B. Reader',
    /B\. Reader wrote this entry and reviewed it/,
    /allowed +a second person/,
  ),
  {
    ...slip(
      'let a review grow old',
      LIST,
      [['due: "2027-11-02"', 'due: "2026-11-20"']],
      'due: "2026-11-20"',
      /review was due on 2026-11-20/,
    ),
  },
];

const PROSE: readonly Mistake[] = [
  slip(
    'named a colour that no core has',
    HOUSE,
    [['has an orange and a grey core and no white one', 'has an orange and a white core']],
    'a white core',
    /no core of this system is white/,
    /found +white/,
    /allowed/,
  ),
  slip(
    'typed a figure that the page computes',
    HOUSE,
    [['reads <Reading at="E1.SL" mode="standby" /> with', 'reads 0 V with']],
    'reads 0 V with',
    /a figure is typed where the page can compute it/,
    /found +0 V/,
  ),
  slip(
    'named a terminal in prose that is not there',
    HOUSE,
    [['<Term at="M1.L" />', '<Term at="M1.Live" />']],
    'M1.Live',
    /no terminal “Live”/,
    /found +M1\.Live/,
    /allowed +L, N, E/,
  ),
  slip(
    'read a terminal in a mode that is not there',
    HOUSE,
    [['<Reading at="M1.L" mode="overrun" />', '<Reading at="M1.L" mode="over-run" />']],
    'over-run',
    /no mode “over-run”/,
    /did you mean overrun\?/,
  ),
  slip(
    'wrote a sign that begins a tag',
    HOUSE,
    [['Heating goes on without it.', 'Heating goes on <50 °C without it.']],
    '<50',
    /</,
  ),
  slip(
    'led to a page that is not there',
    HOUSE,
    [['Heating goes on without it.', 'Heating goes on: [dead tests](/procedures/dead-test/).']],
    '[dead tests](/procedures/dead',
    /procedures\/dead-test/,
    /did you mean procedures\/dead-tests\?/,
  ),
  slip(
    'wrote a word that the trade does not use',
    HOUSE,
    [
      [
        'summary: As we wire two valves and a cylinder.',
        'summary: Two valves behind one connection unit.',
      ],
    ],
    'connection unit',
    /connection unit/,
    /fused spur/,
  ),
];

const FIRM = 'firm.yaml';
const FEATURES: readonly Mistake[] = [
  slip(
    'used a feature that the settings do not have',
    HOUSE,
    [[', buffer vessel]', ', thermal store]']],
    'thermal store',
    /there is no feature “thermal store”/,
    /found +thermal store/,
    /allowed .*wiring centre.*buffer vessel/,
    /firm\.yaml/,
  ),
  slip(
    'misspelt a feature of the firm’s own',
    HOUSE,
    [[', buffer vessel]', ', bufer vessel]']],
    'bufer vessel',
    /did you mean buffer vessel\?/,
  ),
  slip(
    'made a feature that the reference has',
    FIRM,
    [['  buffer vessel: {', '  condensate pump: {']],
    'condensate pump',
    /the reference has the feature “condensate pump” already/,
    /found +condensate pump/,
    /allowed/,
  ),
  slip(
    'put a feature under a heading of the reference’s',
    FIRM,
    [['under: Round the boiler', 'under: Boiler']],
    'under: Boiler',
    /the reference has the heading “Boiler” already/,
    /found +Boiler/,
    /allowed/,
  ),
  slip(
    'named a feature in capitals',
    FIRM,
    [['  buffer vessel: {', '  Buffer Vessel: {']],
    'Buffer Vessel',
    /words in small letters/,
    /found +Buffer Vessel/,
  ),
];
const SETTINGS: readonly Mistake[] = [
  slip(
    'hid an entry that is not there',
    FIRM,
    [['glossary/bypass', 'glossary/bypas']],
    'glossary/bypas',
    /no entry “glossary\/bypas” to hide/,
    /did you mean glossary\/bypass\?/,
  ),
  slip(
    'wrote a telephone number as a number',
    FIRM,
    [['phone: "01632 960000"', 'phone: 1632960000']],
    'phone: 1632960000',
    /text in quotation marks/,
    /found +1632960000/,
  ),
  slip(
    'chose a colour that nobody can read',
    FIRM,
    [['light: "#0b5c4b"', 'light: "#9fd8c2"']],
    '#9fd8c2',
    /contrast is .* to 1/,
    /allowed +at least/,
    /did you mean "#/,
  ),
  slip(
    'left out the slash of a path',
    FIRM,
    [['base: /reference/', 'base: reference']],
    'base: reference',
    /begins and ends with a slash, as in \/reference\//,
    /found +reference/,
  ),
  slip(
    'gave a name to a terminal that is not there',
    FIRM,
    [['{ COM: [our 1] }', '{ COMM: [our 1] }']],
    'COMM',
    /room-thermostat-wired has no terminal “COMM”/,
    /did you mean COM\?/,
  ),
  slip(
    'misspelt a setting',
    FIRM,
    [['second person: true', 'second persons: true']],
    'second persons',
    /second persons/,
    /did you mean second person\?/,
  ),
  slip(
    'named a logo that is not beside it',
    FIRM,
    [['base: /reference/', 'base: /reference/\nlogo: logo.svg']],
    'logo.svg',
    /there is no file “logo\.svg” beside firm\.yaml/,
  ),
];

/** The slips of authors, as they are counted. */
export const MISTAKES: readonly Mistake[] = [
  ...WIRING,
  ...YAML,
  ...NAMES,
  ...MODES,
  ...RULES,
  ...REVIEWS,
  ...PROSE,
  ...SETTINGS,
  ...FEATURES,
];
