import { render } from 'preact';
import { App } from './app.tsx';

/** Lays the comparison into its place, with the systems that the page lists. */
function start(): void {
  const place = document.querySelector<HTMLElement>('#compare');
  if (!place) return;
  const systems = [...document.querySelectorAll<HTMLElement>('#compare-systems [data-system]')].map(
    ({ dataset, textContent }) => ({ id: dataset.system ?? '', title: textContent.trim() }),
  );
  const parts = place.dataset.parts ?? '';
  place.replaceChildren();
  render(<App systems={systems} parts={parts} />, place);
}

start();
