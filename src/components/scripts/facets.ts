/**
 * Says how many systems the facets leave, and keeps the answers in the address, so that going
 * back to the list finds it as it was left. The list itself is narrowed by style alone.
 */
export function keepFacets(): void {
  const form = document.querySelector<HTMLFormElement>('.facets');
  if (!form) return;
  recall(form);
  showCount();
  form.addEventListener('change', () => {
    showCount();
    remember(form);
  });
  // The answers are gone once the event has been.
  form.addEventListener('reset', () =>
    setTimeout(() => {
      showCount();
      remember(form);
    }),
  );
}

function showCount(): void {
  const entries = [...document.querySelectorAll<HTMLElement>('.system-entry')];
  const shown = entries.filter((entry) => getComputedStyle(entry).display !== 'none').length;
  const line = document.querySelector<HTMLElement>('[data-shown-count]');
  const none = document.querySelector<HTMLElement>('[data-none-shown]');
  if (line) {
    line.textContent =
      shown === entries.length ? `${shown} systems` : `${shown} of ${entries.length} systems`;
  }
  if (none) none.hidden = shown > 0;
}

function remember(form: HTMLFormElement): void {
  const chosen = new URLSearchParams();
  for (const input of form.querySelectorAll<HTMLInputElement>('input:checked')) {
    if (input.value) chosen.append(input.name, input.value);
  }
  history.replaceState(
    history.state,
    '',
    chosen.size > 0 ? `?${chosen}` : location.origin + location.pathname,
  );
}

function recall(form: HTMLFormElement): void {
  const inputs = [...form.querySelectorAll<HTMLInputElement>('input')];
  for (const [name, value] of new URLSearchParams(location.search)) {
    const input = inputs.find((one) => one.name === name && one.value === value);
    if (!input) continue;
    input.checked = true;
    // What narrows the list is not folded away.
    input.closest('details')?.setAttribute('open', '');
  }
}
