import { PDFArray, PDFDict, PDFDocument, PDFName } from '@cantoo/pdf-lib';
import { describe, expect, it } from 'vitest';
import { bind } from '../../src/publish/pack.ts';
import { pagesToPrint } from '../../src/publish/print.ts';

async function blank(pages: number): Promise<Uint8Array> {
  const pdf = await PDFDocument.create();
  for (let i = 0; i < pages; i++) pdf.addPage([300, 400]);
  return pdf.save();
}

const head = { title: 'Reference', under: ['Version 1'] };

describe('a bound pack', () => {
  it('has its contents first, then every page of every part', async () => {
    const parts = [
      { title: 'First', pdf: await blank(2) },
      { title: 'Second – with a dash', pdf: await blank(3) },
    ];
    const book = await PDFDocument.load(await bind(head, parts));
    expect(book.getPageCount()).toBe(6);
    expect(book.getTitle()).toBe('Reference');
  });

  it('leads from its contents and its outline to where each part begins', async () => {
    const parts = [
      { title: 'First', pdf: await blank(2) },
      { title: 'Second', pdf: await blank(1) },
    ];
    const book = await PDFDocument.load(await bind(head, parts));
    const index = (ref: unknown) => book.getPages().findIndex(({ ref: own }) => own === ref);
    const links = book.getPage(0).node.lookup(PDFName.of('Annots'), PDFArray);
    const targets = links
      .asArray()
      .map((ref) => book.context.lookup(ref, PDFDict).lookup(PDFName.of('Dest'), PDFArray).get(0));
    expect(targets.map(index)).toEqual([1, 3]);
    const outline = book.catalog.lookup(PDFName.of('Outlines'), PDFDict);
    expect(String(outline.get(PDFName.of('Count')))).toBe('2');
    const first = outline.lookup(PDFName.of('First'), PDFDict);
    expect(index(first.lookup(PDFName.of('Dest'), PDFArray).get(0))).toBe(1);
  });

  it('runs its contents over as many pages as they need', async () => {
    const pdf = await blank(1);
    const parts = Array.from({ length: 80 }, (_, i) => ({ title: `Entry ${i}`, pdf }));
    const book = await PDFDocument.load(await bind(head, parts));
    expect(book.getPageCount()).toBe(83);
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
});
