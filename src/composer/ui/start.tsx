import { render } from 'preact';
import { App } from './app.tsx';

/** Lays the composer into its place; what stood there says how to do without a script. */
function start(): void {
  const place = document.querySelector<HTMLElement>('#compose');
  const parts = place?.dataset.parts;
  if (!place || !parts || place.hidden) return;
  place.replaceChildren();
  render(<App parts={parts} />, place);
}

start();
