import type { Network } from './network.ts';

/**
 * The same network with one branch come apart.
 * @throws RangeError when the branch is not there or is none that comes apart.
 */
export function breakBranch(network: Network, id: string): Network {
  const index = network.branchIndex.get(id);
  const branch = index === undefined ? undefined : network.branches[index];
  if (branch?.kind !== 'element' && branch?.kind !== 'conductor' && branch?.kind !== 'wire link') {
    throw new RangeError(
      `${network.id}: ${id} does not come apart; an element, core or link of the system does`,
    );
  }
  const { from, to } = branch;
  const branches = [...network.branches];
  branches[index!] = { kind: 'broken', id, from, to, was: branch };
  return { ...network, branches };
}
