import { render } from 'preact';
import { App } from './app.tsx';

/** Lays the planner into the page's empty place. */
function start(): void {
  const place = document.querySelector<HTMLElement>('#core-planner');
  if (!place) return;
  place.replaceChildren();
  render(<App />, place);
}

start();
