import { terminalMark } from '../words/index.ts';
import type { Box } from './box.ts';
import type { Cell } from './cells.ts';
import type { Side } from './geometry.ts';
import type { PlacedSymbol } from './inside-lines.ts';
import type { Marks } from './marks.ts';
import { escaped, round, tag, words } from './markup.ts';
import { straight } from './paths.ts';
import { LINE, SCREW, TYPE } from './spacing.ts';
import { SYMBOL_SIZE } from './symbol-sizes.ts';
import { earthMark, SYMBOLS } from './symbols.ts';
import { textWidth } from './text.ts';

const SPARE = 'spare core, cut back';

/** An item's box: outline, heading, inside, terminals. */
export function drawBox(box: Box, marks: Marks): string {
  const { x, y, width, height } = box.rect;
  const right = x + width;
  return tag(
    'g',
    { class: 'item', 'data-item': box.item },
    tag('rect', { class: 'outline', x, y, width, height, rx: 2 }),
    ...box.heading.map(({ text, kind, x, y }) => words(text, x, y, kind)),
    tag('path', { class: 'rule', d: `M${round(x)} ${round(box.rule)}H${round(right)}` }),
    ...box.linkages.map(({ from, to }) => tag('path', { class: 'linkage', d: straight(from, to) })),
    ...drawWires(box, marks),
    ...box.dots.map(({ node, x, y }) =>
      tag('circle', { class: 'dot', cx: x, cy: y, r: 2.6, ...marks.node(node) }),
    ),
    ...box.symbols.map((symbol) => drawElement(symbol, marks)),
    ...box.cells.map((cell) => drawCell(cell, marks)),
    ...[...box.spares.values()].map((at) =>
      box.face === 'left'
        ? words(SPARE, x + SCREW.inset, at + 4, 'label')
        : words(SPARE, right - SCREW.inset, at + 4, 'label', 'end'),
    ),
  );
}

/** One path a node; each is cut free of those under it, so that a crossing looks like none. */
function drawWires(box: Box, marks: Marks): string[] {
  const byNode = new Map<string, string>();
  for (const { node, from, to } of box.wires) {
    byNode.set(node, (byNode.get(node) ?? '') + straight(from, to));
  }
  return [...byNode].flatMap(([node, d]) => [
    tag('path', { class: 'clear inside', d }),
    tag('path', { class: 'wire', 'data-node': node, d, ...marks.node(node) }),
  ]);
}

function drawElement(symbol: PlacedSymbol, marks: Marks): string {
  const { step, x, y, left, right, label, labelAt } = symbol;
  const { reach, body } = SYMBOLS[step.symbol];
  const half = SYMBOL_SIZE[step.symbol].width / 2;
  const lead = (node: string, from: number, to: number) =>
    tag('path', {
      class: 'wire',
      'data-node': node,
      d: `M${round(from)} 0H${round(to)}`,
      ...marks.node(node),
    });
  return tag(
    'g',
    {
      class: `element ${step.symbol}`,
      'data-element': step.id,
      'data-toggle': step.toggle,
      transform: `translate(${round(x)} ${round(y)})`,
      ...marks.element(step, left, right),
    },
    step.label === '' || marks.isSparing ? '' : tag('title', {}, escaped(step.label)),
    ...label.map((line, i) => words(line, 0, labelAt - y + i * LINE.label, 'label', 'middle')),
    lead(left, -half, -reach),
    lead(right, reach, half),
    body,
  );
}

function drawCell(cell: Cell, marks: Marks): string {
  const { x, y, width, height } = cell.rect;
  const name = terminalMark(cell.name);
  const nameAt = x + cell.nameFrom;
  const markAt = nameAt + textWidth(name, TYPE.name, true) + 10;
  return marks.terminal(
    cell.id,
    cell.extraLow ? 'terminal extra-low' : 'terminal',
    cell.label.join(' '),
    tag('rect', { class: 'cell', x, y, width, height }),
    words(cell.label.length > 0 ? `${name} ` : name, nameAt, y + cell.nameAt, 'name'),
    cell.earth === 'none'
      ? ''
      : tag(
          'g',
          {
            class: 'earth',
            transform: `translate(${round(markAt)} ${round(y + cell.nameAt - 4.6)})`,
          },
          earthMark(cell.earth === 'protective'),
        ),
    // Ends in a space, so that the link's own name and what is printed are the same words.
    ...cell.label.map((line, i) =>
      words(`${line} `, x + cell.labelAt.x, y + cell.labelAt.y + i * LINE.label, 'label'),
    ),
    ...drawScrews(cell, 'left', marks),
    ...drawScrews(cell, 'right', marks),
  );
}

function drawScrews({ id, rect, slots }: Cell, side: Side, marks: Marks): string[] {
  const states = marks.node(id);
  const x = side === 'left' ? rect.x + SCREW.inset : rect.x + rect.width - SCREW.inset;
  return slots[side].flatMap((at) => [
    tag('circle', { class: 'screw', cx: x, cy: at, r: SCREW.radius }),
    marks.ifEver(
      states,
      ['between'],
      tag('path', {
        class: 'half',
        d: `M${round(x)} ${round(at - SCREW.radius)}a${SCREW.radius} ${SCREW.radius} 0 0 0 0 ${2 * SCREW.radius}z`,
      }),
    ),
  ]);
}
