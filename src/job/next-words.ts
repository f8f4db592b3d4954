import { capital, EARTH_FIRST, lowerFirst, terminalWords } from '../words/index.ts';
import type { Asked, NextTest } from './findings.ts';
import { openingsFor } from './openings.ts';
import { actIn, fuseIn, itemIn, outcomeIn, pointIn, refOf, type Sheet } from './sheet.ts';
import { askedText, fuseHow, LEAST_MINUTES, minutesText, nameOf } from './words.ts';

/** What kind of act it is, in a heading. */
export const NEXT_TITLES = {
  look: 'Look',
  live: 'Read, supply on',
  dead: 'Test dead',
  fuse: 'Test the fuse',
  act: 'Do',
} as const;

/** What it is for, and what it takes. */
export const whyText = ({ why, minutes, asked }: NextTest): string =>
  // A look in another mode takes the minutes that bring the mode about.
  asked.kind === 'look' && minutes < LEAST_MINUTES
    ? why
    : `${why} It takes ${minutesText(minutes)}.`;

/** What is asked next, part by part. */
export interface NextSaid {
  readonly what: string;
  /** Reference of the item, small behind what is done; empty where that names it. */
  readonly code: string;
  /** The room or wall that it is at; empty where the entry does not say. */
  readonly place: string;
  /** Which part of the item, and what comes off for it; empty where what is done says it. */
  readonly where: string;
  /** How it is done, and with what; empty where what says it all. */
  readonly how: string;
  /** The instrument that answers it; empty where none is laid on. */
  readonly instrument: string;
  /** What to mind beside what safety asks; empty where nothing is. */
  readonly caution: string;
}

/**
 * What is asked next, in words.
 * @param cautioned whether a caution beside it says what comes off.
 */
export function nextSaid(
  sheet: Sheet,
  { asked, opens }: Pick<NextTest, 'asked' | 'opens'>,
  cautioned: boolean,
): NextSaid {
  const ref = whereOf(sheet, asked);
  const item = itemIn(sheet, ref);
  const openings = opens && !cautioned ? openingsOf(sheet, asked) : [];
  const open =
    openings.length > 0 ? `to open: ${openings.map(({ title }) => title).join(', ')}` : '';
  const at = (what: string | undefined) => capital([what, open].filter(Boolean).join(', '));
  const said = {
    code: ref,
    place: item?.place ?? '',
    where: at(item?.title),
    how: '',
    instrument: '',
    caution: '',
  };
  switch (asked.kind) {
    case 'look': {
      const outcome = outcomeIn(sheet, asked.outcome);
      // Where it stands among several positions is asked by the item's own name.
      const at = outcome?.at ?? '';
      const where = at !== '' || (outcome && outcome.oneOf.length > 0) ? '' : said.where;
      const what = askedText(sheet, asked);
      return { ...said, where, what, place: at || said.place, caution: outcome?.care ?? '' };
    }
    case 'act': {
      const act = actIn(sheet, asked.id);
      const { how = '', caution = '' } = act ?? {};
      // Its title names the item, code and all.
      return { ...said, what: askedText(sheet, asked), code: '', where: at(''), how, caution };
    }
    case 'fuse': {
      const fuse = fuseIn(sheet, asked.branch);
      return { ...said, what: askedText(sheet, asked), how: fuse ? fuseHow(fuse.rating) : '' };
    }
    default: {
      const [from, to] = [asked.from, asked.to].map((id) => terminalWords(nameOf(id)));
      const far = refOf(asked.to) === ref ? '' : ` at ${titleOf(sheet, refOf(asked.to))}`;
      return {
        ...said,
        what: `${item?.title ?? ref}, ${from} to ${to}${far}${asked.kind === 'dead' ? ', ohms' : ''}`,
        where: at(pointIn(sheet, asked.from)?.function),
        how: asked.kind === 'live' && isToEarth(sheet, asked) ? EARTH_FIRST : '',
        instrument: asked.kind === 'live' ? instrumentText(sheet, asked.instrument) : '',
      };
    }
  }
}

const isToEarth = (sheet: Sheet, { from, to }: Extract<Asked, { kind: 'live' }>): boolean =>
  ['line', 'switched'].includes(pointIn(sheet, from)?.carries ?? '') &&
  pointIn(sheet, to)?.carries === 'earth';

const titleOf = (sheet: Sheet, ref: string): string => itemIn(sheet, ref)?.title ?? ref;

const instrumentText = (sheet: Sheet, id: string): string =>
  lowerFirst(sheet.instruments.find((one) => one.id === id)?.title ?? id);

const openingsOf = (sheet: Sheet, asked: Asked) =>
  asked.kind === 'look' ? [] : openingsFor(sheet, asked.kind === 'act' ? { act: asked.id } : asked);

/** The item that something asked is at. */
function whereOf(sheet: Sheet, asked: Asked): string {
  switch (asked.kind) {
    case 'look':
      return refOf(asked.outcome);
    case 'fuse':
      return refOf(asked.branch);
    case 'act':
      return actIn(sheet, asked.id)?.item ?? '';
    default:
      return refOf(asked.from);
  }
}
