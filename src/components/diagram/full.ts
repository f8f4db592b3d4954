import { type Zoom, zoomIn } from './zoom.ts';

/** What moves into the full screen and back. */
interface Moved {
  readonly line: HTMLElement;
  readonly pan: HTMLElement;
}

/** Lets a key set the drawing over the whole screen; Escape, the way back and a key close it. */
export function fullScreen(
  dialog: HTMLDialogElement,
  opener: HTMLElement,
  moved: Moved,
  signal?: AbortSignal,
): void {
  const listening = signal ? { signal } : {};
  const key = (id: string) => document.getElementById(id)!;
  let zoom: Zoom | undefined;
  let homes: (readonly [Element, Comment])[] = [];
  opener.addEventListener(
    'click',
    () => {
      homes = [moved.pan, moved.line].map((part) => {
        const home = document.createComment('');
        part.before(home);
        dialog.append(part);
        return [part, home] as const;
      });
      dialog.showModal();
      zoom = zoomIn(moved.pan);
      moved.pan.focus();
    },
    listening,
  );
  dialog.addEventListener(
    'close',
    () => {
      zoom?.stop();
      zoom = undefined;
      for (const [part, home] of homes) home.replaceWith(part);
      homes = [];
      opener.focus();
    },
    listening,
  );
  signal?.addEventListener('abort', () => dialog.close());
  key('drawing-close').addEventListener('click', () => dialog.close(), listening);
  key('drawing-larger').addEventListener('click', () => zoom?.larger(), listening);
  key('drawing-smaller').addEventListener('click', () => zoom?.smaller(), listening);
  key('drawing-fit').addEventListener('click', () => zoom?.fit(), listening);
  dialog.addEventListener(
    'keydown',
    ({ key: pressed, ctrlKey, metaKey }) => {
      if (ctrlKey || metaKey) return;
      if (pressed === '+' || pressed === '=') zoom?.larger();
      if (pressed === '-') zoom?.smaller();
      if (pressed === '0') zoom?.fit();
    },
    listening,
  );
}
