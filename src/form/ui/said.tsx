import { pathText } from '../../entries/problem.ts';
import { valueAt } from '../values.ts';
import { type Path, useScope, wrongAt } from './scope.ts';

/** What is wrong with a field, and that a line stands word for word in another entry. */
export function Said({ path, id, within = false }: { path: Path; id?: string; within?: boolean }) {
  const scope = useScope();
  const { copied } = scope.entry;
  const wrong = wrongAt(scope, path, within);
  const isCopied = within && copied?.at.includes(pathText(path)) && isAsRead(scope, path);
  return (
    <span id={id} class="said">
      {wrong.map(({ path: at, message, details }) => (
        <span class="wrong" key={`${at} ${message}`}>
          {message}
          {details.map((line) => (
            <small key={line}>{line}</small>
          ))}
        </span>
      ))}
      {isCopied && <span class="copied">still as in “{copied!.from}”</span>}
    </span>
  );
}

/** Whether a value is as it was when the entry was read. */
const isAsRead = ({ entry, values }: ReturnType<typeof useScope>, path: Path): boolean =>
  valueAt(entry.values, path) === valueAt(values, path);
