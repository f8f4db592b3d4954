import type { Network } from '../../../src/circuit/index.ts';
import type { ColourCode } from '../../../src/published/index.ts';
import { type AsFound, coresOf, isBridgeable } from '../../../src/wiring/as-found/index.ts';
import type { Random } from '../../support/random.ts';

/** Some wiring as found that a system could have: up to a dozen things otherwise. */
export function randomFound(network: Network, { below, pick, next }: Random): AsFound {
  const { system } = network;
  const cables = Object.keys(system.cables);
  const points = network.nodes.filter((n) => n.terminal).map((n) => n.id);
  const many = <T>(most: number, make: () => T): T[] =>
    Array.from({ length: below(most + 1) }, make);
  const fewer = Object.fromEntries(
    many(2, () => {
      const cable = pick(cables);
      const cores = coresOf(system.cables[cable]!).filter(() => next() < 0.7);
      return [cable, next() < 0.3 ? [...cores, 'VT' as ColourCode] : cores] as const;
    }),
  );
  const bridgeable = network.branches.map((b) => b.id).filter((id) => isBridgeable(network, id));
  const fuses = network.branches
    .filter((b) => b.kind === 'element' && 'rating' in b.element)
    .map((b) => b.id);
  const bridged = many(2, () => pick(bridgeable));
  return {
    cables: fewer,
    ends: many(5, () => {
      const cable = pick(cables);
      const colours = fewer[cable] ?? coresOf(system.cables[cable]!);
      const point = next() < 0.2 ? pick(['loose', 'short']) : pick(points);
      return colours.length === 0
        ? null
        : { cable, colour: pick(colours), end: below(2) as 0 | 1, point };
    }).filter((end) => end !== null),
    missingLinks: system.links.flatMap((_, i) => (next() < 0.2 ? [i] : [])),
    extraLinks: many(2, () => [pick(points), pick(points)] as const).filter(([a, b]) => a !== b),
    bridged,
    absent: many(1, () => pick([...network.items.keys()])),
    ratings: Object.fromEntries(
      many(1, () => [pick(fuses), pick([5, 13, 16, 20, 40])] as const).filter(
        ([id]) => !bridged.includes(id),
      ),
    ),
  };
}
