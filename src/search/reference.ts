import { terminalAnchor } from '../diagram/anchor.ts';
import type { Name, Named, Placed } from './names.ts';
import type { Result } from './result.ts';
import { joined } from './text.ts';

/** A reference as typed: an item, and perhaps a terminal of it. */
const REFERENCE = /^\s*([a-z]{1,2}[0-9]{1,2})(?:[\s.:/-]+(\S.*))?$/i;

/**
 * Finds an item or terminal by its reference designation, as in `E1` or `E1.call feed`, in
 * every system that has it; the system the reader is on comes first.
 * @param here address from the base of the page the reader is on
 */
export function findReference(query: string, { names, systems }: Named, here = ''): Result[] {
  const [, typed, terminal] = REFERENCE.exec(query) ?? [];
  if (!typed) return [];
  const item = typed.toUpperCase();
  const having = systems.filter(({ items }) => items[item] !== undefined);
  const isHere = ({ url }: Placed) => here !== '' && here.startsWith(url);
  return [...having.filter(isHere), ...having.filter((system) => !isHere(system))].flatMap(
    (system): Result[] => {
      const { device, place } = system.items[item]!;
      const of = system.title;
      if (!terminal) {
        const title = names.find(({ url }) => url === device)?.name ?? item;
        const first = terminalsOf(names, device)[0];
        const url =
          system.url + (first ? `readings/#${terminalAnchor(`${item}.${first.name}`)}` : '');
        return [{ title: `${item}, ${title}`, kind: 'item', url, of, excerpt: plain(place) }];
      }
      return bestTerminals(terminalsOf(names, device), terminal).map((each) => ({
        title: `${item}.${each.name}`,
        kind: 'terminal',
        url: `${system.url}readings/#${terminalAnchor(`${item}.${each.name}`)}`,
        of,
        excerpt: plain(`${each.about}. ${place}`),
      }));
    },
  );
}

const terminalsOf = (names: readonly Name[], device: string) =>
  names.filter(({ kind, url }) => kind === 'terminal' && url.startsWith(`${device}#`));

/** The terminal of that name; else of that alias; else all whose name begins so. */
function bestTerminals(terminals: readonly Name[], typed: string): readonly Name[] {
  const asked = joined(typed);
  const named = terminals.filter(({ name }) => joined(name) === asked);
  if (named.length > 0) return named;
  const other = terminals.filter(({ aliases }) => aliases.some((a) => joined(a) === asked));
  if (other.length > 0) return other;
  return terminals.filter(({ name }) => joined(name).startsWith(asked));
}

const plain = (text: string) => [{ text, marked: false }];
