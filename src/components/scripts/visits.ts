import { readVisits, type Visit } from '../../job/kept-visits.ts';
import { tellCount } from './kept.ts';

/** Visits shown; the rest are counted. */
const MOST_SHOWN = 2;

/** Fills the home page's list of jobs left open on this phone. */
export async function showVisits(): Promise<void> {
  const section = document.querySelector<HTMLElement>('.visits');
  const list = section?.querySelector('ul');
  if (!section || !list) return;
  const visits = readVisits() ?? (await visitsKeptBefore());
  tellCount('visits', visits.length);
  const base = document.body.dataset.base ?? '/';
  list.replaceChildren(...visits.slice(0, MOST_SHOWN).map((visit) => rowOf(visit, base)));
  const more = section.querySelector<HTMLElement>('.more-visits');
  if (more) more.textContent = `All ${visits.length} open`;
}

/** Jobs of before the list was kept: read once, where there are any, from where they lie. */
async function visitsKeptBefore(): Promise<Visit[]> {
  try {
    const databases = await indexedDB.databases();
    if (!databases.some(({ name }) => name === 'proveline jobs')) return [];
    const [{ openJobStore }, { visitOf }] = await Promise.all([
      import('../../job/database.ts'),
      import('../../job/visits.ts'),
    ]);
    const { jobs } = await (await openJobStore()).all();
    return jobs.filter(({ job }) => job.finished === null).map(({ job }) => visitOf(job));
  } catch {
    return [];
  }
}

function rowOf({ id, title, stands, next }: Visit, base: string): HTMLLIElement {
  const item = document.createElement('li');
  const link = document.createElement('a');
  link.href = `${base}job/#${id}`;
  for (const [tag, text] of [
    ['strong', title],
    ['span', stands],
    ['b', next === '' ? 'Open it for its next act.' : `Next: ${next}`],
  ] as const) {
    const line = document.createElement(tag);
    line.textContent = text;
    link.append(line);
  }
  item.append(link);
  return item;
}
