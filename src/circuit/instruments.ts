import { INSTRUMENT_SOURCES, type Source } from '../published/index.ts';
import { type Complex, complex, divide } from './complex.ts';

/** A voltage instrument: what it puts across the two points it is laid on. */
export interface Instrument {
  readonly id: 'tester' | 'multimeter' | 'low-impedance';
  readonly title: string;
  /** Input resistance, Ω. */
  readonly ohms: number;
  /** Input capacitance beside it, F. */
  readonly farads: number;
  /** What its user should bear in mind. */
  readonly note: string;
  readonly source: Source;
}

/** The voltage instruments a reading can be asked for; the first is the one to prove dead with. */
export const INSTRUMENTS: readonly Instrument[] = [
  {
    id: 'tester',
    title: 'Two-pole tester',
    ohms: 200e3,
    farads: 0,
    note: 'For proving dead. Prove it on a known source before and after.',
    source: INSTRUMENT_SOURCES.tester,
  },
  {
    id: 'multimeter',
    title: 'Multimeter, high impedance',
    ohms: 10e6,
    farads: 0,
    note: 'Shows voltage induced on a core that is joined to nothing. Never prove dead with it.',
    source: INSTRUMENT_SOURCES.multimeter,
  },
  {
    id: 'low-impedance',
    title: 'Multimeter, low impedance',
    ohms: 3e3,
    farads: 0,
    note: 'Loads an induced voltage down to nothing. Its load may also pull a weak supply down.',
    source: INSTRUMENT_SOURCES.low,
  },
];

/** Impedance of an instrument at a frequency, ohms; 0 Hz is direct current. */
export function burden(instrument: Pick<Instrument, 'ohms' | 'farads'>, hertz: number): Complex {
  return divide(complex(1), complex(1 / instrument.ohms, 2 * Math.PI * hertz * instrument.farads));
}
