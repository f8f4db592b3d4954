import type { Network } from '../../circuit/index.ts';
import { COLOUR_CODES } from '../../published/index.ts';
import { capital } from '../../words/index.ts';
import type { CoreEnd } from '../rewire.ts';
import { coreText, itemText, partText, spoken } from './names.ts';
import { type AsFound, coresOf, dueAt, type FoundEnd, isTerminal } from './state.ts';
import { ratingDue } from './tidy.ts';

/** One act that brings the wiring as found nearer to the entry. */
export type RestoringChange =
  /** Run a cable with the entry's cores, every end as the wiring table shows. */
  | { readonly kind: 'cable'; readonly cable: string }
  | { readonly kind: 'fit'; readonly item: string }
  /** Put a core's end into its terminal, or out of any. */
  | { readonly kind: 'place'; readonly end: CoreEnd; readonly from: string; readonly to: string }
  /** Put two core ends into each other's terminals. */
  | { readonly kind: 'exchange'; readonly ends: readonly [CoreEnd, CoreEnd] }
  | { readonly kind: 'link'; readonly link: number }
  | { readonly kind: 'unlink'; readonly between: readonly [string, string] }
  | { readonly kind: 'unbridge'; readonly branch: string }
  | { readonly kind: 'rating'; readonly branch: string };

/**
 * The fewest changes that restore the entry. A cable with other cores, or with a core too
 * short, is run anew, which puts all its ends right; two ends in each other's terminals are
 * one change.
 */
export function changesFor(intended: Network, found: AsFound): RestoringChange[] {
  const anew = new Set([
    ...Object.keys(found.cables),
    ...found.ends.flatMap(({ cable, point }) => (point === 'short' ? [cable] : [])),
  ]);
  return [
    ...found.bridged.map((branch) => ({ kind: 'unbridge' as const, branch })),
    ...found.extraLinks.map((between) => ({ kind: 'unlink' as const, between })),
    ...found.absent.map((item) => ({ kind: 'fit' as const, item })),
    ...[...anew].map((cable) => ({ kind: 'cable' as const, cable })),
    ...endChanges(
      intended,
      found.ends.filter(({ cable }) => !anew.has(cable)),
    ),
    ...found.missingLinks.map((link) => ({ kind: 'link' as const, link })),
    ...Object.keys(found.ratings).map((branch) => ({ kind: 'rating' as const, branch })),
  ];
}

function endChanges({ system }: Network, ends: readonly FoundEnd[]): RestoringChange[] {
  const due = (end: CoreEnd) => dueAt(system, end);
  const done = new Set<FoundEnd>();
  return ends.flatMap((a): RestoringChange[] => {
    if (done.has(a)) return [];
    done.add(a);
    const partner = partnerOf(a, ends, due, done);
    if (partner) {
      done.add(partner);
      return [{ kind: 'exchange', ends: [plain(a), plain(partner)] }];
    }
    return [{ kind: 'place', end: plain(a), from: a.point, to: due(a) }];
  });
}

/** The end that lies in another's terminal while that one lies in its own. */
export const partnerOf = (
  a: FoundEnd,
  ends: readonly FoundEnd[],
  due: (end: CoreEnd) => string,
  done: ReadonlySet<FoundEnd>,
): FoundEnd | undefined =>
  isTerminal(a.point) && isTerminal(due(a))
    ? ends.find((b) => !done.has(b) && b.point === due(a) && a.point === due(b))
    : undefined;

const plain = ({ cable, colour, end }: FoundEnd): CoreEnd => ({ cable, colour, end });

/** The wiring as found after one of its changes. */
export function afterChange(intended: Network, found: AsFound, change: RestoringChange): AsFound {
  const without = <T>(record: Readonly<Record<string, T>>, key: string) =>
    Object.fromEntries(Object.entries(record).filter(([own]) => own !== key));
  const sameEnd = (a: CoreEnd, b: CoreEnd) =>
    a.cable === b.cable && a.colour === b.colour && a.end === b.end;
  switch (change.kind) {
    case 'cable':
      return {
        ...found,
        cables: without(found.cables, change.cable),
        ends: found.ends.filter(({ cable }) => cable !== change.cable),
      };
    case 'fit':
      return { ...found, absent: found.absent.filter((item) => item !== change.item) };
    case 'place':
      return {
        ...found,
        ends: [
          ...found.ends.filter((end) => !sameEnd(end, change.end)),
          { ...change.end, point: change.to },
        ],
      };
    case 'exchange': {
      const [a, b] = change.ends;
      const at = (end: CoreEnd) =>
        found.ends.find((one) => sameEnd(one, end))?.point ?? dueAt(intended.system, end);
      return {
        ...found,
        ends: [
          ...found.ends.filter((end) => !sameEnd(end, a) && !sameEnd(end, b)),
          { ...a, point: at(b) },
          { ...b, point: at(a) },
        ],
      };
    }
    case 'link':
      return { ...found, missingLinks: found.missingLinks.filter((i) => i !== change.link) };
    case 'unlink':
      return {
        ...found,
        extraLinks: found.extraLinks.filter((pair) => pair.join() !== change.between.join()),
      };
    case 'unbridge':
      return { ...found, bridged: found.bridged.filter((id) => id !== change.branch) };
    case 'rating':
      return { ...found, ratings: without(found.ratings, change.branch) };
  }
}

/** A change as an act to be done isolated and proved dead. */
export function changeText(intended: Network, change: RestoringChange): string {
  const { system } = intended;
  switch (change.kind) {
    case 'cable': {
      const cores = coresOf(system.cables[change.cable]!);
      return `Run a cable with ${cores.length} cores (${cores.map((colour) => COLOUR_CODES[colour]).join(', ')}) for ${change.cable}, and connect every core as the wiring table shows`;
    }
    case 'fit':
      return `Fit the ${itemText(intended, change.item)} and connect its cores as the wiring table shows`;
    case 'place': {
      const core = coreText(change.end);
      if (!isTerminal(change.to))
        return `Take the ${core} out of ${spoken(change.from)}, and end it in a terminal of its own or insulate it`;
      return isTerminal(change.from)
        ? `Move the ${core} from ${spoken(change.from)} to ${spoken(change.to)}`
        : `Connect the ${core} to ${spoken(change.to)}`;
    }
    case 'exchange': {
      const [a, b] = change.ends;
      const due = [a, b].map((end) => spoken(dueAt(system, end)));
      return `Swap over the ${coreText(a)} and the ${coreText(b)}: into ${due[0]} and ${due[1]}`;
    }
    case 'link': {
      const [a, b] = system.links[change.link]!.between;
      return `Fit the link between ${spoken(a)} and ${spoken(b)}`;
    }
    case 'unlink':
      return `Take out the link between ${spoken(change.between[0])} and ${spoken(change.between[1])}`;
    case 'unbridge':
      return `Take away the bridge across the ${partText(intended, change.branch)}`;
    case 'rating':
      return capital(
        `fit ${ratingDue(intended, change.branch)} A: ${partText(intended, change.branch)}`,
      );
  }
}
