import { getEntry, render } from 'astro:content';
import type { Entry } from '../../entries/index.ts';

/** Folders of entries with prose. */
type Folder =
  | 'systems'
  | 'devices'
  | 'symptoms'
  | 'procedures'
  | 'standards'
  | 'glossary'
  | 'modules';
type Prose = Awaited<ReturnType<typeof render>>['Content'];

/**
 * The prose of an entry as components, in order: the reference's, and a firm's after it or in
 * its place. Empty where there is none.
 */
export async function proseOf(
  folder: Folder,
  { id, origin, body }: Entry<unknown>,
): Promise<Prose[]> {
  if (body.trim() === '') return [];
  const layers =
    origin === 'reference'
      ? [folder]
      : origin === 'extended'
        ? ([folder, `firm-${folder}`] as const)
        : ([`firm-${folder}`] as const);
  const found = await Promise.all(layers.map((layer) => getEntry(layer, id)));
  return Promise.all(found.flatMap((entry) => (entry ? [render(entry)] : []))).then((rendered) =>
    rendered.map(({ Content }) => Content),
  );
}
