import { expect, test } from 'vitest';
import type { Version } from '../../src/offline/manifest.ts';
import { offerLine, readableDate, statusLine } from '../../src/offline/status.ts';

const version: Version = {
  id: 'a1',
  version: '1a2b3c4d',
  date: '2026-11-25',
  pages: 57,
  files: 80,
  bytes: 1_234_567,
  choosable: false,
  packs: [],
};
const nothing = { pages: 0, files: 0, bytes: 0 };
const holding = { kept: { pages: 57, files: 80, bytes: 1_234_567 }, lost: nothing, leftOut: [] };
const newer = { ...version, id: 'b2', version: '5e6f7a8b', date: '2026-12-01' };

test('dates as they are read', () => {
  expect(readableDate('2026-11-25')).toBe('25 Nov 2026');
  expect(readableDate('2027-01-02')).toBe('2 Jan 2027');
});

test.each([
  ['nothing yet', {}, 'Saving for offline has not begun yet.'],
  ['no worker', { unable: 'no worker' }, 'This browser cannot keep the pages; they need a signal.'],
  [
    'not secure',
    { unable: 'not secure' },
    'The pages cannot be kept from this address, which is not secure (https); they need a signal.',
  ],
  [
    'refused',
    { unable: 'refused' },
    'This browser does not keep the pages with its present settings; they need a signal.',
  ],
  ['first saving', { saving: { version, bytes: 500_000 } }, 'Saving for offline: 40 % of 1.2 MB.'],
  [
    'first saving cut',
    { saving: { version, bytes: 500_000, stopped: 'no signal' } },
    'Not saved yet, 0.50 of 1.2 MB so far: it goes on when there is a signal.',
  ],
  [
    'no room',
    { saving: { version, bytes: 0, stopped: 'no room' } },
    'Not saved: this device has no room for 1.2 MB beside your jobs. Free some space, then check again.',
  ],
  ['saved', { serving: version }, 'Saved for offline: 57 pages, 1.2 MB, dated 25 Nov 2026.'],
  [
    'no room for so many systems',
    { saving: { version: { ...version, choosable: true }, bytes: 0, stopped: 'no room' } },
    'Not saved: this device has no room for 1.2 MB beside your jobs. Free some space, or keep fewer systems, then check again.',
  ],
  [
    'pages missing',
    { serving: version, holding: { ...holding, lost: { pages: 12, files: 20, bytes: 9 } } },
    'Not all is saved: 12 of 57 pages are missing; they come back with a signal.',
  ],
  [
    'only other files missing',
    { serving: version, holding: { ...holding, lost: { pages: 0, files: 3, bytes: 9 } } },
    'Not all is saved: 3 files that pages and search need are missing; they come back with a signal.',
  ],
  [
    'a part chosen',
    {
      serving: version,
      holding: { ...holding, kept: { pages: 40, files: 60, bytes: 900_000 }, leftOut: ['a'] },
    },
    'Saved for offline: 40 of 57 pages, 0.90 MB, dated 25 Nov 2026.',
  ],
  [
    'saved and checked',
    { serving: version, lastChecked: new Date(2026, 10, 26, 9, 5) },
    'Saved for offline: 57 pages, 1.2 MB, dated 25 Nov 2026. Last checked 26 Nov 2026 at 09:05.',
  ],
  [
    'newer on its way',
    { serving: version, saving: { version: newer, bytes: newer.bytes } },
    'Saved for offline: 57 pages, 1.2 MB, dated 25 Nov 2026. Fetching the version dated 1 Dec 2026: 100 %.',
  ],
  [
    'newer cut',
    { serving: version, saving: { version: newer, bytes: 0, stopped: 'no signal' } },
    'Saved for offline: 57 pages, 1.2 MB, dated 25 Nov 2026. Fetching the version dated 1 Dec 2026 stopped: it goes on when there is a signal.',
  ],
  [
    'no room for a newer',
    { serving: version, saving: { version: newer, bytes: 0, stopped: 'no room' } },
    'Saved for offline: 57 pages, 1.2 MB, dated 25 Nov 2026. This device has no room for the version dated 1 Dec 2026 beside your jobs, so nothing of it was kept. Free some space, then check again.',
  ],
] as const)('the status line: %s', (_, status, line) => {
  expect(statusLine(status)).toBe(line);
});

test('the offer names the date, and the number where two versions share a date', () => {
  expect(offerLine(newer, version)).toBe('Version dated 1 Dec 2026 is ready.');
  expect(offerLine({ ...newer, date: version.date }, version)).toBe(
    'Version 5e6f7a8b dated 25 Nov 2026 is ready.',
  );
});

test('the offer names the release that a version brings, and no release that is here already', () => {
  const released = { ...newer, release: '2026.12' };
  expect(offerLine(released, version)).toBe('Release 2026.12, dated 1 Dec 2026, is ready.');
  expect(offerLine(released, { ...version, release: '2026.11' })).toBe(
    'Release 2026.12, dated 1 Dec 2026, is ready.',
  );
  expect(offerLine(released, { ...version, release: '2026.12' })).toBe(
    'Version dated 1 Dec 2026 is ready.',
  );
  // Where nothing is kept yet, and where what comes is of no release.
  expect(offerLine(released, undefined)).toBe('Release 2026.12, dated 1 Dec 2026, is ready.');
  expect(offerLine(newer, { ...version, release: '2026.11' })).toBe(
    'Version dated 1 Dec 2026 is ready.',
  );
});
