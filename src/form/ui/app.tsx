import { useEffect, useState } from 'preact/hooks';
import type { Kind } from '../../entries/kinds.ts';
import type { EntryToWrite, Offered } from '../messages.ts';
import { ask } from './ask.ts';
import { Editor } from './editor.tsx';

const addressOf = (kind: Kind, id: string) => `?kind=${kind}&id=${id}`;

/**
 * Goes to an entry that was just written. Its file loads every page anew, and a page that is still
 * on its way elsewhere where it stood: the address is changed before.
 */
function goTo(address: string): void {
  history.pushState(null, '', address);
  location.reload();
}
addEventListener('popstate', () => location.reload());

/** The list of entries to write, or one of them. */
export function App() {
  const asked = location.search;
  const [entry, setEntry] = useState<EntryToWrite>();
  const [offered, setOffered] = useState<Offered>();
  const [wrong, setWrong] = useState('');
  useEffect(() => {
    const failed = (error: unknown) =>
      setWrong(error instanceof Error ? error.message : String(error));
    if (asked === '') ask<Offered>('entries').then(setOffered, failed);
    else ask<EntryToWrite>('entry', undefined, asked).then(setEntry, failed);
  }, []);
  if (wrong)
    return (
      <>
        <p class="wrong">{wrong}</p>
        <a href="./">All entries</a>
      </>
    );
  if (entry) return <Editor entry={entry} />;
  return offered ? <Entries offered={offered} /> : <p>Reading the entries…</p>;
}

function Entries({ offered: { firm, kinds, own, like } }: { offered: Offered }) {
  return (
    <>
      <h1>Write an entry{firm && ` of ${firm}`}</h1>
      <Begin kinds={kinds} like={like} />
      {kinds.map(({ kind, title }) => {
        const those = own.filter((one) => one.kind === kind);
        return (
          those.length > 0 && (
            <section key={kind}>
              <h2>{title}</h2>
              <ul class="entries">
                {those.map(({ id, title: name, wrong }) => (
                  <li key={id}>
                    <a href={addressOf(kind, id)}>{name}</a> <small>{id}</small>
                    {wrong > 0 && <span class="wrong">{wrong} wrong</span>}
                  </li>
                ))}
              </ul>
            </section>
          )
        );
      })}
    </>
  );
}

/** A new entry: of what kind, like which, and what it is called. */
function Begin({ kinds, like }: Pick<Offered, 'kinds' | 'like'>) {
  const [kind, setKind] = useState<Kind>('system');
  const [wrong, setWrong] = useState('');
  return (
    <form
      class="begin"
      onSubmit={(event) => {
        event.preventDefault();
        const form = new FormData(event.currentTarget);
        ask<{ kind: Kind; id: string }>('new', Object.fromEntries(form)).then(
          ({ id }) => goTo(addressOf(kind, id)),
          (error: unknown) => setWrong(error instanceof Error ? error.message : String(error)),
        );
      }}
    >
      <h2>A new one</h2>
      <label>
        Kind
        <select
          name="kind"
          value={kind}
          onChange={({ currentTarget }) => setKind(currentTarget.value as Kind)}
        >
          {kinds.map((one) => (
            <option key={one.kind} value={one.kind}>
              {one.title}
            </option>
          ))}
        </select>
      </label>
      <label>
        Begin with a copy of
        <select name="like">
          {like
            .filter((one) => one.kind === kind)
            .map(({ id, title }) => (
              <option key={id} value={id}>
                {title}
              </option>
            ))}
        </select>
      </label>
      <label>
        Title <input name="title" required autocomplete="off" />
      </label>
      {wrong && <p class="wrong">{wrong}</p>}
      <button type="submit" class="main">
        Begin
      </button>
    </form>
  );
}
