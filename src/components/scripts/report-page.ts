import type { Report } from '../../field/file.ts';
import {
  builtNow,
  canShare,
  copyField,
  saveField,
  shareField,
  today,
} from '../../field/hand-out.ts';
import { FIELD_VERSION } from '../../field/limits.ts';
import { FRAGMENT, MOST_FRAGMENT } from '../../job/limits.ts';

const PAGE = /^(systems|devices|symptoms|procedures|standards)\/[a-z0-9-]+\/([A-Za-z0-9._~-]+\/)*$/;
const MOST_PAGE = 300;

const part = <T extends HTMLElement>(id: string): T => document.getElementById(id) as T;

/** Fills the page from its address, and makes the file when it is asked for. */
async function start(): Promise<void> {
  const base = document.body.dataset.base ?? '/';
  const page = new URLSearchParams(location.search).get('page') ?? '';
  for (const place of document.querySelectorAll<HTMLElement>('.report .without-script'))
    place.hidden = true;
  if (!PAGE.test(page) || page.length > MOST_PAGE) {
    part('report-nowhere').hidden = false;
    return;
  }
  const marks = location.hash.slice(1);
  const asFound = FRAGMENT.test(marks) && marks.length <= MOST_FRAGMENT ? marks : null;
  const link = part<HTMLAnchorElement>('report-page');
  link.textContent = page;
  link.href = `${base}${page}${asFound === null ? '' : `#${asFound}`}`;
  part('report-marks').hidden = asFound === null;
  const [kind, id] = page.split('/');
  if (kind === 'systems' && asFound === null) {
    part('report-otherwise').hidden = false;
    part<HTMLAnchorElement>('report-as-found').href = `${base}systems/${id}/as-found/`;
  }
  part('report-form').hidden = false;
  // Without an answer the report goes without its version, which is said.
  const build = builtNow(base);
  void build.then((known) => {
    if (known) part('report-version').textContent = `${known.version}, built ${known.date}`;
  });
  const seen = part<HTMLTextAreaElement>('report-seen');
  const said = part('report-said');
  let made: Report | undefined;
  const report = async (): Promise<Report> => {
    const text = seen.value.trim();
    // What was handed over keeps its name; what is said otherwise since is another report.
    made =
      made?.seen === text
        ? made
        : {
            proveline: 'field',
            version: FIELD_VERSION,
            id: crypto.randomUUID(),
            on: today(),
            kind: 'report',
            page,
            build: await build,
            seen: text,
            asFound,
          };
    return made;
  };
  const words = ({ seen: text, build: of }: Report) => [
    `This page is wrong: ${page}`,
    of ? `Version ${of.version}, built ${of.date}` : '',
    text,
  ];
  const ready = (): boolean => {
    if (seen.value.trim() !== '' || asFound !== null) return true;
    said.textContent = 'Nothing is said yet: write what you saw, then hand it over.';
    seen.focus();
    return false;
  };
  const offer = (button: string, act: (file: Report) => Promise<string> | string) =>
    part(button).addEventListener('click', async () => {
      if (!ready()) return;
      said.textContent = await act(await report());
    });
  offer('report-save', saveField);
  offer('report-copy', (file) => copyField(words(file), file));
  offer('report-share', (file) => shareField('This page is wrong', words(file), file));
  part('report-share').hidden = !canShare();
}

void start();
