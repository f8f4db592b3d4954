/** What takes seconds to work out of a system, each once and kept: the door to this room. */
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import type { CompactSignatures } from '../../diagnosis/inference/index.ts';
import type { Layouts } from '../../diagram/index.ts';
import { keptFolder, keptIn } from '../../folder/index.ts';
import { codeKey } from '../code-key.ts';
import { makeLayouts } from './layouts.ts';
import { type KeptReplacement, makeReplacements } from './replacements.ts';
import { makeSignatures } from './signatures.ts';
import type { Source } from './source.ts';

export type { KeptReplacement } from './replacements.ts';
export { bareDevice, bareSystem, type Source } from './source.ts';

/** Where results are kept from build to build. */
const KEPT = join(keptFolder(), 'results');

/** Every kind of result, with what it is. */
export interface ResultOf {
  readonly signatures: CompactSignatures;
  readonly layouts: Layouts;
  readonly replacements: readonly KeptReplacement[];
}
export type Kind = keyof ResultOf;

export const RESULT_KINDS: readonly Kind[] = ['signatures', 'layouts', 'replacements'];

/** What makes a kind of result, and the module whose code that runs through. */
const MAKERS: { readonly [K in Kind]: { make: (source: Source) => ResultOf[K]; module: string } } =
  {
    signatures: { make: makeSignatures, module: 'src/reference/results/signatures.ts' },
    layouts: { make: makeLayouts, module: 'src/reference/results/layouts.ts' },
    replacements: { make: makeReplacements, module: 'src/reference/results/replacements.ts' },
  };

/** Works a result out, as bytes to keep. */
export const makeResult = (kind: Kind, source: Source): Uint8Array =>
  serialize(MAKERS[kind].make(source));

/** Results by what they are worked out from. */
export interface Results {
  /** The result; worked out here, and for seconds, unless it is kept. */
  readonly of: <K extends Kind>(kind: K, source: Source) => ResultOf[K];
  /** Whether a result is at hand. */
  readonly has: (kind: Kind, source: Source) => boolean;
  /** Keeps what was made elsewhere, by the same code from the same source. */
  readonly keep: (kind: Kind, source: Source, bytes: Uint8Array) => void;
  /** Removes from disk what nobody has asked for in a month. */
  readonly prune: () => void;
}

/**
 * Results kept under the hash of their source and of the code they run through, so that nothing
 * kept can be stale.
 *
 * @param folder where to keep them; null for memory alone
 * @param code names the code of a kind; null, as where its sources are not at hand, keeps in
 * memory alone
 */
export function keptResults(
  folder: string | null = KEPT,
  code: (kind: Kind) => string | null = (kind) => codeKey(MAKERS[kind].module),
): Results {
  const kept = folder === null ? null : keptIn(folder);
  const known = new Map<string, unknown>();
  const names = new WeakMap<Source, Map<Kind, string>>();

  const fileOf = (kind: Kind, source: Source): { name: string; lasts: boolean } => {
    const ofSource = names.get(source) ?? new Map<Kind, string>();
    names.set(source, ofSource);
    const key = kept === null ? '' : code(kind);
    const name = ofSource.get(kind) ?? nameOf(kind, source, key);
    ofSource.set(kind, name);
    return { name, lasts: kept !== null && key !== null };
  };
  const find = (kind: Kind, source: Source): boolean => {
    const { name, lasts } = fileOf(kind, source);
    if (known.has(name)) return true;
    const bytes = lasts ? kept?.read(name) : undefined;
    if (bytes) known.set(name, deserialize(bytes));
    return bytes !== undefined;
  };
  const keep: Results['keep'] = (kind, source, bytes) => {
    const { name, lasts } = fileOf(kind, source);
    known.set(name, deserialize(bytes));
    if (lasts) kept?.write(name, bytes);
  };
  return {
    has: find,
    keep,
    of(kind, source) {
      if (!find(kind, source)) keep(kind, source, makeResult(kind, source));
      return known.get(fileOf(kind, source).name) as never;
    },
    prune: () => kept?.prune(),
  };
}

/** Names a result by all that it depends on; the form of the bytes is the engine's own. */
function nameOf(kind: Kind, source: Source, code: string | null): string {
  const text = JSON.stringify([code, process.version, source]);
  return `${kind}-${createHash('sha256').update(text).digest('hex').slice(0, 40)}`;
}
