import { describe, expect, test } from 'vitest';
import type { Network } from '../../src/circuit/index.ts';
import {
  layOutSystem,
  NARROW,
  type Point,
  type Rect,
  type Spacing,
  SYMBOL_SIZE,
  WIDE,
  type Wire,
} from '../../src/diagram/index.ts';
import { shippedNetworks } from '../support/content.ts';
import { circuit } from '../support/notation.ts';
import { property } from '../support/property.ts';
import { everySign } from './every-sign.ts';
import { breaches } from './laws.ts';
import { randomWiring } from './random-wiring.ts';

const SPACINGS: readonly (readonly [name: string, spacing: Spacing])[] = [
  ['narrow', NARROW],
  ['wide', WIDE],
];
const systems = new Map<string, Network>([...shippedNetworks(), ['every-sign', everySign()]]);

describe.each([...systems])('%s', (_, network) => {
  test.each(SPACINGS)(
    '%s: nothing lies on, hides or looks joined to what is not its own',
    (_, spacing) => {
      expect(breaches(layOutSystem(network, spacing))).toEqual([]);
    },
  );

  test.each(SPACINGS)('%s: every element, conductor and terminal is drawn once', (_, spacing) => {
    const { boxes, conductors } = layOutSystem(network, spacing);
    const elements = boxes.flatMap((box) => box.symbols.map(({ step }) => step.id));
    expect(elements.toSorted()).toEqual(elementsOf(network).toSorted());
    const leads = network.branches.filter(
      ({ kind }) => kind === 'conductor' || kind === 'wire link',
    );
    expect(conductors.map(({ lead }) => lead.id).toSorted()).toEqual(
      leads.map(({ id }) => id).toSorted(),
    );
    const terminals = network.nodes.filter(({ terminal }) => terminal);
    expect(boxes.flatMap(({ cells }) => cells.map(({ id }) => id)).toSorted()).toEqual(
      terminals.map(({ id }) => id).toSorted(),
    );
  });

  test('each conductor ends at its own two terminals', () => {
    const { boxes, conductors } = layOutSystem(network, NARROW);
    const cells = boxes.flatMap((box) => box.cells);
    for (const { lead, points } of conductors.filter(({ lead: { spare } }) => !spare)) {
      const at = (y: number) => cells.find(({ slots }) => slots.right.includes(y))?.id;
      expect([at(points[0]!.y), at(points.at(-1)!.y)]).toEqual(lead.ends);
    }
  });

  test('read back, the lines in each box are the points of its device', () => {
    for (const box of layOutSystem(network, NARROW).boxes) {
      for (const [node, wires] of Map.groupBy(box.wires, ({ node }) => node)) {
        expect({ node, pieces: piecesOf(wires) }).toEqual({ node, pieces: 1 });
        const cell = box.cells.find(({ id }) => id === node);
        const strip = cell && { from: cell.rect, to: { x: cell.rect.x, y: bottomOf(cell.rect) } };
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
  const wide = SMALL.filter(([, network]) => layOutSystem(network, NARROW).width > 344);
  expect(wide.map(([id]) => id)).toEqual([]);
  expect(SMALL.length).toBeGreaterThan(0);
});

property('any wiring keeps the same laws', 40, (from) => {
  const network = circuit(randomWiring(from));
  for (const [name, spacing] of SPACINGS)
    expect([name, breaches(layOutSystem(network, spacing))]).toEqual([name, []]);
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
