import '../../offline/client.ts';
import { canShare, share } from '../../field/hand-out.ts';
import '../../search/client.ts';
import { showBuilt } from './built.ts';
import { offerCopies } from './copy-table.ts';
import { keepRecent, offerKeeping, renameKept, showKept, showVan } from './kept.ts';

focusSearchOnSlash();
renameKept();
offerKeeping();
offerShare();
offerPrint();
offerCopies();
showKept();
showVan();
keepRecent();
void showBuilt();

/** Puts the cursor in the search box at `/`, unless the reader is typing somewhere. */
function focusSearchOnSlash(): void {
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

/** Shows the share button where the browser can share; it sends the address as it stands. */
function offerShare(): void {
  const button = document.querySelector<HTMLButtonElement>('[data-act="share"]');
  if (!button || !canShare()) return;
  button.hidden = false;
  button.addEventListener('click', async () => {
    const handed = await share({ title: document.title, url: location.href });
    if (handed === 'refused') button.textContent = 'Not taken: copy the address';
  });
}

/** Shows the print button. */
function offerPrint(): void {
  const button = document.querySelector<HTMLButtonElement>('[data-act="print"]');
  if (!button) return;
  button.hidden = false;
  button.addEventListener('click', () => print());
}
