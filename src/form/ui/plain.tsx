import { useId, useState } from 'preact/hooks';
import { parse, stringify } from 'yaml';
import { pathText } from '../../entries/problem.ts';
import { fieldOf } from '../schema.ts';
import { Said } from './said.tsx';
import { type FieldProps, useScope } from './scope.ts';

/** A word, a number, a choice, or what has no form of its own. */
export function Plain({ schema, path, value }: FieldProps) {
  const scope = useScope();
  const id = useId();
  const field = fieldOf(schema);
  const set = (next: unknown) => scope.change(path, next);
  const written = value === undefined || value === null ? '' : String(value);
  const about = { id, 'aria-label': pathText(path), 'aria-describedby': `${id}-said` };
  return (
    <>
      {field.kind === 'choice' && (
        <select
          {...about}
          value={written}
          onChange={({ currentTarget }) =>
            set(field.of.find((one) => String(one) === currentTarget.value))
          }
        >
          {!field.of.some((one) => String(one) === written) && (
            <option value={written}>{written}</option>
          )}
          {field.of.map((one) => (
            <option key={one} value={String(one)}>
              {one}
            </option>
          ))}
        </select>
      )}
      {field.kind === 'choices' && (
        <span class="choices">
          {field.of.map((one) => {
            const chosen = Array.isArray(value) ? (value as string[]) : [];
            return (
              <label key={one}>
                <input
                  type="checkbox"
                  checked={chosen.includes(one)}
                  onChange={({ currentTarget }) =>
                    set(
                      currentTarget.checked
                        ? [...chosen, one]
                        : chosen.filter((other) => other !== one),
                    )
                  }
                />
                {one}
              </label>
            );
          })}
        </span>
      )}
      {field.kind === 'yes or no' && (
        <select
          {...about}
          value={written}
          onChange={({ currentTarget }) => set(currentTarget.value === 'true')}
        >
          <option value="true">yes</option>
          <option value="false">no</option>
        </select>
      )}
      {field.kind === 'number' && (
        <input
          {...about}
          class="number"
          inputMode="decimal"
          value={written}
          onInput={({ currentTarget: { value: typed } }) =>
            // What is no number is kept as it is typed, for the check to say so.
            set(typed.trim() === '' || Number.isNaN(Number(typed)) ? typed : Number(typed))
          }
        />
      )}
      {field.kind === 'text' && (
        <textarea
          {...about}
          rows={1}
          value={written}
          onInput={({ currentTarget }) => set(currentTarget.value)}
        />
      )}
      {field.kind === 'yaml' && <Yaml about={about} value={value} onSet={set} />}
      <Said id={`${id}-said`} path={path} within />
    </>
  );
}

/** A value as YAML: kept while it cannot be read, and said. */
function Yaml({
  about,
  value,
  onSet,
}: {
  about: object;
  value: unknown;
  onSet: (value: unknown) => void;
}) {
  const [typed, setTyped] = useState(() => stringify(value).trimEnd());
  const [wrong, setWrong] = useState('');
  return (
    <>
      <textarea
        {...about}
        class="yaml"
        spellcheck={false}
        rows={Math.min(12, typed.split('\n').length)}
        value={typed}
        onInput={({ currentTarget }) => {
          setTyped(currentTarget.value);
          try {
            onSet(parse(currentTarget.value));
            setWrong('');
          } catch (error) {
            setWrong(error instanceof Error ? error.message : String(error));
          }
        }}
      />
      {wrong && (
        <span class="wrong">Not read yet, the last that could be read is kept: {wrong}</span>
      )}
    </>
  );
}
