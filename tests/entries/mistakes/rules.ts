import { COMPOSED, FUSE, HOUSE, KEYS, LIST, type Mistake, PAIR, STAT, slip } from './slip.ts';

/** Slips in rules, modules, reviews and prose. */
export const RULES: readonly Mistake[] = [
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

export const REVIEWS: readonly Mistake[] = [
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
  slip(
    'reviewed what the author wrote, the name in other letters',
    KEYS,
    [['author: A. Writer', 'author: b reader']],
    'by: B. Reader',
    /b reader wrote this entry and reviewed it/,
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

export const PROSE: readonly Mistake[] = [
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
