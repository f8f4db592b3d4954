import { describe, expect, it } from 'vitest';
import { atRest, type Settled } from '../../src/circuit/index.ts';
import { type Conditions, classAt, LOW, seen, under, voltsAt, withoutCores } from './demands.ts';
import { loadSystem } from './load.ts';

const midPosition = loadSystem('heat-only-mid-position');

/** The four things a mid-position valve is asked for, and each way of asking not to. */
const SERVICES = ['off', 'hot water only', 'heating only', 'both'] as const;
type Service = (typeof SERVICES)[number];
const ENDERS = ['programmer', 'thermostat'] as const;

/** What is not wanted is ended by the programmer, or by its thermostat with the programmer on. */
function asks(service: Service, ender: (typeof ENDERS)[number]): Conditions {
  const heating = service === 'heating only' || service === 'both';
  const water = service === 'hot water only' || service === 'both';
  return {
    'K1.heating on': heating || ender === 'thermostat',
    'B1.calling': heating || ender === 'programmer',
    'K1.hot water on': water || ender === 'thermostat',
    'B2.calling': water || ender === 'programmer',
  };
}

const place = (settled: Settled) =>
  ['hot water', 'mid', 'heating'].filter((p) => seen(settled, `Q2.at ${p}`) === true).join();

/** What the trade expects of each service; common practice, no source. */
const WANTED = {
  off: { fires: false, orange: 'dead', white: 'dead', grey: 'live' },
  'hot water only': { fires: true, orange: 'live', white: 'dead', grey: 'dead' },
  'heating only': { fires: true, orange: 'live', white: 'live', grey: 'live' },
  both: { fires: true, orange: 'live', white: 'live', grey: 'between' },
} as const;

/** Where each change leaves the valve: with nothing called, grey holds or pushes it on. */
const VALVE_ENDS: Readonly<Record<Service, (from: Service) => string>> = {
  off: (from) => (from === 'heating only' || from === 'both' ? 'heating' : 'hot water'),
  'hot water only': () => 'hot water',
  'heating only': () => 'heating',
  both: () => 'mid',
};

function expectService(settled: Settled, service: Service, position: string): void {
  const { fires, orange, white, grey } = WANTED[service];
  expect(settled.hunting).toEqual([]);
  expect(place(settled)).toBe(position);
  expect(seen(settled, 'E1.burner')).toBe(fires);
  expect(seen(settled, 'M1.running')).toBe(fires);
  expect(classAt(settled, 'Q2.call out', LOW)).toBe(orange);
  expect(classAt(settled, 'Q2.heating on', LOW)).toBe(white);
  expect(classAt(settled, 'Q2.hot water off', LOW)).toBe(grey);
}

// Common practice, no source, throughout.
describe('mid-position valve', () => {
  const cases = ENDERS.flatMap((ender) => SERVICES.map((service) => ({ service, ender })));
  it.each(cases)('from new: $service, the rest ended by the $ender', ({ service, ender }) => {
    expectService(under(midPosition, asks(service, ender)), service, VALVE_ENDS[service]('off'));
  });

  const changes = ENDERS.flatMap((ender) =>
    SERVICES.flatMap((from) =>
      SERVICES.filter((to) => to !== from).map((to) => ({ from, to, ender })),
    ),
  );
  it('is tried in each of the twelve changes, ended either way', () => {
    expect(changes).toHaveLength(2 * 12);
  });
  it.each(changes)('$from to $to, ended by the $ender', ({ from, to, ender }) => {
    const { state } = under(midPosition, asks(from, ender));
    expectService(under(midPosition, asks(to, ender), state), to, VALVE_ENDS[to](from));
  });

  it.each(ENDERS)('held at heating by grey, goes on to each service (%s)', (ender) => {
    const { state: heated } = under(midPosition, asks('heating only', ender));
    const held = under(midPosition, asks('off', ender), heated);
    expect(place(held)).toBe('heating');
    for (const to of SERVICES) {
      const settled = under(midPosition, asks(to, ender), held.state);
      expectService(settled, to, VALVE_ENDS[to]('heating only'));
    }
  });

  it('goes through all twelve changes in one walk', () => {
    const walk: readonly Service[] = [
      ...(['off', 'hot water only', 'off', 'heating only', 'off', 'both'] as const),
      ...(['hot water only', 'heating only', 'hot water only', 'both'] as const),
      ...(['heating only', 'both', 'off'] as const),
    ];
    expect(new Set(walk.slice(1).map((to, i) => `${walk[i]}>${to}`)).size).toBe(12);
    let memory = atRest(midPosition);
    walk.forEach((service, i) => {
      const settled = under(midPosition, asks(service, 'programmer'), memory);
      expectService(settled, service, VALVE_ENDS[service](walk[i - 1] ?? 'off'));
      memory = settled.state;
    });
  });

  it('at mid holds its motor, and so grey, at about half voltage', () => {
    const both = under(midPosition, asks('both', 'programmer'));
    for (const point of ['Q2.hot water off', 'X1.5', 'K1.hot water off', 'B2.satisfied']) {
      expect(voltsAt(both, point)).toBeGreaterThan(0.4 * 230);
      expect(voltsAt(both, point)).toBeLessThan(0.6 * 230);
    }
  });

  it('springs to hot water from every position when its supply goes', () => {
    for (const service of SERVICES) {
      const { state } = under(midPosition, asks(service, 'programmer'));
      expect(place(under(midPosition, { 'Q1.off': true }, state))).toBe('hot water');
    }
  });

  it('never gives heating alone without its grey core, but both together', () => {
    const cut = withoutCores(midPosition.id, { W8: 'GY' });
    const alone = under(cut, asks('heating only', 'programmer'));
    expect(place(alone)).toBe('mid');
    expect(seen(alone, 'E1.burner')).toBe(false);
    expect(seen(under(cut, asks('both', 'programmer')), 'E1.burner')).toBe(true);
  });

  it('feeds the programmer’s hot water on from behind while its lamp is out', () => {
    const hot = under(midPosition, {});
    const cold = under(midPosition, asks('heating only', 'programmer'));
    for (const settled of [hot, cold]) {
      expect(seen(settled, 'K1.hot water lamp')).toBe(false);
      expect(classAt(settled, 'K1.hot water on', LOW)).toBe('live');
    }
    expect(classAt(under(midPosition, { 'B2.calling': true }), 'K1.hot water on', LOW)).toBe(
      'dead',
    );
  });
});
