import { shortDate } from '../../words/dates.ts';
import { meetRelease } from '../changes/looked.ts';

/** What version.json says. */
interface Built {
  readonly version: string;
  /** YYYY-MM-DD. */
  readonly date: string;
  /** The newest release of the firm that it holds, where there is one. */
  readonly release?: string;
}

/**
 * Says on a page which build it is of, and which reviews are overdue. Without an answer the
 * link to the file stays, and reviews are judged by the device's clock alone.
 */
export async function showBuilt(): Promise<void> {
  const built = await ask();
  if (built?.release) meetRelease(built.release);
  for (const place of document.querySelectorAll<HTMLElement>('.built')) {
    if (built) {
      const day = shortDate(built.date);
      place.textContent = built.release
        ? `${built.release}, built ${day}`
        : `${built.version}, built ${day}`;
    }
    place.classList.add('told');
  }
  showOverdue(latest(built?.date, calendarDay(new Date())));
}

async function ask(): Promise<Built | undefined> {
  try {
    const answer = await fetch(`${document.body.dataset.base ?? '/'}version.json`);
    return answer.ok ? ((await answer.json()) as Built) : undefined;
  } catch {
    return undefined;
  }
}

/** Marks what was due before a day, YYYY-MM-DD, and says how many reviews those are. */
function showOverdue(today: string): void {
  const due = [...document.querySelectorAll<HTMLElement>('[data-due]')];
  const late = due.filter(({ dataset }) => dataset.due! < today);
  for (const place of late) place.classList.add('overdue');
  const sum = document.querySelector('#overdue-sum');
  if (!sum) return;
  const count = late.length === 1 ? '1 review is' : `${late.length || 'No'} reviews are`;
  sum.textContent = `${count} overdue on ${shortDate(today)}.`;
}

/** A clock that was set back does not make a review young again: the build is no later than now. */
const latest = (built: string | undefined, clock: string) =>
  built !== undefined && built > clock ? built : clock;

/** The day where the reader is, YYYY-MM-DD. */
function calendarDay(time: Date): string {
  const two = (n: number) => String(n).padStart(2, '0');
  return `${time.getFullYear()}-${two(time.getMonth() + 1)}-${two(time.getDate())}`;
}
