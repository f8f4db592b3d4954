import { useState } from 'preact/hooks';
import { itemOf } from '../../wiring/points.ts';
import { wayMark } from '../../wiring/spoken.ts';
import { capital } from '../../words/index.ts';
import type { PathRowView, PathView, View } from '../view.ts';
import { Core } from './core.tsx';
import { PartNote } from './part-note.tsx';
import { NotAsItShould } from './readings.tsx';
import { Value } from './value.tsx';
import { type Chosen, isIn, shownOf } from './when.ts';

interface Props {
  readonly view: View;
  readonly chosen: Chosen;
  readonly isWrong: boolean;
}

/** The way of the supply through each load and back, in the mode chosen. */
export const LivePath = ({ view, chosen, isWrong }: Props) => (
  <section id="live-path" aria-labelledby="live-path-title">
    <h2 id="live-path-title">Live path</h2>
    {isWrong && <NotAsItShould />}
    <p class="chain-words">{view.summary}</p>
    {view.paths.map((path, i) => (
      <OnePath key={path.id} path={path} chosen={chosen} isOpen={i === 0} />
    ))}
  </section>
);

interface OneProps {
  readonly path: PathView;
  readonly chosen: Chosen;
  readonly isOpen: boolean;
}

const OnePath = ({ path: { name, item, works, rows }, chosen, isOpen }: OneProps) => (
  <details class="path" open={isOpen}>
    <summary>
      <b>
        {name} <small>{item}</small>
      </b>
      <span>{works.find(({ when }) => isIn(when, chosen.mode))?.text}</span>
    </summary>
    <ol class="path-rows">
      {rows.map((row, i) => (
        // The rows of a path have one order for good.
        <Row key={String(i)} row={row} chosen={chosen} />
      ))}
    </ol>
  </details>
);

function Row({ row, chosen }: { readonly row: PathRowView; readonly chosen: Chosen }) {
  switch (row.kind) {
    case 'item':
      return (
        <li class="row-item">
          <b>{row.title}</b> <small class="point">{row.reference}</small>{' '}
          <span class="quiet">{row.place}</span>
          {row.module && <Told module={row.module} />}
        </li>
      );
    case 'terminal':
      return <Terminal row={row} chosen={chosen} />;
    case 'core':
      return (
        <li class={`row-core ${row.colour}`}>
          <span class="point">{row.cable}</span> <Core colour={row.colour} sleeve={row.sleeve} />{' '}
          <span class="quiet">{row.length} m</span>
        </li>
      );
    case 'link':
      return <li class="row-link-wire">Wire link{row.why && `: ${row.why}`}</li>;
    default: {
      const state = row.states.find(({ text, when }) => text && isIn(when, chosen.mode));
      return (
        <li class={`row-${row.kind}`}>
          {row.open && isIn(row.open, chosen.mode) && <span class="gap" aria-hidden="true" />}
          {capital(row.name)}
          {state && <b class="state">{state.text}</b>}
        </li>
      );
    }
  }
}

/** What the entry of a part says of it, along the way: written out once it is opened. */
function Told({ module }: { readonly module: string }) {
  const [isOpen, setOpen] = useState(false);
  return (
    <details class="told-here" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>What to know of it</summary>
      {isOpen && <PartNote module={module} />}
    </details>
  );
}

function Terminal({
  row: { point, against, values, instead },
  chosen,
}: {
  readonly row: Extract<PathRowView, { kind: 'terminal' }>;
  readonly chosen: Chosen;
}) {
  const isSameItem = against?.startsWith(`${itemOf(point)}.`);
  return (
    <li class="row-terminal">
      <span class="point">{wayMark(point)}</span>
      {against !== null && (
        <span class="row-value">
          {values.length > 0 ? (
            <>
              <Value shown={shownOf(values, chosen)} />
              <span class="against">
                to <span class="point">{isSameItem ? wayMark(against) : against}</span>
              </span>
            </>
          ) : (
            <span class="quiet">
              {instead === null ? 'not read' : `read at ${wayMark(instead)} (${itemOf(instead)})`}
            </span>
          )}
        </span>
      )}
    </li>
  );
}
