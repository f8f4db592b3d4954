import { takeOverKept } from '../../former/index.ts';

/** Marks printed beside terminals, as typed: `old COM` or `new L` → the mark. */
export type Marks = Readonly<Record<string, string>>;

/** Longest mark that is kept, characters. */
export const LONGEST_MARK = 12;

const place = (key: string) => `proveline.marks.${key}`;

/** Has the marks typed on this sheet's page of old stand on the page of now. */
export const takeOverMarks = (key: string, former: readonly string[]): void =>
  takeOverKept(place(key), former.map(place));

/** Marks typed before for this sheet; none where storage is closed or holds something else. */
export function readMarks(key: string): Marks {
  try {
    return marksIn(JSON.parse(localStorage.getItem(place(key)) ?? '{}'));
  } catch {
    return {};
  }
}

/** Those of a value's entries that are marks of a terminal. */
export function marksIn(value: unknown): Marks {
  if (typeof value !== 'object' || value === null) return {};
  return Object.fromEntries(
    Object.entries(value).flatMap(([name, mark]) =>
      /^(old|new) /.test(name) && typeof mark === 'string' && mark.trim() !== ''
        ? [[name, mark.slice(0, LONGEST_MARK)] as const]
        : [],
    ),
  );
}

/** Keeps the marks on this phone. @returns whether they could be kept */
export function keepMarks(key: string, marks: Marks): boolean {
  try {
    const kept = marksIn(marks);
    if (Object.keys(kept).length === 0) localStorage.removeItem(place(key));
    else localStorage.setItem(place(key), JSON.stringify(kept));
    return true;
  } catch {
    return false;
  }
}
