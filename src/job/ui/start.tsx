import { render } from 'preact';
import { App } from './app.tsx';
import { choicesIn } from './choices.ts';

/** Lays the job into the page's empty place, with what the page lists to begin one with. */
function start(): void {
  const place = document.querySelector<HTMLElement>('#job');
  if (!place) return;
  const choices = choicesIn(document);
  place.replaceChildren();
  render(<App choices={choices} parts={place.dataset.parts ?? ''} />, place);
}

start();
