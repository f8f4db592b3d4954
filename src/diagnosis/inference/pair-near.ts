import { nodesOf } from '../faults/index.ts';
import type { Evidence } from './likelihood.ts';
import type { Model } from './model.ts';
import { unlikeFirst } from './pair-candidates.ts';

/** Two singles by their places. */
export type Two = readonly [a: number, b: number];

/** Logarithms taken off the likelihood where two faults, each alone, do not predict an observation. */
interface Astray {
  /** Where neither predicts it but a sound system does. */
  readonly asSound: number;
  readonly otherwise: number;
  /** Where only one of them predicts it. */
  readonly one: number;
}

/** For two that meet at a node and together may show there what neither shows alone. */
const MEETING: Astray = { asSound: -1.5, otherwise: -3, one: -0.3 };
/** For two of which each hides much of the other: that one of them predicts it is nearly enough. */
export const HIDING: Astray = { asSound: -1, otherwise: -3, one: -0.02 };

const known = new WeakMap<Model, Neighbours>();

/**
 * Which single faults act at one node. What two of them show together is not to be had from
 * what either shows alone.
 */
export class Neighbours {
  readonly #byFault: readonly (readonly number[])[];
  readonly #nodes: readonly string[];

  private constructor(model: Model) {
    const { network } = model.simulation;
    const nodes = model.singles.map(({ faults: [fault] }) =>
      fault ? nodesOf(network, fault.edit) : new Set<number>(),
    );
    this.#nodes = nodes.map((own) => [...own].sort((a, b) => a - b).join());
    const byNode = new Map<number, number[]>();
    for (const [at, own] of nodes.entries())
      for (const node of own) byNode.set(node, [...(byNode.get(node) ?? []), at]);
    this.#byFault = nodes.map((own, at) => {
      const near = new Set([...own].flatMap((node) => byNode.get(node)!));
      near.delete(at);
      return [...near];
    });
  }

  /** Of a model, worked out once. */
  static of(model: Model): Neighbours {
    const made = known.get(model) ?? new Neighbours(model);
    known.set(model, made);
    return made;
  }

  /** Places of the singles that act where one does. */
  of = (single: number): readonly number[] => this.#byFault[single]!;

  /**
   * The first of each that act at the same nodes: a core loose at either end or broken between
   * is one change to the circuit, but for where the rest of it hangs; what floats there is
   * pulled by what runs beside that rest. A core in another terminal is another.
   * @param each so many of them, the first of all before the second of any.
   */
  unlike(singles: readonly number[], each = 1): number[] {
    const had = new Map<string, number>();
    const some = singles.filter((at) => {
      const times = (had.get(this.#nodes[at]!) ?? 0) + 1;
      had.set(this.#nodes[at]!, times);
      return times <= each;
    });
    return unlikeFirst(some, (at) => this.#nodes[at]!);
  }
}

/**
 * Twos by the greatest posterior they could have, best first: together they may show what
 * neither shows alone.
 */
export function hopefulFirst(
  model: Model,
  evidence: readonly Evidence[],
  twos: readonly Two[],
  most: number,
  astray = MEETING,
): Two[] {
  const sound = model.singles.length - 1;
  const hope = ([a, b]: Two): number => {
    let log = Math.log(model.singles[a]!.prior) + Math.log(model.singles[b]!.prior);
    for (const { agrees } of evidence) {
      const both = agrees[a]! + agrees[b]!;
      if (both === 0) log += agrees[sound] ? astray.asSound : astray.otherwise;
      else if (both === 1) log += astray.one;
    }
    return log;
  };
  return twos
    .map((two) => [hope(two), two] as const)
    .sort(([x], [y]) => y - x)
    .slice(0, most)
    .map(([, two]) => two);
}
