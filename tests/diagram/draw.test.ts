import { describe, expect, test } from 'vitest';
import { holds, INSTRUMENTS, read, simulate } from '../../src/circuit/index.ts';
import { drawSystem, supplyEarth, terminalAnchor } from '../../src/diagram/index.ts';
import { terminalMark } from '../../src/words/index.ts';
import { shippedNetworks } from '../support/content.ts';
import { everySign } from './every-sign.ts';
import { having, type Markup, parseMarkup, printed } from './markup.ts';

const systems = new Map([...shippedNetworks(), ['every-sign', everySign()] as const]);

describe.each([...systems])('%s', (_, network) => {
  const simulation = simulate(network);
  const drawing = parseMarkup(drawSystem(simulation).svg);
  const modes = [...simulation.modes];
  const tester = INSTRUMENTS[0]!;
  const earth = supplyEarth(network)!;
  const modesOf = (markup: Markup, state: string) =>
    (markup.attributes[`data-${state}`] ?? '').split(' ').filter((id) => id !== '');

  /** Modes in which any of some points reads so to the supply's earth on the tester. */
  const reading = (points: readonly string[], ...classes: readonly string[]) =>
    modes
      .filter(([, { solution }]) =>
        points.some((id) => classes.includes(read(solution, id, earth, tester).class)),
      )
      .map(([id]) => id);

  test('a terminal is live in the modes in which it reads live', () => {
    for (const markup of having(drawing, 'data-terminal')) {
      const id = markup.attributes['data-terminal']!;
      const found = { id, live: modesOf(markup, 'live'), between: modesOf(markup, 'between') };
      const live = reading([id], 'live', 'high');
      expect(found).toEqual({ id, live, between: reading([id], 'between') });
    }
  });

  test('so is each line inside a box', () => {
    for (const markup of having(drawing, 'data-node')) {
      const id = markup.attributes['data-node']!;
      expect({ id, live: modesOf(markup, 'live') }).toEqual({
        id,
        live: reading([id], 'live', 'high'),
      });
    }
  });

  test('a conductor is live in the modes in which either end is', () => {
    for (const markup of having(drawing, 'data-conductor')) {
      const id = markup.attributes['data-conductor']!;
      const { from, to } = network.branches[network.branchIndex.get(id)!]!;
      const ends = [from, to].map((node) => network.nodes[node]!.id);
      expect({ id, live: modesOf(markup, 'live') }).toEqual({
        id,
        live: reading(ends, 'live', 'high'),
      });
    }
  });

  test('contacts stand and loads work as the simulation says', () => {
    for (const branch of network.branches) {
      if (branch.kind !== 'element') continue;
      const { element, id, item } = branch;
      const markup = having(drawing, 'data-element').find((m) =>
        [m.attributes['data-element'], m.attributes['data-toggle']].includes(id),
      )!;
      // A breaker is drawn closed where its own switch is too.
      if (markup.attributes['data-toggle']) continue;
      if (element.kind === 'contact') {
        const closed = modes.filter(([, { state }]) => holds(element.closed, item, state));
        expect({ id, closed: modesOf(markup, 'closed') }).toEqual({
          id,
          closed: closed.map(([m]) => m),
        });
      }
      if (['load', 'motor', 'sensing'].includes(element.kind)) {
        const on = modes.filter(([, { state }]) => state.energised.has(id));
        expect({ id, on: modesOf(markup, 'on') }).toEqual({ id, on: on.map(([m]) => m) });
      }
    }
  });

  test('says every reference, terminal, core colour and cable in words', () => {
    const said = new Set(printed(drawing));
    for (const { name, terminal } of network.nodes)
      if (terminal) expect(said).toContain(terminalMark(name));
    for (const item of network.items.keys()) expect(said).toContain(item);
    for (const branch of network.branches) {
      if (branch.kind !== 'conductor') continue;
      const code = branch.sleeve ? `${branch.colour}/${branch.sleeve}` : branch.colour;
      expect(said).toContain(code);
      expect(said).toContain(branch.cable);
    }
  });

  test('each terminal is a link to an anchor of its own', () => {
    const links = having(drawing, 'href').map(({ attributes }) => attributes.href);
    const terminals = network.nodes.filter(({ terminal }) => terminal);
    expect(new Set(links)).toEqual(new Set(terminals.map(({ id }) => `#${terminalAnchor(id)}`)));
    expect(links.length).toBe(terminals.length);
  });

  test('two drawings of one simulation are the same text', () => {
    expect(drawSystem(simulate(network)).svg).toBe(drawSystem(simulation).svg);
  });

  test('a file shows one mode, needs nothing and leads nowhere', () => {
    const { svg } = drawSystem(simulation, { mode: modes[0]![0], variant: 'wide' });
    expect(svg).not.toMatch(/var\(|:has|href|@media|url\(/);
    const file = parseMarkup(svg);
    const live = having(file, 'data-live').flatMap((markup) => modesOf(markup, 'live'));
    expect(new Set(live)).toEqual(new Set(live.length > 0 ? [modes[0]![0]] : []));
    expect(printed(file).join(' ')).toContain('prove dead');
  });
});

test('an unknown mode is refused by name', () => {
  expect(() => drawSystem(simulate(everySign()), { mode: 'summer' })).toThrow(
    'every-sign has no mode summer; it has rest, call, off',
  );
});

test('anchors keep letters and digits and join what is between by hyphens', () => {
  expect(terminalAnchor('E1.call feed')).toBe('terminal-E1-call-feed');
  expect(terminalAnchor('X1.12')).toBe('terminal-X1-12');
});
