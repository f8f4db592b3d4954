import type { AsFound } from '../../../wiring/as-found/index.ts';
import { terminalMark } from '../../../words/index.ts';
import { Choice } from '../../ui/parts.tsx';
import { type FoundSheet, terminalChoices } from '../found-sheet.ts';
import { coresAt, terminalsAt } from '../marks.ts';

interface Props {
  readonly sheet: FoundSheet;
  readonly marks: AsFound;
  readonly item: string;
  /** The core as marks name it: `BK of W4`. */
  readonly core: string;
  /** The same as people say it: `black of the room stat cable W4`. */
  readonly coreWords: string;
  readonly due: string;
  /** Where its end is marked to be. */
  readonly point: string;
  readonly onPick: (point: string) => void;
}

/** Where one end of one core is: a terminal of its item, none, or one further off. */
export function TerminalPicker(props: Props) {
  const { sheet, marks, item, core, coreWords, due, point, onPick } = props;
  const others = terminalChoices(sheet).filter(({ ref }) => ref !== item);
  return (
    <fieldset class="picker">
      <legend>
        Where is {coreWords} at the {sheet.said[item]}?
      </legend>
      <div class="terminals">
        {terminalsAt(sheet, item).map(({ id, name, function: use }) => (
          <button key={id} type="button" aria-pressed={id === point} onClick={() => onPick(id)}>
            <b class="point">{terminalMark(name)}</b>
            <span>{id === due ? 'as drawn' : use}</span>
            <Holds cores={coresAt(sheet, marks, id).filter((one) => one !== core)} />
          </button>
        ))}
        <button type="button" aria-pressed={point === 'loose'} onClick={() => onPick('loose')}>
          <b>In no terminal</b>
          <span>{due === 'loose' ? 'as drawn' : 'it lies loose'}</span>
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
        groups={[{ label: '', options: [{ value: '', text: 'Pick a terminal' }] }, ...others]}
      />
    </fieldset>
  );
}

/** The other cores under a terminal. */
const Holds = ({ cores }: { readonly cores: readonly string[] }) =>
  cores.length === 0 ? null : <span class="holds">holds {cores.join(', ')}</span>;
