import type { Variant } from '../../components/system/shown.ts';

interface Props {
  readonly shown: Variant['shown'] | undefined;
  /** Whether the unit is left to style, as in a table of readings. */
  readonly bare?: boolean;
}

/** A reading: its figure first, its class beside it. */
export function Value({ shown, bare = false }: Props) {
  if (!shown) return null;
  const { figure, unit, word, look } = shown;
  return (
    <span class={`v ${look}`} data-figure={bare && look === 'dead' ? figure : undefined}>
      {look === 'dead' ? (
        `${word} (${figure}\u00a0${unit})`
      ) : (
        <>
          <b>{bare ? figure : `${figure} ${unit}`}</b> {word}
        </>
      )}
    </span>
  );
}
