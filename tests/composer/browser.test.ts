import { resolve } from 'node:path';
import { build } from 'esbuild';
import { expect, it } from 'vitest';

it('the worker brings no schemas and nothing of Node', async () => {
  const { metafile } = await build({
    entryPoints: [resolve('src/composer/worker.ts')],
    bundle: true,
    write: false,
    minify: true,
    format: 'esm',
    platform: 'browser',
    metafile: true,
    plugins: [
      {
        // As the site’s own bundler is told: loading a schema changes nothing.
        name: 'schemas without effects',
        setup: ({ onResolve, resolve: find }) =>
          onResolve({ filter: /\.ts$/ }, async ({ path, pluginData, ...asked }) => {
            if (pluginData === 'found') return undefined;
            const found = await find(path, { ...asked, pluginData: 'found' });
            const sideEffects = !/\/schemas\/[a-z-]+\.ts$/.test(found.path);
            return { path: found.path, sideEffects };
          }),
      },
    ],
  });
  const [output] = Object.values(metafile.outputs);
  const brought = Object.entries(output!.inputs).flatMap(([file, { bytesInOutput }]) =>
    bytesInOutput > 0 ? [file] : [],
  );
  expect(brought.filter((file) => file.includes('node_modules'))).toEqual([]);
  expect(brought.filter((file) => file.startsWith('schemas/')).toSorted()).toEqual([
    'schemas/demands.ts',
    'schemas/isolated.ts',
    'schemas/logic-names.ts',
    'schemas/split-reference.ts',
  ]);
});
