import { describe, expect, test } from 'vitest';
import { simulate } from '../../src/circuit/index.ts';
import { storyOf } from '../../src/wiring/index.ts';
import { shippedNetworks } from '../support/content.ts';
import { circuit } from '../support/notation.ts';

const systems = [...shippedNetworks()].map(([id, network]) => [id, simulate(network)] as const);

describe.each(systems)('%s', (_, simulation) => {
  const { network, modes } = simulation;
  const [first] = modes.keys();

  test('the first mode has no story; each other tells every load that starts or stops', () => {
    expect(storyOf(simulation, first!)).toEqual({ from: null, steps: [] });
    for (const [mode, now] of modes) {
      if (mode === first) continue;
      const { from, steps } = storyOf(simulation, mode);
      const before = modes.get(from!)!;
      const told = steps.flatMap(({ elements }) => elements);
      for (const { id, kind } of network.branches) {
        if (kind !== 'element' || !now.state.energised.has(id)) continue;
        if (!before.state.energised.has(id)) expect([mode, told]).toEqual([mode, containing(id)]);
      }
      for (const id of before.state.energised) {
        if (!now.state.energised.has(id)) expect([mode, told]).toEqual([mode, containing(id)]);
      }
    }
  });

  test('what a winding moves comes after what its winding does', () => {
    for (const mode of modes.keys()) {
      const { steps } = storyOf(simulation, mode);
      const turns = steps.flatMap(({ text }, at) =>
        /^\S.* valve (Q\d): (opens|shuts|moves to)/.test(text) ? [at] : [],
      );
      for (const at of turns) {
        const valve = /valve (Q\d)/.exec(steps[at]!.text)![1]!;
        const motor = steps.findIndex(({ elements }) => elements.includes(`${valve}/motor`));
        expect([mode, steps[at]!.text, motor >= 0 && motor < at]).toEqual([
          mode,
          steps[at]!.text,
          true,
        ]);
      }
    }
  });

  test('the isolator is switched off with something working, and nothing works after it', () => {
    const { from, steps } = storyOf(simulation, 'isolated');
    expect(modes.get(from!)!.outcomes.get('E1.burner')).toBe(true);
    expect(steps[0]!.text).toMatch(/^Fused spur Q1: isolator off; /);
    expect(steps.slice(1).map(({ text }) => text)).not.toContainEqual(
      expect.stringMatching(/is fed|asks for/),
    );
  });
});

const containing = (id: string) => expect.arrayContaining([id]);
const textsOf = (system: string, mode: string) => {
  const { from, steps } = storyOf(new Map(systems).get(system)!, mode);
  return { from, texts: steps.map(({ text }) => text) };
};
/** Where each of some words is first told; −1 where it is not. */
const placesOf = (texts: readonly string[], order: readonly string[]) =>
  order.map((said) => texts.findIndex((text) => text.includes(said)));

/** Two-port valves: call, motor, end switch, boiler (common practice, no source). */
test('a two-port valve is told in the order in which it works', () => {
  const { from, texts } = textsOf('heat-only-two-port', 'heating');
  expect(from).toBe('standby');
  const order = [
    'stat contact closes',
    'valve motor is fed',
    'opens; end switch closes',
    'switched live input is fed',
    'burner relay closes',
  ];
  const places = placesOf(texts, order);
  expect(places).not.toContain(-1);
  expect(places).toEqual(places.toSorted((a, b) => a - b));
});

/** A mid-position valve: white drives it to mid, grey on to heating (common practice, no source). */
test('a mid-position valve stops half way with both called, and goes on with heating alone', () => {
  const both = textsOf('heat-only-mid-position', 'both').texts;
  const half = ['motor is fed and runs', 'Q2: moves to mid', 'motor is held on part volts'];
  expect(placesOf(both, half)).toEqual(placesOf(both, half).toSorted((a, b) => a - b));
  expect(placesOf(both, [...half, 'Q2: moves to heating']).map((at) => at >= 0)).toEqual([
    true,
    true,
    true,
    false,
  ]);
  const heating = textsOf('heat-only-mid-position', 'heating').texts;
  const whole = ['Q2: moves to mid', 'Q2: moves to heating', 'switched live input is fed'];
  expect(placesOf(heating, whole)).not.toContain(-1);
  expect(placesOf(heating, whole)).toEqual(placesOf(heating, whole).toSorted((a, b) => a - b));
});

test('what has just ended begins with what ended', () => {
  expect(textsOf('heat-only-mid-position', 'heating-ended').from).toBe('heating');
  const { from, texts } = textsOf('heat-only-two-port', 'overrun');
  expect(from).toBe('both');
  expect(texts).not.toContainEqual(expect.stringContaining('is fed'));
});

test('what stops a call begins with the call', () => {
  for (const mode of ['flat-battery', 'control-off']) {
    const { from, texts } = textsOf('combi-two-wire', mode);
    expect([mode, from]).toEqual([mode, 'heating']);
    expect(texts).toContainEqual(expect.stringContaining('burner relay opens'));
  }
});

test('a contact that holds its own coil is told once', () => {
  const simulation = simulate(
    circuit(`
      F1 mains: supply L N E
      A1 start: contact L out { closed: pressed }
      A1 hold: contact L out { closed: { energised: coil } }
      A1 coil: load out N { watts: 2 }
      W1: flex 0.75 1; BN F1.L A1.L; BU F1.N A1.N
      mode rest:
      mode call: A1.pressed
    `),
  );
  const told = storyOf(simulation, 'call').steps.flatMap(({ elements }) => elements);
  expect(told.toSorted()).toEqual(['A1/coil', 'A1/hold', 'A1/start']);
});

test('a mode that is not there is refused by name', () => {
  expect(() => storyOf(systems[0]![1], 'summer')).toThrow('has no mode summer');
});
