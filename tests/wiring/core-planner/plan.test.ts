import { describe, expect, it } from 'vitest';
import { CORE_SETS } from '../../../src/published/index.ts';
import {
  CABLE_SETS,
  COMMON_CASES,
  type CorePlan,
  type FunctionCounts,
  planCores,
  requestOf,
} from '../../../src/wiring/core-planner/index.ts';
import { altered } from '../../support/altered.ts';
import { shippedSystem } from '../../support/shipped.ts';

const plan = (counts: FunctionCounts, rest: { blueAsLive?: boolean; there?: string } = {}) =>
  planCores({ counts, blueAsLive: rest.blueAsLive ?? true, there: rest.there ?? null });

/** `5E: GNYE=…, BK/BN=…` for each cable, a sleeve after its stroke. */
const said = ({ cables }: CorePlan) =>
  cables.map(
    ({ set, cores }) =>
      `${set.id}: ${cores
        .map(
          ({ colour, sleeve, need }) =>
            `${colour}${sleeve ? `/${sleeve}` : ''}=${need?.title ?? 'spare'}`,
        )
        .join(', ')}`,
  );

describe('core sets', () => {
  it('are those of HD 308 S2, none of them invented here', () => {
    const published = [...Object.values(CORE_SETS.earthed), ...Object.values(CORE_SETS.plain)].map(
      (set) => set.join(' '),
    );
    expect(CABLE_SETS.map(({ colours }) => colours.join(' ')).toSorted()).toEqual(
      published.toSorted(),
    );
  });
});

describe('cables chosen', () => {
  it('a supply is the three colours as they are (HD 308 S2, BS 7671 Table 51, from memory)', () => {
    expect(said(plan({ live: 1, neutral: 1, earth: 1 }))).toEqual([
      '3E: GNYE=earth, BU=neutral, BN=permanent live',
    ]);
  });

  it('a condensate pump with its overflow switch takes five (common practice, no source)', () => {
    const pump = plan({ live: 1, neutral: 1, earth: 1, loop: 1 });
    expect(pump.needed).toBe(5);
    expect(said(pump)).toEqual([
      '5E: GNYE=earth, BU=neutral, BN=permanent live, BK/BN=loop out, GY/BN=loop back',
    ]);
  });

  it('a two-wire control takes blue as a live, sleeved brown, or a fourth core where that is refused', () => {
    expect(said(plan({ loop: 1, earth: 1 }))).toEqual([
      '3E: GNYE=earth, BU/BN=loop back, BN=loop out',
    ]);
    expect(said(plan({ loop: 1, earth: 1 }, { blueAsLive: false }))).toEqual([
      '4E: GNYE=earth, BN=loop out, BK/BN=loop back, GY=spare',
    ]);
  });

  it('four with a neutral have no blue: the neutral is a grey core sleeved blue', () => {
    expect(said(plan({ live: 1, neutral: 1, earth: 1, switched: 1 }))).toEqual([
      '4E: GNYE=earth, BN=permanent live, BK/BN=switched live, GY/BU=neutral',
    ]);
  });

  it('a sixth core takes a second cable, each with its earth', () => {
    expect(said(plan({ live: 1, neutral: 1, earth: 1, switched: 3 }))).toEqual([
      '3E: GNYE=earth, BU=neutral, BN=permanent live',
      '4E: GNYE=earth, BN=switched live 1, BK/BN=switched live 2, GY/BN=switched live 3',
    ]);
  });

  it('extra-low voltage goes apart from mains (BS 7671 528.1, from memory; here always)', () => {
    const both = plan({ live: 1, neutral: 1, earth: 1, call: 1 });
    expect(said(both)).toEqual([
      '3E: GNYE=earth, BU=neutral, BN=permanent live',
      '2: BU=call back, BN=call out',
    ]);
    expect(both.notes.some(({ text }) => text.includes('cable of its own'))).toBe(true);
    const alone = plan({ call: 1 });
    expect(alone.notes.some(({ text }) => text.includes('cable of its own'))).toBe(false);
  });

  it('nothing asked for is no cable', () => {
    expect(plan({})).toMatchObject({ cables: [], homeless: [], needed: 0 });
  });
});

describe('a cable that is there', () => {
  const pump: FunctionCounts = { live: 1, neutral: 1, earth: 1, loop: 1 };

  it('three cores where five are needed: the two without are named', () => {
    const { cables, homeless, needed } = plan(pump, { there: '3E' });
    expect(needed).toBe(5);
    expect(cables[0]!.cores.length).toBe(3);
    expect(homeless.map(({ title }) => title)).toEqual(['loop out', 'loop back']);
  });

  it('five cores where five are needed: none is', () => {
    expect(plan(pump, { there: '5E' }).homeless).toEqual([]);
  });

  it('a cable without green-yellow has no home for a earth', () => {
    const { homeless } = plan({ live: 1, neutral: 1, earth: 1 }, { there: '4' });
    expect(homeless.map(({ title }) => title)).toEqual(['earth']);
  });

  it('the neutral comes before a second live', () => {
    const { homeless } = plan({ live: 2, neutral: 1 }, { there: '2' });
    expect(homeless.map(({ title }) => title)).toEqual(['permanent live 2']);
  });

  it('a call pair finds no home beside mains, and does alone', () => {
    const beside = plan({ live: 1, neutral: 1, call: 1 }, { there: '4' });
    expect(beside.homeless.map(({ use }) => use)).toEqual(['extra-low', 'extra-low']);
    expect(plan({ call: 2 }, { there: '4' }).homeless).toEqual([]);
    expect(plan({ call: 2 }, { there: '3' }).homeless.length).toBe(2);
  });
});

describe('notes', () => {
  it('say what a plan needs and leave out what it does not', () => {
    const texts = (counts: FunctionCounts, there?: string) =>
      plan(counts, there ? { there } : {}).notes.map(({ text }) => text.split(' ')[0]);
    expect(texts({ live: 1, neutral: 1, earth: 1 })).toEqual(['Core', 'Letter']);
    expect(texts({ loop: 1 })).toEqual(['Sleeve', 'The', 'No', 'Core', 'Letter']);
    expect(texts({ live: 1, neutral: 1 }, '3E')).toEqual(['The', 'No', 'Core', 'Letter']);
    for (const { source } of plan({ loop: 1, call: 1, earth: 1 }, { there: '5E' }).notes) {
      expect(source.cite.length).toBeGreaterThan(5);
    }
  });
});

describe('the common cases', () => {
  it.each(COMMON_CASES.map((each) => [each.id, each] as const))('%s has every core', (_, each) => {
    const { cables, homeless, needed } = plan(each.counts);
    const homes = cables.flatMap(({ cores }) => cores.flatMap(({ need }) => need ?? []));
    expect(homeless).toEqual([]);
    expect(new Set(homes.map(({ title }) => title)).size).toBe(needed);
  });

  it('have names and addresses of their own', () => {
    expect(new Set(COMMON_CASES.map(({ id }) => id)).size).toBe(COMMON_CASES.length);
    expect(new Set(COMMON_CASES.map(({ title }) => title)).size).toBe(COMMON_CASES.length);
  });
});

describe('cables of systems, planned anew', () => {
  it.each([
    'combi-condensate-pump',
    'combi-two-wire',
    'combi-volt-free',
    'combi-wireless',
    'combi-wireless-condensate-pump',
    'heat-only-condensate-pump',
    'heat-only-mid-position',
    'heat-only-two-port',
    'system-boiler-internal-pump',
  ])('%s: no plan takes more cores than the cable there has', (id) => {
    const { network, cables } = shippedSystem(id);
    for (const cable of cables.cables) {
      const request = requestOf(network, cable)!;
      const planned = planCores(request);
      const cores = planned.cables.reduce((sum, { set }) => sum + set.colours.length, 0);
      expect([cable.cable, cores <= cable.there]).toEqual([cable.cable, true]);
      expect([cable.cable, planned.needed]).toEqual([cable.cable, cable.needed]);
    }
  });

  it('a cable short of cores becomes a request for what it lacks too', () => {
    const { network, cables } = altered('combi-condensate-pump', (system) => {
      delete system.cables.W4!.cores.BK;
      delete system.cables.W4!.cores.GY;
    });
    const request = requestOf(network, cables.cables.find(({ cable }) => cable === 'W4')!)!;
    expect(request).toMatchObject({
      counts: { live: 1, neutral: 1, earth: 1, switched: 2 },
      there: '3E',
    });
    expect(planCores(request).homeless.length).toBe(2);
    expect(planCores({ ...request, there: null }).cables[0]!.set.id).toBe('5E');
  });
});
