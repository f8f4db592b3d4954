import { useEffect, useRef, useState } from 'preact/hooks';
import { type Draft, withFuse, withPoint } from '../draft.ts';
import { refOf, type Sheet, type SheetItem, type SheetPoint } from '../sheet.ts';
import { href, OneOf } from './parts.tsx';

interface Props {
  readonly sheet: Sheet;
  readonly draft: Draft;
  readonly onDraft: (draft: Draft) => void;
}

/** Which points a probe is laid on, live or dead: for the first probe as for the second. */
export const isReadAt =
  ({ kind }: Draft) =>
  ({ reads, dead }: SheetPoint): boolean =>
    kind === 'live' ? reads === 'live and dead' : reads !== 'none' && dead;

/** Where the first probe goes: an item and its terminal, from the list or from the diagram. */
export function PointStep({ sheet, draft, onDraft }: Props) {
  const [drawn, setDrawn] = useState(false);
  const usable = isReadAt(draft);
  const items = sheet.items.filter(
    (item) =>
      item.points.some((point) => usable(point) || isElsewhere(point)) ||
      (draft.kind !== 'live' && item.fuses.some(({ ours }) => ours)),
  );
  const near = draft.from ? refOf(draft.from) : null;
  const pick = (point: string) => onDraft(withPoint(sheet, draft, point));
  return (
    <>
      <h3>At which terminal?</h3>
      <OneOf
        label="Pick from"
        value={drawn}
        choices={[
          [false, 'List'],
          [true, 'Diagram'],
        ]}
        onPick={setDrawn}
      />
      {drawn ? (
        <Drawing
          system={sheet.id}
          onTerminal={(id) => {
            const point = items.flatMap(({ points }) => points).find((one) => one.id === id);
            if (point && usable(point)) pick(id);
          }}
        />
      ) : (
        items.map((item) => (
          <ItemBlock
            key={item.ref}
            item={item}
            open={item.ref === near}
            points={item.points.filter(usable)}
            withFuses={draft.kind !== 'live'}
            onPoint={pick}
            onFuse={(branch) => onDraft(withFuse(draft, branch))}
          />
        ))
      )}
      {draft.kind !== 'live' && (
        <p class="quiet">
          Terminals that the isolator leaves joined to the supply are not listed: no dead test is
          made there.
        </p>
      )}
    </>
  );
}

interface ItemProps {
  readonly item: SheetItem;
  readonly open: boolean;
  readonly points: readonly SheetPoint[];
  readonly withFuses: boolean;
  readonly onPoint: (id: string) => void;
  readonly onFuse: (branch: string) => void;
}

/** Whether no probe goes at a terminal and its conductor is read at another one. */
const isElsewhere = ({ joined, instead }: SheetPoint) => joined && instead !== null;

function ItemBlock({ item, open, points, withFuses, onPoint, onFuse }: ItemProps) {
  return (
    <details class="item-block" name="reading-item" open={open}>
      <summary>
        <b class="point">{item.ref}</b>
        <span>
          {item.title}
          <span class="quiet">{item.place}</span>
        </span>
      </summary>
      <div class="terminals">
        {points
          .toSorted((a, b) => Number(b.joined) - Number(a.joined))
          .map((point) => (
            <button key={point.id} type="button" onClick={() => onPoint(point.id)}>
              <b class="point">{point.name}</b>
              <span>
                {point.joined ? point.function : `${point.function}; nothing is joined to it`}
              </span>
            </button>
          ))}
        {withFuses &&
          item.fuses
            .filter(({ ours }) => ours)
            .map((fuse) => (
              <button key={fuse.branch} type="button" onClick={() => onFuse(fuse.branch)}>
                <b>{fuse.name}</b>
                <span>fuse link taken out, {fuse.rating} A</span>
              </button>
            ))}
      </div>
      <Elsewhere item={item} onPoint={onPoint} />
    </details>
  );
}

/** Terminals at which no probe goes, and where each is read instead. */
function Elsewhere({ item, onPoint }: Pick<ItemProps, 'item' | 'onPoint'>) {
  const points = item.points.filter(isElsewhere);
  if (points.length === 0) return null;
  const why = [
    ...new Set(points.flatMap(({ opening }) => item.openings[opening ?? -1]?.because ?? [])),
  ];
  return (
    <div class="elsewhere">
      <p class="quiet">{why.join(' ')}</p>
      <div class="terminals">
        {points.map(({ id, name, instead }) => (
          <button key={id} type="button" onClick={() => onPoint(instead!)}>
            <b class="point">{name}</b>
            <span>is read at {instead!.replace('.', ' ')}</span>
          </button>
        ))}
      </div>
    </div>
  );
}

interface DrawingProps {
  readonly system: string;
  readonly onTerminal: (id: string) => void;
}

/** The connection diagram; a tap on a terminal picks it. */
function Drawing({ system, onTerminal }: DrawingProps) {
  const place = useRef<HTMLElement>(null);
  const pick = useRef(onTerminal);
  pick.current = onTerminal;
  const [said, setSaid] = useState('Fetching the diagram.');
  useEffect(() => {
    const gone = new AbortController();
    const { signal } = gone;
    place.current?.addEventListener(
      'click',
      (event) => {
        const terminal =
          event.target instanceof Element ? event.target.closest('[data-terminal]') : null;
        const id = terminal?.getAttribute('data-terminal');
        if (!id) return;
        event.preventDefault();
        pick.current(id);
      },
      { signal },
    );
    fetch(href(`/job/${system}.svg`), { signal })
      .then((response) => (response.ok ? response.text() : Promise.reject()))
      .then((text) => {
        const { documentElement } = new DOMParser().parseFromString(text, 'image/svg+xml');
        place.current?.replaceChildren(document.importNode(documentElement, true));
        setSaid('Tap a terminal. The drawing may be moved sideways.');
      })
      .catch(() => {
        if (!signal.aborted) setSaid('The diagram could not be fetched: pick from the list.');
      });
    return () => gone.abort();
  }, [system]);
  return (
    <>
      <p role="status" class="quiet">
        {said}
      </p>
      <section class="pan" ref={place} aria-label="Connection diagram, may be moved sideways" />
    </>
  );
}
