import type { FunctionCounts } from './functions.ts';

/** A run of cable that heating work meets again and again (common practice, no source). */
export interface CommonCase {
  readonly id: string;
  readonly title: string;
  readonly counts: FunctionCounts;
}

/** The runs that the page shows without a script. */
export const COMMON_CASES: readonly CommonCase[] = [
  {
    id: 'supply',
    title: 'Supply from the fused spur',
    counts: { live: 1, neutral: 1, earth: 1 },
  },
  {
    id: 'two-wire-control',
    title: 'Two-wire room stat in a mains call',
    counts: { loop: 1, earth: 1 },
  },
  {
    id: 'supplied-control',
    title: 'Room stat or receiver that sends a switched live back',
    counts: { live: 1, neutral: 1, earth: 1, switched: 1 },
  },
  {
    id: 'receiver-with-loop',
    title: 'Receiver with its relay in the boiler’s mains call',
    counts: { live: 1, neutral: 1, earth: 1, loop: 1 },
  },
  {
    id: 'volt-free-control',
    title: 'Two-wire room stat in an extra-low-voltage call',
    counts: { call: 1 },
  },
  {
    id: 'receiver-volt-free',
    title: 'Receiver with mains supply and an extra-low-voltage call',
    counts: { live: 1, neutral: 1, earth: 1, call: 1 },
  },
  {
    id: 'condensate-pump',
    title: 'Condensate pump with its overflow switch in the boiler’s live',
    counts: { live: 1, neutral: 1, earth: 1, loop: 1 },
  },
  {
    id: 'cylinder-thermostat',
    title: 'Cylinder thermostat with call and satisfied',
    counts: { switched: 3, earth: 1 },
  },
  {
    id: 'two-port-valve',
    title: 'Two-port valve with end switch',
    counts: { live: 1, neutral: 1, earth: 1, switched: 2 },
  },
  {
    id: 'overrun-boiler',
    title: 'Boiler with switched live and its own pump output',
    counts: { live: 1, neutral: 1, earth: 1, switched: 2 },
  },
  {
    id: 'programmer',
    title: 'Two-channel programmer, heating on, hot water on and off',
    counts: { live: 1, neutral: 1, earth: 1, switched: 3 },
  },
];
