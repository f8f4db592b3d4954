/** Makes a button, in the look of the place it goes into. */
type MakeButton = (label: string, onClick: () => void) => HTMLButtonElement;

/** The event some browsers send when the site may be installed; no standard has it yet. */
interface InstallOffer extends Event {
  readonly prompt: () => Promise<unknown>;
}

const isInstallOffer = (event: Event): event is InstallOffer => 'prompt' in event;

/**
 * Offers to ask the browser not to drop the saved pages when it is short of room or has not
 * been used for some time. The browser is asked only when the reader taps.
 */
export async function offerToKeep(place: HTMLElement, button: MakeButton): Promise<void> {
  const storage: StorageManager | undefined = navigator.storage;
  if (!storage?.persist || (await storage.persisted())) return;
  const ask = button('Keep these pages when space is short', async () => {
    const kept = await storage.persist();
    const answer = document.createElement('span');
    answer.setAttribute('role', 'status');
    answer.textContent = kept
      ? 'This browser keeps them until you remove them.'
      : 'This browser does not promise to keep them; it may once the site is installed.';
    ask.replaceWith(answer);
  });
  place.append(ask);
}

/** Offers to install the site where the browser says that it can be. */
export function offerInstall(place: HTMLElement, button: MakeButton): void {
  addEventListener('beforeinstallprompt', (event) => {
    if (!isInstallOffer(event)) return;
    event.preventDefault();
    const install = button('Install', async () => {
      install.remove();
      await event.prompt();
    });
    place.append(install);
    addEventListener('appinstalled', () => install.remove(), { once: true });
  });
}
