import { StandardRule } from '../../schemas/index.ts';
import { simulate } from '../../src/circuit/index.ts';
import { runCheck, subjectOf, type Verdict } from '../../src/standards/index.ts';
import { circuit } from '../support/notation.ts';

/** A small heating system that meets every check: supply, isolator, boiler, room thermostat. */
export const SOUND = `
  F1 mains: supply bus N E
  F1 breaker: breaker bus L { rating: 32 }
  F1 is supply
  F1.L carries line
  F1.N carries neutral
  F1.E carries earth
  Q1 line pole: contact L1 mid { closed: { not: off } }
  Q1 fuse: fuse mid L2 { rating: 3 }
  Q1 neutral pole: contact N1 N2 { closed: { not: off } }
  Q1 earth: link E1 E2
  Q1 is isolation
  Q1.L1 carries line
  Q1.L2 carries line
  Q1.N1 carries neutral
  Q1.N2 carries neutral
  Q1.E1 carries earth
  Q1.E2 carries earth
  E1 board: load L N { watts: 8 }
  E1 call: sensing SL N { ohms: 100000 }
  E1 relay: contact L hot { closed: { energised: call } }
  E1 valve: load hot N { watts: 40 }
  E1 burner: when { energised: valve }
  E1 is class I boiler
  E1.L carries line
  E1.N carries neutral
  E1.E carries earth
  B1 contact: contact COM NO { closed: calling }
  B1 wants heating: calling
  W1: twin and earth 2.5/1.5 10; BN F1.L Q1.L1; BU F1.N Q1.N1; GNYE F1.E Q1.E1
  W2: flex 0.75 2; BN Q1.L2 E1.L; BU Q1.N2 E1.N; GNYE Q1.E2 E1.E
  W3: twin and earth 1 10; BN E1.L B1.COM; BU E1.SL B1.NO BN
  mode standby:
  mode heating: B1.calling
  mode isolated: Q1.off, B1.calling
`;

/** A condensate pump whose overflow switch stands in the live of {@link SOUND}'s boiler. */
export const WITH_OVERFLOW = edit(
  SOUND,
  ['BN Q1.L2 E1.L;', 'BN P1.nc E1.L;'],
  [
    'mode standby:',
    `P1 overflow switch: contact oc nc { closed: { not: condensate high } }
     P1 is pump
     W4: flex 0.75 2; BN Q1.L2 P1.oc
     mode standby:`,
  ],
);

/** A cylinder with its valve behind a cut-out that latches; the end switch calls the boiler. */
export const WITH_CUT_OUT = edit(
  SOUND,
  ['W3: twin and earth 1 10; BN E1.L B1.COM; BU E1.SL B1.NO BN\n', ''],
  [
    'mode standby:',
    `F2 contact: contact in out { closed: { position: healthy } }
     F2 rests healthy; healthy > tripped: overheated; tripped > healthy: reset pressed
     F2 is safety
     Q3 motor: motor ML N { watts: 6 }
     Q3 end switch: contact feed call { closed: { position: open } }
     Q3 rests shut; shut > open: { energised: motor }; open > shut: { not: { held: motor } }
     Q3 open: when { position: open }
     Q3 is class I valve
     Q3.N carries neutral
     Q3.E carries earth
     Q3.feed carries line
     W3: flex 0.75 10; BN E1.L B1.COM; BK F2.in B1.NO
     W4: flex 0.75 2; BN F2.out Q3.ML
     W5: flex 0.75 2; BN Q3.feed E1.L; BK Q3.call E1.SL; BU Q3.N E1.N; GNYE Q3.E E1.E
     mode standby:`,
  ],
);

/** A boiler's own extra-low-voltage call pair with a volt-free contact. */
export const WITH_CALL = edit(
  SOUND,
  [
    'E1 call: sensing SL N { ohms: 100000 }',
    'E1 call: sensing inside c2 { ohms: 2200, ratedVolts: 24 }',
  ],
  [
    'E1 is class I boiler',
    'E1 source: source c1 inside { volts: 24, ohms: 100 }\n  E1 is class I boiler',
  ],
  [
    'W3: twin and earth 1 10; BN E1.L B1.COM; BU E1.SL B1.NO BN',
    `E1.c1 carries call, extra-low
     E1.c2 carries call, extra-low
     B1.COM carries call
     B1.NO carries call
     W3: flex 0.5 10; BN E1.c1 B1.COM; BU E1.c2 B1.NO`,
  ],
);

/** A text with parts of it replaced; each part stands in it once. */
export function edit(text: string, ...changes: readonly [from: string, to: string][]): string {
  return changes.reduce((before, [from, to]) => {
    const parts = before.split(from);
    if (parts.length !== 2)
      throw new Error(`“${from}” stands ${parts.length - 1} times in the circuit, not once`);
    return parts.join(to);
  }, text);
}

/** What a rule says of a circuit in the notation of tests. */
export function verdictOf(rule: unknown, text: string): Verdict {
  const subject = subjectOf(simulate(circuit(text)));
  if (!subject) throw new Error('the circuit has no supply');
  return runCheck(StandardRule.parse(rule), subject);
}

/** Each finding as `at: message`; the state alone where there is none. */
export function said(verdict: Verdict): readonly string[] | string {
  return verdict.state === 'breached'
    ? verdict.findings.map(({ at, message }) => `${at}: ${message}`)
    : verdict.state;
}
