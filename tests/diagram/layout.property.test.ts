import { describe, expect, test } from 'vitest';
import type { Network } from '../../src/circuit/index.ts';
import {
  isBare,
  layOutLandscape,
  layOutSystem,
  MOST_ZOOM,
  NARROW,
  PAPER_ACROSS,
  PAPER_UPRIGHT,
  type Point,
  type Rect,
  type Sheet,
  SYMBOL_SIZE,
  WIDE,
  type Wire,
} from '../../src/diagram/index.ts';
import { shippedNetworks } from '../support/content.ts';
import { circuit } from '../support/notation.ts';
import { property } from '../support/property.ts';
import { everySign } from './every-sign.ts';
import { breaches } from './laws.ts';
import { crossingsIn } from './laws-outside.ts';
import { randomWiring } from './random-wiring.ts';

/** The same layout of the same network, laid out once for all that is asked of it. */
function once(layOut: (network: Network) => Sheet): (network: Network) => Sheet {
  const known = new WeakMap<Network, Sheet>();
  return (network) => {
    const sheet = known.get(network) ?? layOut(network);
    known.set(network, sheet);
    return sheet;
  };
}
const narrow = once((network) => layOutSystem(network, NARROW));
const landscape = once((network) => layOutLandscape(network));

const LAYOUTS: readonly (readonly [name: string, layOut: (network: Network) => Sheet])[] = [
  ['narrow', narrow],
  ['wide', once((network) => layOutSystem(network, WIDE))],
  ['landscape', landscape],
  ['across on paper', once((network) => layOutLandscape(network, PAPER_ACROSS))],
  ['upright on paper', once((network) => layOutSystem(network, PAPER_UPRIGHT))],
];
const systems = new Map<string, Network>([...shippedNetworks(), ['every-sign', everySign()]]);

describe.each([...systems])('%s', (_, network) => {
  test.each(LAYOUTS)(
    '%s: nothing lies on, hides or looks joined to what is not its own',
    (_, layOut) => {
      expect(breaches(layOut(network))).toEqual([]);
    },
  );

  test.each(LAYOUTS)('%s: every element, conductor and terminal is drawn once', (_, layOut) => {
    const { boxes, conductors, spacing } = layOut(network);
    const elements = boxes.flatMap((box) =>
      box.symbols.flatMap(({ step }) => [step.id, ...(step.toggle ? [step.toggle] : [])]),
    );
    expect(elements.toSorted()).toEqual(elementsOf(network).toSorted());
    const leads = network.branches.filter(
      ({ kind }) => kind === 'conductor' || kind === 'wire link',
    );
    expect(conductors.map(({ lead }) => lead.id).toSorted()).toEqual(
      leads.map(({ id }) => id).toSorted(),
    );
    const joined = new Set(conductors.flatMap(({ lead }) => lead.ends));
    const isFolded = ({ id, item }: Network['nodes'][number]) =>
      spacing.grid !== undefined && isBare(network.items.get(item!)!) && !joined.has(id);
    const terminals = network.nodes.filter((node) => node.terminal && !isFolded(node));
    expect(boxes.flatMap(({ cells }) => cells.map(({ id }) => id)).toSorted()).toEqual(
      terminals.map(({ id }) => id).toSorted(),
    );
  });

  test('read back, the lines in each box are the points of its device', () => {
    const drawn = LAYOUTS.flatMap(([, layOut]) => layOut(network).boxes);
    for (const box of drawn) {
      for (const [node, wires] of Map.groupBy(box.wires, ({ node }) => node)) {
        expect({ node, pieces: piecesOf(wires) }).toEqual({ node, pieces: 1 });
        const cell = box.cells.find(({ id }) => id === node);
        const edge = cell && cell.rect.x + (box.face === 'left' ? cell.rect.width : 0);
        const strip = cell && {
          from: { x: edge!, y: cell.rect.y },
          to: { x: edge!, y: bottomOf(cell.rect) },
        };
        if (strip) expect(wires.some((wire) => touch(wire, strip))).toBe(true);
      }
      for (const { step, left, right, x, y } of box.symbols) {
        const half = SYMBOL_SIZE[step.symbol].width / 2;
        for (const [node, at] of [[left, x - half] as const, [right, x + half] as const]) {
          const end = box.wires.some((wire) => wire.node === node && liesOn({ x: at, y }, wire));
          expect({ element: step.id, node, end }).toEqual({ element: step.id, node, end: true });
        }
      }
    }
  });
});

/** Conductors up to which a system has to fit a phone; larger ones are moved about sideways. */
const FEW = 24;
const SMALL = [...shippedNetworks()].filter(
  ([, { branches }]) => branches.filter(({ kind }) => kind === 'conductor').length <= FEW,
);

test(`systems of ${FEW} conductors fit a screen of 360 px with 8 px on either side`, () => {
  const wide = SMALL.filter(([, network]) => narrow(network).width > 344);
  expect(wide.map(([id]) => id)).toEqual([]);
  expect(SMALL.length).toBeGreaterThan(0);
});

/** Width of the landscape layout at most, so that its letters stay readable on a desk, px. */
const DESK_WIDTH = 1200;

test.each([...shippedNetworks()])('across, %s is no wider than a desk', (_, network) => {
  expect(landscape(network).width).toBeLessThanOrEqual(DESK_WIDTH);
});

test.each([...shippedNetworks()])('across, %s has fewer crossings than upright', (_, network) => {
  const upright = crossingsIn(narrow(network));
  expect(crossingsIn(landscape(network))).toBeLessThan(upright);
});

/** A finger finds what is 44 px wide and high (WCAG 2.2, success criterion 2.5.5). */
const FINGER = 44;

test.each(LAYOUTS)('%s: enlarged as far as it goes, a finger finds every terminal', (_, layOut) => {
  for (const network of systems.values()) {
    const cells = layOut(network).boxes.flatMap((box) => box.cells);
    const small = cells.filter(
      ({ rect }) => Math.min(rect.width, rect.height) * MOST_ZOOM < FINGER || rect.width < FINGER,
    );
    expect(small.map(({ id }) => id)).toEqual([]);
  }
});

const FAMILIES = ['control', 'boiler', 'valve', 'pump', 'wiring centre', 'isolation'] as const;

property('any wiring keeps the same laws', 40, (from) => {
  const wiring = randomWiring(from);
  const families = [...new Set(wiring.match(/\bA[0-9]+\b/g))].map(
    (item) => `${item} is ${from.pick(FAMILIES)}`,
  );
  const network = circuit([...families, wiring].join('\n'));
  for (const [name, layOut] of LAYOUTS)
    expect([name, breaches(layOut(network))]).toEqual([name, []]);
});

/** A box whose inside takes a line more or less by where it stands: half a px decides. */
const HALF_PX = `
  A3 is valve
  A3 part 1: contact L SL { closed: calling, name: contact of the control }
  A3 part 2: contact 2 N { closed: { not: calling } }
  A3 part 3: fuse N L { rating: 3, name: fuse link }
  A3 part 4: contact E SL { closed: { not: calling } }
  W1: flex 0.75 5; GNYE A1.call-return A2.E
  W2: flex 0.75 5; BN A3.N A1.L; spare BU
`;

test.each(LAYOUTS)('%s: a box is as tall as the sheet reckons with', (_, layOut) => {
  expect(breaches(layOut(circuit(HALF_PX)))).toEqual([]);
});

/** Ids of everything that lies inside the items; the mains and its earth are two. */
function elementsOf({ items }: Network): string[] {
  return [...items].flatMap(([item, { device }]) =>
    Object.entries(device.elements).flatMap(([name, element]) => {
      const id = `${item}/${name}`;
      const joined = element.kind === 'mains' && element.earthing !== 'TT';
      return joined ? [id, `${id} earth`] : [id];
    }),
  );
}

type Line = Pick<Wire, 'from' | 'to'>;

const bottomOf = ({ y, height }: Rect): number => y + height;

function liesOn({ x, y }: Point, { from, to }: Line): boolean {
  const between = (n: number, a: number, b: number) =>
    n >= Math.min(a, b) - 0.01 && n <= Math.max(a, b) + 0.01;
  return between(x, from.x, to.x) && between(y, from.y, to.y);
}

const touch = (a: Line, b: Line): boolean =>
  [a.from, a.to].some((p) => liesOn(p, b)) || [b.from, b.to].some((p) => liesOn(p, a));

/** Into how many pieces lines fall that do not touch. */
function piecesOf(lines: readonly Line[]): number {
  const groups: Line[][] = [];
  for (const line of lines) {
    const met = groups.filter((group) => group.some((other) => touch(line, other)));
    for (const group of met) groups.splice(groups.indexOf(group), 1);
    groups.push([line, ...met.flat()]);
  }
  return groups.length;
}
