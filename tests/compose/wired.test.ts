import { describe, expect, it } from 'vitest';
import type { System } from '../../schemas/index.ts';
import { compose, type Specification } from '../../src/compose/index.ts';
import { catalogue } from './catalogue.ts';

const composed = (specification: Specification) => compose(specification, catalogue());

/** Colours, with sleeves, of every cable that reaches an item, `BN BU BK(BN)`. */
function cablesAt({ cables }: System, item: string): string[] {
  return Object.values(cables)
    .filter(({ cores }) =>
      Object.values(cores).some((core) => core!.ends[1].startsWith(`${item}.`)),
    )
    .map(({ cores }) =>
      Object.entries(cores)
        .map(([colour, core]) => (core!.sleeve ? `${colour}(${core!.sleeve})` : colour))
        .toSorted()
        .join(' '),
    );
}

const STAT = 'room-stat-wired';

describe('cables', () => {
  // HD 308 S2: core sets; BS 7671 514 (from memory): every live sleeved brown, neutral blue.
  it('have the colours of the core sets, lives sleeved brown', () => {
    const { system } = composed({
      heat: 'system-boiler',
      time: 'programmer',
      heating: [{ controls: [STAT], valve: 'two-port-valve' }],
      hotWater: { controls: ['cylinder-stat-single'], valve: 'two-port-valve' },
    });
    expect(cablesAt(system, 'K1')).toEqual(['BK(BN) BN BU GNYE GY(BN)']);
    expect(cablesAt(system, 'B2')).toEqual(['BN BU(BN) GNYE']);
    expect(cablesAt(system, 'Q2')).toEqual(['BN BU GNYE GY OG']);
  });

  // BS 7671 528.1 (from memory): bands of voltage share no cable.
  it('keep extra-low voltage in one of its own', () => {
    const { system } = composed({
      heat: 'system-boiler-volt-free',
      time: 'programmer',
      heating: [{ controls: [STAT], valve: 'two-port-valve' }],
      additions: ['interface-relay'],
    });
    expect(cablesAt(system, 'K2').toSorted()).toEqual(['BN BU', 'BN BU GNYE']);
    expect(cablesAt(system, 'E1').toSorted()).toEqual(['BN BU', 'BN BU GNYE']);
  });

  it('bring no earth to what has extra-low voltage alone', () => {
    const { system } = composed({
      heat: 'combi-volt-free',
      heating: [{ controls: ['room-stat-volt-free'] }],
    });
    expect(cablesAt(system, 'B1')).toEqual(['BN BU']);
  });

  it('are two where one has too few cores', () => {
    const { system } = composed({
      heat: 'system-boiler',
      time: 'programmer',
      valve: 'mid-position-valve',
      heating: [{ controls: [STAT] }],
      hotWater: { controls: ['cylinder-stat'] },
    });
    expect(cablesAt(system, 'K1')).toEqual(['BN BU GNYE', 'BK(BN) BN GNYE GY(BN)']);
  });

  it('take one core to terminals of one item on one conductor, and a link between them', () => {
    const { system } = composed({
      heat: 'system-boiler',
      time: 'receiver-two-channel',
      heating: [{ valve: 'two-port-valve' }],
      hotWater: { controls: ['cylinder-stat-single'], valve: 'two-port-valve' },
    });
    expect(system.links.map(({ between }) => between)).toEqual([
      ['K1.L', 'K1.heating COM'],
      ['K1.L', 'K1.hot water COM'],
    ]);
  });
});

describe('boxes', () => {
  const PUMP = (variant: string) => ({ module: 'condensate-pump', variant });
  const ITEMS = { heat: 'combi-mains-call', heating: [{ controls: ['room-stat-two-wire'] }] };

  it('are there only where something needs one', () => {
    expect(composed(ITEMS).system.items.X1).toBeUndefined();
    const { system } = composed({ ...ITEMS, additions: [PUMP('in supply')] });
    expect(system.items.X1?.device).toBe('terminal-strip-6');
    // The stat finds all it needs at the boiler and stays there.
    expect(cablesAt(system, 'B1')).toHaveLength(1);
    for (const { cores } of Object.values(system.cables))
      for (const core of Object.values(cores))
        if (core!.ends[1].startsWith('B1.')) expect(core!.ends[0]).toMatch(/^E1\./);
  });

  it('grow with the conductors that meet in them', () => {
    const zones = (count: number) =>
      composed({
        heat: 'system-boiler',
        time: 'programmer',
        heating: Array.from({ length: count }, () => ({
          controls: ['wireless-receiver'],
          valve: 'two-port-valve',
        })),
      }).system.items.X1?.device;
    expect([1, 4, 8].map(zones)).toEqual([
      'terminal-strip-6',
      'wiring-centre-12',
      'wiring-centre-12',
    ]);
  });

  it('stand beside an item that has one of its own, joined by a flex', () => {
    const { system } = composed({ ...ITEMS, additions: [PUMP('in supply by its own box')] });
    expect(system.items.X2?.place).toContain('below the boiler');
    const flex = Object.values(system.cables).find(({ cores }) =>
      Object.values(cores).every(
        (core) => core!.ends[0].startsWith('X1.') && core!.ends[1].startsWith('X2.'),
      ),
    );
    expect(Object.keys(flex!.cores)).toHaveLength(5);
  });

  it('say of each way which conductor it holds', () => {
    const { system } = composed({ ...ITEMS, additions: [PUMP('in supply')] });
    expect(system.items.X1?.labels).toMatchObject({
      '1': 'permanent live',
      '2': "boiler's permanent live",
      N: 'neutrals',
    });
    // The words of readers, not those of the model.
    for (const label of Object.values(system.items.X1!.labels))
      expect(label).not.toMatch(/call feed|call return/);
  });
});

describe('nets', () => {
  it('bear the names of what they carry', () => {
    const { nets } = composed({
      heat: 'heat-only-overrun',
      pump: 'circulating-pump',
      time: 'programmer',
      heating: [{ controls: [STAT], valve: 'two-port-valve' }],
      hotWater: {
        controls: ['cylinder-stat'],
        valve: 'two-port-valve',
        limit: 'overheat-cut-out',
      },
      additions: [{ module: 'condensate-pump', variant: 'in call' }],
    });
    expect(nets.get('boiler call')?.toSorted()).toEqual([
      'M2.overflow COM',
      'Q2.end switch out',
      'Q3.end switch out',
    ]);
    expect(nets.get('boiler call past the condensate pump')).toEqual(['E1.SL', 'M2.overflow NC']);
    expect(nets.get('hot water call past the cut-out')).toEqual(['F2.live out', 'Q3.motor L']);
    expect(nets.get('heating call')).toEqual(['B1.NO', 'Q2.motor L']);
  });
});

describe('several switches in one net', () => {
  const { modules, devices } = catalogue();
  /** A second pump of another rank, as a firm may have one. */
  const withSecond = (rank: number) => {
    const second = { ...modules.get('condensate-pump')!, title: 'Second pump', rank };
    const both = new Map([...modules, ['second-pump', second] as const]);
    const asked = (variant: string): Specification => ({
      heat: 'system-boiler',
      heating: [{ controls: [STAT], valve: 'two-port-valve' }],
      additions: [
        { module: 'condensate-pump', variant },
        { module: 'second-pump', variant },
      ],
    });
    return (variant: string) => compose(asked(variant), { modules: both, devices }).nets;
  };

  it.each([
    ['in call', 'E1.SL'],
    ['in supply', 'E1.L'],
  ])('stand by rank, the highest nearest the boiler, %s', (variant, boiler) => {
    const last = (rank: number) =>
      [...withSecond(rank)(variant)].find(([, members]) => members.includes(boiler))![1];
    // The shipped one has rank 20.
    expect(last(5)).toContain('M1.overflow NC');
    expect(last(30)).toContain('M2.overflow NC');
  });
});
