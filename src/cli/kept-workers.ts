import { createHash } from 'node:crypto';
import { dirname, join, relative, resolve } from 'node:path';
import type { AstroUserConfig } from 'astro';
import { type InputOptions, type OutputOptions, rolldown, VERSION } from 'rolldown';
import { homeFolder, type Kept, keptFolder, keptIn } from '../folder/index.ts';
import { codeKey } from '../reference/code-key.ts';

type Plugins = NonNullable<NonNullable<AstroUserConfig['vite']>['plugins']>;

/** Where a page's script starts a thread: the address of the thread's own script. */
const ADDRESS = /new URL\('([^']+\/worker\.ts)', import\.meta\.url\)/;

/**
 * Scripts that run in threads of their own, bundled once for all builds by the same code: they
 * hold the engine, know nothing of the entries, and are half of what there is to bundle.
 */
export function keptWorkers(kept: Kept = keptIn(join(keptFolder(), 'workers'))): Plugins[number] {
  return {
    name: 'kept-workers',
    enforce: 'pre',
    applyToEnvironment: ({ name }) => name === 'client',
    transform: {
      filter: { code: ADDRESS },
      async handler(code, id) {
        const [written, path] = ADDRESS.exec(code)!;
        const file = resolve(dirname(id), path!);
        const source = await bundled(file, this.environment.config.worker.rolldownOptions, kept);
        const asset = this.emitFile({ type: 'asset', name: 'worker.js', source });
        kept.prune();
        return {
          code: code.replace(written!, `import.meta.ROLLDOWN_FILE_URL_${asset}`),
          map: null,
        };
      },
    },
  };
}

async function bundled(file: string, options: InputOptions, kept: Kept): Promise<Uint8Array> {
  const code = codeKey(relative(homeFolder(), file));
  const name = code === null ? null : nameOf([code, VERSION, options, OUTPUT]);
  const before = name === null ? undefined : kept.read(name);
  if (before) return before;
  const bundle = await rolldown({ ...options, input: file, platform: 'browser' });
  const { output } = await bundle.generate(OUTPUT);
  await bundle.close();
  const source = Buffer.from(output[0].code);
  if (name !== null) kept.write(name, source);
  return source;
}

const OUTPUT: OutputOptions = { format: 'es', minify: true, codeSplitting: false };

/** Names a bundle by the code, by what bundles it, and how. */
function nameOf(what: unknown): string {
  const plain = (_: string, value: unknown) => (value instanceof RegExp ? String(value) : value);
  return createHash('sha256').update(JSON.stringify(what, plain)).digest('hex');
}
