import { fromMemory, type Source, seen } from './source.ts';

/** Where the input impedances of the voltage instruments come from. */
export const INSTRUMENT_SOURCES: Readonly<Record<'tester' | 'multimeter' | 'low', Source>> = {
  tester: seen(
    'IEC 61243-3: reference internal impedance 100 kΩ divides low- from high-impedance detectors',
  ),
  multimeter: seen('Typical digital multimeter input, about 10 MΩ'),
  low: fromMemory('Low-impedance multimeter mode, about 2 to 3 kΩ'),
};
