import { COLOUR_CODES } from '../published/index.ts';
import type { Point } from './geometry.ts';
import type { Conductor, Exit, Sheet, Tag } from './layout.ts';
import { codeOf, type Lead } from './leads.ts';
import type { Marks } from './marks.ts';
import { escaped, round, tag, words } from './markup.ts';
import { rounded, straight } from './paths.ts';
import { SCREW, TAG, TICK } from './spacing.ts';
import { EDGED } from './styles.ts';
import { textWidth } from './text.ts';

const CODE_AT = 4;
const BEND = 6;
const SLEEVE = { from: 0.5, to: 6.5 } as const;
const CAP = 4;

/** A conductor from screw to screw, with its code at both ends. */
export function drawConductor(conductor: Conductor, sheet: Sheet, marks: Marks): string {
  const { lead, points, exits } = conductor;
  const reach = lead.spare ? 0 : SCREW.inset - SCREW.radius;
  const inward = (point: Point, { side }: Exit) => ({
    ...point,
    x: point.x + (side === 'right' ? -reach : reach),
  });
  const [first, last] = [points[0]!, points.at(-1)!];
  const line = rounded([inward(first, exits[0]), ...points.slice(1, -1), inward(last, exits[1])]);
  const stroke = (className: string) => tag('path', { class: className, d: line });
  const states = marks.conductor(lead);
  const casing = stroke('casing');
  return tag(
    'g',
    {
      class: `conductor ${lead.colour ? `core-${lead.colour}` : 'wire-link'}`,
      'data-conductor': lead.id,
      ...states,
    },
    marks.isSparing ? '' : tag('title', {}, escaped(titleOf(lead))),
    stroke('clear'),
    // A pale core is edged in every state.
    lead.colour && EDGED.has(lead.colour)
      ? casing
      : marks.ifEver(states, ['live', 'between'], casing),
    stroke('core'),
    lead.colour === 'GNYE' ? stroke('stripe') : '',
    marks.ifEver(states, ['live'], tag('path', { class: 'ticks', d: ticksOn(points) })),
    drawSleeves(lead, [
      [first, exits[0]],
      [last, exits[1]],
    ]),
    drawEnd(lead, first, exits[0], sheet),
    drawEnd(lead, last, exits[1], sheet),
  );
}

/** On every upright run. */
const ticksOn = (points: readonly Point[]): string =>
  points
    .slice(1)
    .map((to, i) => [points[i]!, to] as const)
    .filter(([from, to]) => from.x === to.x)
    .map(([from, to]) => ticksOf(from, to))
    .join('');

/** An upright run without its corners, so that no tick stands on a bend. */
function ticksOf(from: Point, to: Point): string {
  const [top, bottom] = [Math.min(from.y, to.y), Math.max(from.y, to.y)];
  const length = Math.max(0, bottom - top - 2 * BEND);
  const first = top + BEND + ((length - TICK.width) % TICK.every) / 2;
  return straight({ x: from.x, y: first }, { x: from.x, y: Math.max(first, bottom - BEND) });
}

/** Sleeves at both ends, edged. */
function drawSleeves({ sleeve }: Lead, ends: readonly (readonly [Point, Exit])[]): string {
  if (!sleeve) return '';
  const d = ends
    .map(([{ y }, exit]) => {
      const away = exit.side === 'right' ? 1 : -1;
      const from = exit.x + away * SLEEVE.from;
      return `M${round(from)} ${round(y)}h${away * (SLEEVE.to - SLEEVE.from)}`;
    })
    .join('');
  return (
    tag('path', { class: 'sleeve-edge', d }) + tag('path', { class: `sleeve core-${sleeve}`, d })
  );
}

function drawEnd(lead: Lead, { x, y }: Point, exit: Exit, { spacing }: Sheet): string {
  const code = codeOf(lead, spacing.cableAtEnds);
  const width = textWidth(code, spacing.letters.code, true);
  const away = exit.side === 'right' ? 1 : -1;
  const near = exit.x + away * (CODE_AT + (lead.sleeve ? SLEEVE.to : 0));
  const at = away === 1 ? near : near - width;
  // Across, where a page holds this drawing beside another, the letters' own edge is the plate.
  const parts = spacing.grid
    ? [words(code, at, y + 4, 'code edged')]
    : [
        tag('rect', { class: 'plate', x: at - 2, y: y - 5.5, width: width + 3, height: 11 }),
        words(code, at, y + 4, 'code'),
      ];
  if (lead.spare) {
    parts.unshift(tag('path', { class: 'cap', d: `M${round(x)} ${round(y - CAP)}v${2 * CAP}` }));
  }
  return parts.join('');
}

function titleOf(lead: Lead): string {
  const [from, to] = lead.ends.map((id) => id.replace('.', ' '));
  if (lead.colour === undefined) return `Wire link, ${from} to ${to}`;
  const sleeve = lead.sleeve ? ` sleeved ${COLOUR_CODES[lead.sleeve]}` : '';
  const colour = `${lead.cable} ${COLOUR_CODES[lead.colour]}${sleeve}`;
  return lead.spare ? `${colour}, spare` : `${colour}, ${from} to ${to}`;
}

/** A cable's reference in a ring around its cores. */
export const drawTag = ({ cable, x, y, width, height }: Tag): string =>
  tag(
    'g',
    { class: 'cable', 'data-cable': cable },
    tag('rect', { class: 'ring', x, y, width, height, rx: TAG.height / 2 }),
    words(cable, x + width / 2, y + height - 3.6, 'code', 'middle'),
  );
