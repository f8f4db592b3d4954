/** Puts the cursor in the search box at `/`, unless the reader is typing somewhere. */
export function focusSearchOnSlash(): void {
  document.addEventListener('keydown', (event) => {
    if (event.key !== '/' || event.ctrlKey || event.metaKey || event.altKey) return;
    const at = event.target;
    if (at instanceof HTMLElement && at.closest('input, textarea, select, [contenteditable]'))
      return;
    const box = document.querySelector<HTMLInputElement>('#q');
    if (!box) return;
    event.preventDefault();
    if (box.checkVisibility()) box.select();
    else location.assign(box.form?.action ?? '');
  });
}
