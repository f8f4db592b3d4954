import { useState } from 'preact/hooks';
import { terminalMark } from '../../words/index.ts';
import type { Desk } from '../desk.ts';
import type { DeskState } from '../desk-state.ts';
import { type Draft, withFuse, withPoint } from '../draft.ts';
import { refOf, type Sheet, type SheetItem, type SheetPoint } from '../sheet.ts';
import { pointSaid } from '../words.ts';
import { Drawing, drawnBy } from './drawing.tsx';
import { OneOf } from './parts.tsx';

interface Props {
  readonly desk: Desk;
  readonly state: DeskState;
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
export function PointStep({ desk, state, sheet, draft, onDraft }: Props) {
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
          drawn={drawnBy(desk, state)}
          hint="Tap a terminal. The drawing may be moved sideways."
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
        <span>
          {item.title} <small class="point">{item.ref}</small>
          <span class="quiet">{item.place}</span>
        </span>
      </summary>
      <div class="terminals">
        {points
          .toSorted((a, b) => Number(b.joined) - Number(a.joined))
          .map((point) => (
            <button key={point.id} type="button" onClick={() => onPoint(point.id)}>
              <b class="point">{terminalMark(point.name)}</b>
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
            <b class="point">{terminalMark(name)}</b>
            <span>is read at {pointSaid(instead!)}</span>
          </button>
        ))}
      </div>
    </div>
  );
}
