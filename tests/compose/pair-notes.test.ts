import { describe, expect, test } from 'vitest';
import { conditionsOf, settleMode } from '../../src/circuit/index.ts';
import { type Choice, compose, type Specification } from '../../src/compose/index.ts';
import { catalogue, networkOf } from './catalogue.ts';

/**
 * What a note on a pair of modules claims, held to the circuit of every arrangement that it is said
 * of: the notes themselves are common practice, no source.
 */

const COMBIS = ['combi-mains-call', 'combi-switched-live', 'combi-volt-free'];
const HEATS = [...COMBIS, 'system-boiler', 'system-boiler-volt-free', 'heat-only-overrun'];
const ONE_CHANNEL = ['wireless-receiver', 'receiver-mains-switched', 'receiver-extra-low'];
const TWO_CHANNEL = ['receiver-two-channel', 'receiver-two-channel-mains'];
const IN_SUPPLY = ['in supply', 'in supply by its own box'];

const pumpIn = (variant: string): Choice => ({ module: 'condensate-pump', variant });

/** An arrangement with some of its parts given, a plain one otherwise. */
function having({
  heat = 'combi-mains-call',
  control,
  time,
  additions = [],
}: {
  heat?: string;
  control?: string;
  time?: string;
  additions?: Choice[];
}): Specification {
  const isLow = /volt-free/.test(heat);
  const usual = isLow ? 'room-stat-volt-free' : 'room-stat-two-wire';
  const controls = control === undefined ? (time ? [] : [usual]) : [control];
  return {
    heat,
    ...(/^heat-only/.test(heat) ? { pump: 'circulating-pump' } : {}),
    ...(time ? { time } : {}),
    heating: [{ controls, ...(/^combi/.test(heat) ? {} : { valve: 'two-port-valve' }) }],
    additions,
  };
}

/** What is seen under the conditions of a mode and some more, by what the outcome is called. */
function seenIn(specification: Specification, mode: string, more: readonly string[] = []) {
  const composed = compose(specification, catalogue());
  const network = networkOf('pair', composed);
  const all = [...conditionsOf(network, {}).keys()];
  const named = more.map((name) => all.find((id) => id.endsWith(`.${name}`))!);
  expect(named).not.toContain(undefined);
  const conditions = {
    ...composed.system.modes[mode]!.conditions,
    ...Object.fromEntries(named.map((id) => [id, true])),
  };
  const { outcomes } = settleMode(network, mode, conditions);
  const ofDevice = (device: string, outcome: RegExp) => {
    const [item] = [...network.items].find(([, one]) => one.deviceId.startsWith(device)) ?? [];
    const found = [...outcomes].find(([id]) => id.startsWith(`${item}.`) && outcome.test(id));
    return found?.[1];
  };
  const boiler = composed.roles.boiler;
  return {
    notes: composed.system.notes,
    display: outcomes.get(`${boiler}.display`),
    burner: outcomes.get(`${boiler}.burner`),
    ofDevice,
    pump: ofDevice('condensate-pump', /running$/),
    valves: [...outcomes].filter(([id]) => /^Q\d+\.open$/.test(id)).map(([, so]) => so),
  };
}
const says = (notes: readonly string[], words: string) => notes.some((one) => one.includes(words));

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

  test('is not said where the pair does not stand, or stands in another way', () => {
    const alarm = seenIn(having({ additions: [pumpIn('alarm only')] }), 'condensate-high');
    expect(says(alarm.notes, 'full reservoir')).toBe(false);
    const inSupply = seenIn(having({ additions: [pumpIn('in supply')] }), 'condensate-high');
    expect(says(inSupply.notes, 'receiver lit')).toBe(false);
  });

  test('each note on a pair is held here', () => {
    const all = [...catalogue().modules.values()].flatMap(({ pairs }) => pairs);
    expect(all).toHaveLength(7);
  });
});
