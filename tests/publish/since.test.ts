import { describe, expect, it } from 'vitest';
import { readBuild } from '../../src/publish/index.ts';
import { edited } from '../changes/edits.ts';

const system = edited('combi-two-wire');
const good: Readonly<Record<string, string>> = {
  'site/data/index.json': JSON.stringify({
    reference: { version: '1234abcd', date: '2026-11-25' },
    systems: [{ id: 'combi-two-wire', data: 'systems/combi-two-wire.json' }],
  }),
  'site/data/systems/combi-two-wire.json': JSON.stringify(system),
};
const reader = (files: Readonly<Record<string, string>>) => async (file: string) => {
  const text = files[file];
  if (text === undefined) throw new Error(`ENOENT ${file}`);
  return text;
};

describe('an earlier build', () => {
  it.each(['site', 'site/data'])('is read from %s', async (folder) => {
    const build = await readBuild(folder, reader(good));
    expect(build).toMatchObject({ version: '1234abcd', date: '2026-11-25' });
    expect(build.systems.get('combi-two-wire')?.wiring).toHaveLength(system.wiring.length);
  });

  it.each([
    [
      'that is none',
      'elsewhere',
      {},
      'elsewhere is no earlier build: it holds neither data/index.json nor index.json. Give the folder a build wrote, or its data folder',
    ],
    [
      'cut short',
      'site',
      { 'site/data/index.json': '{"reference":' },
      'site/data/index.json is not JSON: Unexpected end of JSON input',
    ],
    [
      'of another shape',
      'site',
      { 'site/data/index.json': '{"reference":{"version":1}}' },
      'site/data/index.json is not what a build writes: reference.version: Invalid input: expected string, received number. A build made before this version said what systems are made of cannot be compared',
    ],
    [
      'that leads out of its folder',
      'site',
      {
        'site/data/index.json':
          '{"reference":{"version":"1","date":"2026-11-25"},"systems":[{"id":"x","data":"../../secret.json"}]}',
      },
      'site/data/index.json is not what a build writes: systems.0.data: Invalid string: must match pattern /^systems\\/[\\w-]+\\.json$/. A build made before this version said what systems are made of cannot be compared',
    ],
    [
      'without one of its systems',
      'site',
      { 'site/data/index.json': good['site/data/index.json']! },
      'site/data/systems/combi-two-wire.json is missing: the earlier build names it in its index.json',
    ],
  ])('%s is refused', async (_, folder, files, message) => {
    await expect(readBuild(folder, reader(files as Record<string, string>))).rejects.toThrow(
      new Error(message),
    );
  });
});
