/** Says how many systems the facets leave, and remembers the answers in the address. */
const form = document.querySelector<HTMLFormElement>('.facets');
const entries = [...document.querySelectorAll<HTMLElement>('.system-entry')];
const status = document.querySelector<HTMLElement>('[data-shown-count]');
const none = document.querySelector<HTMLElement>('[data-none-shown]');

function show(): void {
  const shown = entries.filter((entry) => entry.checkVisibility()).length;
  if (status) {
    status.hidden = false;
    status.textContent =
      shown === entries.length ? `All ${shown} systems` : `${shown} of ${entries.length} systems`;
  }
  if (none) none.hidden = shown > 0;
}

/** Answers stand in the address, so that going back to the list finds it as it was left. */
function remember(): void {
  const chosen = new URLSearchParams();
  for (const input of form?.querySelectorAll<HTMLInputElement>('input:checked') ?? []) {
    if (input.value) chosen.append(input.name, input.value);
  }
  const query = chosen.size > 0 ? `?${chosen}` : location.pathname;
  history.replaceState(history.state, '', query);
}

function recall(): void {
  for (const [name, value] of new URLSearchParams(location.search)) {
    const inputs = form?.querySelectorAll<HTMLInputElement>('input') ?? [];
    const input = [...inputs].find((i) => i.name === name && i.value === value);
    if (input) input.checked = true;
  }
}

recall();
show();
form?.addEventListener('change', () => {
  show();
  remember();
});
