import { useId } from 'preact/hooks';
import { pathText } from '../../entries/problem.ts';
import { COLOUR_CODES } from '../../published/index.ts';
import { Said } from './said.tsx';
import { type FieldProps, itemsOf, useScope } from './scope.ts';

/** Codes of IEC 60757, those met in heating first. */
const COLOURS = [...new Set(['BN', 'BU', 'BK', 'GY', 'GNYE', ...Object.keys(COLOUR_CODES)])];
const named = (code: string) => `${COLOUR_CODES[code as keyof typeof COLOUR_CODES] ?? ''} ${code}`;

const SPECIAL: readonly (readonly [RegExp, (props: FieldProps) => preact.JSX.Element])[] = [
  [/^items\.[^.]+\.device$/, Device],
  [/^cables\.[^.]+\.cores$/, Cores],
  [/^modes\.[^.]+\.conditions$/, Conditions],
  [/^modes\.[^.]+\.expect$/, Outcomes],
  [/^links\[\d+\]\.between\[\d\]$/, Terminal],
];

/** The form of a system's own fields: devices from a list, cores as a table, modes by what is seen. */
export function specialFor(kind: string, path: FieldProps['path']) {
  if (kind !== 'system') return undefined;
  const at = pathText(path);
  return SPECIAL.find(([form]) => form.test(at))?.[1];
}

/** A device, chosen from those there are. */
function Device({ path, value }: FieldProps) {
  const { entry, change } = useScope();
  const list = useId();
  return (
    <>
      <input
        aria-label={pathText(path)}
        list={list}
        value={String(value ?? '')}
        onInput={({ currentTarget }) => change(path, currentTarget.value)}
      />
      <datalist id={list}>
        {entry.devices.map(({ id, title }) => (
          <option key={id} value={id}>
            {title}
          </option>
        ))}
      </datalist>
      <span class="hint">{entry.devices.find(({ id }) => id === value)?.title}</span>
      <Said path={path} within />
    </>
  );
}

/** A terminal, chosen from those that the items have. */
function Terminal({ path, value }: FieldProps) {
  const { change } = useScope();
  return (
    <>
      <TerminalChoice
        label="Terminal"
        value={String(value ?? '')}
        onChange={(next) => change(path, next)}
      />
      <Said path={path} within />
    </>
  );
}

function TerminalChoice({
  label,
  value,
  onChange,
}: {
  label: string;
  value: string;
  onChange: (value: string) => void;
}) {
  const items = itemsOf(useScope());
  const known = items.some(({ item, device }) =>
    device.terminals.some((terminal) => `${item}.${terminal}` === value),
  );
  return (
    <select
      aria-label={label}
      value={value}
      onChange={({ currentTarget }) => onChange(currentTarget.value)}
    >
      {!known && <option value={value}>{value === '' ? 'choose' : `${value} (not there)`}</option>}
      {items.map(({ item, device }) => (
        <optgroup key={item} label={`${item} ${device.title}`}>
          {device.terminals.map((terminal) => (
            <option key={terminal} value={`${item}.${terminal}`}>
              {`${item}.${terminal}`}
            </option>
          ))}
        </optgroup>
      ))}
    </select>
  );
}

type Core =
  | readonly [string, string]
  | { readonly ends: readonly [string, string]; readonly sleeve?: string };
const partsOf = (core: Core) => ('ends' in core ? core : { ends: core });

/** Cores of a cable as a table: colour, from, to, sleeve. */
function Cores({ path, value }: FieldProps) {
  const { change } = useScope();
  const cores = Object.entries((value ?? {}) as Record<string, Core>);
  const free = COLOURS.filter((colour) => !cores.some(([code]) => code === colour));
  const write = (next: readonly (readonly [string, Core])[]) =>
    change(path, Object.fromEntries(next));
  const set = (colour: string, ends: readonly [string, string], sleeve: string | undefined) =>
    write(
      cores.map(([code, core]) => [
        code,
        code !== colour ? core : sleeve ? { ends, sleeve } : ends,
      ]),
    );
  return (
    <>
      <table class="cores">
        <thead>
          <tr>
            <th scope="col">Core</th>
            <th scope="col">From</th>
            <th scope="col">To</th>
            <th scope="col">Sleeved</th>
            <td />
          </tr>
        </thead>
        <tbody>
          {cores.map(([code, core]) => {
            const { ends, sleeve } = partsOf(core);
            return (
              <tr key={code} id={pathText([...path, code])}>
                <th scope="row">
                  <select
                    aria-label={`Colour of ${code}`}
                    value={code}
                    onChange={({ currentTarget }) =>
                      write(
                        cores.map(([one, is]) => [one === code ? currentTarget.value : one, is]),
                      )
                    }
                  >
                    {[code, ...free].map((one) => (
                      <option key={one} value={one}>
                        {named(one)}
                      </option>
                    ))}
                  </select>
                </th>
                {ends.map((end, i) => (
                  <td key={i === 0 ? 'from' : 'to'}>
                    <TerminalChoice
                      label={`${code} ${i === 0 ? 'from' : 'to'}`}
                      value={end}
                      onChange={(next) =>
                        set(code, i === 0 ? [next, ends[1]] : [ends[0], next], sleeve)
                      }
                    />
                  </td>
                ))}
                <td>
                  <select
                    aria-label={`${code} sleeved`}
                    value={sleeve ?? ''}
                    onChange={({ currentTarget }) =>
                      set(code, ends, currentTarget.value || undefined)
                    }
                  >
                    {['', ...COLOURS].map((one) => (
                      <option key={one} value={one}>
                        {one === '' ? 'no' : named(one)}
                      </option>
                    ))}
                  </select>
                </td>
                <td>
                  <button
                    type="button"
                    aria-label={`Remove ${code}`}
                    onClick={() => write(cores.filter(([one]) => one !== code))}
                  >
                    remove
                  </button>
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      {free[0] && (
        <button type="button" onClick={() => write([...cores, [free[0]!, ['', '']]])}>
          Add a core
        </button>
      )}
      <Said path={path} within />
    </>
  );
}

/** What the world sets in a mode, of all that its devices have. */
function Conditions(props: FieldProps) {
  const scope = useScope();
  return (
    <Sets
      {...props}
      about={itemsOf(scope).map(
        ({ item, device }) => [item, device.title, device.conditions] as const,
      )}
      words={['as usual', 'yes', 'no']}
    />
  );
}

/** What a person must see in a mode, of all that its devices show. */
function Outcomes(props: FieldProps) {
  const scope = useScope();
  return (
    <Sets
      {...props}
      about={itemsOf(scope).map(
        ({ item, device }) => [item, device.title, device.outcomes] as const,
      )}
      words={['not said', 'must be', 'must not be']}
    />
  );
}

/** Yes or no to each of what items have, or nothing said. */
function Sets({
  path,
  value,
  about,
  words,
}: FieldProps & {
  readonly about: readonly (readonly [
    string,
    string,
    readonly { name: string; title: string }[],
  ])[];
  readonly words: readonly [none: string, yes: string, no: string];
}) {
  const { change } = useScope();
  const record = (value ?? {}) as Readonly<Record<string, boolean>>;
  const known = new Set(about.flatMap(([item, , all]) => all.map(({ name }) => `${item}.${name}`)));
  const strange = Object.keys(record).filter((id) => !known.has(id));
  const rows = [
    ...about.flatMap(([item, title, all]) =>
      all.map((one) => ({ id: `${item}.${one.name}`, words: `${title} ${item}: ${one.title}` })),
    ),
    ...strange.map((id) => ({ id, words: `${id} (not there)` })),
  ];
  const [none, yes, no] = words;
  return (
    <>
      <table class="sets">
        <tbody>
          {rows.map((row) => {
            const now = record[row.id];
            return (
              <tr key={row.id} class={now === undefined ? 'unsaid' : ''}>
                <th scope="row">{row.words}</th>
                <td>
                  <select
                    aria-label={row.words}
                    value={now === undefined ? '' : String(now)}
                    onChange={({ currentTarget: { value: chosen } }) =>
                      change([...path, row.id], chosen === '' ? undefined : chosen === 'true')
                    }
                  >
                    <option value="">{none}</option>
                    <option value="true">{yes}</option>
                    <option value="false">{no}</option>
                  </select>
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <Said path={path} within />
    </>
  );
}
