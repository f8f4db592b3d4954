import { useState } from 'preact/hooks';
import { pathText } from '../../entries/problem.ts';
import { emptyOf, fieldOf, groupOf, isWhole, resolvedIn } from '../schema.ts';
import { Plain } from './plain.tsx';
import { Said } from './said.tsx';
import { type FieldProps, renamed, useScope, wrongAt } from './scope.ts';
import { specialFor } from './special.tsx';

/** One value of an entry, entered as its schema asks, with what is wrong with it beside. */
export function Field({ schema, path, value }: FieldProps) {
  const resolved = resolvedIn(useScope().entry.schema, schema);
  const Special = specialFor(useScope().entry.kind, path);
  if (Special) return <Special schema={resolved} path={path} value={value} />;
  const field = fieldOf(resolved);
  switch (field.kind) {
    case 'group':
      return <Group schema={resolved} path={path} value={value} />;
    case 'variant':
      return <Variant schema={resolved} path={path} value={value} />;
    case 'record':
      return <Keyed schema={resolved} path={path} value={value} />;
    case 'list':
      return <List schema={resolved} path={path} value={value} />;
    default:
      return <Plain schema={resolved} path={path} value={value} />;
  }
}

/** Fields that stand together; those that are absent may be added. */
export function Group({ schema, path, value }: FieldProps) {
  const scope = useScope();
  const field = fieldOf(schema);
  if (field.kind !== 'group') return null;
  const record = (value ?? {}) as Readonly<Record<string, unknown>>;
  const names = Object.keys(field.of);
  const there = names.filter((name) => name in record || field.required.includes(name));
  const absent = names.filter((name) => !there.includes(name));
  return (
    <div class="group">
      <Said path={path} />
      {there.map((name) => (
        <Named
          key={name}
          name={name}
          schema={field.of[name]!}
          path={[...path, name]}
          value={record[name]}
          mayGo={!field.required.includes(name)}
        />
      ))}
      {absent.length > 0 && (
        <Add
          words={absent}
          about={(name) => field.of[name]!.description ?? ''}
          onAdd={(name) => scope.change([...path, name], emptyOf(field.of[name]!))}
        />
      )}
    </div>
  );
}

/** A group whose fields hang on what it is. */
function Variant({ schema, path, value }: FieldProps) {
  const scope = useScope();
  const field = fieldOf(schema);
  if (field.kind !== 'variant') return null;
  const record = (value ?? {}) as Readonly<Record<string, unknown>>;
  const now = String(record[field.by] ?? '');
  return (
    <>
      <select
        aria-label={`${pathText(path)}: ${field.by}`}
        value={now}
        onChange={({ currentTarget: { value: word } }) =>
          scope.change(path, { ...(emptyOf(field.of[word]!) as object), [field.by]: word })
        }
      >
        {!(now in field.of) && <option value={now}>{now}</option>}
        {Object.keys(field.of).map((word) => (
          <option key={word}>{word}</option>
        ))}
      </select>
      <Group schema={groupOf(field, now)} path={path} value={value} />
    </>
  );
}

/** A choice of what may be added. */
export function Add({
  words,
  about = () => '',
  onAdd,
}: {
  words: readonly string[];
  about?: (word: string) => string;
  onAdd: (word: string) => void;
}) {
  return (
    <label class="add">
      Add{' '}
      <select
        value=""
        onChange={({ currentTarget }) => {
          if (currentTarget.value !== '') onAdd(currentTarget.value);
          currentTarget.value = '';
        }}
      >
        <option value="">…</option>
        {words.map((word) => (
          <option key={word} value={word}>
            {about(word) ? `${word}: ${about(word)}` : word}
          </option>
        ))}
      </select>
    </label>
  );
}

/** A field under its name, with what it is for. */
function Named({
  name,
  schema,
  path,
  value,
  mayGo,
}: FieldProps & { readonly name: string; readonly mayGo: boolean }) {
  const scope = useScope();
  const isFramed = isWhole(fieldOf(resolvedIn(scope.entry.schema, schema)));
  const head = (
    <>
      <b>{name}</b> {schema.description && <span class="hint">{schema.description}</span>}
      {mayGo && (
        <button
          type="button"
          class="away"
          aria-label={`Remove ${pathText(path)}`}
          onClick={() => scope.change(path, undefined)}
        >
          remove
        </button>
      )}
    </>
  );
  return isFramed ? (
    <fieldset id={pathText(path)}>
      <legend>{head}</legend>
      <Field schema={schema} path={path} value={value} />
    </fieldset>
  ) : (
    <div class="named" id={pathText(path)}>
      <span class="name">{head}</span>
      <Field schema={schema} path={path} value={value} />
    </div>
  );
}

/** Values by names of their own, as items by their references. */
function Keyed({ schema, path, value }: FieldProps) {
  const scope = useScope();
  const field = fieldOf(schema);
  const [name, setName] = useState('');
  if (field.kind !== 'record') return null;
  const record = (value ?? {}) as Readonly<Record<string, unknown>>;
  const isFolded = isWhole(fieldOf(field.value));
  const add = (key: string) => {
    if (key.trim() === '' || key in record) return;
    scope.change(path, { ...record, [key.trim()]: emptyOf(field.value) });
    setName('');
  };
  return (
    <>
      <Said path={path} />
      {Object.entries(record).map(([key, one]) => {
        const at = [...path, key];
        const name = (
          <span class="key">
            <input
              aria-label={`Name of ${key}`}
              defaultValue={key}
              onChange={({ currentTarget }) => {
                const to = currentTarget.value.trim();
                if (to === '' || to in record) currentTarget.value = key;
                else scope.change(path, renamed(record, key, to));
              }}
            />
            <button
              type="button"
              class="away"
              aria-label={`Remove ${key}`}
              onClick={() => scope.change(at, undefined)}
            >
              remove
            </button>
          </span>
        );
        return isFolded ? (
          <details key={key} id={pathText(at)}>
            <summary>
              <b>{key}</b> {aboutOf(one)}
              {wrongAt(scope, at, true).length > 0 && <span class="wrong">wrong</span>}
            </summary>
            {name}
            <Field schema={field.value} path={at} value={one} />
          </details>
        ) : (
          <div class="keyed" key={key} id={pathText(at)}>
            {name}
            <Field schema={field.value} path={at} value={one} />
          </div>
        );
      })}
      {field.keys ? (
        <Add words={field.keys.filter((key) => !(key in record))} onAdd={add} />
      ) : (
        <span class="add">
          <input
            aria-label="Name of the next"
            placeholder={field.key}
            value={name}
            onInput={({ currentTarget }) => setName(currentTarget.value)}
          />
          <button type="button" onClick={() => add(name)}>
            Add
          </button>
        </span>
      )}
    </>
  );
}

/** What a folded value is: its title, its device or its kind. */
const aboutOf = (value: unknown): string =>
  ['title', 'device', 'kind', 'function']
    .map((key) => (value as Record<string, unknown> | null)?.[key])
    .find((one) => typeof one === 'string') ?? '';

/** Values one after another. */
function List({ schema, path, value }: FieldProps) {
  const scope = useScope();
  const field = fieldOf(schema);
  if (field.kind !== 'list') return null;
  const list = Array.isArray(value) ? (value as unknown[]) : [];
  const move = (from: number, to: number) => {
    const next = list.toSpliced(from, 1);
    next.splice(to, 0, list[from]);
    scope.change(path, next);
  };
  return (
    <>
      <Said path={path} />
      <ol class={field.exactly === undefined ? 'list' : 'list exactly'}>
        {list.map((one, i) => (
          <li key={i} id={pathText([...path, i])}>
            <Field schema={field.item} path={[...path, i]} value={one} />
            {field.exactly === undefined && (
              <span class="line-acts">
                {i > 0 && (
                  <button
                    type="button"
                    aria-label={`Line ${i + 1} up`}
                    onClick={() => move(i, i - 1)}
                  >
                    up
                  </button>
                )}
                <button
                  type="button"
                  aria-label={`Remove line ${i + 1}`}
                  onClick={() => scope.change([...path, i], undefined)}
                >
                  remove
                </button>
              </span>
            )}
          </li>
        ))}
      </ol>
      {field.exactly === undefined && (
        <button type="button" onClick={() => scope.change(path, [...list, emptyOf(field.item)])}>
          Add a line
        </button>
      )}
    </>
  );
}
