import { base, loadVocabulary, makeAsker, type Question, type Shown } from './engine.ts';
import { facetForm, facetsIn } from './facet-form.ts';
import { FACETS, type Facets } from './names.ts';
import { keepSearch, recentSearches } from './recent.ts';
import { element, linkItem, moveByArrows, resultItems } from './result-list.ts';
import { summaryLine } from './wording.ts';

/** Results shown at first, and by each tap for more. */
const STEP = 20;

/** The parts of the search page. */
export interface SearchPage {
  readonly form: HTMLFormElement;
  readonly field: HTMLInputElement;
  readonly list: HTMLElement;
  readonly status: HTMLElement;
  readonly facets: HTMLElement;
}

/** Answers the search of the page's address, and each one that is typed there. */
export async function runSearchPage({
  form,
  field,
  list,
  status,
  facets,
}: SearchPage): Promise<void> {
  const more = element('button', 'more-results');
  more.type = 'button';
  more.hidden = true;
  list.after(more);
  let chosen = facetsIn(new URLSearchParams(location.search));

  const show = ({ question, found, final, failed }: Shown) => {
    if (failed) {
      status.textContent = 'Searching needs a signal until the pages are saved.';
      return;
    }
    if (!found) return;
    // Before the pages have been searched the count is not yet the answer.
    if (final) status.textContent = summaryLine(question.query, found);
    if (isEmpty(question)) return showRecent();
    if (!final && found.results.length === 0) return;
    const results = found.results.length > 0 ? found.results : found.nearest;
    const items = resultItems(results, base);
    const reveal = (from: number) => {
      list.append(...items.slice(from, from + STEP));
      more.hidden = items.length <= from + STEP;
      more.textContent = `Show ${Math.min(STEP, items.length - from - STEP)} more`;
      more.onclick = () => {
        reveal(from + STEP);
        items[from + STEP]?.querySelector('a')?.focus();
      };
    };
    list.replaceChildren();
    reveal(0);
  };
  const ask = makeAsker(show);
  const answer = (typing: boolean) => {
    const question = { query: field.value, facets: chosen, typing };
    remember(question);
    return ask(question);
  };

  function showRecent(): void {
    more.hidden = true;
    const recent = recentSearches();
    status.textContent = recent.length > 0 ? 'Recent searches' : '';
    list.replaceChildren(
      ...recent.map((query) => linkItem(query, `${base}search/?q=${encodeURIComponent(query)}`)),
    );
  }

  field.value = new URLSearchParams(location.search).get('q') ?? field.value;
  if (field.value.trim() !== '') keepSearch(field.value);
  field.addEventListener('input', () => void answer(true));
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    keepSearch(field.value);
    void answer(false);
  });
  list.addEventListener('click', () => keepSearch(field.value));
  const move = moveByArrows(field, list);
  for (const place of [field, list])
    place.addEventListener('keydown', (event) => {
      if (event instanceof KeyboardEvent && move(event.key)) event.preventDefault();
    });

  // What narrows the results stands below them on a phone: after them, so that nothing moves.
  await answer(false);
  try {
    const chips = facetForm(await loadVocabulary(), chosen);
    chips.addEventListener('change', () => {
      const data = new FormData(chips);
      chosen = Object.fromEntries(FACETS.map((facet) => [facet, data.getAll(facet).map(String)]));
      void answer(false);
    });
    facets.replaceChildren(chips);
    facets.hidden = false;
  } catch {
    // Without the names there is nothing to choose; the status says what is missing.
  }
}

/** The search stands in the address, so that it can be sent on and gone back to. */
function remember({ query, facets }: Question): void {
  const parameters = new URLSearchParams();
  if (query.trim() !== '') parameters.set('q', query);
  for (const [facet, values] of Object.entries(facets as Required<Facets>))
    for (const value of values) parameters.append(facet, value);
  const search = parameters.size > 0 ? `?${parameters}` : location.pathname;
  history.replaceState(history.state, '', search);
}

const isEmpty = ({ query, facets }: Question) =>
  query.trim() === '' && Object.values(facets).every((values) => values.length === 0);
