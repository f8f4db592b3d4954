import type { System } from '../../schemas/index.ts';
import type { Drawing } from './drawing.ts';
import type { Rect } from './geometry.ts';
import { round, tag, words } from './markup.ts';
import { fileStyles } from './styles.ts';
import { wrap } from './text.ts';

/** What a sheet's title block says. */
export interface TitleBlock {
  readonly system: System;
  /** Mode shown, by its id. */
  readonly mode: string;
}

const MARGIN = 14;
const FRAME = 6;
const PAD = 10;
const NOTE_LINE = 15;

const READING_IT =
  'Thick and ticked: live to earth in this mode. Dashed edge: neither live nor dead. Thin: dead.';
const CAUTION =
  'Computed from the wiring as entered, not from what is on the wall. Isolate, lock off and prove dead before touching a conductor.';

/**
 * Sets a drawing on a sheet of its own, in one mode, with frame and title block and the
 * styles it needs, so that it can be printed or kept as a file.
 * @param parts the drawing's markup with its size, px.
 */
export function onSheet(
  parts: string,
  size: { width: number; height: number },
  block: TitleBlock,
): Drawing {
  const width = size.width + 2 * MARGIN;
  const title = titleBlock(block, {
    x: FRAME,
    y: MARGIN + size.height + PAD,
    width: width - 2 * FRAME,
  });
  const height = title.bottom + FRAME;
  const frame: Rect = { x: FRAME, y: FRAME, width: width - 2 * FRAME, height: height - 2 * FRAME };
  const { system, mode } = block;
  const svg = tag(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'circuit',
      role: 'group',
      'aria-label': `Wiring diagram: ${system.title}, ${titleOf(block)}`,
      viewBox: `0 0 ${width} ${height}`,
      width,
      height,
    },
    tag('style', {}, fileStyles(mode)),
    tag('rect', { class: 'sheet', width, height }),
    tag('rect', { class: 'frame', ...frame }),
    tag('g', { transform: `translate(${MARGIN} ${MARGIN})` }, parts),
    title.markup,
  );
  return { svg, width, height };
}

const titleOf = ({ system, mode }: TitleBlock): string => system.modes[mode]?.title ?? mode;

function titleBlock(
  block: TitleBlock,
  { x, y, width }: { x: number; y: number; width: number },
): { markup: string; bottom: number } {
  const { system } = block;
  const { review, checked } = system;
  const read = checked ? `checked ${checked}, not reviewed` : 'not reviewed';
  const room = width - 2 * PAD;
  const lines: (readonly [text: string, kind: string])[] = [
    ...wrap(system.title, 13, room, true).map((text) => [text, 'title'] as const),
    [`Mode: ${titleOf(block)}`, 'name'],
    [`Version ${system.version}, ${review ? `reviewed ${review.on}` : read}`, 'place'],
    ...wrap(READING_IT, 11.5, room).map((text) => [text, 'label'] as const),
    ...wrap(CAUTION, 11.5, room).map((text) => [text, 'label'] as const),
  ];
  const rule = tag('path', { class: 'frame', d: `M${x} ${round(y)}H${round(x + width)}` });
  const texts = lines.map(([text, kind], i) => words(text, x + PAD, y + 18 + i * NOTE_LINE, kind));
  return {
    markup: rule + texts.join(''),
    bottom: Math.ceil(y + 10 + lines.length * NOTE_LINE),
  };
}
