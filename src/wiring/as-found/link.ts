import type { Network } from '../../circuit/index.ts';
import type { ColourCode } from '../../published/index.ts';
import type { EndIndex } from '../rewire.ts';
import { AsFoundData } from './schema.ts';
import { DAMAGED, type LinkProblem, MOST_LINK, seal, unseal } from './seal.ts';
import { AS_ENTRY, type AsFound, type FoundEnd } from './state.ts';
import { problemWithFound, tidy } from './tidy.ts';

/** A link's wiring as found, or why there is none. */
export type FoundLink =
  | { readonly found: AsFound }
  | (LinkProblem & {
      /** System the link is of, where it says. */
      readonly system?: string;
      /** The marks of an outdated link whose terminals and cores all still exist; shown only when asked for. */
      readonly outdated?: AsFound;
    });

/** The wiring as found in few letters; absent where there is nothing to say. */
interface Brief {
  /** Cables: `W4` → `BN-BU-GNYE`. */
  readonly c?: Readonly<Record<string, string>>;
  /** Ends: `W4.BK@2>X1.3`, `W4.BK@2>loose`. */
  readonly e?: readonly string[];
  readonly l?: readonly number[];
  /** Links: `X1.1>X1.3`. */
  readonly x?: readonly string[];
  readonly b?: readonly string[];
  readonly a?: readonly string[];
  readonly r?: Readonly<Record<string, number>>;
}

/**
 * The whole wiring as found as text for a link or a file; null where it is too much for one.
 * The same wiring always gives the same text.
 */
export function foundLink(intended: Network, found: AsFound): string | null {
  const text = seal(intended.id, intended.system.version, briefOf(tidy(intended, found)));
  return text.length > MOST_LINK ? null : text;
}

/** Reads what `foundLink` wrote, whatever happened to it on its way. */
export function readFoundLink(intended: Network, text: string): FoundLink {
  const opened = unseal(text);
  if ('problem' in opened) return opened;
  const { system, wiring, value } = opened;
  if (system !== intended.id && !intended.system.formerly?.includes(system))
    return {
      problem: 'other system',
      message: `This link is of another system, ${system}. Nothing of it was taken over.`,
      system,
    };
  const read = AsFoundData.safeParse(fullOf(value));
  if (!read.success) return DAMAGED;
  const found = read.data;
  const unknown = problemWithFound(intended, found);
  if (wiring !== intended.system.version)
    return {
      problem: 'outdated',
      message: `This link was made for version ${wiring} of the wiring; the drawing here is version ${intended.system.version}. What it marks may not mean the same, so it is not shown unasked.`,
      system,
      ...(unknown === null ? { outdated: tidy(intended, found) } : {}),
    };
  if (unknown !== null)
    return {
      problem: 'unknown',
      message: `This link names something that is not on the drawing: ${unknown}. Nothing of it was taken over.`,
      system,
    };
  return { found: tidy(intended, found) };
}

function briefOf(found: AsFound): Brief {
  const { cables, ends, missingLinks, extraLinks, bridged, absent, ratings } = found;
  const some = <T extends readonly unknown[]>(key: keyof Brief, list: T) =>
    list.length > 0 ? { [key]: list } : {};
  const cores = Object.entries(cables).map(([cable, colours]) => [cable, colours.join('-')]);
  return {
    ...(cores.length > 0 ? { c: Object.fromEntries(cores) } : {}),
    ...some(
      'e',
      ends.map((e) => `${e.cable}.${e.colour}@${e.end + 1}>${e.point}`),
    ),
    ...some('l', missingLinks),
    ...some(
      'x',
      extraLinks.map((pair) => pair.join('>')),
    ),
    ...some('b', bridged),
    ...some('a', absent),
    ...(Object.keys(ratings).length > 0 ? { r: ratings } : {}),
  };
}

/** A brief as the state it stands for; anything else as something the schema refuses. */
function fullOf(value: unknown): unknown {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return null;
  const { c, e, l, x, b, a, r, ...rest } = value as Record<string, unknown>;
  if (Object.keys(rest).length > 0) return null;
  const lines = (list: unknown): unknown[] => (Array.isArray(list) ? list : [list]);
  const cables =
    typeof c === 'object' && c !== null
      ? Object.entries(c).map(([cable, cores]) => [cable, coresIn(cores)])
      : c;
  return {
    cables: c === undefined ? {} : Array.isArray(cables) ? Object.fromEntries(cables) : null,
    ends: e === undefined ? AS_ENTRY.ends : lines(e).map(endIn),
    missingLinks: l ?? AS_ENTRY.missingLinks,
    extraLinks:
      x === undefined
        ? AS_ENTRY.extraLinks
        : lines(x).map((pair) => (typeof pair === 'string' ? pair.split('>') : null)),
    bridged: b ?? AS_ENTRY.bridged,
    absent: a ?? AS_ENTRY.absent,
    ratings: r ?? AS_ENTRY.ratings,
  };
}

/** A cable may have lost every core: no letters, no cores. */
const coresIn = (text: unknown): unknown =>
  typeof text === 'string' ? (text === '' ? [] : text.split('-')) : null;

function endIn(text: unknown): FoundEnd | null {
  const parts = typeof text === 'string' ? /^([^.@>]+)\.([A-Z]+)@([12])>(.+)$/.exec(text) : null;
  if (!parts) return null;
  const [, cable, colour, end, point] = parts;
  return {
    cable: cable!,
    colour: colour as ColourCode,
    end: (Number(end) - 1) as EndIndex,
    point: point!,
  };
}
