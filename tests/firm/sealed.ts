import type { Device, Review, System } from '../../schemas/index.ts';
import { buildNetwork, simulate } from '../../src/circuit/index.ts';
import { entriesByKind, readOf, sealOf } from '../../src/entries/index.ts';
import type { Checked } from '../../src/firm/index.ts';
import { checkFirm } from './memory.ts';

/** A firm in memory over a content folder, its reviews with the seals of what its entries are. */
export const sealed = (
  files: Readonly<Record<string, string>>,
  content: string,
): Record<string, string> => sealedAs(files, checkFirm(files, content));

/** A firm in memory, as it was checked, whose reviews bear the seals of what its entries are. */
export function sealedAs(
  files: Readonly<Record<string, string>>,
  { entries }: Pick<Checked, 'entries'>,
): Record<string, string> {
  const devices = new Map<string, Device>([...entries.devices].map(([id, { data }]) => [id, data]));
  const texts = entriesByKind(entries).flatMap(([kind, , entry]) => {
    const file = entry.file.replace(/^firm\//, '');
    const before = files[file];
    const { review } = entry.data as { review?: Review };
    if (entry.origin === 'reference' || before === undefined || !review) return [];
    const network = () => buildNetwork(entry.id, entry.data as System, devices);
    const read = readOf(
      { data: entry.data as object, body: entry.body },
      kind === 'system' ? simulate(network()) : undefined,
    );
    const text = before.replace(
      /(review: \{[^}]*due: "[^"]*")[^}]*\}/,
      `$1, seal: "${sealOf(read)}" }`,
    );
    return [[file, text] as const];
  });
  return { ...files, ...Object.fromEntries(texts) };
}
