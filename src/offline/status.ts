import type { Version } from './manifest.ts';
import type { Holding } from './messages.ts';

/** What is known of the pages kept on this device. */
export interface Status {
  /** Why nothing can be kept; absent where the browser can keep pages. */
  readonly unable?: 'no worker' | 'not secure' | 'refused';
  /** The version that serves this page. */
  readonly serving?: Version | undefined;
  /** What is here of the version that serves this page; absent where nobody has looked. */
  readonly holding?: Holding | undefined;
  /** A version that may be taken up. */
  readonly ready?: Version | undefined;
  /** A version being saved, or whose saving was cut. */
  readonly saving?: Saving | undefined;
  /** When the site last answered whether there is a newer version. */
  readonly lastChecked?: Date | undefined;
}

/** How far the saving of a version is. */
export interface Saving {
  readonly version: Version;
  readonly bytes: number;
  /** Set when it stopped: no signal, or no room on the device. */
  readonly stopped?: 'no signal' | 'no room';
}

const MONTHS = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ');

/** A calendar date as in 25 Nov 2026, from YYYY-MM-DD. */
export function readableDate(date: string): string {
  const [year, month, day] = date.split('-').map(Number);
  return `${day} ${MONTHS[month! - 1]} ${year}`;
}

/** The line in the footer: what is saved, how far saving is, what is missing. */
export function statusLine({ unable, serving, holding, saving, lastChecked }: Status): string {
  if (unable) return UNABLE[unable];
  const parts: string[] = [];
  if (serving) parts.push(savedLine(serving, holding));
  if (saving) parts.push(serving ? updateLine(saving) : firstLine(saving));
  if (!serving && !saving) return 'Saving for offline has not begun yet.';
  if (serving && lastChecked) parts.push(`Last checked ${readableTime(lastChecked)}.`);
  return parts.join(' ');
}

/**
 * The line that offers another version: the release it brings, else its date, and its number where
 * the dates are the same.
 */
export function offerLine(ready: Version, serving: Version | undefined): string {
  if (ready.release !== undefined && ready.release !== serving?.release)
    return `Release ${ready.release}, dated ${readableDate(ready.date)}, is ready.`;
  const number = ready.date === serving?.date ? ` ${ready.version}` : '';
  return `Version${number} dated ${readableDate(ready.date)} is ready.`;
}

const UNABLE = {
  'no worker': 'This browser cannot keep the pages; they need a signal.',
  'not secure':
    'The pages cannot be kept from this address, which is not secure (https); they need a signal.',
  refused: 'This browser does not keep the pages with its present settings; they need a signal.',
};

function savedLine(version: Version, holding: Holding | undefined): string {
  const { kept, lost } = holding ?? { kept: version, lost: undefined };
  if (lost && lost.pages > 0)
    return `Not all is saved: ${lost.pages} of ${kept.pages} pages are missing; they come back with a signal.`;
  if (lost && lost.files > 0)
    return `Not all is saved: ${lost.files} files that pages and search need are missing; they come back with a signal.`;
  const share = kept.pages < version.pages ? `${kept.pages} of ${version.pages}` : version.pages;
  const size = `${share} pages, ${megabytes(kept.bytes)} MB`;
  return `Saved for offline: ${size}, dated ${readableDate(version.date)}.`;
}

function firstLine({ version, bytes, stopped }: Saving): string {
  const amount = `${megabytes(bytes)} of ${megabytes(version.bytes)} MB`;
  if (stopped === 'no room')
    return `Not saved: this device has no room for ${megabytes(version.bytes)} MB beside your jobs. ${whatToDo(version)}`;
  if (stopped) return `Not saved yet, ${amount} so far: it goes on when there is a signal.`;
  return `Saving for offline: ${share(version, bytes)} of ${megabytes(version.bytes)} MB.`;
}

function updateLine({ version, bytes, stopped }: Saving): string {
  const name = `the version dated ${readableDate(version.date)}`;
  if (stopped === 'no room')
    return `This device has no room for ${name} beside your jobs, so nothing of it was kept. ${whatToDo(version)}`;
  if (stopped) return `Fetching ${name} stopped: it goes on when there is a signal.`;
  return `Fetching ${name}: ${share(version, bytes)}.`;
}

const whatToDo = ({ choosable }: Version) =>
  `Free some space${choosable ? ', or keep fewer systems' : ''}, then check again.`;

/** In steps of a tenth, so that a screen reader is not told every kilobyte. */
const share = (version: Version, bytes: number) =>
  `${Math.floor((10 * bytes) / Math.max(1, version.bytes)) * 10} %`;

/** Millions of bytes, to one decimal place; to two below one. */
export const megabytes = (bytes: number) => (bytes / 1e6).toFixed(bytes < 1e6 ? 2 : 1);

const readableTime = (time: Date) => {
  const two = (n: number) => String(n).padStart(2, '0');
  const day = `${time.getDate()} ${MONTHS[time.getMonth()]} ${time.getFullYear()}`;
  return `${day} at ${two(time.getHours())}:${two(time.getMinutes())}`;
};
