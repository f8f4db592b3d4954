import {
  PDFArray,
  PDFDocument,
  type PDFFont,
  PDFHexString,
  PDFName,
  type PDFPage,
  StandardFonts,
} from '@cantoo/pdf-lib';

/** One part of the printed pack. */
export interface Part {
  readonly title: string;
  readonly pdf: Uint8Array;
}

/** A line of the contents. */
export interface ContentsLine {
  readonly title: string;
  /** Page of the pack it begins on, from 1. */
  readonly page: number;
}

/** A4 in points, and where contents lines stand on it. */
const A4 = [595.28, 841.89] as const;
const MARGIN = 48;
const LINE = 20;
const TOP = 150;
const PER_PAGE = Math.floor((A4[1] - TOP - MARGIN) / LINE);

/** Words at the head of the contents. */
export interface Head {
  readonly title: string;
  readonly under: readonly string[];
}

/**
 * Binds parts into one file: contents first, with a link and a bookmark for each part, then the
 * parts, every page numbered at its foot.
 */
export async function bind(head: Head, parts: readonly Part[]): Promise<Uint8Array> {
  const book = await PDFDocument.create();
  book.setTitle(head.title);
  book.setLanguage('en-GB');
  book.setCreator('Proveline');
  const sources = await Promise.all(parts.map(({ pdf }) => PDFDocument.load(pdf)));
  const contents = Math.max(1, Math.ceil(parts.length / PER_PAGE));
  for (let i = 0; i < contents; i++) book.addPage([...A4]);
  const lines: ContentsLine[] = [];
  for (const [i, source] of sources.entries()) {
    lines.push({ title: parts[i]!.title, page: book.getPageCount() + 1 });
    for (const page of await book.copyPages(source, source.getPageIndices())) book.addPage(page);
  }
  const font = await book.embedFont(StandardFonts.Helvetica);
  const bold = await book.embedFont(StandardFonts.HelveticaBold);
  writeContents(book, head, lines, font, bold);
  numberPages(book, font);
  addBookmarks(book, lines);
  return book.save();
}

function writeContents(
  book: PDFDocument,
  head: Head,
  lines: readonly ContentsLine[],
  font: PDFFont,
  bold: PDFFont,
): void {
  for (const [i, line] of lines.entries()) {
    const page = book.getPage(Math.floor(i / PER_PAGE));
    const y = A4[1] - TOP - (i % PER_PAGE) * LINE;
    if (i % PER_PAGE === 0) writeHead(page, head, font, bold);
    const number = String(line.page);
    const right = A4[0] - MARGIN - font.widthOfTextAtSize(number, 11);
    page.drawText(plain(line.title, font), { x: MARGIN, y, size: 11, font });
    page.drawText(number, { x: right, y, size: 11, font });
    page.drawLine({
      start: { x: MARGIN, y: y - 5 },
      end: { x: A4[0] - MARGIN, y: y - 5 },
      thickness: 0.4,
      opacity: 0.4,
    });
    link(book, page, [MARGIN, y - 5, A4[0] - MARGIN, y + 13], line.page);
  }
}

function writeHead(page: PDFPage, { title, under }: Head, font: PDFFont, bold: PDFFont): void {
  page.drawText(plain(title, bold), { x: MARGIN, y: A4[1] - 70, size: 20, font: bold });
  for (const [i, words] of under.entries())
    page.drawText(plain(words, font), {
      x: MARGIN,
      y: A4[1] - 92 - i * 13,
      size: 9.5,
      font,
      maxWidth: A4[0] - 2 * MARGIN,
    });
}

/** The text without characters that the standard fonts of a PDF do not hold. */
function plain(text: string, font: PDFFont): string {
  const known = new Set(font.getCharacterSet());
  return [...text].map((char) => (known.has(char.codePointAt(0)!) ? char : '?')).join('');
}

/** A rectangle that leads to a page (ISO 32000-1, 12.5.6.5). */
function link(book: PDFDocument, on: PDFPage, rectangle: number[], page: number): void {
  const { context } = book;
  const annotation = context.obj({
    Type: 'Annot',
    Subtype: 'Link',
    Rect: rectangle,
    Border: [0, 0, 0],
    Dest: [book.getPage(page - 1).ref, 'Fit'],
  });
  const known = on.node.lookupMaybe(PDFName.of('Annots'), PDFArray);
  const list = known ?? context.obj([]);
  list.push(context.register(annotation));
  on.node.set(PDFName.of('Annots'), list);
}

/** The outline a reader shows beside the pages (ISO 32000-1, 12.3.3). */
function addBookmarks(book: PDFDocument, lines: readonly ContentsLine[]): void {
  if (lines.length === 0) return;
  const { context } = book;
  const outline = context.nextRef();
  const refs = lines.map(() => context.nextRef());
  for (const [i, { title, page }] of lines.entries())
    context.assign(
      refs[i]!,
      context.obj({
        Title: PDFHexString.fromText(title),
        Parent: outline,
        Dest: [book.getPage(page - 1).ref, 'Fit'],
        ...(i > 0 ? { Prev: refs[i - 1]! } : {}),
        ...(i < lines.length - 1 ? { Next: refs[i + 1]! } : {}),
      }),
    );
  context.assign(
    outline,
    context.obj({ Type: 'Outlines', First: refs[0]!, Last: refs.at(-1)!, Count: lines.length }),
  );
  book.catalog.set(PDFName.of('Outlines'), outline);
  book.catalog.set(PDFName.of('PageMode'), PDFName.of('UseOutlines'));
}

function numberPages(book: PDFDocument, font: PDFFont): void {
  const pages = book.getPages();
  for (const [i, page] of pages.entries()) {
    const words = `${i + 1} / ${pages.length}`;
    const width = font.widthOfTextAtSize(words, 8);
    page.drawText(words, { x: (page.getWidth() - width) / 2, y: 8, size: 8, font });
  }
}
