import type { Network } from '../circuit/index.ts';
import type { ColourCode } from '../published/index.ts';

/** What runs outside the boxes: a core of a cable, or a wire link between two terminals. */
export interface Lead {
  /** Branch id, as in `W2.BN` or `link 1`. */
  readonly id: string;
  readonly cable?: string;
  readonly colour?: ColourCode;
  readonly sleeve?: ColourCode;
  /** A core cut back at both ends. */
  readonly spare: boolean;
  /** Node ids of its ends, the upper one first. */
  readonly ends: readonly [string, string];
  /** Items of its ends. */
  readonly items: readonly [string, string];
}

/**
 * Every core and wire link of a system, once, so turned that its first end is the upper one. The ends of a spare core lie where its cable's first core ends; a cable of nothing
 * but spare cores has no known place and is left out.
 */
export function leadsOf(network: Network, order: readonly string[]): Lead[] {
  const leads: Lead[] = [];
  for (const branch of network.branches) {
    if (branch.kind !== 'conductor' && branch.kind !== 'wire link') continue;
    const nodes = [network.nodes[branch.from]!, network.nodes[branch.to]!] as const;
    const spare = nodes[0].item === undefined;
    const items = spare
      ? cableItems(network, branch.kind === 'conductor' ? branch.cable : '')
      : ([nodes[0].item!, nodes[1].item!] as const);
    if (!items) continue;
    const down = order.indexOf(items[1]) - order.indexOf(items[0]);
    const turned = down < 0 || (down === 0 && nodes[0].index > nodes[1].index);
    leads.push({
      id: branch.id,
      ...(branch.kind === 'conductor' ? { cable: branch.cable, colour: branch.colour } : {}),
      ...(branch.kind === 'conductor' && branch.sleeve ? { sleeve: branch.sleeve } : {}),
      spare,
      ends: turned ? [nodes[1].id, nodes[0].id] : [nodes[0].id, nodes[1].id],
      items: turned ? [items[1], items[0]] : items,
    });
  }
  return leads;
}

function cableItems(network: Network, cable: string): readonly [string, string] | undefined {
  const core = network.branches.find(
    (b) => b.kind === 'conductor' && b.cable === cable && network.nodes[b.from]!.item !== undefined,
  );
  if (!core) return undefined;
  return [network.nodes[core.from]!.item!, network.nodes[core.to]!.item!];
}

/**
 * What is printed at a core's end: its colour, what it is sleeved, and its cable where asked
 * or where no tag will say it.
 */
export function codeOf({ colour, sleeve, cable, items }: Lead, withCable: boolean): string {
  if (colour === undefined) return 'link';
  const code = sleeve ? `${colour}/${sleeve}` : colour;
  return withCable || items[0] === items[1] ? `${cable} ${code}` : code;
}
