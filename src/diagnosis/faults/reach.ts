import type { Network } from '../../circuit/index.ts';
import { type CoreEnd, pointAt } from '../../wiring/index.ts';
import { type Edit, endOf } from './edit.ts';

/**
 * Nodes of the sound network at which an edit acts: both ends of whatever it takes hold of,
 * and the terminals that it moves core ends to.
 */
export function nodesOf(network: Network, { touches, rewire }: Edit): ReadonlySet<number> {
  const nodes = new Set<number>();
  const addBranch = (id: string) => {
    const branch = network.branches[network.branchIndex.get(id) ?? -1];
    if (branch) nodes.add(branch.from).add(branch.to);
  };
  const addPoint = (id: string) => {
    const node = network.nodeIndex.get(id);
    if (node !== undefined) nodes.add(node);
  };
  const wired = rewire?.(network.system);
  for (const touch of touches) {
    const at = touch.indexOf(' ');
    const [kind, name] = [touch.slice(0, at), touch.slice(at + 1)];
    if (kind === 'branch') addBranch(name);
    else if (kind === 'join') name.split('|').forEach(addPoint);
    else if (kind === 'mechanism' || kind === 'condition') {
      const owner = name.split('.')[0];
      for (const { item, index } of network.nodes) if (item === owner) nodes.add(index);
    } else {
      const end = endNamed(name);
      addBranch(`${end.cable}.${end.colour}`);
      // A core that the edit takes away has no point of its own any more.
      if (wired?.cables[end.cable]?.cores[end.colour]) addPoint(pointAt(wired, end));
    }
  }
  return nodes;
}

/** The core end that `endOf` names, without its first word. */
function endNamed(name: string): CoreEnd {
  const [, cable, colour, end] = /^(.+)\.([A-Z]+)@([12])$/.exec(name) ?? [];
  const made = { cable, colour, end: end === '2' ? 1 : 0 } as CoreEnd;
  if (endOf(made) !== `end ${name}`) throw new RangeError(`${name} names no core end`);
  return made;
}
