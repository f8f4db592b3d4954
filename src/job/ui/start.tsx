import { render } from 'preact';
import { App } from './app.tsx';
import { systemsIn } from './systems.ts';

/** Lays the job into the page's empty place, with the systems that the page lists. */
function start(): void {
  const place = document.querySelector<HTMLElement>('#job');
  const list = document.querySelector<HTMLElement>('#job-systems');
  if (!place || !list) return;
  const systems = systemsIn(list);
  place.replaceChildren();
  render(<App systems={systems} />, place);
}

start();
