import { CORE_SETS, type ColourCode } from '../../published/index.ts';

/** A cable as it is made: its cores' colours. */
export interface CableSet {
  /** `5E` with a green-yellow core, `2` without. */
  readonly id: string;
  readonly title: string;
  readonly colours: readonly ColourCode[];
  readonly earthed: boolean;
}

const made = (
  earthed: boolean,
  sets: Readonly<Record<number, readonly ColourCode[]>>,
): CableSet[] =>
  Object.entries(sets).map(([count, colours]) => ({
    id: earthed ? `${count}E` : count,
    title: `${count}-core ${earthed ? 'with' : 'without'} green-yellow`,
    colours,
    earthed,
  }));

/** The core sets of HD 308 S2, fewest cores first. */
export const CABLE_SETS: readonly CableSet[] = [
  ...made(false, CORE_SETS.plain),
  ...made(true, CORE_SETS.earthed),
].toSorted((a, b) => a.colours.length - b.colours.length);

/** Cables of the same colours by another make: what else the set may be bought as. */
export const ALSO_MADE: Readonly<Record<string, string>> = {
  '3E': 'flat twin and earth has these colours, its bare conductor sleeved green-yellow',
  '4E': 'flat three-core and earth has these colours, its bare conductor sleeved green-yellow',
};

/** The set of an id, as in `5E`; undefined where there is none. */
export const setOf = (id: string): CableSet | undefined => CABLE_SETS.find((set) => set.id === id);
