import { offerInstall, offerToKeep } from './keeping.ts';
import { keepOffline, type Offline } from './registration.ts';
import { offerLine, type Status, statusLine } from './status.ts';

type Follower = (status: Status) => void;

const followers = new Set<Follower>();
let last: Status | undefined;
let offline: Offline | undefined;

/** Tells what is saved on this device, now and whenever it is another. */
export function followOffline(follower: Follower): void {
  followers.add(follower);
  if (last) follower(last);
}

/** Reads and mends what is saved, and asks for a newer version. */
export const checkSaved = (): void => void offline?.check();

/** Keeps the sequences, replacements and jobs of all systems but these, by entry id. */
export const leaveOut = (systems: readonly string[]): void => offline?.leaveOut(systems);

/**
 * Keeps the site on this device, and shows in `#offline-status` what is saved; offers there a
 * newer version, keeping the pages for good, and installing. Does nothing on a page without
 * that element.
 */
function start(): void {
  const place = document.querySelector<HTMLElement>('#offline-status');
  if (!place) return;
  if (import.meta.env.DEV) {
    place.textContent = 'Pages are saved for offline use from the built site only.';
    return;
  }
  const acts = document.createElement('p');
  acts.className = 'offline-acts';
  place.after(acts);
  const offer = makeOffer(place, () => offline?.takeUp());
  let offersKeeping = false;
  let offersCheck = false;
  followOffline((status) => {
    // A line said again is read out again.
    const text = statusLine(status);
    if (place.textContent !== text) place.textContent = text;
    offer(status);
    if (!offersCheck && (status.serving || status.saving?.stopped === 'no room')) {
      offersCheck = true;
      acts.append(button('Check for a newer version', checkSaved));
    }
    if (!status.serving || offersKeeping) return;
    offersKeeping = true;
    void offerToKeep(acts, button);
  });
  offerInstall(acts, button);
  const base = `${import.meta.env.BASE_URL.replace(/\/$/, '')}/`;
  offline = keepOffline(base, (status) => {
    last = status;
    for (const follower of followers) follower(status);
  });
}

/** The line with one button that offers another version; shown only while there is one. */
function makeOffer(place: HTMLElement, onTake: () => void): Follower {
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
