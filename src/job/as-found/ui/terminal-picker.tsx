import type { AsFound } from '../../../wiring/as-found/index.ts';
import { Choice } from '../../ui/parts.tsx';
import { nameOf } from '../../words.ts';
import type { FoundSheet } from '../found-sheet.ts';
import { coresAt, terminalsAt } from '../marks.ts';

interface Props {
  readonly sheet: FoundSheet;
  readonly marks: AsFound;
  readonly item: string;
  /** The core as readers call it: `BK of W4`. */
  readonly core: string;
  readonly due: string;
  /** Where its end is marked to be. */
  readonly point: string;
  readonly onPick: (point: string) => void;
}

/** Where one end of one core is: a terminal of its item, none, or one further off. */
export function TerminalPicker({ sheet, marks, item, core, due, point, onPick }: Props) {
  const others = sheet.items.filter(({ ref, points }) => ref !== item && points.length > 0);
  return (
    <fieldset class="picker">
      <legend>
        Where is {core} at {item}?
      </legend>
      <div class="terminals">
        {terminalsAt(sheet, item).map(({ id, name, function: use }) => (
          <button key={id} type="button" aria-pressed={id === point} onClick={() => onPick(id)}>
            <b class="point">{name}</b>
            <span>{id === due ? 'as the entry has it' : use}</span>
            <Holds cores={coresAt(sheet, marks, id).filter((one) => one !== core)} />
          </button>
        ))}
        <button type="button" aria-pressed={point === 'loose'} onClick={() => onPick('loose')}>
          <b>In no terminal</b>
          <span>{due === 'loose' ? 'as the entry has it' : 'it lies loose'}</span>
        </button>
        <button type="button" aria-pressed={point === 'short'} onClick={() => onPick('short')}>
          <b>Cut short</b>
          <span>it does not reach</span>
        </button>
      </div>
      <Choice
        id={`elsewhere-${core.replaceAll(' ', '-')}-${item}`}
        label="Or at another item"
        value={others.some(({ ref }) => point.startsWith(`${ref}.`)) ? point : ''}
        onPick={(value) => value !== '' && onPick(value)}
        groups={[
          { label: '', options: [{ value: '', text: 'Pick a terminal' }] },
          ...others.map(({ ref, title, points }) => ({
            label: `${ref} ${title}`,
            options: points.map(({ id }) => ({ value: id, text: `${ref} ${nameOf(id)}` })),
          })),
        ]}
      />
    </fieldset>
  );
}

/** The other cores under a terminal. */
const Holds = ({ cores }: { readonly cores: readonly string[] }) =>
  cores.length === 0 ? null : <span class="holds">holds {cores.join(', ')}</span>;
