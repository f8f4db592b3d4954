import { HOUSE, type Mistake, slip } from './slip.ts';

/** Slips in wiring. */
export const WIRING: readonly Mistake[] = [
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
    'put the same core there, and reads in the prose the contact that it left',
    HOUSE,
    [
      ['ends: [X1.5, B2.call]', 'ends: [X1.5, B2.satisfied]'],
      ['Heating goes on without it.', 'It gives <Reading at="B2.call" mode="hot-water" /> then.'],
    ],
    'BU: { ends: [X1.5,',
    /move blue core of .*W6 from .*satisfied to .*call/,
    /- in line \d+, B2\.call has nothing of its own to be read against\n/,
  ),
  slip(
    'exchanged two cores, and misspelt a mode in the prose beside it',
    HOUSE,
    [
      ['BK: { ends: [X1.2, K1.heating on]', 'BK: { ends: [X1.2, K1.hot water on]'],
      ['GY: { ends: [X1.3, K1.hot water on]', 'GY: { ends: [X1.3, K1.heating on]'],
      ['<Reading at="M1.L" mode="overrun" />', '<Reading at="M1.L" mode="over-run" />'],
    ],
    'BK: { ends: [X1.2,',
    /exchange black and grey of .*W4/,
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
