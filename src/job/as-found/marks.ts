import type { ColourCode } from '../../published/index.ts';
import type { AsFound } from '../../wiring/as-found/index.ts';
import type { CoreEnd } from '../../wiring/index.ts';
import type { FoundSheet, SheetCable, SheetCore } from './found-sheet.ts';

// What a tap does to the marks. The engine tidies them: what is marked as the entry has it
// is marked no more.

const sameEnd = (a: CoreEnd, b: CoreEnd) =>
  a.cable === b.cable && a.colour === b.colour && a.end === b.end;

/** The marks with a core's end in a terminal, `loose` or `short`. */
export const setEnd = (found: AsFound, end: CoreEnd, point: string): AsFound => ({
  ...found,
  ends: [...found.ends.filter((one) => !sameEnd(one, end)), { ...end, point }],
});

/** The marks with other cores in a cable. Ends of cores that are gone are marked no more. */
export const setCores = (found: AsFound, cable: string, cores: readonly ColourCode[]): AsFound => ({
  ...found,
  cables: { ...found.cables, [cable]: cores },
  ends: found.ends.filter((end) => end.cable !== cable || cores.includes(end.colour)),
});

const toggled = <T>(list: readonly T[], value: T): T[] =>
  list.includes(value) ? list.filter((one) => one !== value) : [...list, value];

export const toggleLink = (found: AsFound, link: number): AsFound => ({
  ...found,
  missingLinks: toggled(found.missingLinks, link),
});

export const addLink = (found: AsFound, from: string, to: string): AsFound => ({
  ...found,
  extraLinks: [...found.extraLinks, [from, to]],
});

export const removeLink = (found: AsFound, at: number): AsFound => ({
  ...found,
  extraLinks: found.extraLinks.filter((_, i) => i !== at),
});

export const toggleAbsent = (found: AsFound, item: string): AsFound => ({
  ...found,
  absent: toggled(found.absent, item),
});

/** The marks with a contact or fuse bridged, or not. A bridged fuse has no rating that counts. */
export const toggleBridge = (found: AsFound, branch: string): AsFound => ({
  ...found,
  bridged: toggled(found.bridged, branch),
  ratings: without(found.ratings, branch),
});

/** The marks with a fuse of a rating, A, and no bridge across it. */
export const setRating = (found: AsFound, branch: string, rating: number): AsFound => ({
  ...found,
  bridged: found.bridged.filter((id) => id !== branch),
  ratings: { ...found.ratings, [branch]: rating },
});

const without = <T>(record: Readonly<Record<string, T>>, key: string) =>
  Object.fromEntries(Object.entries(record).filter(([own]) => own !== key));

/** Cores found in a cable, with where the entry has their ends. */
export function coresFound(cable: SheetCable, found: AsFound): SheetCore[] {
  const colours = found.cables[cable.ref] ?? cable.cores.map(({ colour }) => colour);
  const added = colours.filter((colour) => !cable.cores.some((core) => core.colour === colour));
  return [...cable.cores, ...added.map((colour) => ({ colour, due: ['loose', 'loose'] as const }))];
}

/** Whether a core is in its cable. */
export const isThere = (found: AsFound, cable: string, colour: ColourCode): boolean =>
  found.cables[cable]?.includes(colour) ?? true;

/** Where a core's end is, as marked. */
export const pointFound = (found: AsFound, end: CoreEnd, due: string): string =>
  found.ends.find((one) => sameEnd(one, end))?.point ?? due;

/** How many things are marked at a cable. */
export const marksAt = (found: AsFound, cable: string): number =>
  found.ends.filter((end) => end.cable === cable).length + (found.cables[cable] ? 1 : 0);

/** Terminals of an item, those that something is joined to first. */
export const terminalsAt = (sheet: FoundSheet, item: string) =>
  (sheet.items.find(({ ref }) => ref === item)?.points ?? []).toSorted(
    (a, b) => Number(b.joined) - Number(a.joined),
  );

/** Cores that are in a terminal as marked, as in `BN of W2`. */
export const coresAt = ({ cables }: FoundSheet, found: AsFound, point: string): string[] =>
  cables.flatMap((cable) =>
    coresFound(cable, found)
      .filter(
        ({ colour, due }) =>
          isThere(found, cable.ref, colour) &&
          ([0, 1] as const).some(
            (end) => pointFound(found, { cable: cable.ref, colour, end }, due[end]) === point,
          ),
      )
      .map(({ colour }) => `${colour} of ${cable.ref}`),
  );
