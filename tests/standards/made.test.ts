import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { CHECK_NAMES, StandardRule } from '../../schemas/index.ts';
import { resistanceBetween, simulate } from '../../src/circuit/index.ts';
import { ruleWords, subjectOf, type Verdict } from '../../src/standards/index.ts';
import { circuit } from '../support/notation.ts';
import { edit, SOUND, said, verdictOf, WITH_CALL, WITH_CUT_OUT, WITH_OVERFLOW } from './made.ts';

interface Case {
  readonly rule: Readonly<Record<string, unknown>>;
  /** A circuit that meets the rule. */
  readonly good: string;
  /** Circuits that do not, each with what is said: `at: message`. */
  readonly bad: readonly (readonly [name: string, circuit: string, said: readonly string[]])[];
  /** A circuit to which the rule does not apply. */
  readonly apart?: string;
}

/** A second contact that calls {@link SOUND}'s boiler. */
const FROST = `B2 contact: contact COM NO { closed: cold }
  W4: flex 0.75 2; BN E1.L B2.COM; BK E1.SL B2.NO`;

/** A room thermostat that calls the boiler past the cylinder's valve and cut-out. */
const ROOM_BESIDE_CYLINDER = edit(
  WITH_CUT_OUT,
  ['B1 wants heating: calling', 'B1 wants hot water: calling'],
  ['mode standby:', `${FROST.replace('W4', 'W9')}\n B2 wants heating: cold\n mode standby:`],
);

/** {@link SOUND} with a boiler that holds its own call once it has one, through some contacts. */
const sealed = (between: string, ...contacts: readonly string[]) =>
  edit(
    SOUND,
    [
      'E1 is class I boiler',
      `E1 seal: contact ${between} { closed: { energised: call } }\n E1 is class I boiler`,
    ],
    [
      'mode standby:',
      `${contacts.join('\n')}\n W4: flex 0.75 2; BN E1.held K1.p0; BK E1.SL K1.p1\n mode standby:`,
    ],
  );
const FIVE = ['a', 'b', 'c', 'd', 'e'];

const DARK = `
  F1 mains: supply L N E
  F1 is supply
  B1 contact: contact COM NO { closed: calling }
  W1: flex 0.75 2; BN F1.L B1.COM
  mode standby:
`;
const FEED = 'BN Q1.L2 E1.L; BU Q1.N2 E1.N; GNYE Q1.E2 E1.E';

const CASES: readonly Case[] = [
  {
    rule: { check: 'fuse rating', ratings: [3] },
    good: SOUND,
    bad: [
      [
        'a larger fuse',
        edit(SOUND, ['{ rating: 3 }', '{ rating: 13 }']),
        ['Q1: the fuse of Q1 is of 13 A'],
      ],
      [
        'a feed from before the fuse',
        edit(SOUND, ['BN Q1.L2 E1.L', 'BN Q1.mid E1.L']),
        ['E1: the valve of E1 is fed past the fuse of Q1'],
      ],
      [
        'no fuse at all',
        edit(SOUND, ['Q1 fuse: fuse mid L2 { rating: 3 }', 'Q1 fuse: link mid L2']),
        ['E1: the valve of E1 is fed, and no BS 1362 fuse stands before it'],
      ],
    ],
    apart: DARK,
  },
  {
    rule: { check: 'minimum conductor size', smallest: 0.75, earth: 1.5, extraLow: 0.5 },
    good: edit(WITH_CALL, ['W2: flex 0.75', 'W2: flex 1.5']),
    bad: [
      [
        'a thin cable',
        edit(
          SOUND,
          ['W3: twin and earth 1 10', 'W3: twin and earth 0.5 10'],
          ['W2: flex 0.75', 'W2: flex 1.5'],
        ),
        ['W3: the cores of W3 are 0.5 mm²'],
      ],
      [
        'a thin protective conductor',
        edit(SOUND, ['2.5/1.5', '2.5/1'], ['W2: flex 0.75', 'W2: flex 1.5']),
        ['W1: the earth of W1 is 1 mm²'],
      ],
    ],
  },
  {
    rule: { check: 'single point of isolation' },
    good: SOUND,
    bad: [
      [
        'a feed past the isolator',
        edit(SOUND, ['BN E1.L B1.COM', 'BN F1.L B1.COM']),
        [
          'W3.BN: the brown core of W3 stays live with the fused spur Q1 off, in “standby”, and 3 conductors beside it',
        ],
      ],
      [
        'a single-pole isolator',
        edit(SOUND, [
          'Q1 neutral pole: contact N1 N2 { closed: { not: off } }',
          'Q1 neutral pole: link N1 N2',
        ]),
        [
          'W2.BU: the blue core of W2 stays joined to the supply’s neutral with the fused spur Q1 off',
        ],
      ],
      [
        'a neutral from elsewhere',
        edit(SOUND, ['BU Q1.N2 E1.N', 'BU F1.N E1.N']),
        [
          'W2.BU: the blue core of W2 stays joined to the supply’s neutral with the fused spur Q1 off',
        ],
      ],
      [
        'no isolator',
        edit(SOUND, ['mode isolated: Q1.off, B1.calling', 'mode isolated: B1.calling']),
        ['isolated: no isolator is switched off in the mode isolated'],
      ],
    ],
    apart: DARK,
  },
  {
    rule: { check: 'permanent live not through a control' },
    good: SOUND,
    bad: [
      [
        'a boiler fed through its thermostat',
        edit(
          SOUND,
          [FEED, 'BN Q1.L2 B1.COM; BU Q1.N2 E1.N; GNYE Q1.E2 E1.E'],
          ['BN E1.L B1.COM; BU E1.SL B1.NO BN', 'BN E1.L B1.NO; BU E1.SL B1.NO BN'],
        ),
        ['W3.BN: L at E1 takes its permanent live through the contact of B1, as in “heating”'],
      ],
      [
        'a boiler that is never fed',
        edit(SOUND, [FEED, 'BU Q1.N2 E1.N; GNYE Q1.E2 E1.E']),
        ['W3.BN: L at E1 is live in no working mode'],
      ],
    ],
    apart: DARK,
  },
  {
    rule: { check: 'overflow interlock' },
    good: WITH_OVERFLOW,
    bad: [
      [
        'a link across the switch',
        `${WITH_OVERFLOW}\n link P1.oc P1.nc`,
        ['P1: “burner” at E1 with the overflow switch of P1 open, in “heating”'],
      ],
      [
        'a switch in the call while another live lights the burner',
        edit(WITH_OVERFLOW, ['W4: flex 0.75 2; BN Q1.L2 P1.oc', 'W4: flex 0.75 2; BN Q1.L2 E1.L']),
        [
          'P1: “burner” at E1 with the overflow switch of P1 open, in “heating”; no core reaches both its terminals',
        ],
      ],
      [
        // Three ordinary things, and no listed mode in which they meet.
        'a room stat that sends its own live back past the switch through a frost stat',
        edit(
          WITH_OVERFLOW,
          ['BN E1.L B1.COM; BU E1.SL B1.NO BN', 'BN P1.oc B1.COM; BU E1.SL B1.NO BN'],
          [
            'mode standby:',
            `${FROST.replace('W4', 'W9')}\n B2 wants frost protection: cold\n mode standby:`,
          ],
        ),
        ['P1: “burner” at E1 with the overflow switch of P1 open, when B1.calling and B2.cold'],
      ],
    ],
    apart: SOUND,
  },
  {
    rule: { check: 'no switched neutral' },
    good: SOUND,
    bad: [
      [
        'a thermostat in the neutral',
        edit(
          SOUND,
          ['BU Q1.N2 E1.N', 'BU Q1.N2 B1.COM'],
          ['BN E1.L B1.COM; BU E1.SL B1.NO BN', 'BN E1.N B1.NO; BU E1.SL E1.L BN'],
        ),
        ['W2.BU: the contact of B1 stands in the neutral of the board of E1'],
      ],
      [
        'a fuse in the neutral',
        edit(
          SOUND,
          ['BU Q1.N2 E1.N', 'BU Q1.N2 X1.1'],
          [
            'mode standby:',
            'X1 fuse: fuse 1 2 { rating: 3 }\n W4: flex 0.75 2; BU X1.2 E1.N\n mode standby:',
          ],
        ),
        ['W2.BU: the fuse of X1 stands in the neutral of the board of E1'],
      ],
    ],
    apart: DARK,
  },
  {
    rule: { check: 'green-yellow only as protective conductor' },
    good: SOUND,
    bad: [
      [
        'green-yellow as a switched live',
        edit(SOUND, ['BU E1.SL B1.NO BN', 'GNYE E1.SL B1.NO']),
        [
          'W3.GNYE: the green-yellow core of W3, marked green-yellow, joins SL at E1, which is no earth',
        ],
      ],
      [
        'green-yellow sleeved brown',
        edit(SOUND, ['BU E1.SL B1.NO BN', 'GNYE E1.SL B1.NO BN']),
        ['W3.GNYE: the green-yellow core of W3 is sleeved brown'],
      ],
      [
        'an earth in black',
        edit(SOUND, ['GNYE Q1.E2 E1.E', 'BK Q1.E2 E1.E']),
        ['W2.BK: the black core of W2 is an earth and not green-yellow'],
      ],
      [
        'an earth in black with a sleeve',
        edit(SOUND, ['GNYE Q1.E2 E1.E', 'BK Q1.E2 E1.E GNYE']),
        ['W2.BK: the black core of W2 is an earth by its sleeve alone'],
      ],
      [
        'a live joined to the earth',
        edit(
          SOUND,
          [FEED, 'BN Q1.L2 E1.L; BU Q1.N2 E1.N; BK E1.L E1.E; GNYE E1.E B1.E'],
          ['mode standby:', 'B1.E carries earth\n mode standby:'],
        ),
        ['W2.GNYE: the green-yellow core of W2, marked green-yellow, is live'],
      ],
    ],
    apart: DARK,
  },
  {
    rule: { check: 'blue core as a live sleeved' },
    good: SOUND,
    bad: [
      [
        'no sleeve',
        edit(SOUND, ['BU E1.SL B1.NO BN', 'BU E1.SL B1.NO']),
        ['W3.BU: the blue core of W3 is live in “heating” and not sleeved'],
      ],
      [
        'a sleeve of another colour',
        edit(SOUND, ['BU E1.SL B1.NO BN', 'BU E1.SL B1.NO GY']),
        ['W3.BU: the blue core of W3 is live in “heating” and sleeved grey'],
      ],
    ],
    apart: edit(SOUND, ['BU E1.SL B1.NO BN', 'BK E1.SL B1.NO']),
  },
  {
    rule: { check: 'class I earthed', most: 0.5 },
    good: SOUND,
    bad: [
      [
        'no protective conductor',
        edit(SOUND, [FEED, 'BN Q1.L2 E1.L; BU Q1.N2 E1.N']),
        ['E1: the boiler E1 is class I, and nothing joins it to the supply’s earth'],
      ],
      [
        'an earth through a contact',
        edit(SOUND, ['Q1 earth: link E1 E2', 'Q1 earth: contact E1 E2 { closed: { not: off } }']),
        ['E1: the boiler E1 is class I, and nothing joins it to the supply’s earth'],
      ],
      [
        'a long thin one',
        edit(SOUND, ['W2: flex 0.75 2', 'W2: flex 0.75 40']),
        ['W2.GNYE: the boiler E1 is joined to the supply’s earth through 1.17 Ω'],
      ],
    ],
    apart: edit(SOUND, ['E1 is class I boiler', 'E1 is boiler']),
  },
  {
    rule: { check: 'no mains on extra-low voltage' },
    good: WITH_CALL,
    bad: [
      [
        'a live on the common',
        edit(WITH_CALL, ['BN E1.c1 B1.COM', 'BN E1.L B1.COM']),
        [
          'W3.BU: c2 at E1 is made for extra-low voltage and stands at 230 V in “heating”',
          'E1: c1 at E1 is made for extra-low voltage and stands at 227 V in “heating”',
          'W3.BN: COM at B1 is made for extra-low voltage and stands at 230 V in “standby”',
          'W3.BU: NO at B1 is made for extra-low voltage and stands at 230 V in “heating”',
        ],
      ],
      [
        // No listed mode has it cold.
        'a frost stat that brings the live to the pair',
        `${WITH_CALL}\n ${FROST.replace('E1.SL', 'E1.c2').replace('W4', 'W9')}\n B2 wants frost protection: cold`,
        [
          'W3.BU: c2 at E1 is made for extra-low voltage and stands at 230 V when B2.cold',
          'W3.BN: c1 at E1 is made for extra-low voltage and stands at 227 V when B2.cold',
          'W3.BN: COM at B1 is made for extra-low voltage and stands at 227 V when B2.cold',
          'W3.BU: NO at B1 is made for extra-low voltage and stands at 230 V when B2.cold',
        ],
      ],
    ],
    apart: SOUND,
  },
  {
    rule: {
      check: 'core colours',
      permanent: ['BN'],
      switched: ['BN', 'BK'],
      neutral: ['BU'],
      call: ['BN', 'BU'],
    },
    good: SOUND,
    bad: [
      [
        'a grey permanent live',
        edit(SOUND, ['BN Q1.L2 E1.L', 'GY Q1.L2 E1.L']),
        ['W2.GY: the grey core of W2 is live in every working mode and grey'],
      ],
      [
        'a blue switched live',
        edit(SOUND, ['BU E1.SL B1.NO BN', 'BU E1.SL B1.NO']),
        ['W3.BU: the blue core of W3 is live in some modes and blue'],
      ],
      [
        'a black neutral',
        edit(SOUND, ['BU Q1.N2 E1.N', 'BK Q1.N2 E1.N']),
        ['W2.BK: the black core of W2 is a neutral and black'],
      ],
      [
        'a black call',
        edit(WITH_CALL, ['BU E1.c2 B1.NO', 'BK E1.c2 B1.NO']),
        ['W3.BK: the black core of W3 is part of an extra-low-voltage call and black'],
      ],
    ],
    apart: edit(DARK, ['W1: flex 0.75', 'W1: fixed lead 0.75']),
  },
  {
    rule: { check: 'approved devices', devices: ['b1'], families: ['control'] },
    good: SOUND,
    bad: [
      [
        'another device of the family',
        edit(SOUND, [
          'mode standby:',
          'B2 contact: contact COM NO { closed: calling }\n W4: flex 0.75 2; BN E1.L B2.COM\n mode standby:',
        ]),
        ['B2: B2 is b2, which is not approved'],
      ],
    ],
    apart: edit(SOUND, ['B1 contact: contact', 'B1 is sensor\n B1 contact: contact']),
  },
  {
    rule: { check: 'safety cut-out', devices: ['f2'], wants: 'heating', needed: true },
    good: WITH_CUT_OUT,
    bad: [
      [
        'a link across it',
        `${WITH_CUT_OUT}\n link F2.in F2.out`,
        ['F2: “burner” at E1 and “open” at Q3 with the contact of F2 open'],
      ],
      [
        'the thermostat joined to the valve past it',
        edit(WITH_CUT_OUT, ['BN F2.out Q3.ML', 'BN B1.NO Q3.ML']),
        ['F2: “burner” at E1 and “open” at Q3 with the contact of F2 open'],
      ],
      [
        'an end switch that is bypassed',
        edit(WITH_CUT_OUT, ['BK Q3.call E1.SL', 'BK B1.NO E1.SL']),
        ['F2: “burner” at E1 with the contact of F2 open'],
      ],
      [
        'one that resets itself',
        edit(WITH_CUT_OUT, [
          'tripped > healthy: reset pressed',
          'tripped > healthy: { not: overheated }',
        ]),
        ['F2: the f2 F2 closes again by itself'],
      ],
      [
        'one that nothing opens',
        edit(WITH_CUT_OUT, [
          'F2 contact: contact in out { closed: { position: healthy } }',
          'F2 contact: contact in out { closed: { any: [{ position: healthy }, { position: tripped }] } }',
        ]),
        ['F2: nothing opens the f2 F2'],
      ],
      ['none', SOUND, ['items: there is no f2']],
    ],
  },
  {
    rule: { check: 'safety cut-out', devices: ['f9'] },
    good: edit(WITH_CUT_OUT.replaceAll('F2', 'F9'), ['F9 is safety', 'F9 is safety']),
    bad: [
      [
        'a link across it',
        `${WITH_CUT_OUT.replaceAll('F2', 'F9')}\n link F9.in F9.out`,
        ['F9: “burner” at E1 and “open” at Q3 with the contact of F9 open'],
      ],
    ],
    apart: SOUND,
  },
  {
    rule: { check: 'system interlock' },
    good: WITH_CUT_OUT,
    bad: [
      [
        'a boiler called by its own live',
        edit(SOUND, ['BU E1.SL B1.NO BN', 'BU E1.SL E1.L BN']),
        ['E1: “burner” at E1 with nothing asking for heat'],
      ],
      [
        'a clock joined straight to the boiler',
        edit(SOUND, [
          'mode standby:',
          'K1 clock: contact L on { closed: heating on }\n W4: flex 0.75 2; BN E1.L K1.L; BK E1.SL K1.on\n mode standby:',
        ]),
        ['E1: “burner” at E1 with nothing asking for heat, when K1.heating on'],
      ],
    ],
    apart: edit(SOUND, ['B1 wants heating: calling', '']),
  },
  {
    // What only a mode before it brings about is tried after each mode.
    rule: { check: 'system interlock', stops: ['burner'] },
    good: sealed(
      'L held',
      `K1 five: contact p0 p1 { closed: { all: [${FIVE.join(', ')}, { not: a }] } }`,
    ),
    bad: [
      [
        'a boiler that holds its own call',
        sealed('L SL', 'K1 nothing: link p0 p1'),
        ['E1: “burner” at E1 with nothing asking for heat'],
      ],
      [
        'one that holds it while a single clock of four is on',
        sealed(
          'L held',
          'K1 one: contact p0 p1 { closed: { all: [b, { not: a }, { not: c }, { not: d }] } }',
        ),
        ['E1: “burner” at E1 with nothing asking for heat, when K1.b'],
      ],
      [
        'one that holds it while five clocks are on',
        sealed('L held', `K1 five: contact p0 p1 { closed: { all: [${FIVE.join(', ')}] } }`),
        ['E1: “burner” at E1 with nothing asking for heat, when K1.a, K1.b, K1.c, K1.d and K1.e'],
      ],
    ],
  },
  {
    // A demand is known by what it wants, not by its name; a clock's is none.
    rule: { check: 'system interlock' },
    good: edit(
      SOUND,
      ['{ closed: calling }', '{ closed: heating }'],
      ['B1 wants heating: calling', 'B1 wants heating: heating'],
      ['mode heating: B1.calling', 'mode heating: B1.heating'],
      ['Q1.off, B1.calling', 'Q1.off'],
      ['mode standby:', `${FROST}\n B2 wants frost protection: cold\n mode standby:`],
    ),
    bad: [
      [
        'a frost thermostat that does not say what it wants',
        edit(SOUND, ['mode standby:', `${FROST}\n mode standby:`]),
        ['E1: “burner” at E1 with nothing asking for heat, when B2.cold'],
      ],
      [
        'a clock’s channel in the place of a demand',
        edit(SOUND, [
          'mode standby:',
          `${FROST}\n B2 wants heating by clock: cold\n mode standby:`,
        ]),
        ['E1: “burner” at E1 with nothing asking for heat, when B2.cold'],
      ],
    ],
    apart: edit(SOUND, ['B1 wants heating: calling', 'B1 wants heating by clock: calling']),
  },
  {
    // Hot water alone is asked for while its cut-out is proved: the room's call may go on.
    rule: { check: 'safety cut-out', devices: ['f2'], wants: 'hot water' },
    good: ROOM_BESIDE_CYLINDER,
    bad: [
      [
        'the room’s call taken for the cylinder’s',
        edit(ROOM_BESIDE_CYLINDER, ['B2 wants heating: cold', 'B2 wants hot water: cold']),
        ['F2: “burner” at E1 with the contact of F2 open'],
      ],
    ],
    apart: SOUND,
  },
  {
    rule: { check: 'cable core count', device: 'p1', least: 2 },
    good: WITH_OVERFLOW,
    bad: [
      [
        'one core short',
        edit(WITH_OVERFLOW, ['BN P1.nc E1.L', 'BN Q1.L2 E1.L']),
        ['W4: 1 core reaches the p1 P1'],
      ],
    ],
    apart: SOUND,
  },
  {
    rule: { check: 'earth fault cleared', share: 0.8 },
    good: SOUND,
    bad: [
      [
        'a long run behind the breaker alone',
        edit(
          SOUND,
          ['Q1 fuse: fuse mid L2 { rating: 3 }', 'Q1 fuse: link mid L2'],
          ['W2: flex 0.75 2', 'W2: flex 0.75 40'],
        ),
        [
          'E1: an earth fault at the boiler E1 meets 3.51 Ω, and breaker at F1, 32 A, needs 1.09 Ω or less to open in 0.4 s',
        ],
      ],
      [
        '13 A on a long thin run',
        edit(
          SOUND,
          ['{ rating: 3 }', '{ rating: 13 }'],
          ['W2: flex 0.75 2', 'W2: flex 0.75 60'],
          ['{ rating: 32 }', '{ rating: 100 }'],
        ),
        [
          'F1: an earth fault at the consumer unit F1 meets 0.35 Ω, and breaker at F1, 100 A, needs 0.35 Ω or less to open in 0.4 s',
          'Q1: an earth fault at the fused spur Q1 meets 0.58 Ω, and breaker at F1, 100 A, needs 0.35 Ω or less to open in 0.4 s',
          'E1: an earth fault at the boiler E1 meets 4.75 Ω, and fuse at Q1, 13 A, needs 1.84 Ω or less to open in 0.4 s',
        ],
      ],
    ],
    apart: DARK,
  },
  {
    rule: { check: 'cable protected' },
    good: SOUND,
    bad: [
      [
        'a 13 A fuse before a 6 A flex',
        edit(SOUND, ['{ rating: 3 }', '{ rating: 13 }']),
        ['W2: W2 stands 6 A at 0.75 mm², and fuse at Q1 lets 13 A through'],
      ],
      [
        'no fuse anywhere',
        edit(
          SOUND,
          ['Q1 fuse: fuse mid L2 { rating: 3 }', 'Q1 fuse: link mid L2'],
          ['F1 breaker: breaker bus L { rating: 32 }', 'F1 breaker: link bus L'],
        ),
        [
          'W1: no fuse or MCB stands before W1',
          'W2: no fuse or MCB stands before W2',
          'W3: no fuse or MCB stands before W3',
        ],
      ],
    ],
    apart: edit(DARK, ['W1: flex', 'W1: single']),
  },
  {
    rule: { check: 'volt drop', most: 1 },
    good: SOUND,
    bad: [
      [
        'a heavy load at the end of a long flex',
        edit(SOUND, ['{ watts: 40 }', '{ watts: 600 }'], ['W2: flex 0.75 2', 'W2: flex 0.75 60']),
        ['E1: the cables to the boiler E1 lose 9.9 V in “heating”'],
      ],
    ],
    apart: DARK,
  },
  {
    rule: { check: 'extra-low voltage apart' },
    good: WITH_CALL,
    bad: [
      [
        'a mains core beside the call',
        edit(
          WITH_CALL,
          ['BU E1.c2 B1.NO', 'BU E1.c2 B1.NO; BK E1.L B2.L'],
          [
            'mode standby:',
            'B2 lamp: load L N { watts: 1 }\n W4: flex 0.75 2; BU E1.N B2.N\n mode standby:',
          ],
        ),
        [
          'W3.BN: the brown core of W3 carries extra-low voltage beside the black core of W3, which is mains',
          'W3.BU: the blue core of W3 carries extra-low voltage beside the black core of W3, which is mains',
        ],
      ],
    ],
    apart: SOUND,
  },
  {
    // Without a limit of its own a protective conductor is held to that of the live ones.
    rule: { check: 'minimum conductor size', smallest: 0.75 },
    good: SOUND,
    bad: [
      [
        'a cable that is too thin in all its cores',
        edit(SOUND, ['W2: flex 0.75', 'W2: flex 0.5']),
        ['W2: the cores of W2 are 0.5 mm²'],
      ],
      ['a thin cable of extra-low voltage', WITH_CALL, ['W3: the cores of W3 are 0.5 mm²']],
    ],
    apart: `F1 mains: supply L N E
      A1 lamp: load L N { watts: 1 }
      link F1.L A1.L
      mode standby:`,
  },
  {
    rule: { check: 'minimum conductor size', smallest: 0.75, earth: 1, extraLow: 0.5 },
    good: edit(
      WITH_CALL,
      ['W2: flex 0.75', 'W2: flex 1'],
      ['E1.c1 carries call, extra-low', 'E1.c1 carries switched, extra-low'],
    ),
    bad: [
      [
        'a flex whose protective conductor is as thin as its live cores',
        SOUND,
        ['W2: the earth of W2 is 0.75 mm²'],
      ],
      [
        'a mains core in a thin cable of extra-low voltage',
        edit(
          WITH_CALL,
          ['W2: flex 0.75', 'W2: flex 1'],
          ['BU E1.c2 B1.NO', 'BU E1.c2 B1.NO; BK E1.L B1.spare'],
        ),
        ['W3: the cores of W3 are 0.5 mm²'],
      ],
      [
        'a thin core from a call to a terminal of the mains',
        edit(WITH_CALL, ['W2: flex 0.75', 'W2: flex 1'], ['B1.NO carries call', '']),
        ['W3: the cores of W3 are 0.5 mm²'],
      ],
    ],
  },
  {
    rule: { check: 'single point of isolation', doublePole: false },
    good: edit(SOUND, [
      'Q1 neutral pole: contact N1 N2 { closed: { not: off } }',
      'Q1 neutral pole: link N1 N2',
    ]),
    bad: [
      [
        'a second isolator',
        edit(
          SOUND,
          ['BN E1.L B1.COM', 'BN Q2.out B1.COM'],
          [
            'mode standby:',
            `Q2 line pole: contact in out { closed: { not: off } }
             Q2 is isolation
             W4: flex 0.75 2; BN E1.L Q2.in
             mode standby:`,
          ],
          ['mode isolated: Q1.off,', 'mode isolated: Q1.off, Q2.off,'],
        ),
        ['Q2: Q1 and Q2 are switched off in the mode isolated'],
      ],
      [
        'a single live core past the isolator',
        edit(SOUND, ['mode standby:', 'W4: single 0.75 2; BK F1.L B1.spare\n mode standby:']),
        ['W4.BK: the black core of W4 stays live with the fused spur Q1 off, in “standby”'],
      ],
    ],
    apart: edit(SOUND, ['mode isolated: Q1.off, B1.calling', '']),
  },
  {
    rule: { check: 'permanent live not through a control', families: ['boiler', 'receiver'] },
    // A load may be drawn from its neutral to its line; a terminal that feeds no load is none.
    good: edit(
      SOUND,
      ['E1 board: load L N', 'E1 board: load N L'],
      [
        'E1 is class I boiler',
        'E1 to nothing: link spare idle\n E1.spare carries line\n E1 is class I boiler',
      ],
    ),
    bad: [
      [
        'two thermostats side by side',
        edit(
          SOUND,
          [FEED, 'BN Q1.L2 B1.COM; BU Q1.N2 E1.N; GNYE Q1.E2 E1.E'],
          ['BN E1.L B1.COM; BU E1.SL B1.NO BN', 'BN E1.L B1.NO; BU E1.SL B1.NO BN'],
          [
            'mode standby:',
            `B2 contact: contact COM NO { closed: calling }
             W4: flex 0.75 2; BN B1.COM B2.COM; BK B1.NO B2.NO
             mode standby:`,
          ],
          ['mode heating: B1.calling', 'mode heating: B1.calling, B2.calling'],
        ),
        [
          'W3.BN: L at E1 takes its permanent live through the contacts of controls, as in “heating”',
        ],
      ],
    ],
    apart: edit(SOUND, ['E1 is class I boiler', 'E1 is class I pump']),
  },
  {
    rule: { check: 'overflow interlock', stops: ['burner', 'alight'] },
    // What a control shows of a burner is not the burner.
    good: edit(WITH_OVERFLOW, ['mode standby:', 'B1 burner: when calling\n mode standby:']),
    bad: [],
    apart: edit(WITH_OVERFLOW, ['mode heating: B1.calling', '']),
  },
  {
    rule: { check: 'no switched neutral', families: ['isolation', 'valve'] },
    good: SOUND,
    bad: [
      [
        'a contact inside the supply, before any core',
        edit(
          SOUND,
          ['F1 mains: supply bus N E', 'F1 mains: supply bus inlet E'],
          [
            'F1 is supply',
            'F1 neutral pole: contact inlet N { closed: { not: off } }\n F1 is supply',
          ],
        ),
        ['F1: the neutral pole of F1 stands in the neutral of the board of E1'],
      ],
    ],
  },
  {
    rule: { check: 'blue core as a live sleeved', sleeves: ['BN', 'BK'] },
    good: edit(SOUND, ['BU E1.SL B1.NO BN', 'BU E1.SL B1.NO BK']),
    bad: [
      [
        'no sleeve, where either of two is right',
        edit(SOUND, ['BU E1.SL B1.NO BN', 'BU E1.SL B1.NO']),
        ['W3.BU: the blue core of W3 is live in “heating” and not sleeved'],
      ],
    ],
  },
  {
    rule: { check: 'class I earthed' },
    // Of a thing without terminals there is nothing to join.
    good: edit(SOUND, ['mode standby:', 'E2 is class I heater\n mode standby:']),
    bad: [
      [
        'no terminal for an earth',
        edit(SOUND, [
          'mode standby:',
          'E2 lamp: load L N { watts: 1 }\n E2 is class I heater\n mode standby:',
        ]),
        ['E2: the e2 E2 is class I, and nothing joins it to the supply’s earth'],
      ],
    ],
  },
  {
    rule: {
      check: 'core colours',
      kinds: ['flex', 'twin and earth'],
      permanent: ['BN', 'BK'],
      switched: ['GY', 'BK'],
      neutral: ['BU', 'GY'],
    },
    // A call may be of any colour; so may a core that is never live, and a bridge to the earth.
    good: edit(
      SOUND,
      ['BU E1.SL B1.NO BN', 'BU E1.SL B1.NO BK; OG E1.idle B1.idle'],
      ['GNYE Q1.E2 E1.E', 'GNYE Q1.E2 E1.E; OG E1.N E1.E'],
      [
        'mode standby:',
        'E1.c1 carries call\n B1.c1 carries call\n W4: flex 0.75 2; OG E1.c1 B1.c1; spare BK\n mode standby:',
      ],
    ),
    bad: [
      [
        'a sleeve of a colour that is not allowed',
        edit(SOUND, ['BU E1.SL B1.NO BN', 'BK E1.SL B1.NO BN']),
        ['W3.BK: the black core of W3 is live in some modes and sleeved brown'],
      ],
    ],
  },
  {
    rule: { check: 'approved devices', devices: ['b1', 'b3'], families: ['control', 'sensor'] },
    good: SOUND,
    bad: [
      [
        'a sensor that is not among them',
        edit(SOUND, [
          'mode standby:',
          'B2 contact: contact COM NO { closed: cold }\n B2 is sensor\n mode standby:',
        ]),
        ['B2: B2 is b2, which is not approved'],
      ],
    ],
    apart: edit(SOUND, ['B1 contact: contact', 'B1 is valve\n B1 contact: contact']),
  },
  {
    rule: { check: 'approved devices', devices: ['b1', 'e1', 'f1', 'q1'] },
    good: SOUND,
    bad: [
      [
        'one more, of whatever family',
        edit(SOUND, [
          'mode standby:',
          'Q3 motor: motor ML N { watts: 6 }\n Q3 is valve\n mode standby:',
        ]),
        ['Q3: Q3 is q3, which is not approved'],
      ],
    ],
  },
  {
    rule: { check: 'safety cut-out', devices: ['f2', 'f3'], latches: false },
    good: edit(WITH_CUT_OUT, [
      'tripped > healthy: reset pressed',
      'tripped > healthy: { not: overheated }',
    ]),
    bad: [
      [
        'no mode in which it could be seen to work',
        edit(WITH_CUT_OUT, ['mode heating: B1.calling', '']),
        ['F2: nothing shows that the contact of F2 ends anything: no trial gives open or burner'],
      ],
      [
        'a boiler that it stops and no valve that it shuts',
        edit(WITH_CUT_OUT, ['Q3 open: when', 'Q3 turned: when']),
        ['F2: nothing is seen open that the contact of F2 could end'],
      ],
      [
        'one that has no contact',
        edit(
          WITH_CUT_OUT,
          ['F2 contact: contact in out { closed: { position: healthy } }', 'F2 body: link in out'],
          ['F2 rests healthy; healthy > tripped: overheated; tripped > healthy: reset pressed', ''],
        ),
        ['F2: “burner” at E1 and “open” at Q3 with F2 open'],
      ],
    ],
    apart: SOUND,
  },
  {
    rule: { check: 'cable core count', device: 'b2', least: 2 },
    good: edit(SOUND, ['mode standby:', `${FROST}\n mode standby:`]),
    bad: [
      [
        'none',
        edit(SOUND, [
          'mode standby:',
          'B2 contact: contact COM NO { closed: cold }\n mode standby:',
        ]),
        ['B2: 0 cores reach the b2 B2'],
      ],
    ],
  },
  {
    rule: { check: 'safety cut-out', devices: ['f2', 'f3'], needed: true },
    good: WITH_CUT_OUT,
    bad: [['neither of two', SOUND, ['items: there is no f2 or f3']]],
  },
  {
    rule: { check: 'fuse rating', ratings: [3, 5], families: ['isolation', 'control'] },
    good: SOUND,
    bad: [
      [
        'a larger fuse',
        edit(SOUND, ['{ rating: 3 }', '{ rating: 13 }']),
        ['Q1: the fuse of Q1 is of 13 A'],
      ],
    ],
  },
  {
    // A contact with a link beside it opens nothing, though the way through it is the shorter.
    rule: { check: 'no switched neutral' },
    good: edit(
      SOUND,
      ['BU Q1.N2 E1.N', 'BU Q1.N2 X1.1'],
      [
        'mode standby:',
        `X1 pole: contact 1 2 { closed: { not: off } }
         X1 one: link 1 beside
         X1 two: link beside 2
         W4: flex 0.75 2; BU X1.2 E1.N
         mode standby:`,
      ],
    ),
    bad: [],
    apart: `${DARK.replace('W1: flex 0.75 2; BN F1.L B1.COM', 'A1 lamp: load L N { watts: 1 }\n W1: flex 0.75 2; BN F1.L A1.L')}`,
  },
  {
    rule: { check: 'green-yellow only as protective conductor' },
    good: SOUND,
    bad: [
      [
        'a black switched live with a green-yellow sleeve',
        edit(SOUND, ['BU E1.SL B1.NO BN', 'BK E1.SL B1.NO GNYE']),
        ['W3.BK: the black core of W3, marked green-yellow, joins SL at E1, which is no earth'],
      ],
    ],
  },
  {
    rule: { check: 'extra-low voltage apart' },
    good: edit(WITH_CALL, ['BU E1.c2 B1.NO', 'BU E1.c2 B1.NO; GNYE E1.E B1.E']),
    bad: [],
  },
  {
    rule: { check: 'cable core count', device: 'p1', least: 2 },
    good: WITH_OVERFLOW,
    bad: [
      [
        'one core joined and one spare',
        edit(
          WITH_OVERFLOW,
          ['BN P1.nc E1.L', 'BN Q1.L2 E1.L'],
          ['BN Q1.L2 P1.oc', 'BN Q1.L2 P1.oc; spare BK'],
        ),
        ['W4: 1 core reaches the p1 P1'],
      ],
    ],
  },
  {
    rule: { check: 'class I earthed' },
    good: edit(
      SOUND,
      [FEED, 'BN Q1.L2 E1.L; BU Q1.N2 E1.N'],
      ['mode standby:', 'link Q1.E2 E1.E\n mode standby:'],
    ),
    bad: [],
  },
  // Behind what may open by itself a core is no neutral, and as it is never live of any colour.
  ...[
    'contact 1 2 { closed: { not: off } }',
    'fuse 1 2 { rating: 3 }',
    'breaker 1 2 { rating: 6 }',
  ].map(
    (opener): Case => ({
      rule: { check: 'core colours', permanent: ['BN'], switched: ['BN'], neutral: ['BU'] },
      good: edit(
        SOUND,
        ['BU Q1.N2 E1.N', 'BU Q1.N2 X1.1'],
        ['mode standby:', `X1 pole: ${opener}\n W4: flex 0.75 2; BK X1.2 E1.N\n mode standby:`],
      ),
      bad: [],
    }),
  ),
  {
    rule: { check: 'earth fault cleared' },
    good: SOUND,
    bad: [],
  },
];

const named = CASES.map((one) => [String(one.rule.check), one] as const);

describe('on a made system', () => {
  it.each(named)('%s is met by a sound one', (_, { rule, good }) => {
    const verdict = verdictOf(rule, good);
    expect(said(verdict)).toBe('holds');
    expect(verdict).toHaveProperty('proof', expect.stringMatching(/[1-9]/));
  });

  it.each(
    named.flatMap(([check, { rule, bad }]) =>
      bad.map(([name, text, expected]) => ({ check, name, rule, text, expected })),
    ),
  )('$check is not met by $name', ({ rule, text, expected }) => {
    const verdict = verdictOf(rule, text);
    expect(said(verdict)).toEqual(expected);
    const mends = verdict.state === 'breached' ? verdict.findings.map(({ mend }) => mend) : [];
    for (const mend of mends) expect(mend).toMatch(/^[A-Z].*[^.]$/);
  });

  it.each(named.filter(([, { apart }]) => apart))(
    '%s does not apply to one that has nothing of it',
    (_, { rule, apart }) => {
      expect(said(verdictOf(rule, apart!))).toBe('does not apply');
    },
  );

  it('a resistance at the limit is allowed', () => {
    const { simulation, network, supply } = subjectOf(simulate(circuit(SOUND)))!;
    const [standby] = simulation.modes.values();
    const most = resistanceBetween(standby!.solution, 'E1.E', network.nodes[supply.earth]!.id);
    const ruled = (limit: number) =>
      said(verdictOf({ check: 'class I earthed', most: limit }, SOUND));
    expect(ruled(most)).toBe('holds');
    expect(ruled(most * (1 - 1e-9))).not.toBe('holds');
  });

  it('a rule names a device by its id where nobody says what it is called', () => {
    const rule = StandardRule.parse({ check: 'cable core count', device: 'p1', least: 1 });
    expect(ruleWords(rule)).toBe('At least 1 core is joined to the terminals of each p1.');
  });

  it('every check is proven', () => {
    expect([...new Set(named.map(([check]) => check))].toSorted()).toEqual(
      [...CHECK_NAMES].toSorted(),
    );
  });

  // 512 ways are more than are tried: none set and all set are always among them.
  it('an interlock is tried with everything on, however many conditions there are', () => {
    const names = Array.from({ length: 9 }, (_, i) => `k${i + 1}`);
    const chain = names.map((name, i) => `K1 c${i}: contact p${i} p${i + 1} { closed: ${name} }`);
    const text = edit(SOUND, [
      'mode standby:',
      `${chain.join('\n')}\n W4: flex 0.75 2; BN E1.L K1.p0; BK E1.SL K1.p9\n mode standby:`,
    ]);
    const rule = { check: 'system interlock' };
    expect(said(verdictOf(rule, text))).toEqual([
      `E1: “burner” at E1 with nothing asking for heat, when ${names
        .map((name) => `K1.${name}`)
        .join(', ')
        .replace(', K1.k9', ' and K1.k9')}`,
    ]);
  });

  /**
   * Every word a reader is given: the rule's own, the proof, and of each finding its place in
   * the entry, what was found, what is allowed and the mend. Made with UPDATE_GOLDEN=1 and read
   * before it is kept; never where CI is set.
   */
  it('says of each case what its golden says', () => {
    const indented = (lines: readonly string[]) => lines.map((line) => `    ${line}`);
    const verdictLines = (verdict: Verdict): string[] => {
      if (verdict.state === 'holds') return indented([`holds: ${verdict.proof}`]);
      if (verdict.state === 'does not apply') return indented([`does not apply: ${verdict.why}`]);
      return verdict.findings.flatMap(({ at, path, message, found, allowed, mend }) =>
        indented([
          `${path.join('.')} (${at}): ${message}`,
          ...(found === undefined ? [] : [`  found: ${found}`]),
          ...(allowed === undefined ? [] : [`  allowed: ${allowed}`]),
          `  mend: ${mend}`,
        ]),
      );
    };
    const lines = named.flatMap(([check, { rule, good, bad, apart }]) => [
      `${check}: ${ruleWords(StandardRule.parse(rule), (device) => `device ${device}`)}`,
      '  a sound one',
      ...verdictLines(verdictOf(rule, good)),
      ...bad.flatMap(([name, text]) => [`  ${name}`, ...verdictLines(verdictOf(rule, text))]),
      ...(apart ? ['  one that has nothing of it', ...verdictLines(verdictOf(rule, apart))] : []),
    ]);
    const words = `${lines.join('\n')}\n`;
    const file = fileURLToPath(new URL('golden/made.txt', import.meta.url));
    if (process.env.UPDATE_GOLDEN === '1' && !process.env.CI) writeFileSync(file, words);
    expect(words).toBe(readFileSync(file, 'utf8'));
  });
});
