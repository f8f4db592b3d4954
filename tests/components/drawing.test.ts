import { describe, expect, test } from 'vitest';
import { simulate } from '../../src/circuit/index.ts';
import { drawingData } from '../../src/components/diagram/make-data.ts';
import { LEFT_ON_WORDS, readingOrder } from '../../src/components/diagram/reach-words.ts';
import { stepFrom } from '../../src/components/diagram/steps.ts';
import { wiringTable } from '../../src/wiring/index.ts';
import { wrongTerms } from '../../src/words/index.ts';
import { shippedNetworks } from '../support/content.ts';
import { faultsOfGrammar } from '../words/grammar.ts';

const systems = [...shippedNetworks()].map(([id, network]) => {
  const simulation = simulate(network);
  return [
    id,
    network,
    drawingData({ simulation, network, wiring: wiringTable(simulation) }),
  ] as const;
});

describe.each(systems)('%s', (_, network, data) => {
  test('every terminal is told of, in one net, with who gets at it', () => {
    const ids = network.nodes.flatMap(({ id, terminal }) => (terminal ? [id] : []));
    expect(Object.keys(data.terminals).toSorted()).toEqual(ids.toSorted());
    expect(data.nets.flatMap(({ terminals }) => terminals).toSorted()).toEqual(ids.toSorted());
    for (const [id, { net, reach, instead }] of Object.entries(data.terminals)) {
      expect(data.nets[net]!.terminals).toContain(id);
      expect(reach).toMatch(/ takes off/);
      if (instead !== null) expect(data.terminals[instead]!.values).toBeDefined();
    }
  });

  test('what may be read live has its caution (GS38)', () => {
    const live = Object.entries(data.terminals).filter(([, { values = [] }]) =>
      values.flat().some((at) => data.texts[at]!.includes('live')),
    );
    expect(live.length).toBeGreaterThan(0);
    const bare = live.filter(
      ([, { reach, caution }]) => !/GS38/.test(caution) && !/dead only/.test(reach),
    );
    expect(bare.map(([id]) => id)).toEqual([]);
  });

  test('every core that is joined says from where, to where and what for', () => {
    const joined = network.branches.filter(
      ({ kind, from }) => kind === 'conductor' && network.nodes[from]!.item !== undefined,
    );
    for (const { id } of joined) expect(data.cores[id]).toMatch(/: from .+ to .+; .+\.$/);
    expect(joined.length).toBeGreaterThan(0);
  });

  test('arrows lead round each net and each box, and nowhere by another key', () => {
    for (const { terminals } of data.nets) {
      const [first] = terminals;
      let at = first!;
      for (let press = 0; press < terminals.length; press++)
        at = stepFrom(data, at, 'ArrowRight') ?? at;
      expect(at).toBe(first);
    }
    const [any] = Object.keys(data.terminals);
    expect(stepFrom(data, stepFrom(data, any!, 'ArrowDown')!, 'ArrowUp')).toBe(any);
    expect(stepFrom(data, any!, 'Home')).toBeNull();
  });

  // A fused spur parts its load side alone; its supply terminals stay live (common practice, no source).
  test('the isolator leaves the consumer unit and its own supply side on, and no more', () => {
    const left = Object.entries(data.terminals).flatMap(([id, { leftOn }]) =>
      leftOn ? [`${id} ${leftOn}`] : [],
    );
    expect(left.toSorted()).toEqual([
      'F1.L live',
      'F1.N neutral',
      'Q1.supply L live',
      'Q1.supply N neutral',
    ]);
  });

  test('a reading that needs an opening says what comes off; one that needs none does not', () => {
    for (const [id, { values, opens, reach }] of Object.entries(data.terminals)) {
      const isOpened =
        values !== undefined && / takes off isolated, locked off and proved dead\./.test(reach);
      expect([id, opens !== undefined]).toEqual([id, isOpened]);
      if (opens !== undefined) expect(reach).toContain(opens);
    }
  });

  test('it is said in the trade’s words', () => {
    const texts = [
      ...Object.values(data.cores),
      ...Object.values(data.terminals).flatMap(({ name, reach, caution }) => [
        name,
        reach,
        caution,
      ]),
      ...Object.values(LEFT_ON_WORDS),
      ...readingOrder('lid of the wiring centre'),
      ...Object.values(data.stories).flatMap(({ steps }) => steps.map(([text]) => text)),
      ...data.loads.map(({ name }) => name),
    ].filter((text) => text !== '');
    expect(texts.flatMap((text) => wrongTerms(text).map(({ found }) => [found, text]))).toEqual([]);
    expect(texts.flatMap((text) => faultsOfGrammar(text).map((what) => [what, text]))).toEqual([]);
  });
});

/** Isolated to open, on only for the reading, isolated again before a hand goes in (HSG85, EAWR 14). */
test('a live reading is made in the order of isolating, opening, restoring, isolating', () => {
  const said = readingOrder('lid of the wiring centre').join(' ');
  const places = [
    'Isolate, lock off and prove dead',
    'lid of the wiring centre',
    'Nothing loose',
    'Restore the supply',
    'read.',
    'Isolate again and prove dead',
    'touch, close up',
  ].map((words) => said.indexOf(words));
  expect(places).not.toContain(-1);
  expect(places).toEqual(places.toSorted((a, b) => a - b));
});
