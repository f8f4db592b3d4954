import { COMPOSED, FIRM, HOUSE, KEYS, LIST, type Mistake, slip } from './slip.ts';

/** Slips of those who paste, and of those who put a thing one level off. */
export const PASTED: readonly Mistake[] = [
  slip(
    'indented with spaces of a web page',
    HOUSE,
    [['    length: 15\n', '\u00a0\u00a0  length: 15\n']],
    'length: 15',
    /this space is not that of the keyboard \(U\+00A0/,
  ),
  slip(
    'pasted such a space after a colon',
    HOUSE,
    [['    length: 15\n', '    length:\u00a015\n']],
    'length:',
    /this space is not that of the keyboard \(U\+00A0/,
  ),
  slip(
    'typed a colon of another keyboard',
    HOUSE,
    [['    length: 15\n', '    length： 15\n']],
    'length：',
    /this colon is not that of the keyboard \(U\+FF1A\)/,
  ),
  slip(
    'left out a comma within braces',
    HOUSE,
    [['M1: { device: circulating-pump, place', 'M1: { device: circulating-pump place']],
    'circulating-pump place',
    /a comma is missing before place/,
  ),
  slip(
    'indented an item less than the others',
    HOUSE,
    [['  M1: { device: circulating-pump', 'M1: { device: circulating-pump']],
    'M1: {',
    /“M1” is no key here; it is one of “items”, indented under it/,
  ),
  slip(
    'put a setting one level too far out',
    FIRM,
    [['reviews: { second person: true }', 'reviews: { second person: true }\ndrafts: leave out']],
    'drafts: leave out',
    /“drafts” is no key here; it is one of “reviews”, indented under it/,
  ),
  slip(
    'wrote steps without what each says',
    KEYS,
    [['  - do: Hang the lock', '  - Hang the lock']],
    '- Hang the lock',
    /keys and values stand here/,
    /allowed +the keys do, expect, why, caution/,
  ),
  slip(
    'wrote the one step without its hyphen',
    KEYS,
    [['  - do: Hang the lock', '  do: Hang the lock']],
    'do: Hang the lock',
    /a list stands here; its items begin with -/,
  ),
  slip(
    'wrote one source and no list',
    KEYS,
    [['sources: [House rule 2]', 'sources: House rule 2']],
    'sources: House rule 2',
    /a list stands here/,
    /did you mean \[House rule 2\]\?/,
  ),
  slip(
    'wrote a contact as one line',
    FIRM,
    [['contact:\n  phone: "01632 960000"', 'contact: 01632 960000']],
    'contact: 01632',
    /allowed +the keys phone, email, address, hours/,
  ),
  slip(
    'wrote the earth by its letters the other way round',
    HOUSE,
    [['GNYE: [X1.E, M1.E]', 'YEGN: [X1.E, M1.E]']],
    'YEGN',
    /did you mean GNYE\?/,
  ),
  slip(
    'wrote the earth as cables were marked once',
    HOUSE,
    [['GNYE: [X1.E, M1.E]', 'G/Y: [X1.E, M1.E]']],
    'G/Y',
    /did you mean GNYE\?/,
  ),
  slip(
    'wrote a way of composing that the module has not',
    COMPOSED,
    [['variant: fed from the live', 'variant: from the live']],
    'from the live',
    /a way of wiring that the module does not have/,
    /allowed +fed from the live, fed from the live to stat/,
    /did you mean fed from the live\?/,
  ),
  slip(
    'said a review was made on a day to come',
    LIST,
    [['on: "2026-11-02"', 'on: "2026-12-02"']],
    '2026-12-02',
    /a day that is yet to come/,
    /allowed +2026-11-25 or earlier/,
  ),
];

/** Slips in prose and in lines of recognition. */
export const TOLD: readonly Mistake[] = [
  slip(
    'gave a reading an attribute that it has not',
    HOUSE,
    [['<Reading at="M1.L" mode="overrun" />', '<Reading point="M1.L" mode="overrun" />']],
    '<Reading point="M1.L"',
    /<Reading> takes no “point”/,
    /did you mean at\?/,
  ),
  slip(
    'gave a reading such an attribute, and put a core in the contact that opens',
    HOUSE,
    [
      ['<Reading at="M1.L" mode="overrun" />', '<Reading point="M1.L" mode="overrun" />'],
      ['ends: [X1.5, B2.call]', 'ends: [X1.5, B2.satisfied]'],
    ],
    'BU: { ends: [X1.5,',
    /move blue core of .*W6 from .*satisfied to .*call/,
  ),
  slip(
    'left a reading open, and exchanged two cores',
    HOUSE,
    [
      ['<Reading at="M1.L" mode="overrun" />', '<Reading at="M1.L" mode="overrun">'],
      ['BK: { ends: [X1.2, K1.heating on]', 'BK: { ends: [X1.2, K1.hot water on]'],
      ['GY: { ends: [X1.3, K1.hot water on]', 'GY: { ends: [X1.3, K1.heating on]'],
    ],
    'BK: { ends: [X1.2,',
    /exchange black and grey of .*W4/,
  ),
  slip(
    'left a reading open',
    HOUSE,
    [['<Reading at="M1.L" mode="overrun" />', '<Reading at="M1.L" mode="overrun">']],
    '<Reading at="M1.L',
    /<Reading> is not closed; it ends with \/>/,
  ),
  slip(
    'wrote braces in prose',
    HOUSE,
    [['Heating goes on without it.', 'Heating goes on {see the note}.']],
    '{see',
    /a brace in prose is \\\{/,
  ),
  slip(
    'led to a file and not to a page',
    HOUSE,
    [['Heating goes on without it.', 'See [dead tests](dead-tests.mdx).']],
    '[dead',
    /a link cannot lead to “dead-tests\.mdx”/,
    /allowed +a page as in \/procedures\/dead-tests\//,
  ),
  slip(
    'began a body’s headings a level too high',
    HOUSE,
    [['## How it works', '# How it works']],
    '# How it works',
    /a body’s begin with ##/,
  ),
  slip(
    'copied a line of recognition from another system',
    HOUSE,
    [
      [
        'Two valve heads, each with one pipe in and one pipe out, one on',
        'A mid-position valve, and a head with one pipe in and one pipe out, one on',
      ],
    ],
    'A mid-position valve',
    /names what this system has not: mid-position valve/,
  ),
  slip(
    'named a terminal by a number that no box has',
    HOUSE,
    [['Heating goes on without it.', 'Heating goes on at terminal 14.']],
    'terminal 14',
    /no item of this system has a terminal 14/,
    /allowed +1, 2, 3/,
  ),
  slip(
    'gave the wiring centre ways that it has not',
    HOUSE,
    [['Heating goes on without it.', 'All of it meets in an eight-way junction box.']],
    'eight-way',
    /no box of this system has 8 ways/,
  ),
];

/** Two slips of wiring at once, and one that two changes would put right. */
export const TWICE: readonly Mistake[] = [
  slip(
    'exchanged two cores of each of two cables',
    HOUSE,
    [
      ['BK: { ends: [X1.2, K1.heating on]', 'BK: { ends: [X1.2, K1.hot water on]'],
      ['GY: { ends: [X1.3, K1.hot water on]', 'GY: { ends: [X1.3, K1.heating on]'],
      ['BK: { ends: [X1.7, E1.SL]', 'BK: { ends: [X1.7, E1.pump L]'],
      ['GY: { ends: [X1.8, E1.pump L]', 'GY: { ends: [X1.8, E1.SL]'],
    ],
    'E1.pump L]',
    /exchange black and grey of .*W3.*, and exchange black and grey of .*W4/,
    /expectations that differ hold/,
  ),
  slip(
    'exchanged the motor lives of two valves of one kind',
    HOUSE,
    [
      ['BN: [X1.4, Q2.motor L]', 'BN: [X1.6, Q2.motor L]'],
      ['BN: [X1.6, Q3.motor L]', 'BN: [X1.4, Q3.motor L]'],
    ],
    'BN: [X1.6, Q2.motor L]',
    /^.*\n {2}exchange brown core of .*W8 and brown core of .*W9/,
  ),
];
