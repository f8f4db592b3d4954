import { base, loadVocabulary, makeAsker, type Shown } from './engine.ts';
import { thinned } from './rank.ts';
import { keepSearch, recentSearches } from './recent.ts';
import { element, itemsInstead, linkItem, moveByArrows, resultItems } from './result-list.ts';
import { summaryLine } from './wording.ts';

/** Results under the field: as many as a phone shows above its keyboard with a little scrolling. */
const MOST_SHOWN = 8;
/** Terminals of one name among them. */
const MOST_OF_A_NAME = 3;

/** Shows results under (or, at the foot of a phone, over) a search field while it is typed in. */
export function suggest(form: HTMLFormElement, field: HTMLInputElement): void {
  const status = element('p', 'unseen');
  status.setAttribute('role', 'status');
  const panel = element('div', 'search-panel');
  panel.hidden = true;
  const said = element('p', 'search-said');
  // The status above says the same to those who do not see it.
  said.setAttribute('aria-hidden', 'true');
  const list = element('ul', 'link-list results');
  list.setAttribute('aria-label', 'Results');
  panel.append(said, list);
  form.append(status, panel);
  const searchAddress = (query: string) => `${base}search/?q=${encodeURIComponent(query)}`;

  const fill = (line: string, items: readonly HTMLLIElement[]) => {
    said.textContent = line;
    said.hidden = line === '';
    list.replaceChildren(...items);
    panel.hidden = items.length === 0 && line === '';
  };

  const show = ({ question, found, final, failed }: Shown) => {
    if (failed) return fill('Searching needs a signal until the pages are saved.', []);
    if (!found || question.query.trim() === '') return showRecent();
    const best = thinned(found.results, MOST_OF_A_NAME).slice(0, MOST_SHOWN);
    const line = summaryLine(question.query, found);
    if (final) status.textContent = line;
    // Before the pages have been searched, nothing found is not yet an answer.
    if (!final && best.length === 0) return;
    const items = best.length > 0 ? resultItems(best, base) : itemsInstead(found.nearest, base);
    if (best.length > 0 && best.length < found.results.length)
      items.push(linkItem(`All ${found.results.length} results`, searchAddress(found.query)));
    fill(found.correction || best.length === 0 ? line : '', items);
  };
  const ask = makeAsker(show);
  // Fetched before the first letter; what fails here is said when something is asked.
  loadVocabulary().catch(() => undefined);
  const askTyped = () => ask({ query: field.value, facets: {}, typing: true });

  function showRecent(): void {
    const recent = recentSearches();
    const items = recent.map((query) => linkItem(query, searchAddress(query)));
    fill(items.length > 0 ? 'Recent searches' : '', items);
  }
  const open = () => {
    if (field.value.trim() === '') showRecent();
    else void askTyped();
  };
  const close = () => {
    panel.hidden = true;
  };

  field.addEventListener('input', askTyped);
  field.addEventListener('focus', () => {
    if (panel.hidden) open();
  });
  form.addEventListener('submit', () => keepSearch(field.value));
  list.addEventListener('click', () => keepSearch(field.value));
  const move = moveByArrows(field, list);
  form.addEventListener('keydown', (event) => {
    if (event.key === 'Escape') {
      close();
      field.focus();
    } else if (!panel.hidden && move(event.key)) event.preventDefault();
  });
  for (const kind of ['pointerdown', 'focusin'])
    document.addEventListener(kind, ({ target }) => {
      if (target instanceof Node && !form.contains(target)) close();
    });
  if (document.activeElement === field) open();
}
