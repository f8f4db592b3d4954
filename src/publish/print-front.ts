import { longDate } from '../words/index.ts';
import type { BuiltSite } from './built-site.ts';
import type { Chapter } from './chapters.ts';
import { fillLastPage, open, PAPER, type Press } from './print.ts';

/** Whose pages are bound, and of which version: on the cover and at the foot of every page. */
export type Owner = Pick<BuiltSite, 'name' | 'version' | 'date' | 'release'>;

/** A line of the contents: an entry and the page of the pack it begins on, from 1. */
export interface ContentsLine {
  readonly title: string;
  readonly path: string;
  readonly page: number;
}

const SUBJECT = 'Field reference for heating controls';
const SOUND = 'Computed for sound installations wired as these pages show.';
const SAFE =
  'Prove the tester, isolate, lock off, prove dead. The manufacturer’s instructions and local rules come before this reference.';

/** What a firm's people know it by is its newest release, as at the foot of its pages. */
const versionLine = ({ version, date, release }: Owner) =>
  `${release === undefined ? `Version ${version}` : `Release ${release}`}, built ${longDate(date)}`;

/** Prints the cover: the site's logo, whose it is and how to reach them, and of which version. */
export async function printCover(press: Press, owner: Owner, pages: number): Promise<Uint8Array> {
  const { page } = press;
  await open(press, '');
  await page.evaluate(
    async ([name, subject, ...lines]) => {
      const make = (tag: string, text: string) => {
        const one = document.createElement(tag);
        one.append(text);
        return one;
      };
      const logo = document.querySelector<HTMLImageElement>('.firm-logo');
      const firm = document.querySelector('.firm-foot');
      document.documentElement.classList.add('in-cover');
      const main = document.querySelector('main')!;
      main.replaceChildren(
        ...(logo ? [logo] : []),
        make('h1', name),
        make('p', subject),
        ...lines.map((line) => make('p', line)),
        ...(firm ? [firm] : []),
      );
      await logo?.decode();
    },
    [
      owner.name,
      SUBJECT,
      `${versionLine(owner)}${owner.release === undefined ? '' : `, version ${owner.version}`}. Holds ${pages} ${pages === 1 ? 'page' : 'pages'} of the site.`,
      SOUND,
      SAFE,
    ] as const,
  );
  return page.pdf(PAPER);
}

/** Prints the contents, grouped by chapter; every line is a link to its entry's address. */
export async function printContents(
  press: Press,
  chapters: readonly Chapter<ContentsLine>[],
): Promise<Uint8Array> {
  const { page } = press;
  await open(press, '');
  await page.evaluate(
    ([base, groups]) => {
      const make = (tag: string, text = '', ...inner: Node[]) => {
        const one = document.createElement(tag);
        one.append(text, ...inner);
        return one;
      };
      const list = make(
        'div',
        '',
        ...groups.map((group) => {
          const lines = group.pages.map(({ title: name, path, page: at }) => {
            const line = make('a', '', make('span', name), make('b', String(at)));
            (line as HTMLAnchorElement).href = base + path;
            return make('li', '', line);
          });
          return make('section', '', make('h2', group.title), make('ol', '', ...lines));
        }),
      );
      list.className = 'pack-lines';
      document.documentElement.classList.add('in-pack');
      document.querySelector('.site-footer')?.remove();
      document.querySelector('main')!.replaceChildren(make('h1', 'Contents'), list);
    },
    [press.address, chapters] as const,
  );
  await fillLastPage(page);
  return page.pdf(PAPER);
}

/**
 * Prints a leaf for every page of the pack, empty but for its foot: whose it is and how to reach
 * them, its number, the release or version.
 */
export async function printFeet(press: Press, owner: Owner, count: number): Promise<Uint8Array> {
  const { page } = press;
  await open(press, '');
  await page.evaluate(
    ([all, name, version]) => {
      const reached = document.querySelector('.firm-foot a')?.textContent;
      const whose = reached ? `${name}, ${reached}` : name;
      const leaves = Array.from({ length: all }, (_, i) => {
        const leaf = document.createElement('p');
        leaf.className = 'pack-leaf';
        for (const text of [whose, `${i + 1} / ${all}`, version]) {
          const part = document.createElement('span');
          part.append(text);
          leaf.append(part);
        }
        return leaf;
      });
      document.documentElement.classList.add('in-leaves');
      document.body.replaceChildren(...leaves);
    },
    [count, owner.name, versionLine(owner)] as const,
  );
  return page.pdf(PAPER);
}
