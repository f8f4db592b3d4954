import type { ComputedSystem } from '../../reference/index.ts';
import { list } from '../text/words.ts';

/** Where to isolate this system, and which fuse belongs there: two or three short lines. */
export function isolationLines({ network }: ComputedSystem): string[] {
  const isolators = [...network.items.values()].filter(
    ({ device }) => device.family === 'isolation',
  );
  const fuses = network.branches.flatMap((branch) =>
    branch.kind === 'element' && branch.element.kind === 'fuse'
      ? [{ item: branch.item, rating: branch.element.rating }]
      : [],
  );
  return isolators.flatMap(({ reference, place }) => {
    const own = fuses.filter(({ item }) => item === reference).map(({ rating }) => `${rating} A`);
    return [
      `Isolate at ${reference}: ${place.charAt(0).toLowerCase()}${place.slice(1)}.`,
      ...(own.length > 0 ? [`Fuse at ${reference}: ${list(own)}.`] : []),
    ];
  });
}
