import { takeOverKept } from '../../former/index.ts';

/**
 * Remembers mode and instrument, puts the mode in the address so that it can be sent on, and
 * honours an address that names one, as `?mode=heating` or `#mode-heating`. The page itself changes by style alone.
 */
export function keepChoices(): void {
  const bar = document.querySelector<HTMLElement>('[data-bar]');
  if (!bar) return;
  const keyOf = (system: string) => `proveline.mode.${system}`;
  const modeKey = keyOf(bar.dataset.bar ?? '');
  takeOverKept(modeKey, bar.dataset.formerly?.split(' ').map(keyOf) ?? []);
  const instrumentKey = 'proveline.instrument';
  const asked = new URLSearchParams(location.search).get('mode');
  const takeUp = (mode: string | null) => {
    choose(`mode-${mode ?? ''}`);
    choose(`instrument-${recall(instrumentKey) ?? ''}`);
  };
  takeUp(asked ?? recall(modeKey));
  // Come back to, a page stands as it was left: what was chosen on another since holds here too.
  window.addEventListener('pageshow', ({ persisted }) => {
    if (persisted) takeUp(recall(modeKey));
  });
  const fromAddress = () => choose(location.hash.slice(1));
  fromAddress();
  addEventListener('hashchange', fromAddress);

  bar.addEventListener('change', ({ target }) => {
    if (!(target instanceof HTMLInputElement)) return;
    if (target.name === 'mode') {
      keep(modeKey, target.value);
      history.replaceState(history.state, '', addressWith(target.value));
    } else {
      keep(instrumentKey, target.value);
    }
  });
  // Arrow keys walk through the choices; only a tap or Enter is a choice made.
  bar.addEventListener('click', (event) => {
    if (event.detail === 0 || !(event.target instanceof Element)) return;
    const picked = event.target.closest('label, nav a');
    picked?.closest<HTMLElement>('[popover]')?.hidePopover();
  });
}

/** The page's address with a mode in it; a place on the page that it names is kept. */
function addressWith(mode: string): URL {
  const address = new URL(location.href);
  address.searchParams.set('mode', mode);
  if (address.hash.startsWith('#mode-')) address.hash = '';
  return address;
}

function choose(id: string): void {
  const input = document.getElementById(id);
  if (input instanceof HTMLInputElement && input.type === 'radio') input.checked = true;
}

function recall(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

function keep(key: string, value: string): void {
  try {
    localStorage.setItem(key, value);
  } catch {
    // Private windows refuse storage; the choice lasts as long as the page.
  }
}
