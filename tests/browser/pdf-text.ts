import { inflateSync } from 'node:zlib';

/**
 * The text of each page of a PDF as the packaged browser writes them: every object plain, every
 * stream deflated, every font with a table from its codes to characters (ISO 32000-1, 7.3.8
 * streams, 9.4.3 showing text, 9.10.3 ToUnicode).
 * Lines follow each other without white space between them.
 */
export function textOfPages(pdf: Buffer): string[] {
  const objects = objectsOf(pdf.toString('latin1'));
  return [...objects]
    .filter(([, body]) => /\/Type\s*\/Page\b/.test(body))
    .map(([id]) => textOf(objects, id));
}

/** Objects of a file by number, as they stand there. */
type Objects = ReadonlyMap<string, string>;

function objectsOf(file: string): Objects {
  const found = file.matchAll(/(?:^|\n)(\d+) 0 obj\s([\s\S]*?)\nendobj/g);
  return new Map([...found].map(([, id, body]) => [id!, body!]));
}

function streamOf(objects: Objects, id: string): string {
  const body = objects.get(id) ?? '';
  const start = body.indexOf('stream\n') + 'stream\n'.length;
  const bytes = Buffer.from(body.slice(start, body.lastIndexOf('\nendstream')), 'latin1');
  return body.includes('/FlateDecode')
    ? inflateSync(bytes).toString('latin1')
    : bytes.toString('latin1');
}

/** Characters by code; a code is hexadecimal, of two digits in some fonts and four in others. */
function tableOf(cmap: string): Map<string, string> {
  const table = new Map<string, string>();
  const digits = /begincodespacerange\s*<(\w+)>/.exec(cmap)?.[1]?.length ?? 4;
  const put = (code: number, text: string) =>
    table.set(code.toString(16).padStart(digits, '0'), text);
  for (const [, lines] of cmap.matchAll(/beginbfchar([\s\S]*?)endbfchar/g))
    for (const [, code, text] of lines!.matchAll(/<(\w+)> <(\w+)>/g))
      put(Number.parseInt(code!, 16), utf16(text!));
  for (const [, lines] of cmap.matchAll(/beginbfrange([\s\S]*?)endbfrange/g))
    for (const [, from, to, text] of lines!.matchAll(/<(\w+)> <(\w+)> <(\w+)>/g)) {
      const [first, last, start] = [from!, to!, text!].map((hex) => Number.parseInt(hex, 16));
      for (let code = first!; code <= last!; code++)
        put(code, String.fromCodePoint(start! + code - first!));
    }
  return table;
}

const utf16 = (hex: string) => Buffer.from(hex, 'hex').swap16().toString('utf16le');

/**
 * Text of a page or of a form drawn on one, in order of drawing: `/F4 12 Tf` chooses a font,
 * `<0012> Tj` shows, `/X7 Do` draws a form (rotated text is one, and a page laid over another).
 */
function textOf(objects: Objects, id: string): string {
  const body = objects.get(id) ?? '';
  const named = new Map(
    [...body.matchAll(/\/([A-Z][\w-]*) (\d+) 0 R/g)].map(([, name, at]) => [name!, at!]),
  );
  const contents = /\/Contents (\[[^\]]*\]|\d+ 0 R)/.exec(body)?.[1] ?? `${id} 0 R`;
  const streams = [...contents.matchAll(/(\d+) 0 R/g)].map(([, at]) => streamOf(objects, at!));
  let font: ReadonlyMap<string, string> = new Map();
  let text = '';
  for (const [, choice, hex, form] of streams
    .join('\n')
    .matchAll(/\/(F\d+) [\d.]+ Tf|<([\da-fA-F]+)>|\/([A-Z][\w-]*) Do/g)) {
    if (choice) font = fontOf(objects, named.get(choice)!);
    if (form && isForm(objects, named.get(form))) text += textOf(objects, named.get(form)!);
    const digits = font.keys().next().value?.length ?? 4;
    for (let at = 0; hex && at < hex.length; at += digits)
      text += font.get(hex.slice(at, at + digits).toLowerCase()) ?? '';
  }
  return text;
}

const isForm = (objects: Objects, id = '') => /\/Subtype\s*\/Form/.test(objects.get(id) ?? '');

/** A font's characters by code; none where it has no such table. */
function fontOf(objects: Objects, id: string): Map<string, string> {
  const table = /\/ToUnicode (\d+) 0 R/.exec(objects.get(id) ?? '')?.[1];
  return table ? tableOf(streamOf(objects, table)) : new Map();
}

/** Names of the faces that a PDF's letters are of (ISO 32000-1, 9.8), without the subset's mark. */
export const facesOf = (pdf: Buffer): string[] => [
  ...new Set(
    [...pdf.toString('latin1').matchAll(/\/FontName \/(?:[A-Z]{6}\+)?([\w-]+)/g)].map(
      ([, name]) => name!,
    ),
  ),
];
