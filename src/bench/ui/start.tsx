import { render } from 'preact';
import { App } from './app.tsx';
import { systemsIn } from './systems.ts';

/** Lays the bench into the page's empty place, with the systems that the page lists. */
function start(): void {
  const place = document.querySelector<HTMLElement>('#bench');
  const list = document.querySelector<HTMLElement>('#bench-systems');
  if (!place || !list) return;
  const systems = systemsIn(list);
  place.replaceChildren();
  render(<App systems={systems} />, place);
}

start();
