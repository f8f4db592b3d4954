import type { Looked } from './looked.ts';

/** A change as phones are told it. */
export interface NewsLine {
  readonly id: string;
  readonly rank: 'danger' | 'act' | 'know';
  readonly title: string;
  /** Its page from the site's base; null: none. */
  readonly path: string | null;
  readonly words: string;
  readonly reason: string | null;
  readonly systems: readonly { readonly id: string; readonly title: string }[];
}

/** A release as phones are told it. */
export interface News {
  readonly name: string;
  readonly date: string;
  readonly changes: readonly NewsLine[];
}

/** A change with the release that brought it. */
export type Waiting = NewsLine & { readonly release: string };

/** By what a dangerous change is known to have been read. */
export const readKey = ({ release, id }: Waiting): string => `${release}/${id}`;

/**
 * What this phone's owner has not looked at: dangerous changes until each is read, others until
 * the release that brought them has been looked at.
 * @param news releases, the newest first; one that is no longer among them is older than all
 */
export function waitingFor(
  news: readonly News[],
  { from, looked, read }: Looked,
): { readonly danger: readonly Waiting[]; readonly rest: readonly Waiting[] } {
  const since = (name: string) => {
    const at = news.findIndex((one) => one.name === name);
    return (at === -1 ? news : news.slice(0, at)).flatMap(({ name: release, changes }) =>
      changes.map((line): Waiting => ({ ...line, release })),
    );
  };
  const isRead = new Set(read);
  return {
    danger: since(from).filter((line) => line.rank === 'danger' && !isRead.has(readKey(line))),
    rest: since(looked).filter(({ rank }) => rank !== 'danger'),
  };
}

/** What is kept once a dangerous change was read, or all were looked at. */
export function afterwards(news: readonly News[], looked: Looked): Looked {
  const newest = news[0]?.name ?? looked.looked;
  const nothingWaits = waitingFor(news, looked).danger.length === 0 && looked.looked === newest;
  return nothingWaits ? { from: newest, looked: newest, read: [] } : looked;
}

/** Changes under one heading. */
export interface Group<T> {
  readonly title: string;
  readonly lines: readonly T[];
}

/** Headings of what is of no one system. */
export const EVERYWHERE = 'Wherever you work';
export const SEVERAL = 'In several systems';

/**
 * Changes by system, each in one group: under a system of the reader's own where it is in one,
 * else under its one system, else under those of several or of none.
 * @param mine the reader's own systems by id, the foremost first: they come first
 */
export function groupsOf<T extends Pick<NewsLine, 'systems'>>(
  lines: readonly T[],
  mine: readonly string[] = [],
): Group<T>[] {
  const keyed = lines.map((line) => {
    const own = mine.find((id) => line.systems.some((system) => system.id === id));
    const system =
      line.systems.find(({ id }) => id === own) ??
      (line.systems.length === 1 ? line.systems[0] : undefined);
    const title = system?.title ?? (line.systems.length === 0 ? EVERYWHERE : SEVERAL);
    const order = own ? mine.indexOf(own) : mine.length + (system ? 2 : Number(title === SEVERAL));
    return { line, title, order };
  });
  return [...Map.groupBy(keyed, ({ title }) => title)]
    .map(([title, members]) => ({
      title,
      order: members[0]!.order,
      lines: members.map(({ line }) => line),
    }))
    .sort((a, b) => a.order - b.order || a.title.localeCompare(b.title, 'en'))
    .map(({ title, lines }) => ({ title, lines }));
}
