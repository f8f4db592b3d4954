import { fromMemory, type Source, seen } from './source.ts';

/** Core colours by their IEC 60757 letter codes, with the colour's name. */
export const COLOUR_CODES = {
  BK: 'black',
  BN: 'brown',
  RD: 'red',
  OG: 'orange',
  YE: 'yellow',
  GN: 'green',
  BU: 'blue',
  VT: 'violet',
  GY: 'grey',
  WH: 'white',
  PK: 'pink',
  GD: 'gold',
  TQ: 'turquoise',
  SR: 'silver',
  GNYE: 'green-yellow',
} as const;
export type ColourCode = keyof typeof COLOUR_CODES;
export const COLOUR_SOURCE: Source = seen('IEC 60757: code for designation of colours');

/**
 * Core sets of fixed and flexible multicore cables by number of cores.
 * `earthed` sets hold a green-yellow core; the `plain` ones do not.
 */
export const CORE_SETS: {
  readonly earthed: Readonly<Record<number, readonly ColourCode[]>>;
  readonly plain: Readonly<Record<number, readonly ColourCode[]>>;
  readonly source: Source;
} = {
  earthed: {
    3: ['GNYE', 'BU', 'BN'],
    4: ['GNYE', 'BN', 'BK', 'GY'],
    5: ['GNYE', 'BU', 'BN', 'BK', 'GY'],
  },
  plain: {
    2: ['BU', 'BN'],
    3: ['BN', 'BK', 'GY'],
    4: ['BU', 'BN', 'BK', 'GY'],
  },
  source: seen('HD 308 S2: identification of cores in cables and flexible cords'),
};

/** Colours that mark a conductor at its ends by what it is, single phase. */
export const MARKING_COLOURS = { line: 'BN', neutral: 'BU', earth: 'GNYE' } as const;
export const MARKING_SOURCE: Source = fromMemory(
  'BS 7671 514 and Table 51: line, switched or not, brown; neutral blue; green-yellow for protective conductors only',
);

/** Why extra-low-voltage cores have a cable of their own. */
export const SEGREGATION_SOURCE: Source = fromMemory(
  'BS 7671 528.1 and 414.4: circuits of different voltage share a cable only where every core is insulated for the highest voltage present',
);

/** Why a protective conductor is run even to equipment that does not need it. */
export const EARTH_AT_POINTS_SOURCE: Source = fromMemory(
  'BS 7671 411.3.1.1 and 412.2.3.2: a protective conductor is run to and terminated at each point of wiring',
);
