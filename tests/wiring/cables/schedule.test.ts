import { describe, expect, it } from 'vitest';
import type { ColourCode } from '../../../src/published/index.ts';
import type { ComputedSystem } from '../../../src/reference/compute.ts';
import { altered } from '../../support/altered.ts';
import { shippedSystem, shippedSystems } from '../../support/shipped.ts';

const cable = ({ cables }: ComputedSystem, id: string) =>
  cables.cables.find((each) => each.cable === id)!;

describe('cables of a combi on a 3 A fuse', () => {
  const combi = shippedSystem('combi-two-wire');

  it('carry in a heating call what its boiler draws', () => {
    // By hand: board 8 W at 0.6, fan and gas valve 45 W at 0.8, pump 45 W at 0.6, call input
    // 230² / 100 kΩ = 0.53 W: 98.5 W and 104.4 var at 230 V, 143.6 VA, 0.624 A.
    const watts = 8 + 45 + 45 + 0.529;
    const vars = 8 * (0.8 / 0.6) + 45 * (0.6 / 0.8) + 45 * (0.8 / 0.6);
    const byHand = Math.hypot(watts, vars) / 230;
    expect(byHand).toBeCloseTo(0.624, 3);
    const fuse = combi.cables.fuses.find(({ device }) => device.id === 'Q1/fuse')!;
    expect(fuse.worstMode).toBe('heating');
    expect(Math.abs(fuse.amps / byHand - 1)).toBeLessThan(0.005);
    expect(Math.abs(cable(combi, 'W2').amps / byHand - 1)).toBeLessThan(0.005);
    expect(cable(combi, 'W2').worstMode).toBe('heating');
  });

  it('are within the published rating, and their protection within it too', () => {
    // 0.75 mm² flex 6 A, 1 mm² twin and earth 16 A, 2.5 mm² 27 A (BS 7671 4F3A, 4D5).
    const seen = combi.cables.cables.map((c) => [c.cable, c.capacity, c.protectedWell]);
    expect(seen).toEqual([
      ['W1', 27, true],
      ['W2', 6, true],
      ['W3', 16, true],
    ]);
    // A 32 A breaker is more than 2.5 mm² bears: the spur is limited by the fuse behind it.
    expect(cable(combi, 'W1').protection).toMatchObject({ id: 'F1/breaker', rating: 32 });
    expect(cable(combi, 'W1').limiter).toMatchObject({ id: 'Q1/fuse', rating: 3 });
  });

  it('lose what the table says', () => {
    // By hand: W2 62 mV/A/m × 1.5 m × 0.623 A = 58 mV; W1 18 × 15 × 0.623 = 168 mV.
    expect(cable(combi, 'W2').drop).toBeCloseTo(0.058, 3);
    expect(cable(combi, 'W1').drop).toBeCloseTo(0.168, 3);
    const boiler = combi.cables.drops.find(({ item }) => item === 'E1')!;
    expect(boiler.volts).toBeCloseTo(0.058 + 0.168, 2);
    expect(boiler).toMatchObject({ worstMode: 'heating', within: true });
  });

  it('carry 3 A up to 50 °C where they are 0.75 mm² flex', () => {
    // 6 A × 0.58 = 3.48 A at 50 °C, 6 A × 0.41 = 2.46 A at 55 °C (BS 7671 Table 4F3A). Behind
    // the boiler’s own 2 A fuse 55 °C will do.
    const pump = shippedSystem('combi-condensate-pump');
    expect(cable(pump, 'W2').warmest).toBe(50);
    expect(cable(pump, 'W6').warmest).toBe(55);
    expect(cable(combi, 'W3').warmest).toBeNull();
  });
});

describe('a cable too thin for its fuse', () => {
  const fused = (size: 0.5 | 0.75 | 1.5, rating: number) =>
    altered('combi-wireless', ({ cables, items }) => {
      cables.W3!.size = size;
      items.Q1!.ratings = { fuse: rating };
    });

  it('0.5 mm² flex on a 13 A fuse is flagged: it bears 3 A', () => {
    const W3 = cable(fused(0.5, 13), 'W3');
    expect(W3).toMatchObject({ capacity: 3, protection: { rating: 13 }, protectedWell: false });
    expect(W3.warmest).toBeNull();
  });

  it.each([
    [0.5, 3, true],
    [0.75, 3, true],
    [0.75, 13, false],
    [1.5, 13, true],
  ] as const)('%s mm² on %s A: %s', (size, rating, well) => {
    expect(cable(fused(size, rating), 'W3').protectedWell).toBe(well);
  });

  it.each([
    // By hand: 500 W at 0.6 is 3.6 A, which a 3 A link carries for half an hour and more (4.8 A
    // by BS 1362); 800 W is 5.8 A, which breaks it (5.7 A) and the boiler’s own 2 A link first.
    [500, null],
    [800, 'heating'],
  ])('a load above the fuse’s rating is flagged: %s W', (watts, blownIn) => {
    const heavy = altered('combi-two-wire', (_, devices) => {
      const { pump } = devices.get('combi-boiler-mains-call')!.elements;
      if (pump?.kind === 'motor') pump.watts = watts;
    });
    const fuse = (id: string) => heavy.cables.fuses.find(({ device }) => device.id === id)!;
    expect(fuse('E1/board fuse')).toMatchObject({ within: false, blownIn });
    if (blownIn === null) expect(fuse('Q1/fuse')).toMatchObject({ within: false, blownIn });
    const sound = shippedSystem('combi-two-wire').cables.fuses;
    expect(sound.map(({ within }) => within)).toEqual([true, true]);
  });

  it('fuse links carry 1.6 and break 1.9 times their rating (BS 1362)', () => {
    const [link] = shippedSystem('combi-two-wire').cables.fuses;
    expect(link!.carries).toBeCloseTo(4.8, 9);
    expect(link!.breaks).toBeCloseTo(5.7, 9);
  });
});

describe('cores a cable needs and has', () => {
  const without = (cables: readonly string[], colours: readonly ColourCode[]) =>
    altered('combi-condensate-pump', (system) => {
      for (const id of cables)
        for (const colour of colours) delete system.cables[id]!.cores[colour];
    });
  const missing = ['M1.overflow COM', 'M1.overflow NC'];

  it('five on the condensate pump, five there (common practice, no source)', () => {
    for (const id of ['W4', 'W5']) {
      const { needed, there, lacking } = cable(shippedSystem('combi-condensate-pump'), id);
      expect({ id, needed, there, lacking }).toEqual({ id, needed: 5, there: 5, lacking: [] });
    }
  });

  it('five needed and three present is found at the pump’s lead', () => {
    const W5 = cable(without(['W5'], ['WH', 'OG']), 'W5');
    expect(W5).toMatchObject({ needed: 5, there: 3, lacking: missing });
    // The cable behind the box has its five: two end there for the lead to come.
    const W4 = cable(without(['W5'], ['WH', 'OG']), 'W4');
    expect(W4).toMatchObject({ needed: 5, there: 5, lacking: [] });
  });

  it('and at the cable between the boxes, whatever the lead has', () => {
    const W4 = cable(without(['W4'], ['BK', 'GY']), 'W4');
    expect(W4).toMatchObject({ needed: 5, there: 3, lacking: missing });
    const both = without(['W4', 'W5'], ['BK', 'GY', 'WH', 'OG']);
    for (const id of ['W4', 'W5']) {
      expect(cable(both, id)).toMatchObject({ needed: 5, there: 3, lacking: missing });
    }
  });

  it('two spare cores in the cable are enough, and it still says what has none', () => {
    const spare = altered('combi-condensate-pump', ({ cables }) => {
      delete cables.W4!.cores.BK;
      delete cables.W4!.cores.GY;
      cables.W4!.spare = ['BK', 'GY'];
    });
    expect(cable(spare, 'W4')).toMatchObject({ needed: 5, there: 5, lacking: missing });
  });

  it('one core off a two-wire control leaves one terminal without', () => {
    const { lacking } = cable(
      altered('combi-two-wire', ({ cables }) => {
        delete cables.W3!.cores.BU;
      }),
      'W3',
    );
    expect(lacking).toEqual(['B1.NO']);
  });

  it('the protective conductor off class I equipment is missed, off class II it is not', () => {
    const pump = altered('combi-condensate-pump', ({ cables }) => {
      delete cables.W5!.cores.GNYE;
      delete cables.W6!.cores.GNYE;
    });
    expect(cable(pump, 'W5').lacking).toEqual(['M1.E']);
    expect(cable(pump, 'W6').lacking).toEqual([]);
  });

  it.each(shippedSystems().map(({ id }) => id))(
    '%s lacks none: idle halves of change-over contacts need no core, nor a live that no stat asks for',
    (id) => {
      const lacking = shippedSystem(id).cables.cables.flatMap((each) => each.lacking);
      expect(lacking).toEqual([]);
    },
  );
});

describe('what a cable carries side by side', () => {
  it('extra-low voltage beside mains is noticed', () => {
    const free = shippedSystem('combi-volt-free');
    expect(cable(free, 'W3').mixed).toBe(false);
    expect(cable(free, 'W3').cores.every(({ carries }) => carries === 'extra-low')).toBe(true);
    const shared = altered('combi-volt-free', ({ cables }) => {
      const { BN, BU } = cables.W3!.cores;
      const live = { ends: ['E1.L', 'W3.BN@2'] as [string, string], sleeve: undefined };
      cables.W3!.cores = { BN: live, BK: BN!, GY: BU! };
    });
    expect(cable(shared, 'W3').mixed).toBe(true);
  });
});
