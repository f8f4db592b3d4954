import { base, loadVocabulary, makeAsker, type Question, type Shown } from './engine.ts';
import { facetForm, facetsIn } from './facet-form.ts';
import { MOST_LETTERS } from './find.ts';
import { FACETS, type Facets } from './names.ts';
import { keepSearch, recentSearches } from './recent.ts';
import { element, itemsInstead, linkItem, moveByArrows, resultItems } from './result-list.ts';
import { summaryLine } from './wording.ts';

/** Results shown at first, and by each tap for more. */
const STEP = 20;

/** The parts of the search page. */
export interface SearchPage {
  readonly form: HTMLFormElement;
  readonly field: HTMLInputElement;
  readonly list: HTMLElement;
  readonly status: HTMLElement;
  /** The fold that holds what narrows the results. */
  readonly facets: HTMLDetailsElement;
}

/** Answers the search of the page's address, and each one that is typed there. */
export async function runSearchPage({
  form,
  field,
  list,
  status,
  facets,
}: SearchPage): Promise<void> {
  const numberChosen = element('span');
  facets.querySelector('summary')?.append(numberChosen);
  facets.open = matchMedia('(min-width: 60rem)').matches;
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
    const { results, nearest } = found;
    const reveal = (from: number) => {
      const items = resultItems(results.slice(from, from + STEP), base);
      list.append(...items);
      const left = results.length - from - STEP;
      more.hidden = left <= 0;
      more.textContent = `Show ${Math.min(STEP, left)} more`;
      more.onclick = () => reveal(from + STEP);
      if (from > 0) items[0]?.querySelector('a')?.focus();
    };
    list.replaceChildren(...(results.length === 0 ? itemsInstead(nearest, base) : []));
    reveal(0);
  };
  const ask = makeAsker(show);
  const answer = (typing: boolean) => {
    const count = Object.values(chosen).flat().length;
    // What narrows is said though it is folded.
    numberChosen.textContent = count > 0 ? `: ${count} chosen` : '';
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

  // What narrows the results is folded on a phone and stands beside them on a desk.
  await answer(false);
  try {
    const chips = facetForm(await loadVocabulary(), chosen);
    chips.addEventListener('change', () => {
      const data = new FormData(chips);
      chosen = Object.fromEntries(FACETS.map((facet) => [facet, data.getAll(facet).map(String)]));
      void answer(false);
    });
    facets.append(chips);
  } catch {
    // Without the names there is nothing to choose; the status says what is missing.
  }
}

/** The search stands in the address, so that it can be sent on and gone back to. */
function remember({ query, facets }: Question): void {
  const parameters = new URLSearchParams();
  if (query.trim() !== '' && query.length <= MOST_LETTERS) parameters.set('q', query);
  for (const [facet, values] of Object.entries(facets as Required<Facets>))
    for (const value of values) parameters.append(facet, value);
  const search = parameters.size > 0 ? `?${parameters}` : location.origin + location.pathname;
  history.replaceState(history.state, '', search);
}

const isEmpty = ({ query, facets }: Question) =>
  query.trim() === '' && Object.values(facets).every((values) => values.length === 0);
