import { describe, expect, test } from 'vitest';
import { simulate } from '../../src/circuit/index.ts';
import { compose, type Specification } from '../../src/compose/index.ts';
import { catalogue, networkOf } from './catalogue.ts';
import { breaches } from './judged.ts';
import { coresAt, having, pumpIn, says, seenIn, withManifold } from './seen-in.ts';

/**
 * What a note on a pair of modules claims, held to the circuit of every arrangement that it is said
 * of: the notes themselves are common practice, no source.
 */

const COMBIS = ['combi-mains-call', 'combi-switched-live', 'combi-volt-free'];
const HEATS = [...COMBIS, 'system-boiler', 'system-boiler-volt-free', 'heat-only-overrun'];
const ONE_CHANNEL = ['wireless-receiver', 'receiver-mains-switched', 'receiver-extra-low'];
const TWO_CHANNEL = ['receiver-two-channel', 'receiver-two-channel-mains'];
const IN_SUPPLY = ['in supply', 'in supply by its own box'];

describe('a note on a pair is as the circuit is', () => {
  test.each(
    IN_SUPPLY.flatMap((way) => [...ONE_CHANNEL, ...TWO_CHANNEL].map((one) => [way, one] as const)),
  )('overflow switch %s, %s: no display, receiver lit, pump heard', (way, receiver) => {
    const isLow = receiver === 'receiver-extra-low';
    const given = TWO_CHANNEL.includes(receiver) ? { time: receiver } : { control: receiver };
    const heat = isLow ? 'combi-volt-free' : 'combi-mains-call';
    const specification = having({ heat, ...given, additions: [pumpIn(way)] });
    const { notes, display, pump, ofDevice } = seenIn(specification, 'condensate-high');
    expect(says(notes, 'No display at the boiler, receiver lit, pump heard')).toBe(true);
    const lamp = ofDevice('wireless-receiver', /\.lamp$/);
    expect({ display, pump, lamp }).toEqual({ display: false, pump: true, lamp: true });
  });

  test.each(['programmer', 'time-switch'])(
    'overflow switch in the supply, %s: clock lit',
    (time) => {
      for (const way of IN_SUPPLY) {
        const specification = having({ time, additions: [pumpIn(way)] });
        const { notes, display, pump, ofDevice } = seenIn(specification, 'condensate-high');
        expect(says(notes, 'No display at the boiler with the clock lit')).toBe(true);
        const clock = ofDevice(time, /display$/);
        expect({ display, pump, clock }).toEqual({ display: false, pump: true, clock: true });
      }
    },
  );

  test.each(HEATS)(
    'overflow switch in the call, %s: display lit, not firing, pump heard',
    (heat) => {
      const { notes, display, burner, pump } = seenIn(
        having({ heat, additions: [pumpIn('in call')] }),
        'condensate-high',
      );
      expect(says(notes, 'Display lit, a call at the control, boiler not firing')).toBe(true);
      expect({ display, burner, pump }).toEqual({ display: true, burner: false, pump: true });
    },
  );

  test.each(COMBIS)('overflow switch in the call, %s: a hot tap fires it', (heat) => {
    const specification = having({ heat, additions: [pumpIn('in call')] });
    const { notes, burner } = seenIn(specification, 'condensate-high', ['tap open']);
    expect(says(notes, 'a hot tap still fires the boiler')).toBe(true);
    expect(burner).toBe(true);
  });

  test.each([...IN_SUPPLY, 'in call'])('overflow switch %s, frost: nothing fires', (way) => {
    const frost = { module: 'frost-pair', variant: 'fed from the live' };
    const specification = having({ heat: 'system-boiler', additions: [pumpIn(way), frost] });
    const full = seenIn(specification, 'frost', ['condensate high']);
    expect(says(full.notes, 'the house is not protected')).toBe(true);
    expect([full.burner, seenIn(specification, 'frost').burner]).toEqual([false, true]);
  });

  test.each(['programmer', 'time-switch', ...TWO_CHANNEL])(
    'frost with all off at a %s: it fires',
    (time) => {
      const specification = having({
        heat: 'system-boiler',
        time,
        additions: [{ module: 'frost-pair', variant: 'fed from the live' }],
      });
      const { notes, burner } = seenIn(specification, 'frost');
      expect(says(notes, 'Heating on with everything off at the clock')).toBe(true);
      expect(burner).toBe(true);
      expect(seenIn(specification, 'standby').burner).toBe(false);
    },
  );

  test('an open cut-out: hot water shut, heating as always', () => {
    const specification: Specification = {
      heat: 'system-boiler',
      time: 'programmer',
      heating: [{ controls: ['room-stat-wired'], valve: 'two-port-valve' }],
      hotWater: {
        controls: ['cylinder-stat'],
        valve: 'two-port-valve',
        limit: 'overheat-cut-out',
      },
    };
    const both = seenIn(specification, 'both', ['overheated']);
    expect(says(both.notes, 'the cut-out has opened')).toBe(true);
    expect([both.burner, both.valves]).toEqual([true, [true, false]]);
    expect(seenIn(specification, 'hot-water', ['overheated']).burner).toBe(false);
  });

  const SPUR_LIVE = ['room-stat-mains', 'receiver-mains-switched'];
  test.each([...SPUR_LIVE, 'programmer', 'time-switch', 'receiver-two-channel-mains'])(
    'live to stat with %s: empty, unless an end switch or a relay takes it',
    (one) => {
      const given = SPUR_LIVE.includes(one) ? { control: one } : { time: one };
      const plain = having(given);
      const [zone] = plain.heating;
      const cases = [
        [plain, false],
        [{ ...plain, heating: [{ ...zone, valve: 'two-port-valve' }] }, true],
        [{ ...plain, additions: ['interface-relay'] }, true],
      ] as const;
      for (const [specification, isTaken] of cases) {
        const { system } = compose(specification, catalogue());
        expect(says(system.notes, 'Live to stat stays empty, unless')).toBe(true);
        expect(coresAt(system, 'E1.call feed').length > 0).toBe(isTaken);
      }
    },
  );

  test.each(['mid-position-valve', 'diverter-valve'])(
    'a cut-out with a %s: the call goes, the way to the cylinder stays open',
    (valve) => {
      const specification: Specification = {
        heat: 'system-boiler',
        time: 'programmer',
        valve,
        heating: [{ controls: ['room-stat-wired'] }],
        hotWater: { controls: ['cylinder-stat'], limit: 'overheat-cut-out' },
      };
      const healthy = seenIn(specification, 'hot-water');
      const tripped = seenIn(specification, 'hot-water', ['overheated']);
      expect(says(tripped.notes, 'shuts no valve')).toBe(true);
      expect([healthy.burner, tripped.burner]).toEqual([true, false]);
      expect(tripped.ofDevice(/^(mid-position|three-port)/, /at hot water$/)).toBe(true);
    },
  );

  test.each(['combi-volt-free', 'system-boiler-volt-free'])(
    'frost and pipe stat with %s: mains on them, none on the pair where something stands between',
    (heat) => {
      const frost = { module: 'frost-pair', variant: 'fed from the live' };
      const through: (Pick<Specification, 'heating' | 'time'> & { relay?: string })[] = [
        { heating: [{ controls: ['room-stat-mains'], valve: 'underfloor-manifold' }] },
        {
          heating: [{ controls: ['room-stat-wired'], valve: 'two-port-valve' }],
          time: 'programmer',
        },
        { heating: [{ controls: [] }], time: 'time-switch', relay: 'interface-relay' },
      ];
      for (const { relay, ...rest } of through) {
        const additions = [frost, ...(relay ? [relay] : [])];
        const { notes, burner, mains, itemOf } = seenIn({ heat, ...rest, additions }, 'frost');
        expect(says(notes, 'Frost and pipe stat carry mains here')).toBe(true);
        expect(burner).toBe(true);
        expect(mains(`${itemOf('pipe-thermostat')}.NO`)).toBe('live');
        expect([mains('E1.call 1'), mains('E1.call 2')]).toEqual(['dead', 'dead']);
      }
      const straight = having({ heat, additions: [frost] });
      const network = networkOf('straight', compose(straight, catalogue()));
      expect(breaches(simulate(network))).toContain('no-mains-on-extra-low-voltage');
    },
  );

  test('frost with a boiler without a permanent live: fires, and shows nothing otherwise', () => {
    const specification = having({
      heat: 'heat-only-no-overrun',
      additions: [{ module: 'frost-pair', variant: 'fed from the live' }],
    });
    const cold = seenIn(specification, 'frost');
    expect(says(cold.notes, 'no frost protection of its own')).toBe(true);
    expect([seenIn(specification, 'standby').display, cold.burner]).toEqual([false, true]);
  });

  test.each(
    IN_SUPPLY.flatMap((way) =>
      ['room-stat-two-wire', 'room-stat-volt-free', 'room-stat-mains'].map(
        (stat) => [way, stat] as const,
      ),
    ),
  )('overflow switch %s, %s: no display, a call shown', (way, control) => {
    const heat = control === 'room-stat-volt-free' ? 'combi-volt-free' : 'combi-mains-call';
    const specification = having({ heat, control, additions: [pumpIn(way)] });
    const { notes, display, pump, ofDevice } = seenIn(specification, 'condensate-high');
    expect(says(notes, 'a call shown at the room stat')).toBe(true);
    const shown = ofDevice('room-control', /\.calling$/);
    expect({ display, pump, shown }).toEqual({ display: false, pump: true, shown: true });
  });

  test('overflow switch in the one live of a boiler without overrun: both stand', () => {
    const specification = having({
      heat: 'heat-only-no-overrun',
      additions: [pumpIn('in call')],
    });
    const { notes, display, burner, pump, ofDevice } = seenIn(specification, 'condensate-high');
    expect(says(notes, 'has taken the one live that feeds both')).toBe(true);
    const heating = ofDevice('circulating-pump', /running$/);
    expect({ display, burner, pump, heating }).toEqual({
      display: false,
      burner: false,
      pump: true,
      heating: false,
    });
  });

  test.each(['combi-volt-free', 'system-boiler-volt-free'])(
    'overflow switch in the pair of %s: in one lead with mains',
    (heat) => {
      const { system } = compose(having({ heat, additions: [pumpIn('in call')] }), catalogue());
      expect(says(system.notes, 'share a lead with the pump')).toBe(true);
      const shared = [...coresAt(system, 'M1.L'), ...coresAt(system, 'M1.overflow COM')];
      expect(new Set(shared)).toHaveProperty('size', 1);
      expect(says(system.notes, "boiler's extra-low-voltage pair")).toBe(true);
    },
  );

  const MAINS = ['combi-mains-call', 'combi-switched-live', 'system-boiler'];
  test.each([...MAINS, 'heat-only-overrun', 'heat-only-no-overrun'])(
    'manifold with %s: one side of its boiler contact is live with the zone off',
    (heat) => {
      const specification = withManifold(heat);
      const rest = seenIn(specification, 'standby');
      const centre = rest.itemOf('underfloor-wiring-centre');
      expect(says(rest.notes, 'live with the zone off')).toBe(true);
      const sides = ['boiler COM', 'boiler NO'].map((end) => rest.mains(`${centre}.${end}`));
      expect(sides).toContain('live');
      const called = seenIn(specification, 'heating');
      expect([called.ofDevice('underfloor', /zone lamp$/), called.burner]).toEqual([true, true]);
      expect(called.ofDevice('circulating-pump', /running$/)).toBe(true);
    },
  );

  test.each(['combi-volt-free', 'system-boiler-volt-free'])(
    'manifold with %s: its boiler contact closes the pair, mains beside it',
    (heat) => {
      const called = seenIn(withManifold(heat), 'heating');
      const centre = called.itemOf('underfloor-wiring-centre');
      expect(says(called.notes, 'with mains on the terminals beside it')).toBe(true);
      expect([called.ofDevice('underfloor', /zone lamp$/), called.burner]).toEqual([true, true]);
      expect(called.mains(`${centre}.boiler COM`)).toBe('dead');
      expect(called.mains(`${centre}.pump L`)).toBe('live');
    },
  );

  test.each(['combi-volt-free', 'system-boiler-volt-free'])(
    'relay with %s: its lamp follows the call, and no mains leaves its contact',
    (heat) => {
      const specification: Specification = {
        heat,
        heating: [{ controls: ['room-stat-two-wire'] }],
        additions: ['interface-relay'],
      };
      const lamps = ['standby', 'heating'].map((mode) => {
        const { notes, ofDevice, mains, itemOf } = seenIn(specification, mode);
        expect(says(notes, 'the mains side has done its work')).toBe(true);
        expect(mains(`${itemOf('interface-relay')}.NO`)).toBe('dead');
        return ofDevice('interface-relay', /lamp$/);
      });
      expect(lamps).toEqual([false, true]);
    },
  );

  test.each(['combi-volt-free', 'system-boiler-volt-free'])(
    'receiver on the pair of %s: no mains at its common',
    (heat) => {
      const specification = having({ heat, control: 'wireless-receiver' });
      const { notes, mains, itemOf } = seenIn(
        { ...specification, heating: [{ controls: ['wireless-receiver'] }] },
        'heating',
      );
      expect(says(notes, 'comes out before the pair goes on')).toBe(true);
      expect(mains(`${itemOf('wireless-receiver')}.COM`)).toBe('dead');
    },
  );

  test.each(['combi-volt-free', 'system-boiler-volt-free'])(
    'valve with %s: its end switch on the pair, in one lead with the motor',
    (heat) => {
      const specification: Specification = {
        heat,
        heating: [{ controls: ['room-stat-two-wire'], valve: 'two-port-valve' }],
      };
      const { notes, mains, itemOf, system } = seenIn(specification, 'heating');
      const valve = itemOf('two-port-valve');
      expect(says(notes, 'Without an interface relay between')).toBe(true);
      expect(mains(`${valve}.end switch feed`)).toBe('dead');
      expect(mains(`${valve}.motor L`)).toBe('live');
      expect(coresAt(system, `${valve}.motor L`)).toEqual(
        coresAt(system, `${valve}.end switch feed`),
      );
      const relayed = { ...specification, additions: ['interface-relay'] };
      expect(seenIn(relayed, 'heating').mains(`${valve}.end switch feed`)).toBe('live');
    },
  );

  test.each(
    ['programmer', 'time-switch'].flatMap((time) =>
      ['room-stat-two-wire', 'wireless-receiver'].map((control) => [time, control] as const),
    ),
  )('%s and %s: both must be on', (time, control) => {
    const specification = having({ heat: 'system-boiler', time, control });
    const { notes, burner } = seenIn(specification, 'heating');
    expect(says(notes, 'Two clocks in series')).toBe(true);
    expect([burner, seenIn(specification, 'satisfied').burner]).toEqual([true, false]);
    expect(seenIn(specification, 'heating', [], ['heating on', 'on']).burner).toBe(false);
  });

  test.each(TWO_CHANNEL)('%s with a wired room stat: both must ask', (time) => {
    const specification = having({ heat: 'system-boiler', time, control: 'room-stat-wired' });
    const { notes, burner } = seenIn(specification, 'heating');
    expect(says(notes, 'in series with the wireless one')).toBe(true);
    const wired = seenIn(specification, 'heating', [], ['calling']);
    const wireless = seenIn(specification, 'heating', [], ['heating']);
    expect([burner, wired.burner, wireless.burner]).toEqual([true, false, false]);
  });

  test('is not said where the pair does not stand, or stands in another way', () => {
    const alarm = seenIn(having({ additions: [pumpIn('alarm only')] }), 'condensate-high');
    expect(says(alarm.notes, 'full reservoir')).toBe(false);
    const inSupply = seenIn(having({ additions: [pumpIn('in supply')] }), 'condensate-high');
    expect(says(inSupply.notes, 'receiver lit')).toBe(false);
  });

  test('each note on a pair is held here', () => {
    const all = [...catalogue().modules.values()].flatMap(({ pairs }) => pairs);
    expect(all).toHaveLength(23);
  });
});
