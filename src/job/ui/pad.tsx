interface Props {
  readonly typed: string;
  readonly signed: boolean;
  readonly onTyped: (typed: string) => void;
}

const KEYS = ['7', '8', '9', '4', '5', '6', '1', '2', '3', '.', '0'] as const;
const MOST_DIGITS = 7;

/** A pad of large keys for a figure. */
export const Pad = ({ typed, signed, onTyped }: Props) => (
  <div class="pad">
    {KEYS.map((key) => (
      <button
        key={key}
        type="button"
        disabled={(key === '.' && typed.includes('.')) || typed.length >= MOST_DIGITS}
        onClick={() => onTyped(typed === '0' && key !== '.' ? key : typed + key)}
      >
        {key}
      </button>
    ))}
    <button
      type="button"
      aria-label="Take the last digit off"
      disabled={typed === ''}
      onClick={() => onTyped(typed.slice(0, -1))}
    >
      <svg viewBox="0 0 32 24" width="32" height="24" aria-hidden="true">
        <path d="M11 3h18v18H11L3 12z M15 8l8 8m0-8-8 8" />
      </svg>
    </button>
    {signed && (
      <button
        type="button"
        class="wide"
        onClick={() => onTyped(typed.startsWith('−') ? typed.slice(1) : `−${typed}`)}
      >
        Change sign
      </button>
    )}
  </div>
);
