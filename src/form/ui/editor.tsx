import { useEffect, useRef, useState } from 'preact/hooks';
import type { EntryToWrite, Verdict } from '../messages.ts';
import { ask } from './ask.ts';
import { Group } from './field.tsx';
import { InScope, withAt } from './scope.ts';

/** Milliseconds of rest after which what is written is checked. */
const REST = 500;

interface Draft {
  readonly base: string;
  readonly values: EntryToWrite['values'];
  readonly body: string;
}

/** What was typed and not saved is kept in this tab: another file that changes loads the page anew. */
const draftName = ({ kind, id }: EntryToWrite) => `writing ${kind} ${id}`;

/** The page is loaded anew by what it saved; it says so then too. */
const savedName = ({ kind, id }: EntryToWrite) => `saved ${kind} ${id}`;
const savedWords = ({ file }: EntryToWrite) =>
  `Saved in ${file}. Nobody has reviewed it as it now stands.`;

/** A browser that keeps nothing is done without: a page loaded anew begins with the file as it is. */
function kept(name: string): string | null {
  try {
    return sessionStorage.getItem(name);
  } catch {
    return null;
  }
}
function keepAs(name: string, value: string | null): void {
  try {
    if (value === null) sessionStorage.removeItem(name);
    else sessionStorage.setItem(name, value);
  } catch {
    // Nothing is kept.
  }
}

const asInFile = ({ base, values, body }: EntryToWrite): Draft => ({ base, values, body });

/** What was typed before, though the file may be another by now; else the file as it was read. */
function draftOf(entry: EntryToWrite): Draft {
  try {
    return (JSON.parse(kept(draftName(entry)) ?? 'null') as Draft | null) ?? asInFile(entry);
  } catch {
    return asInFile(entry);
  }
}

/** Opens what lies folded round a field, and shows the nearest that stands on the page. */
function unfold(path: string): void {
  for (let at = path; at !== ''; at = at.replace(/(?:^|[.[])[^.[]*$/, '')) {
    const place = document.getElementById(at);
    if (!place) continue;
    for (let one: Element | null = place; one; one = one.parentElement?.closest('details') ?? null)
      if (one instanceof HTMLDetailsElement) one.open = true;
    place.scrollIntoView();
    return;
  }
}

/** One entry as a form, checked while it is written, saved when asked. */
export function Editor({ entry }: { entry: EntryToWrite }) {
  const [{ values, body, base }, setDraft] = useState(() => draftOf(entry));
  const [problems, setProblems] = useState(entry.problems);
  const [said, setSaid] = useState(() =>
    kept(savedName(entry)) === entry.base ? savedWords(entry) : '',
  );
  const { kind, id } = entry;
  const asRead = useRef({ values: entry.values, body: entry.body });
  const saved = useRef('');
  const isChanged = values !== asRead.current.values || body !== asRead.current.body;

  const keep = (draft: Draft) => {
    setDraft(draft);
    setSaid('');
    keepAs(draftName(entry), JSON.stringify(draft));
  };
  const failed = (error: unknown) =>
    setSaid(error instanceof Error ? error.message : String(error));

  useEffect(() => {
    if (!isChanged) return;
    let isCurrent = true;
    const timer = setTimeout(() => {
      ask<Verdict>('check', { kind, id, values, body }).then(
        (found) => isCurrent && setProblems(found.problems),
        failed,
      );
    }, REST);
    return () => {
      isCurrent = false;
      clearTimeout(timer);
    };
  }, [values, body]);

  const save = () =>
    ask<{ base: string }>('save', { kind, id, base, values, body }).then((written) => {
      asRead.current = { values, body };
      saved.current = written.base;
      setDraft({ base: written.base, values, body });
      keepAs(draftName(entry), null);
      keepAs(savedName(entry), written.base);
      setSaid(savedWords(entry));
    }, failed);

  const scope = {
    entry,
    values,
    problems,
    change: (path: readonly (string | number)[], value: unknown) =>
      keep({ base, body, values: withAt(values, path, value) as EntryToWrite['values'] }),
  };
  return (
    <InScope.Provider value={scope}>
      <p>
        <a href="./">All entries</a>
      </p>
      <h1>{String(values.title ?? id)}</h1>
      <p class="hint">{entry.file}</p>
      {entry.copied && (
        <p class="copied">
          {entry.copied.at.length === 1 ? '1 line stands' : `${entry.copied.at.length} lines stand`}{' '}
          word for word in “{entry.copied.from}”, and may still speak of that: it says so beside.
        </p>
      )}
      {base !== entry.base && base !== saved.current && (
        <div class="wrong" role="alert">
          <p>
            {entry.file} was changed by somebody else since you began. What you typed still stands
            here, and nothing is written.
          </p>
          <button type="button" onClick={() => keep({ base: entry.base, values, body })}>
            Keep what I typed, in its place
          </button>{' '}
          <button
            type="button"
            onClick={() => {
              keepAs(draftName(entry), null);
              setDraft(asInFile(entry));
            }}
          >
            Take the file as it is now
          </button>
        </div>
      )}
      <div class="standing" aria-live="polite">
        {problems.length === 0 ? (
          <p>In order.</p>
        ) : (
          <>
            <p>
              <b>{problems.length === 1 ? '1 thing wrong' : `${problems.length} things wrong`}</b>
            </p>
            <ul>
              {problems.map(({ path, message, line, details }) => (
                <li key={`${path} ${message}`}>
                  {path === '' ? (
                    `Line ${line}`
                  ) : (
                    <a href={`#${path}`} onClick={() => unfold(path)}>
                      {path}
                    </a>
                  )}
                  : {message}
                  {details.map((detail) => (
                    <small key={detail}> {detail}.</small>
                  ))}
                </li>
              ))}
            </ul>
          </>
        )}
      </div>
      <Group schema={entry.schema} path={[]} value={values} />
      <label class="prose">
        <b>Prose</b> <span class="hint">Markdown, with Term and Reading where a figure stands</span>
        <textarea
          rows={12}
          value={body.trim()}
          onInput={({ currentTarget }) =>
            keep({ base, values, body: `\n${currentTarget.value}\n` })
          }
        />
      </label>
      <div class="bar">
        <button type="button" class="main" disabled={!isChanged} onClick={save}>
          {problems.length === 0 ? 'Save' : `Save with ${problems.length} wrong`}
        </button>
        <span role="status">{said}</span>
      </div>
    </InScope.Provider>
  );
}
