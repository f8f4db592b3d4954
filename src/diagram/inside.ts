import type { Item } from '../circuit/index.ts';

/** What is drawn between two points inside a box. */
export type SymbolKind =
  | 'link'
  | 'contact'
  | 'fuse'
  | 'breaker'
  | 'board'
  | 'lamp'
  | 'heater'
  | 'coil'
  | 'motor'
  | 'sensing'
  | 'resistor'
  | 'source'
  | 'mains';

/** One element, between two terminal or node names of its device. */
export interface Step {
  /** Branch id, as in `Q1/fuse`; for the mains, the item and the element. */
  readonly id: string;
  /** Branch id of the switch that is this breaker's own: the two are drawn as one device. */
  readonly toggle?: string;
  readonly symbol: SymbolKind;
  /** What is printed at it; empty for nothing. */
  readonly label: string;
  readonly ends: readonly [string, string];
  /** Contacts with the same key move together. */
  readonly movesWith?: string;
}

/** Elements in series. Where a step ends the next begins. */
export interface Rung {
  readonly ends: readonly [string, string];
  readonly steps: readonly Step[];
}

/** Every element of an item, once, those in series through an internal node joined. */
export function rungsOf(item: Item): Rung[] {
  const terminals = new Set(Object.keys(item.device.terminals));
  let rungs = stepsOf(item).map((step): Rung => ({ ends: step.ends, steps: [step] }));
  for (const node of item.device.nodes) {
    if (terminals.has(node)) continue;
    const at = rungs.filter(({ ends }) => ends.includes(node));
    const [first, second] = at;
    if (at.length !== 2 || !first || !second) continue;
    const a = endingAt(first, node);
    const b = reversed(endingAt(second, node));
    if (a.ends[0] === b.ends[1]) continue;
    const joined: Rung = { ends: [a.ends[0], b.ends[1]], steps: [...a.steps, ...b.steps] };
    rungs = rungs.map((rung) => (rung === first ? joined : rung)).filter((r) => r !== second);
  }
  return rungs.map(({ ends, steps }) => ({ ends, steps: withToggles(steps) }));
}

/** Steps in which a contact next to a circuit-breaker is the breaker's own and no device apart. */
function withToggles(steps: readonly Step[]): Step[] {
  const merged: Step[] = [];
  for (const step of steps) {
    const last = merged.at(-1);
    const pair = last && [last, step];
    const breaker = pair?.find(({ symbol, toggle }) => symbol === 'breaker' && !toggle);
    const contact = pair?.find(({ symbol }) => symbol === 'contact');
    if (!last || !breaker || !contact) merged.push(step);
    else {
      const ends = [last.ends[0], step.ends[1]] as const;
      merged.splice(-1, 1, { ...breaker, toggle: contact.id, ends });
    }
  }
  return merged;
}

/** The same elements met from the other end. */
export const reversed = ({ ends: [a, b], steps }: Rung): Rung => ({
  ends: [b, a],
  steps: steps.toReversed().map((step): Step => ({ ...step, ends: [step.ends[1], step.ends[0]] })),
});

/** The rung so turned that it ends at a node. */
export const endingAt = (rung: Rung, node: string): Rung =>
  rung.ends[1] === node ? rung : reversed(rung);

function stepsOf({ reference, device }: Item): Step[] {
  return Object.entries(device.elements).flatMap(([key, element]): Step[] => {
    const id = `${reference}/${key}`;
    const name = element.name ?? key;
    if (element.kind === 'mains') {
      const { line, neutral, earth, earthing } = element;
      const source: Step = {
        id,
        symbol: 'mains',
        label: `supply, ${earthing}`,
        ends: [line, neutral],
      };
      // An earth electrode of the house's own is joined to nothing the box could show.
      if (earthing === 'TT') return [source];
      return [source, { id: `${id} earth`, symbol: 'link', label: '', ends: [neutral, earth] }];
    }
    const ends = element.between;
    switch (element.kind) {
      case 'link':
        return [{ id, symbol: 'link', label: '', ends }];
      case 'contact':
        return [{ id, symbol: 'contact', label: name, ends, movesWith: keyOf(element.closed) }];
      case 'fuse':
      case 'breaker':
        return [{ id, symbol: element.kind, label: `${name}, ${element.rating}\u00a0A`, ends }];
      case 'load':
        return [{ id, symbol: element.draws, label: name, ends }];
      case 'source':
        return [{ id, symbol: 'source', label: `${name}, ${element.volts}\u00a0V`, ends }];
      default:
        return [{ id, symbol: element.kind, label: name, ends }];
    }
  });
}

const keyOf = (logic: unknown): string => JSON.stringify(logic);
