import { resolve } from 'node:path';
import { build } from 'esbuild';
import { expect, it } from 'vitest';

it('runs in a browser: no schemas, no Node, and little of it', async () => {
  const { metafile, outputFiles } = await build({
    entryPoints: [resolve('src/compose/index.ts')],
    bundle: true,
    write: false,
    minify: true,
    format: 'esm',
    platform: 'browser',
    metafile: true,
  });
  const files = Object.keys(metafile.inputs);
  expect(files.filter((file) => /node_modules|schemas\//.test(file))).toEqual([]);
  const rooms = new Set(files.map((file) => file.split('/').slice(0, 2).join('/')));
  expect([...rooms].toSorted()).toEqual([
    'src/compose',
    'src/published',
    'src/units',
    'src/wiring',
    'src/words',
  ]);
  expect(outputFiles[0]!.contents.length).toBeLessThan(40_000);
});
