/** Shows the share button where the browser can share; it sends the address as it stands. */
export function offerShare(): void {
  const button = document.querySelector<HTMLButtonElement>('[data-act="share"]');
  if (!button || typeof navigator.share !== 'function') return;
  button.hidden = false;
  button.addEventListener('click', async () => {
    try {
      await navigator.share({ title: document.title, url: location.href });
    } catch {
      // The reader closed the sheet.
    }
  });
}

/** Shows the print button. */
export function offerPrint(): void {
  const button = document.querySelector<HTMLButtonElement>('[data-act="print"]');
  if (!button) return;
  button.hidden = false;
  button.addEventListener('click', () => print());
}
