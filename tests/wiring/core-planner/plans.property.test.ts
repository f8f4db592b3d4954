import { describe, expect, it } from 'vitest';
import {
  CABLE_SETS,
  CORE_FUNCTIONS,
  type CorePlan,
  type CoreRequest,
  FUNCTION_IDS,
  fragmentOf,
  planCores,
  readFragment,
} from '../../../src/wiring/core-planner/index.ts';
import { property, SEED } from '../../support/property.ts';
import { type Random, random } from '../../support/random.ts';

/** One of the requests a reader can make; each function none to as many as it may be. */
function anyRequest({ next, below }: Random): CoreRequest {
  return {
    counts: Object.fromEntries(
      FUNCTION_IDS.flatMap((id) => {
        const count = next() < 0.45 ? below(CORE_FUNCTIONS[id].most + 1) : 0;
        return count > 0 ? [[id, count] as const] : [];
      }),
    ),
    blueAsLive: next() < 0.7,
    there: next() < 0.4 ? CABLE_SETS[below(CABLE_SETS.length)]!.id : null,
  };
}

/** Fewest cores of a plan to be proved against; null where cables are there, or too many ways. */
const fewestOf = (request: CoreRequest) => (request.there === null ? bruteForce(request) : null);

describe('the plan of any request', () => {
  const ofAny = (name: string, holds: (plan: CorePlan, request: CoreRequest) => void) =>
    property(name, 300, (from) => {
      const request = anyRequest(from);
      holds(planCores(request), request);
    });

  ofAny('green-yellow is the protective conductor or spare, and nothing else is it', (plan) => {
    for (const { colour, need, sleeve } of plan.cables.flatMap(({ cores }) => cores)) {
      if (need === null) continue;
      expect(colour === 'GNYE').toBe(need.use === 'earth');
      expect(sleeve).not.toBe('GNYE');
    }
  });

  ofAny('every function has a home or is named as homeless, once', (plan, request) => {
    const homes = plan.cables.flatMap(({ cores }) => cores.flatMap(({ need }) => need ?? []));
    const said = [
      ...new Set(homes.map(({ title }) => title)),
      ...plan.homeless.map((n) => n.title),
    ];
    expect(new Set(said).size).toBe(said.length);
    expect(said.length).toBe(plan.needed);
    const asked = FUNCTION_IDS.reduce(
      (sum, id) => sum + (request.counts[id] ?? 0) * CORE_FUNCTIONS[id].cores.length,
      0,
    );
    expect(plan.needed).toBe(asked);
    if (request.there === null) expect(plan.homeless).toEqual([]);
    // Only the protective conductor stands in more than one cable.
    const again = homes.filter(({ title }, i) => homes.findIndex((n) => n.title === title) < i);
    expect(again.every(({ use }) => use === 'earth')).toBe(true);
  });

  ofAny(
    'lines show brown, neutrals blue, and blue is no live where that is refused',
    (plan, request) => {
      for (const { set, cores } of plan.cables) {
        expect(cores.map(({ colour }) => colour)).toEqual(set.colours);
        const neutral = cores.find(({ need }) => need?.use === 'neutral');
        if (neutral && set.colours.includes('BU')) expect(neutral.colour).toBe('BU');
        for (const { colour, sleeve, need } of cores) {
          if (need?.use === 'line') expect(sleeve ?? colour).toBe('BN');
          if (need?.use === 'neutral') expect(sleeve ?? colour).toBe('BU');
          if (need?.use === 'line' && colour === 'BU') expect(request.blueAsLive).toBe(true);
          if (need === null || need.use === 'extra-low') expect(sleeve).toBeNull();
        }
      }
    },
  );

  ofAny('extra-low voltage shares no cable with mains; loops and pairs are undivided', (plan) => {
    for (const { cores } of plan.cables) {
      const uses = new Set(cores.flatMap(({ need }) => need?.use ?? []));
      expect(uses.has('extra-low') && (uses.has('line') || uses.has('neutral'))).toBe(false);
      for (const id of FUNCTION_IDS.filter((each) => CORE_FUNCTIONS[each].cores.length === 2)) {
        const own = cores.filter(({ need }) => need?.function === id);
        expect(own.length % 2).toBe(0);
      }
    }
  });

  ofAny('is the same for the same request', (plan, request) => {
    expect(planCores(structuredClone(request))).toEqual(plan);
  });

  ofAny('takes the fewest cores: no other sharing needs less (brute force)', (plan, request) => {
    const fewest = fewestOf(request);
    if (fewest === null) return;
    expect(plan.cables.reduce((sum, { set }) => sum + set.colours.length, 0)).toBe(fewest);
  });

  it(`and that is compared with many, seed ${SEED}`, () => {
    const requests = Array.from({ length: 300 }, (_, i) => anyRequest(random(SEED + i)));
    expect(requests.filter((one) => fewestOf(one) !== null).length).toBeGreaterThan(50);
  });

  ofAny('has an address that gives the request back', (_, request) => {
    expect(readFragment(`#${fragmentOf(request)}`)).toEqual({ request, problems: [] });
  });
});

/**
 * Fewest cores over every way to put each group into one of as many cables as there are groups,
 * each of the smallest set that takes them; null where there are too many ways. Counts cores of
 * a set by hand: it shares nothing with the planner but the sets.
 */
function bruteForce({ counts, blueAsLive }: CoreRequest): number | null {
  const n = (id: keyof typeof counts) => counts[id] ?? 0;
  const earth = n('earth') > 0;
  const supply = { lines: Math.min(1, n('live')), neutrals: n('neutral') };
  const groups = [
    ...(supply.lines + supply.neutrals > 0 ? [supply] : []),
    ...Array.from({ length: n('loop') }, () => ({ lines: 2, neutrals: 0 })),
    ...Array.from({ length: n('switched') + Math.max(0, n('live') - 1) }, () => ({
      lines: 1,
      neutrals: 0,
    })),
  ];
  if (groups.length > 6) return null;
  const pairs = n('call') + n('bus');
  // Two pairs fill a set of four as well as two sets of two: extra-low voltage takes two each.
  const low = groups.length > 0 || !earth ? 2 * pairs : fewestLowWithEarth(pairs);
  if (groups.length === 0) return low;
  let fewest = Number.POSITIVE_INFINITY;
  const visit = (i: number, cables: { lines: number; neutrals: number }[]) => {
    if (i === groups.length) {
      const cores = cables.reduce((sum, cable) => sum + smallestSet(cable, earth, blueAsLive), 0);
      fewest = Math.min(fewest, cores);
      return;
    }
    const { lines, neutrals } = groups[i]!;
    for (let c = 0; c <= cables.length; c++) {
      const next = cables.map((cable) => ({ ...cable }));
      const at = next[c] ?? { lines: 0, neutrals: 0 };
      next[c] = { lines: at.lines + lines, neutrals: at.neutrals + neutrals };
      visit(i + 1, next);
    }
  };
  visit(0, []);
  return fewest + low;
}

function smallestSet(
  { lines, neutrals }: { lines: number; neutrals: number },
  earth: boolean,
  blueAsLive: boolean,
): number {
  const fits = CABLE_SETS.filter(({ colours, earthed }) => {
    if (earthed !== earth) return false;
    const blue = colours.includes('BU') ? 1 : 0;
    const others = colours.length - blue - (earthed ? 1 : 0);
    const spareOthers = others - Math.max(0, neutrals - blue);
    const blueLines = blue && neutrals === 0 && blueAsLive ? 1 : 0;
    return neutrals <= blue + others && lines <= spareOthers + blueLines;
  });
  return Math.min(...fits.map(({ colours }) => colours.length), Number.POSITIVE_INFINITY);
}

/** Pairs with a protective conductor in each cable: one pair takes 3E, two take 5E. */
const fewestLowWithEarth = (pairs: number): number =>
  pairs === 0 ? 3 : Math.floor(pairs / 2) * 5 + (pairs % 2) * 3;
