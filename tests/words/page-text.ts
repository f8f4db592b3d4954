import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { DIST, filesOfSite } from '../support/site-folder.ts';

/** Elements whose end or beginning parts two texts. All others stand within a line. */
const BREAKS =
  /<\/?(?:main|p|li|ol|ul|dl|dt|dd|h[1-6]|table|thead|tbody|tr|th|td|caption|section|article|aside|nav|div|details|summary|label|button|option|select|form|fieldset|legend|figure|figcaption|br|hr|header|footer|input|output)\b[^>]*>/g;

/** What is no text of the page: programs, drawings, other names of a thing. */
const SILENT =
  /<(style|script|template|svg)\b[\s\S]*?<\/\1>|<p class="also-called"[\s\S]*?<\/p>|<(?:i|span) class="printed"[\s\S]*?<\/(?:i|span)>/g;

const ENTITIES: Readonly<Record<string, string>> = {
  '&amp;': '&',
  '&lt;': '<',
  '&gt;': '>',
  '&quot;': '"',
  '&#39;': '’',
  '&#x27;': '’',
  '&rsquo;': '’',
  '&nbsp;': ' ',
};

/** Texts of a page, one a block, as a reader sees them. */
export function blocksOf(html: string): string[] {
  const start = html.indexOf('<main');
  return (
    html
      .slice(start < 0 ? html.indexOf('<body') : start)
      .replace(SILENT, ' ')
      .replace(/<!--[\s\S]*?-->/g, '')
      .replace(BREAKS, '\n')
      .replace(
        /<(?:span|b|strong) class="[^"]*\b(?:quiet|v|n|number|where|limit)\b[^"]*"[^>]*>/g,
        '\n',
      )
      // Two texts that only style parts, as an answer and where it leads.
      .replace(/(?<=\S)(?:<[^>]+>)+(?=\S)/g, (tags, at: number, all: string) =>
        /[\w)%.?!”’]/.test(all[at - 1]!) && /[\w(“]/.test(all[at + tags.length]!) ? '\n' : '',
      )
      .replace(/<[^>]+>/g, '')
      .replace(/&[a-z0-9#]+;/gi, (entity) => ENTITIES[entity] ?? entity)
      .replaceAll("'", '’')
      .split('\n')
      .map((text) => text.replace(/\s+/g, ' ').trim())
      .filter((text) => text !== '')
  );
}

/** Every page of the built site with its texts. */
export function pageTexts(): {
  readonly path: string;
  readonly html: string;
  readonly blocks: readonly string[];
}[] {
  return filesOfSite()
    .filter((path) => path.endsWith('.html'))
    .map((path) => {
      const html = readFileSync(join(DIST, path), 'utf8');
      return { path, html, blocks: blocksOf(html) };
    });
}

/** Sentences of a text: parted behind a full stop, a question mark, before a capital. */
export const sentencesOf = (text: string): string[] =>
  text
    .split(/(?<=[.?!][”"’)]?) +(?=[“"(]?[A-Z0-9])/)
    .map((one) => one.trim())
    .filter((one) => /[a-z]{2}/i.test(one));
