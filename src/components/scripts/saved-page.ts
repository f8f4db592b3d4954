import { checkSaved, followOffline, leaveOut } from '../../offline/client.ts';
import { sumOf } from '../../offline/manifest.ts';
import { megabytes, type Status } from '../../offline/status.ts';

const rows = [...document.querySelectorAll<HTMLTableRowElement>('tr[data-system]')];
const boxOf = (row: HTMLElement) => row.querySelector<HTMLInputElement>('input')!;
const check = document.querySelector<HTMLButtonElement>('#saved-check')!;

/** Systems left out by a choice that the worker has not told back yet. */
let chosen: readonly string[] | undefined;

function say(id: string, text: string): void {
  const place = document.querySelector(id)!;
  if (place.textContent !== text) place.textContent = text;
}

function show({ serving, holding }: Status): void {
  if (!serving || !holding) return;
  const { kept, lost, leftOut } = holding;
  say('#saved-pages', `${kept.pages - lost.pages} of ${serving.pages}`);
  say(
    '#saved-missing',
    lost.files === 0 ? 'nothing' : `${lost.pages} pages, ${lost.files} files in all`,
  );
  say('#saved-size', `${megabytes(kept.bytes - lost.bytes)} MB`);
  if (serving.choosable) {
    say('#saved-choice', 'Leave out what you do not need here; it then needs a signal.');
    document.querySelector('#saved-systems')?.classList.add('choosable');
  }
  // What it said before it heard of the last choice takes nothing back from under the thumb.
  if (chosen?.length === leftOut.length && chosen.every((system) => leftOut.includes(system)))
    chosen = undefined;
  for (const row of rows) {
    const { system } = row.dataset;
    const size = sumOf(serving.packs.filter((pack) => pack.system === system)).bytes;
    const figure = row.querySelector('.saved-figure')!;
    figure.textContent = `${(size / 1e6).toFixed(2)} MB`;
    figure.classList.add('told');
    boxOf(row).checked = !(chosen ?? leftOut).includes(system!);
    boxOf(row).disabled = !serving.choosable;
  }
  check.disabled = false;
  void showUse();
}

/** What the browser says this site takes of the device; not every browser does. */
async function showUse(): Promise<void> {
  const storage: StorageManager | undefined = navigator.storage;
  const usage = (await storage?.estimate?.())?.usage;
  say('#saved-used', usage === undefined ? 'not told by this browser' : `${megabytes(usage)} MB`);
}

for (const row of rows)
  boxOf(row).addEventListener('change', () => {
    chosen = rows.filter((one) => !boxOf(one).checked).map((one) => one.dataset.system!);
    leaveOut(chosen);
  });
check.addEventListener('click', checkSaved);
followOffline(show);
