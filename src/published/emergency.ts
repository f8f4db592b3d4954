import { fromMemory, type Source, seen } from './source.ts';

/** A telephone number of the United Kingdom, as it is written and read out. */
interface Telephone {
  readonly number: string;
  readonly source: Source;
}

/** Who is rung when something is dangerous or the street has no supply. */
export const EMERGENCY_NUMBERS = {
  gas: {
    number: '0800 111 999',
    source: seen('Consumer guides: gas escapes in Great Britain, all hours'),
  },
  gasNorthernIreland: {
    number: '0800 002 001',
    source: seen('Consumer guides: gas escapes in Northern Ireland, all hours'),
  },
  ambulance: { number: '999', source: seen('Consumer guides: emergency services') },
  powerCut: { number: '105', source: seen('Consumer guides: power cuts in Great Britain') },
  powerCutNorthernIreland: {
    number: '03457 643 643',
    source: seen('Consumer guides: power cuts in Northern Ireland'),
  },
  gasRegister: {
    number: '0800 408 5500',
    source: seen('Consumer guides: checking a Gas Safe registration'),
  },
} as const satisfies Record<string, Telephone>;

/** What to do at a smell of gas, a carbon monoxide alarm, a power cut, a dangerous appliance. */
export const EMERGENCY_ACTS_SOURCE: Source = seen(
  'Consumer guides; HSE and IGEM/G/11 (15 January 2021, amended July 2022) as quoted: “Danger Do Not Use”',
);
/** Gas from a tank or bottle has no national number. */
export const LPG_SOURCE: Source = fromMemory('LPG: the supplier’s number stands on the tank');
