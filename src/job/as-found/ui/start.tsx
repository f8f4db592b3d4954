import { render } from 'preact';
import { App } from './app.tsx';

/** Lays the page of a circuit as found into its place. */
function start(): void {
  const place = document.querySelector<HTMLElement>('#as-found');
  const system = place?.dataset.system;
  if (!place || !system) return;
  const title = place.dataset.title ?? '';
  const formerly = place.dataset.formerly?.split(' ') ?? [];
  place.replaceChildren();
  render(<App system={system} formerly={formerly} title={title} />, place);
}

start();
