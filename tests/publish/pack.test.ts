import { PDFArray, PDFDict, PDFDocument, PDFName, type PDFRef, PDFString } from '@cantoo/pdf-lib';
import { describe, expect, it } from 'vitest';
import { chaptersOf, pagesToPrint } from '../../src/publish/chapters.ts';
import { bind, type Printer } from '../../src/publish/pack.ts';

const ADDRESS = 'http://site.example/';

/** Empty pages; links on the first of them. */
async function blank(pages: number, links: readonly string[] = []): Promise<Uint8Array> {
  const pdf = await PDFDocument.create();
  for (let i = 0; i < pages; i++) pdf.addPage([300, 400]);
  const made = links.map((url) =>
    pdf.context.register(
      pdf.context.obj({
        Type: 'Annot',
        Subtype: 'Link',
        Rect: [0, 0, 9, 9],
        A: { S: 'URI', URI: PDFString.of(url) },
      }),
    ),
  );
  pdf.getPage(0).node.set(PDFName.of('Annots'), pdf.context.obj(made));
  return pdf.save();
}

/** A cover, contents of one page that link every line, and the numbers of all pages. */
const printer: Printer = {
  cover: () => blank(1),
  contents: (chapters) =>
    blank(
      1,
      chapters.flatMap(({ pages }) => pages.map(({ path }) => ADDRESS + path)),
    ),
  numbers: async (count) => {
    const pdf = await PDFDocument.create();
    for (let i = 0; i < count; i++) pdf.addPage([300, 400]).drawRectangle({ width: 9, height: 9 });
    return pdf.save();
  },
};
const binding = { title: 'Reference', address: ADDRESS };

/** Two chapters: two entries that run on over three pages, and a sheet of two. */
const chapters = async () => [
  {
    title: 'Procedures',
    pages: [
      {
        pdf: await blank(3, [
          `${ADDRESS}systems/a/readings/#pair`,
          `${ADDRESS}job/`,
          'https://elsewhere.example/',
        ]),
        entries: [
          { title: 'One', path: 'procedures/one/', page: 0 },
          { title: 'Two – with a dash', path: 'procedures/two/', page: 1 },
        ],
      },
    ],
  },
  {
    title: 'Systems',
    pages: [{ pdf: await blank(2), entries: [{ title: 'A', path: 'systems/a/sheet/', page: 0 }] }],
  },
];

const bound = async () => PDFDocument.load(await bind(binding, await chapters(), printer));

/** Pages that the links of a page lead to, from 0; an address where one leads out. */
function leads(book: PDFDocument, page: number): (number | string)[] {
  const refs = book.getPages().map(({ ref }) => ref);
  const links = book.getPage(page).node.lookup(PDFName.of('Annots'), PDFArray);
  return links.asArray().map((ref) => {
    const link = book.context.lookup(ref, PDFDict);
    const target = link.lookupMaybe(PDFName.of('Dest'), PDFArray)?.get(0);
    if (target) return refs.indexOf(target as PDFRef);
    return link.lookup(PDFName.of('A'), PDFDict).lookup(PDFName.of('URI'), PDFString).decodeText();
  });
}

describe('a bound pack', () => {
  it('has its cover and contents first, then every page of every part', async () => {
    const book = await bound();
    expect(book.getPageCount()).toBe(7);
    expect(book.getTitle()).toBe('Reference');
  });

  it('leads from its contents to where each entry begins', async () => {
    expect(leads(await bound(), 1)).toEqual([2, 3, 5]);
  });

  it('leads from entry to entry, drops what is not in it, and keeps what lies outside', async () => {
    expect(leads(await bound(), 2)).toEqual([5, 'https://elsewhere.example/']);
  });

  it('has a bookmark for each chapter, and its entries below it', async () => {
    const book = await bound();
    const refs = book.getPages().map(({ ref }) => ref);
    const row = (of: PDFDict): [number, string][] => {
      const found: [number, string][] = [];
      let item = of.lookupMaybe(PDFName.of('First'), PDFDict);
      for (; item; item = item.lookupMaybe(PDFName.of('Next'), PDFDict)) {
        const at = item.lookup(PDFName.of('Dest'), PDFArray).get(0);
        found.push([refs.indexOf(at as PDFRef), String(item.get(PDFName.of('Count')))]);
      }
      return found;
    };
    const outline = book.catalog.lookup(PDFName.of('Outlines'), PDFDict);
    expect(row(outline)).toEqual([
      [2, '-2'],
      [5, '-1'],
    ]);
    const first = outline.lookup(PDFName.of('First'), PDFDict);
    expect(row(first).map(([page]) => page)).toEqual([2, 3]);
  });

  it('is refused where a page has no number', async () => {
    const short = { ...printer, numbers: (count: number) => printer.numbers(count - 1) };
    await expect(bind(binding, await chapters(), short)).rejects.toThrow(
      'There is no number for page 7',
    );
  });
});

describe('pages for the pack', () => {
  const pages = [
    '',
    'about/',
    'glossary/',
    'glossary/fuse/',
    'job/',
    'systems/',
    'systems/b/',
    'systems/b/sheet/',
    'systems/a/',
    'systems/a/as-found/',
    'systems/a/sheet/',
    'procedures/safe-isolation/',
  ];

  it('are entries in the order of need, without lists and tools of the screen', () => {
    expect(pagesToPrint(pages, [])).toEqual([
      'about/',
      'procedures/safe-isolation/',
      'systems/a/sheet/',
      'systems/b/sheet/',
      'glossary/fuse/',
    ]);
  });

  it('are those asked for', () => {
    expect(pagesToPrint(pages, ['b', 'fuse'])).toEqual(['systems/b/sheet/', 'glossary/fuse/']);
  });

  it('say which names there are when one is unknown', () => {
    expect(() => pagesToPrint(pages, ['c'])).toThrow(
      new Error('No page is called c. There are: about, safe-isolation, a, b, fuse'),
    );
  });

  it('are grouped by what they are', () => {
    expect(chaptersOf(pagesToPrint(pages, []))).toEqual([
      { title: 'About', pages: ['about/'] },
      { title: 'Procedures', pages: ['procedures/safe-isolation/'] },
      { title: 'Systems', pages: ['systems/a/sheet/', 'systems/b/sheet/'] },
      { title: 'Words', pages: ['glossary/fuse/'] },
    ]);
  });
});
