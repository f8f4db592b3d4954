import {
  PDFArray,
  type PDFContext,
  PDFDict,
  PDFDocument,
  PDFHexString,
  PDFName,
  type PDFRef,
  PDFString,
} from '@cantoo/pdf-lib';
import type { Chapter } from './chapters.ts';
import type { Part } from './print.ts';
import type { ContentsLine } from './print-front.ts';

/** What is printed once the parts are known. */
export interface Printer {
  /** What stands before the contents: whose pages these are, and of which version. */
  readonly cover: () => Promise<Uint8Array>;
  /** The contents; every line is a link to its entry's address. */
  readonly contents: (chapters: readonly Chapter<ContentsLine>[]) => Promise<Uint8Array>;
  /** A leaf for every page, with what stands at its foot. */
  readonly numbers: (count: number) => Promise<Uint8Array>;
}

/** What the file says of itself. */
export interface Binding {
  readonly title: string;
  /** Address from which the parts were printed: links to it lead within the pack. */
  readonly address: string;
}

/** Where the foot stands on its leaf, points: below every page's print. */
export const FOOT = { height: 22 } as const;

/**
 * Binds parts into one file: cover and contents first, then the parts, every page numbered at its
 * foot.
 * Contents, bookmarks and links between entries lead to the pages they name; a link to what is
 * not in the pack is none on paper.
 */
export async function bind(
  { title, address }: Binding,
  chapters: readonly Chapter<Part>[],
  print: Printer,
): Promise<Uint8Array> {
  // How many pages the contents take does not depend on the numbers in them.
  const cover = await PDFDocument.load(await print.cover());
  const sketch = await PDFDocument.load(await print.contents(linesOf(chapters, [], 0)));
  const parts = chapters.flatMap(({ pages }) => pages);
  const printed = await Promise.all(parts.map(({ pdf }) => PDFDocument.load(pdf)));
  const lines = linesOf(
    chapters,
    printed.map((pdf) => pdf.getPageCount()),
    cover.getPageCount() + sketch.getPageCount(),
  );
  const book = await PDFDocument.create();
  book.setTitle(title);
  book.setLanguage('en-GB');
  book.setCreator('Proveline');
  const contents = await PDFDocument.load(await print.contents(lines));
  for (const pdf of [cover, contents, ...printed])
    for (const page of await book.copyPages(pdf, pdf.getPageIndices())) book.addPage(page);
  leadWithin(
    book,
    address,
    lines.flatMap(({ pages }) => pages),
  );
  addBookmarks(book, lines);
  await numberPages(book, await print.numbers(book.getPageCount()));
  return book.save();
}

/** The lines of the contents; `counts` holds how many pages each part takes. */
function linesOf(
  chapters: readonly Chapter<Part>[],
  counts: readonly number[],
  before: number,
): Chapter<ContentsLine>[] {
  let first = before + 1;
  let at = 0;
  return chapters.map(({ title, pages }) => ({
    title,
    pages: pages.flatMap(({ entries }) => {
      const lines = entries.map(({ page, ...entry }) => ({ ...entry, page: first + page }));
      first += counts[at] ?? 0;
      at += 1;
      return lines;
    }),
  }));
}

/** Links of the site become links within the file (ISO 32000-1, 12.5.6.5), or none. */
function leadWithin(book: PDFDocument, address: string, lines: readonly ContentsLine[]): void {
  const ofPath = new Map(lines.map(({ path, page }) => [ownPath(path), page]));
  for (const page of book.getPages()) {
    const links = page.node.lookupMaybe(PDFName.of('Annots'), PDFArray);
    if (!links) continue;
    const kept = links.asArray().filter((ref) => {
      const link = book.context.lookupMaybe(ref, PDFDict);
      const url = link && addressOf(link);
      if (!link || url === undefined) return false;
      if (!url.startsWith(address)) return true;
      const target = ofPath.get(ownPath(url.slice(address.length)));
      if (target === undefined) return false;
      link.delete(PDFName.of('A'));
      link.set(PDFName.of('Dest'), book.context.obj([book.getPage(target - 1).ref, 'Fit']));
      return true;
    });
    page.node.set(PDFName.of('Annots'), book.context.obj(kept));
  }
}

/** An entry's address without what is below it: all of a system stands on its sheet. */
const ownPath = (path: string): string =>
  path
    .replace(/[?#].*$/, '')
    .split('/')
    .filter(Boolean)
    .slice(0, 2)
    .join('/');

/** Where a link of a printed page leads, as an address. */
function addressOf(link: PDFDict): string | undefined {
  const action = link.lookupMaybe(PDFName.of('A'), PDFDict);
  const url = action?.get(PDFName.of('URI'));
  return url instanceof PDFString || url instanceof PDFHexString ? url.decodeText() : undefined;
}

/** A bookmark, and those below it. */
interface Bookmark {
  readonly title: string;
  readonly page: number;
  readonly below: readonly Bookmark[];
}

/** The outline a reader shows beside the pages (ISO 32000-1, 12.3.3): chapters, closed. */
function addBookmarks(book: PDFDocument, chapters: readonly Chapter<ContentsLine>[]): void {
  const { context } = book;
  const marks = chapters.map(({ title, pages }) => ({
    title,
    page: pages[0]!.page,
    below: pages.map((line) => ({ ...line, below: [] })),
  }));
  if (marks.length === 0) return;
  const outline = context.nextRef();
  const [first, last] = addRow(book, context, outline, marks);
  context.assign(
    outline,
    context.obj({ Type: 'Outlines', First: first, Last: last, Count: marks.length }),
  );
  book.catalog.set(PDFName.of('Outlines'), outline);
  book.catalog.set(PDFName.of('PageMode'), PDFName.of('UseOutlines'));
}

/** Adds bookmarks of one parent and gives the first and the last of them. */
function addRow(
  book: PDFDocument,
  context: PDFContext,
  parent: PDFRef,
  marks: readonly Bookmark[],
): [PDFRef, PDFRef] {
  const refs = marks.map(() => context.nextRef());
  for (const [i, { title, page, below }] of marks.entries()) {
    const [first, last] = below.length > 0 ? addRow(book, context, refs[i]!, below) : [];
    context.assign(
      refs[i]!,
      context.obj({
        Title: PDFHexString.fromText(title),
        Parent: parent,
        Dest: [book.getPage(page - 1).ref, 'Fit'],
        ...(i > 0 ? { Prev: refs[i - 1]! } : {}),
        ...(i < marks.length - 1 ? { Next: refs[i + 1]! } : {}),
        ...(first && last ? { First: first, Last: last, Count: -below.length } : {}),
      }),
    );
  }
  return [refs[0]!, refs.at(-1)!];
}

/** Lays the foot of each leaf over the foot of its page, in the middle of a page of any width. */
async function numberPages(book: PDFDocument, numbers: Uint8Array): Promise<void> {
  const leaves = (await PDFDocument.load(numbers)).getPages();
  for (const [i, page] of book.getPages().entries()) {
    const leaf = leaves[i];
    if (!leaf) throw new Error(`There is no number for page ${i + 1}`);
    // A narrower page takes the middle of it.
    const width = Math.min(leaf.getWidth(), page.getWidth());
    const left = (leaf.getWidth() - width) / 2;
    const box = { left, right: left + width, bottom: 0, top: FOOT.height };
    const foot = await book.embedPage(leaf, box);
    page.drawPage(foot, { x: (page.getWidth() - width) / 2, y: 0 });
  }
}
