import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';

/** Address of a page of this site under its base path. */
export const href = (path: string): string =>
  `${(document.body.dataset.base ?? '/').replace(/\/$/, '')}${path}`;

/** A caution where the act is. */
export const Caution = ({ children }: { children: ComponentChildren }) => (
  <p class="caution">
    <strong class="caution-word">Caution</strong> {children}
  </p>
);

interface TickProps {
  readonly done: boolean;
  readonly onChange: (done: boolean) => void;
  readonly children: ComponentChildren;
}

/** Something the reader says that he has done. */
export const Tick = ({ done, onChange, children }: TickProps) => (
  <label class="tick">
    <input
      type="checkbox"
      checked={done}
      onChange={(event) => onChange(event.currentTarget.checked)}
    />
    <span>{children}</span>
  </label>
);

interface SureProps {
  readonly label: string;
  readonly question: string;
  readonly yes: string;
  readonly onYes: () => void;
}

/** A button whose act cannot be taken back: it asks first. */
export function Sure({ label, question, yes, onYes }: SureProps) {
  const [asking, setAsking] = useState(false);
  if (!asking)
    return (
      <button type="button" class="quiet-button" onClick={() => setAsking(true)}>
        {label}
      </button>
    );
  return (
    <div class="sure" role="alert">
      <p>{question}</p>
      <div class="pair">
        <button type="button" class="firm" onClick={onYes}>
          {yes}
        </button>
        <button type="button" class="plain" onClick={() => setAsking(false)}>
          Keep it
        </button>
      </div>
    </div>
  );
}

interface BarProps {
  readonly share: number;
}

/** A share as a bar; its figure stands beside it. */
export const Bar = ({ share }: BarProps) => (
  <svg class="share-bar" viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
    <rect class="ground" width="100" height="6" />
    <rect class="part" width={Math.max(1, 100 * share)} height="6" />
  </svg>
);

interface TextProps {
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly onText: (text: string) => void;
  readonly most: number;
  readonly lines?: number;
  readonly autocomplete?: string;
}

/** A field of words; what is typed is taken at every letter. */
export const Words = ({ id, label, value, onText, most, lines, autocomplete }: TextProps) => (
  <div class="words">
    <label for={id}>{label}</label>
    {lines ? (
      <textarea
        id={id}
        rows={lines}
        maxLength={most}
        value={value}
        onInput={(event) => onText(event.currentTarget.value)}
      />
    ) : (
      <input
        id={id}
        type="text"
        maxLength={most}
        value={value}
        autocomplete={autocomplete ?? 'off'}
        onInput={(event) => onText(event.currentTarget.value)}
      />
    )}
  </div>
);

interface ChoiceProps {
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly onPick: (value: string) => void;
  readonly groups: readonly {
    readonly label: string;
    readonly options: readonly { readonly value: string; readonly text: string }[];
  }[];
}

/** One of a list: the phone's own picker, with its large rows. */
export const Choice = ({ id, label, value, onPick, groups }: ChoiceProps) => (
  <div class="choice">
    <label for={id}>{label}</label>
    <select id={id} value={value} onChange={(event) => onPick(event.currentTarget.value)}>
      {groups.map((group) =>
        group.label === '' ? (
          group.options.map((option) => (
            <option key={option.value} value={option.value} selected={option.value === value}>
              {option.text}
            </option>
          ))
        ) : (
          <optgroup key={group.label} label={group.label}>
            {group.options.map((option) => (
              <option key={option.value} value={option.value} selected={option.value === value}>
                {option.text}
              </option>
            ))}
          </optgroup>
        ),
      )}
    </select>
  </div>
);

interface OneOfProps<T> {
  readonly label: string;
  readonly value: T;
  readonly choices: readonly (readonly [value: T, text: string])[];
  readonly onPick: (value: T) => void;
}

/** A few choices side by side, one of them taken. */
export const OneOf = <T extends string | number | boolean>({
  label,
  value,
  choices,
  onPick,
}: OneOfProps<T>) => (
  <fieldset class="one-of">
    <legend class="unseen">{label}</legend>
    {choices.map(([choice, text]) => (
      <button
        key={String(choice)}
        type="button"
        aria-pressed={choice === value}
        onClick={() => choice !== value && onPick(choice)}
      >
        {text}
      </button>
    ))}
  </fieldset>
);
