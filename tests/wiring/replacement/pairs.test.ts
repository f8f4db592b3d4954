import { describe, expect, it } from 'vitest';
import { atRest, type Network, type Settled, settleMode } from '../../../src/circuit/index.ts';
import {
  coresText,
  linkProofText,
  linksText,
  notesOf,
  planReplacement,
  studyPlan,
  verdictText,
} from '../../../src/wiring/replacement/index.ts';
import { EXPECTED } from './expected.ts';
import { ALL, coresOf, devices, done, entryOf, linksOf, shipped, study } from './shipped.ts';

describe.each(
  EXPECTED.map((pair) => [`${pair.system}, ${pair.item} → ${pair.device}`, pair] as const),
)('%s', (_, pair) => {
  const found = study(shipped(pair.system), pair.item, pair.device);

  it('puts each core where practice puts it', () => {
    expect(coresOf(found)).toEqual(pair.cores);
    expect(linksOf(found)).toEqual(pair.links ?? []);
    const far = found.plan.cores.map((core) => [`${core.cable}.${core.colour}`, core.far]);
    expect(Object.fromEntries(far)).toMatchObject(pair.far ?? {});
  });

  it('comes to what practice says, under every combination of conditions', () => {
    const { verdict, comparison, hazards } = found;
    expect(verdict).toBe(pair.verdict);
    expect(comparison.exhaustive).toBe(true);
    expect(comparison.combinations).toBeGreaterThanOrEqual(2 ** 6);
    if (pair.verdict.startsWith('equal')) {
      expect(comparison.differences).toEqual([]);
      expect(hazards).toEqual([]);
    }
    if (pair.differs) {
      const [mode, outcome] = pair.differs;
      expect(comparison.differences).toContainEqual(expect.objectContaining({ mode, outcome }));
    }
    if (pair.hazard) expect(hazards.map(({ kind }) => kind)).toContain(pair.hazard);
  });
});

describe('chains and traps', () => {
  it('two-wire control to receiver makes the wireless arrangement of the catalogue', () => {
    const { changed } = study(shipped('combi-two-wire'), 'B1', 'wireless-receiver');
    const { cores } = changed.network.system.cables.W3!;
    const due = entryOf('combi-wireless').cables.W3!.cores;
    const swapped = Object.fromEntries(
      Object.entries(due).map(([colour, core]) => [
        colour,
        { ...core, ends: core.ends.map((end) => end.replace('K1.', 'B1.')) },
      ]),
    );
    expect(cores).toEqual(swapped);
  });

  it('mains-switched receiver to volt-free one: a link to add, and without it no heat', () => {
    const first = study(shipped('combi-wireless'), 'K1', 'wireless-receiver-mains-switched');
    const back = study(done(first), 'K1', 'wireless-receiver');
    expect(linksOf(back)).toEqual(['add L-COM']);
    expect(coresOf(back)).toEqual({ 'W3.BN': 'L', 'W3.BU': 'N', 'W3.GY': 'NO', 'W3.GNYE': 'E' });
    expect([back.verdict, back.comparison.exhaustive]).toEqual(['equal', true]);
    expect(linkProofText(back.links[0]!, back)).toBe(
      'Left out: boiler not firing (E1) in “Heating call”.',
    );
    const linked = study(done(first), 'K1', 'wireless-receiver-linked');
    expect(linksOf(linked)).toEqual(['stays L-COM']);
  });

  it('a valve with end switch where none was: the switch stays empty and nothing changes', () => {
    const without = study(shipped('heat-only-two-port'), 'Q2', 'two-port-valve-no-switch', 64);
    const again = study(done(without), 'Q2', 'two-port-valve', 64);
    expect([again.verdict, again.plan.empty]).toEqual([
      'equal',
      ['end switch feed', 'end switch out'],
    ]);
  });

  it('a link left in: mains on the call pair, and a way round the overflow switch', () => {
    const pair = study(shipped('combi-volt-free'), 'B1', 'wireless-receiver-linked', 64);
    expect(pair.links[0]!.hazards.map(({ kind }) => kind)).toContain('mains on extra-low');
    const wet = study(
      shipped('combi-wireless-condensate-pump'),
      'K1',
      'wireless-receiver-linked',
      64,
    );
    expect(wet.links[0]!.hazards.map(({ kind }) => kind)).toContain('safety bypassed');
  });

  it('says how many cores are wanted, and where a spare one serves', () => {
    const mains = study(shipped('combi-two-wire'), 'B1', 'wireless-receiver-mains-switched', 64);
    expect(coresText(mains.plan)).toBe(
      'The new device has a supply of its own: three cores needed here, two there.',
    );
    const spare = study(shipped('combi-condensate-pump'), 'B1', 'room-control-mains', 64);
    expect(spare.plan.newCable).toBeNull();
    expect(spare.plan.cores.find(({ core }) => core === 'spare')).toMatchObject({
      colour: 'GY',
      sleeve: 'BU',
      far: 'E1.N',
    });
  });

  it('counts the links to add and to take out', () => {
    const linksOf = (system: string, item: string, device: string) =>
      linksText(study(shipped(system), item, device, 64).plan);
    expect(linksOf('combi-two-wire', 'B1', 'room-control-two-wire')).toBe('');
    expect(linksOf('combi-two-wire', 'B1', 'wireless-receiver-linked')).toBe(
      'One link to take out.',
    );
    // Volt-free contacts: the live has to be brought to each common (common practice, no source).
    expect(linksOf('heat-only-two-port', 'K1', 'wireless-receiver-two-channel')).toBe(
      'Two links to add.',
    );
  });

  it('keeps mains out of the cable of an extra-low-voltage call', () => {
    const { plan, changed } = study(shipped('combi-volt-free'), 'B1', 'wireless-receiver', 64);
    expect(plan.newCable).toMatchObject({ cable: 'W4', inPlaceOf: null });
    expect(Object.keys(changed.network.system.cables.W3!.cores)).toEqual(['BN', 'BU']);
  });

  it('warns of a supply that goes with a programmer, and of a live of its own', () => {
    const fed = study(shipped('heat-only-two-port'), 'B1', 'room-control-mains', 64);
    expect(fed.unsupplied).toContain('standby');
    expect(notesOf(fed).join(' ')).toMatch(/not permanent: .* no supply in “Nothing calling/);
    const own = study(shipped('combi-wireless'), 'K1', 'wireless-receiver-mains-switched', 64);
    expect([own.ownLive, own.unsupplied]).toEqual([true, []]);
  });

  it('names the first difference in words', () => {
    const lost = study(shipped('heat-only-two-port'), 'Q2', 'two-port-valve-no-switch', 64);
    expect(verdictText(lost)).toBe(
      'The new device has no place for end switch feed at Q2 and end switch out at Q2. In “Heating only”: boiler not firing (E1); before, boiler firing.',
    );
  });
});

describe('wrong mappings are found', () => {
  const wrong = (
    system: string,
    item: string,
    device: string,
    change: Readonly<Record<string, string>>,
  ) => {
    const before = shipped(system);
    const plan = planReplacement(before, item, device, devices.get(device)!);
    const cores = plan.cores.map((core) => {
      const to = change[`${core.cable}.${core.colour}`];
      return to === undefined ? core : { ...core, now: `${item}.${to}` };
    });
    expect(cores).not.toEqual(plan.cores);
    return studyPlan(before, { ...plan, cores }, 64);
  };

  it.each([
    [
      'call on the break contact',
      'combi-wireless',
      'K1',
      'wireless-receiver-linked',
      { 'W3.GY': 'NC' },
    ],
    [
      'heating and hot water exchanged',
      'heat-only-two-port',
      'K1',
      'wireless-receiver-two-channel',
      { 'W4.BK': 'hot water NO', 'W4.GY': 'heating NO' },
    ],
    [
      'hot water off on the make contact',
      'heat-only-mid-position',
      'K1',
      'wireless-receiver-two-channel',
      { 'W5.BK': 'hot water NC', 'W5.GY': 'hot water NO' },
    ],
    [
      'motor and end switch exchanged',
      'heat-only-two-port',
      'Q2',
      'two-port-valve',
      { 'W8.BN': 'end switch out', 'W8.OG': 'motor L' },
    ],
    [
      'call and satisfied exchanged',
      'heat-only-mid-position',
      'B2',
      'cylinder-thermostat',
      { 'W7.BK': 'satisfied', 'W7.GY': 'call' },
    ],
    [
      'neutral on the call',
      'combi-wireless',
      'K1',
      'wireless-receiver-mains-switched',
      { 'W3.BU': 'call out', 'W3.GY': 'N' },
    ],
  ] as const)('%s', (_, system, item, device, change) => {
    const found = wrong(system, item, device, change);
    expect(['different', 'never']).toContain(found.verdict);
    expect(found.comparison.differences.length + found.hazards.length).toBeGreaterThan(0);
  });
});

describe('a mid-position valve remembers', () => {
  it('goes through every change of demand as before, from wherever it stood', () => {
    const before = shipped('heat-only-mid-position').network;
    const after = study(
      shipped('heat-only-mid-position'),
      'K1',
      'wireless-receiver-two-channel',
      64,
    ).changed.network;
    const states = [...Array(16).keys()];
    const given = (n: number, [heating, water]: readonly [string, string]) => ({
      [heating]: (n & 1) > 0,
      [water]: (n & 2) > 0,
      'B1.calling': (n & 4) > 0,
      'B2.calling': (n & 8) > 0,
    });
    const names = new Map<Network, readonly [string, string]>([
      [before, ['K1.heating on', 'K1.hot water on']],
      [after, ['K1.heating', 'K1.hot water']],
    ]);
    const walk = (network: Network, from: number, to: number): Settled => {
      const called = names.get(network)!;
      const first = settleMode(network, '', given(from, called), atRest(network));
      return settleMode(network, '', given(to, called), first.state);
    };
    const felt = ({ outcomes }: Settled) => [...outcomes].filter(([id]) => !id.startsWith('K1.'));
    for (const from of states)
      for (const to of states)
        expect([from, to, felt(walk(after, from, to))]).toEqual([
          from,
          to,
          felt(walk(before, from, to)),
        ]);
  });
});

it('all combinations of the largest system here are fewer than the most', () => {
  expect(ALL).toBeGreaterThanOrEqual(2 ** 11);
});
