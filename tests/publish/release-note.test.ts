import { expect, it } from 'vitest';
import { SystemFacts } from '../../src/changes/index.ts';
import { systemData } from '../../src/data/index.ts';
import { readEarlier, releaseNote } from '../../src/publish/release-note.ts';
import { core } from '../changes/cases.ts';
import { edited } from '../changes/edits.ts';
import { shippedSystem } from '../support/shipped.ts';

const system = shippedSystem('combi-two-wire');
const now = { systems: new Map([['combi-two-wire', system]]) };
const miswired = SystemFacts.parse(
  edited('combi-two-wire', (draft) => core(draft, 'W3', 'BN', ['E1.L', 'B1.COM'])),
);
const first = { version: 'aaaaaaaa', date: '2026-11-01' };
const second = { version: 'bbbbbbbb', date: '2026-11-02' };
const third = { version: 'cccccccc', date: '2026-11-03' };

/** The build with the core moved, against which the second was compared. */
const before = { ...first, systems: new Map([['combi-two-wire', miswired]]) };
const MOVED = 'Cable W3: brown (BN) moved from E1.L to E1.call feed; its other end stays at B1.COM';

/** A built site as a build reads it again, with its note. */
const site = (note: unknown) => {
  const files: Readonly<Record<string, string>> = {
    'site/data/index.json': JSON.stringify({
      reference: second,
      systems: [{ id: 'combi-two-wire', data: 'systems/combi-two-wire.json' }],
    }),
    'site/data/systems/combi-two-wire.json': JSON.stringify(systemData(system)),
    ...(note === undefined ? {} : { 'site/data/changes.json': JSON.stringify(note) }),
  };
  return readEarlier('site', async (file) => {
    if (!Object.hasOwn(files, file)) throw new Error(`ENOENT ${file}`);
    return files[file]!;
  });
};

it('says against which build, and what changed since', () => {
  const note = releaseNote({ ...now, built: second }, before);
  expect([note?.since, note?.to]).toEqual([first, second]);
  expect(note?.comparison.changed.map(({ changes }) => changes.map(({ words }) => words))).toEqual([
    [MOVED],
  ]);
});

it('is none where no earlier build was taken', () => {
  expect(releaseNote({ ...now, built: second })).toBeUndefined();
});

it('stays when the same is built again, however often', async () => {
  const note = releaseNote({ ...now, built: second }, before);
  const again = releaseNote({ ...now, built: third }, await site(note));
  expect(again).toEqual(note);
  expect(releaseNote({ ...now, built: third }, await site(again))).toEqual(note);
});

it('gives way to the next change', async () => {
  const note = releaseNote({ ...now, built: second }, before);
  const withdrawn = releaseNote({ systems: new Map(), built: third }, await site(note));
  expect(withdrawn).toMatchObject({
    since: second,
    to: third,
    comparison: { changed: [], removed: [{ id: 'combi-two-wire' }] },
  });
});

it('says that nothing changed where the build before had no note', async () => {
  expect(releaseNote({ ...now, built: third }, await site(undefined))).toMatchObject({
    since: second,
    to: third,
    comparison: { changed: [], added: [], removed: [], same: [{ id: 'combi-two-wire' }] },
  });
});

it('that was damaged is refused, with its file and what is wrong', async () => {
  await expect(site({ since: first })).rejects.toThrow(
    new Error(
      'site/data/changes.json is not what a build writes: $schema: Invalid input: expected "schemas/changes.schema.json". Delete the file, and this build says what changed since that one',
    ),
  );
});
