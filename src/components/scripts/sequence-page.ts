import { canSpeak, onVoices, readAloud } from '../../job/aloud.ts';

/** Address that asks for all steps at once. */
const ALL = 'all-steps';

const box = document.getElementById(ALL)!;
const begun = box.firstElementChild!;
/** What stands there for a reader without scripts: to a browser with them it is text. */
const kept = box.querySelector('noscript')!;
let parsed: Element[] | undefined;
let shown: readonly Element[] = [begun];

const read = ({ textContent }: Element): Element[] => [
  ...new DOMParser().parseFromString(textContent, 'text/html').body.children,
];

/** Every step and end in its order. They are read once one of them is asked for. */
function all(): Element[] {
  parsed ??= [begun, ...read(kept)];
  return parsed;
}

/** Shows what the address asks for: one step, or all. Where it leads elsewhere the step stays. */
function show(): void {
  const asked = location.hash.slice(1);
  if (asked === ALL) shown = all();
  else {
    const step = asked === '' ? begun : all().find(({ id }) => id === asked);
    if (!step) return;
    shown = [step];
  }
  box.replaceChildren(...shown);
  offerAloud();
  if (asked === '' || asked === ALL) return;
  const [step] = shown;
  step!.scrollIntoView();
  const heading = step!.querySelector<HTMLElement>('h2');
  heading?.setAttribute('tabindex', '-1');
  heading?.focus({ preventScroll: true });
}

/** A step is read aloud where the phone can with no signal: hands full, torch in the teeth. */
function offerAloud(): void {
  if (!canSpeak()) return;
  for (const step of box.querySelectorAll('.one.step:not(.spoken)')) {
    step.classList.add('spoken');
    const button = document.createElement('button');
    button.type = 'button';
    button.className = 'quiet-act';
    button.textContent = 'Read aloud';
    button.addEventListener('click', () => {
      const lines = step.querySelectorAll('h2, p:not(.aside-links), .answer-links b');
      readAloud([...lines].map(({ textContent }) => textContent).join('. '));
    });
    step.querySelector('.aside-links')?.append(button);
  }
}

addEventListener('hashchange', show);
// Paper has every line and all ends, whatever stands on the screen.
addEventListener('beforeprint', () => {
  const lines = document.querySelector('noscript.for-paper');
  if (lines) lines.replaceWith(...read(lines));
  box.replaceChildren(...all());
});
addEventListener('afterprint', () => box.replaceChildren(...shown));
onVoices(offerAloud);
if (location.hash === '') offerAloud();
else show();
