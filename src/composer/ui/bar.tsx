import { href } from '../../job/ui/parts.tsx';
import type { Part } from '../desk.ts';
import type { View } from '../view.ts';
import type { Chosen } from './when.ts';

interface Props {
  readonly view: View;
  readonly chosen: Chosen;
  readonly onChoose: (chosen: Chosen) => void;
  readonly part: Part;
  readonly onLook: (part: Part) => void;
}

/** What each part of an arrangement is called. */
export const PART_NAMES: Readonly<Record<Part, string>> = {
  '': 'Overview',
  readings: 'Readings',
  'live-path': 'Live path',
  diagram: 'Diagram',
  wiring: 'Wiring',
  replace: 'Replace a device',
};

const close = (id: string) => document.getElementById(id)?.hidePopover?.();

/** Mode, instrument and parts: under the thumb on a phone, at the side on a wide screen. */
export function Bar({ view, chosen, onChoose, part, onLook }: Props) {
  const { modes, instruments } = view;
  return (
    <aside class="page-bar" aria-label="Mode, instrument and sections">
      <a class="page-bar-search" href={href('/search/')}>
        <span class="unseen">Search</span>
        <svg viewBox="0 0 24 24" width="24" height="24" aria-hidden="true">
          <circle cx="10" cy="10" r="6.5" />
          <path d="m15 15 6 6" />
        </svg>
      </a>
      <button type="button" class="page-bar-open" popovertarget="pick-mode">
        <span>Mode</span>
        <b>{modes[chosen.mode]!.title}</b>
      </button>
      <button type="button" class="page-bar-open" popovertarget="pick-instrument">
        <span>Instrument</span>
        <b>{chosen.instrument === 0 ? 'Tester' : instruments[chosen.instrument]}</b>
      </button>
      <button type="button" class="page-bar-open jump" popovertarget="pick-section">
        <span>Page</span>
        <b>{PART_NAMES[part]}</b>
      </button>
      <fieldset class="pick" id="pick-mode" popover="auto">
        <legend>Mode</legend>
        {modes.map(({ id, title }, mode) => (
          <label key={id}>
            <input
              type="radio"
              name="mode"
              checked={mode === chosen.mode}
              onChange={() => {
                onChoose({ ...chosen, mode });
                close('pick-mode');
              }}
            />
            {title}
          </label>
        ))}
      </fieldset>
      <fieldset class="pick" id="pick-instrument" popover="auto">
        <legend>Instrument</legend>
        {instruments.map((title, instrument) => (
          <label key={title}>
            <input
              type="radio"
              name="instrument"
              checked={instrument === chosen.instrument}
              onChange={() => {
                onChoose({ ...chosen, instrument });
                close('pick-instrument');
              }}
            />
            <span>{title}</span>
          </label>
        ))}
      </fieldset>
      <fieldset class="pick" id="pick-section" popover="auto">
        <legend>Page</legend>
        {Object.entries(PART_NAMES).map(([id, name]) => (
          <label key={id}>
            <input
              type="radio"
              name="part"
              checked={id === part}
              onChange={() => {
                close('pick-section');
                onLook(id as Part);
              }}
            />
            <span>{name}</span>
          </label>
        ))}
      </fieldset>
    </aside>
  );
}
