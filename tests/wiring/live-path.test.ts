import { describe, expect, it } from 'vitest';
import { magnitude, voltage } from '../../src/circuit/index.ts';
import { type LivePath, livePathIn } from '../../src/wiring/index.ts';
import { shippedSystem, shippedSystems } from '../support/shipped.ts';

const branches = ({ hops, closing }: LivePath) => [...hops.flatMap((hop) => hop.via), ...closing];

describe.each(shippedSystems().map((s) => [s.id, s] as const))('live paths of %s', (_, system) => {
  const { network, simulation, paths } = system;

  it('has one for every load that works in some mode', () => {
    const works = network.branches.filter(
      (b) =>
        b.kind === 'element' &&
        [...simulation.modes.values()].some((s) => s.state.energised.has(b.id)),
    );
    expect(paths.map((p) => p.id)).toEqual(works.map((b) => b.id));
  });

  it.each(paths.map((p) => [p.id, p] as const))('%s joins end to end, load once', (id, path) => {
    let at: number | null = null;
    for (const branch of branches(path)) {
      if (at !== null) expect([branch.from, branch.to]).toContain(at);
      const next: number = branch.from === at ? branch.to : branch.from;
      at = at === null ? secondEnd(path) : next;
    }
    expect(branches(path).filter((b) => b.id === id)).toHaveLength(1);
    expect(branches(path).some((b) => b.kind === 'stray' || b.kind === 'supply')).toBe(false);
  });

  it('carries the current of its load: every branch before it carries at least as much', () => {
    for (const path of paths.filter((p) => p.driven === 'mains')) {
      const { solution } = simulation.modes.get(path.mode)!;
      const amps = (id: string) => {
        const branch = network.branches[network.branchIndex.get(id)!]!;
        const part = solution.parts[network.branchIndex.get(id)!]!;
        const drop = magnitude(voltage(solution.ac, branch.from, branch.to));
        return drop / Math.hypot(part.ohms, 2 * Math.PI * 50 * part.henries);
      };
      const own = amps(path.id);
      for (const { id } of branches(path)) expect(amps(id)).toBeGreaterThan(own * 0.98);
    }
  });
});

/** The end of the first branch that the second one shares. */
function secondEnd(path: LivePath): number {
  const [first, second] = branches(path);
  return [second!.from, second!.to].includes(first!.to) ? first!.to : first!.from;
}

describe('the path of the call in a combi with a mains call loop', () => {
  it('goes out at the call feed, through the control and back (common practice, no source)', () => {
    const { simulation } = shippedSystem('combi-two-wire');
    const path = livePathIn(simulation, 'heating', 'E1/call input');
    expect(path!.hops.map((hop) => hop.point)).toEqual([
      'F1.L',
      'Q1.supply L',
      'Q1.load L',
      'E1.L',
      'E1.call feed',
      'B1.COM',
      'B1.NO',
      'E1.call return',
      'E1.N',
      'Q1.load N',
      'Q1.supply N',
      'F1.N',
    ]);
    expect(path!.hops.filter((hop) => hop.side === 'back').map((hop) => hop.point)[0]).toBe('E1.N');
  });

  it('is none in a mode in which nothing calls', () => {
    const { simulation } = shippedSystem('combi-two-wire');
    expect(livePathIn(simulation, 'standby', 'E1/call input')).toBeNull();
    expect(livePathIn(simulation, 'standby', 'E1/no such thing')).toBeNull();
  });
});
