/**
 * Adds results to every search form of a page. The forms work without it; what it needs is
 * loaded when a reader goes to a field, or at once on the search page.
 */
function start(): void {
  const results = document.querySelector<HTMLElement>('#search-results');
  for (const form of document.querySelectorAll<HTMLFormElement>('form[role="search"]')) {
    const field = form.querySelector<HTMLInputElement>('input[name="q"]');
    if (!field) continue;
    if (results) void fillSearchPage(form, field, results);
    else whenUsed(field, async () => (await import('./suggestions.ts')).suggest(form, field));
  }
}

/** Calls once a field has the focus, which it may have had before this script ran. */
function whenUsed(field: HTMLInputElement, act: () => void): void {
  if (document.activeElement === field) act();
  else field.addEventListener('focus', act, { once: true });
}

async function fillSearchPage(
  form: HTMLFormElement,
  field: HTMLInputElement,
  list: HTMLElement,
): Promise<void> {
  const status = document.querySelector<HTMLElement>('#search-status');
  const facets = document.querySelector<HTMLDetailsElement>('#search-facets');
  if (!status || !facets) return;
  const { runSearchPage } = await import('./search-page.ts');
  await runSearchPage({ form, field, list, status, facets });
}

start();

export {};
