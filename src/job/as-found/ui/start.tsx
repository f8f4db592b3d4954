import { render } from 'preact';
import { specificationIn } from '../../address.ts';
import type { Subject } from '../../subject.ts';
import { App } from './app.tsx';

/** Lays the page of a circuit as found into its place. */
function start(): void {
  const place = document.querySelector<HTMLElement>('#as-found');
  if (!place) return;
  const { system } = place.dataset;
  const specification = specificationIn(location.search);
  const subject: Subject | null = system
    ? { kind: 'entry', id: system }
    : specification === null
      ? null
      : { kind: 'composed', specification };
  const nothing = document.querySelector<HTMLElement>('#as-found-nothing');
  if (nothing) nothing.hidden = subject !== null;
  if (!subject) return;
  const parts = place.dataset.parts ?? '';
  const title = place.dataset.title ?? '';
  const formerly = place.dataset.formerly?.split(' ') ?? [];
  place.replaceChildren();
  render(<App subject={subject} formerly={formerly} title={title} parts={parts} />, place);
}

start();
