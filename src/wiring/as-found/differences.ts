import type { Network } from '../../circuit/index.ts';
import { nameOf } from '../points.ts';
import { type CoreEnd, pointAt } from '../rewire.ts';
import type { AsFound, FoundEnd } from './state.ts';

/** One thing found otherwise than the entry says, and the change that restores the entry. */
export interface Difference {
  /** In plain words, as in `Core BK of W4 is in X1 3 instead of X1 2`. */
  readonly title: string;
  /** The act that restores the entry; all acts are done isolated and proved dead. */
  readonly restore: string;
  /** Terminals and items it touches. */
  readonly at: readonly string[];
}

const spoken = (point: string) => point.replace('.', ' ');
const core = ({ cable, colour }: Pick<CoreEnd, 'cable' | 'colour'>) => `core ${colour} of ${cable}`;
const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/**
 * What differs from the entry, and the shortest list of changes that restores it: two ends
 * in each other's terminals are one difference and one change.
 */
export function differencesOf(intended: Network, found: AsFound): Difference[] {
  const { system } = intended;
  const absent = found.absent.map((item) => ({
    title: `${item} ${intended.items.get(item)?.title.toLowerCase() ?? ''} is not there`,
    restore: `Fit ${item} and connect it as the wiring table shows`,
    at: [item],
  }));
  return [
    ...absent,
    ...found.missingCores.map((c) => ({
      title: `${capital(core(c))} is not there`,
      restore: `Run a cable with enough cores for ${c.cable} and connect ${core(c)}`,
      at: endsOf(intended, c),
    })),
    ...endDifferences(intended, found.ends),
    ...found.missingLinks.map((i) => {
      const [a, b] = system.links[i]?.between ?? ['', ''];
      return {
        title: `The link between ${spoken(a)} and ${nameOf(b)} is not fitted`,
        restore: `Fit the link between ${spoken(a)} and ${nameOf(b)}`,
        at: [a, b],
      };
    }),
    ...found.extraLinks.map(([a, b]) => ({
      title: `A link stands between ${spoken(a)} and ${spoken(b)} that the entry does not have`,
      restore: `Take the link between ${spoken(a)} and ${spoken(b)} out`,
      at: [a, b],
    })),
    ...found.bridged.map((id) => ({
      title: `${branchName(intended, id)} is bridged`,
      restore: `Take the bridge across ${branchName(intended, id)} away`,
      at: [id.split('/')[0]!],
    })),
    ...Object.entries(found.ratings).map(([id, rating]) => ({
      title: `${branchName(intended, id)} is ${rating} A instead of ${dueRating(intended, id)} A`,
      restore: `Fit ${dueRating(intended, id)} A at ${branchName(intended, id)}`,
      at: [id.split('/')[0]!],
    })),
  ];
}

function endsOf(
  { system }: Network,
  { cable, colour }: Pick<CoreEnd, 'cable' | 'colour'>,
): string[] {
  return [...(system.cables[cable]?.cores[colour]?.ends ?? [])];
}

function endDifferences({ system }: Network, ends: readonly FoundEnd[]): Difference[] {
  const due = (end: CoreEnd) => pointAt(system, end);
  const done = new Set<FoundEnd>();
  return ends.flatMap((a) => {
    if (done.has(a)) return [];
    done.add(a);
    const partner = ends.find((b) => !done.has(b) && b.point === due(a) && a.point === due(b));
    if (partner) {
      done.add(partner);
      const both = `${core(a)} and ${core(partner)}`;
      return [
        {
          title: `${capital(both)} are exchanged at ${spoken(due(a))} and ${spoken(due(partner))}`,
          restore: `Exchange ${both} at ${spoken(due(a))} and ${spoken(due(partner))}`,
          at: [due(a), due(partner)],
        },
      ];
    }
    const from = a.point === null ? 'lies loose' : `is in ${spoken(a.point)}`;
    return [
      {
        title: `${capital(core(a))} ${from} instead of ${spoken(due(a))}`,
        restore: `${a.point === null ? 'Connect' : 'Move'} ${core(a)} to ${spoken(due(a))}`,
        at: [due(a), ...(a.point === null ? [] : [a.point])],
      },
    ];
  });
}

function branchName(network: Network, id: string): string {
  const branch = network.branches[network.branchIndex.get(id) ?? -1];
  return branch?.kind === 'element' ? `${branch.item} ${branch.element.name ?? branch.name}` : id;
}

function dueRating(network: Network, id: string): number | null {
  const branch = network.branches[network.branchIndex.get(id) ?? -1];
  return branch?.kind === 'element' && 'rating' in branch.element ? branch.element.rating : null;
}
