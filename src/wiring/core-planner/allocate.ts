import { type ColourCode, MARKING_COLOURS } from '../../published/index.ts';
import type { CoreNeed } from './functions.ts';
import type { CableSet } from './sets.ts';

/** One core of a planned cable. */
export interface PlannedCore {
  readonly colour: ColourCode;
  /** What it carries; null for a spare core. */
  readonly need: CoreNeed | null;
  /** Colour of the sleeve its ends need; null where its own colour says it. */
  readonly sleeve: ColourCode | null;
}

/** Colours lines take, in order; blue last and only where no neutral needs it. */
const LINE_ORDER: readonly ColourCode[] = ['BN', 'BK', 'GY', 'BU'];
/** Colours of extra-low-voltage cores in the order they are given out; the colour has no meaning. */
const LOW_ORDER: readonly ColourCode[] = ['BN', 'BU', 'BK', 'GY'];

/**
 * Gives every need a core of a cable, or null where the cable cannot take them all: green-yellow
 * to the protective conductor and to nothing else, blue to the neutral where there is one, brown
 * to the first line.
 * @param blueAsLive whether a blue core may be a line, sleeved brown.
 */
export function allocate(
  set: CableSet,
  needs: readonly CoreNeed[],
  blueAsLive: boolean,
): PlannedCore[] | null {
  const given = new Map<ColourCode, CoreNeed>();
  const free = (order: readonly ColourCode[]) =>
    order.find((colour) => set.colours.includes(colour) && !given.has(colour));
  const give = (need: CoreNeed, colour: ColourCode | undefined): boolean => {
    if (colour === undefined) return false;
    given.set(colour, need);
    return true;
  };
  const of = (use: CoreNeed['use']) => needs.filter((need) => need.use === use);
  const neutrals = of('neutral');
  const lineColours = blueAsLive && neutrals.length === 0 ? LINE_ORDER : LINE_ORDER.slice(0, 3);
  const all =
    of('earth').every((need) => give(need, free(['GNYE']))) &&
    neutrals.every((need) => give(need, free(['BU', 'GY', 'BK']))) &&
    of('line').every((need) => give(need, free(lineColours))) &&
    of('extra-low').every((need) => give(need, free(LOW_ORDER)));
  if (!all) return null;
  return set.colours.map((colour) => {
    const need = given.get(colour) ?? null;
    return { colour, need, sleeve: need && sleeveOf(need, colour) };
  });
}

function sleeveOf({ use }: CoreNeed, colour: ColourCode): ColourCode | null {
  if (use === 'extra-low') return null;
  const wanted = MARKING_COLOURS[use];
  return wanted === colour ? null : wanted;
}
