import { offerInstall, offerToKeep } from './keeping.ts';
import { keepOffline, type Offline } from './registration.ts';
import { offerLine, type Status, statusLine } from './status.ts';

/**
 * Shows in `#offline-status` what is saved, and offers there a newer version, keeping the
 * pages for good, and installing. Does nothing on a page without that element.
 */
export function start(place = document.querySelector<HTMLElement>('#offline-status')): void {
  if (!place) return;
  if (import.meta.env.DEV) {
    place.textContent = 'Pages are saved for offline use from the built site only.';
    return;
  }
  const acts = document.createElement('p');
  acts.className = 'offline-acts';
  place.after(acts);
  let offline: Offline | undefined;
  let offersKeeping = false;
  const offer = makeOffer(place, () => offline?.takeUp());
  const show = (status: Status) => {
    // A line said again is read out again.
    const text = statusLine(status);
    if (place.textContent !== text) place.textContent = text;
    offer(status);
    if (!status.serving || offersKeeping) return;
    offersKeeping = true;
    acts.append(button('Check for a newer version', () => void offline?.check()));
    void offerToKeep(acts, button);
  };
  const base = `${import.meta.env.BASE_URL.replace(/\/$/, '')}/`;
  offerInstall(acts, button);
  offline = keepOffline(base, show);
}

/** The line with one button that offers another version; shown only while there is one. */
function makeOffer(place: HTMLElement, onTake: () => void): (status: Status) => void {
  const offer = document.createElement('p');
  offer.id = 'offline-offer';
  offer.hidden = true;
  // Seen at once, then out of the way: a reader who scrolls on finds it in the footer.
  offer.className = 'afloat';
  addEventListener('scroll', () => offer.classList.remove('afloat'), { once: true, passive: true });
  place.before(offer);
  const text = document.createElement('span');
  text.setAttribute('role', 'status');
  const take = button('Show it', () => {
    take.disabled = true;
    onTake();
  });
  offer.append(text, take);
  return ({ ready, serving }) => {
    const line = ready ? offerLine(ready, serving) : '';
    offer.hidden = !ready;
    if (text.textContent !== line) text.textContent = line;
  };
}

function button(label: string, onClick: () => void): HTMLButtonElement {
  const made = document.createElement('button');
  made.type = 'button';
  made.textContent = label;
  made.addEventListener('click', onClick);
  return made;
}

start();
