import { nodesOf } from '../faults/index.ts';
import type { Evidence } from './likelihood.ts';
import type { Model } from './model.ts';

/**
 * Logarithms taken off for an observation that two faults which meet at a node do not both
 * predict alone: together they may show there what neither does.
 */
const ASTRAY = {
  /** Where neither predicts it, but a sound system does. */
  asSound: -1.5,
  /** Where neither predicts it, nor a sound system. */
  otherwise: -3,
  /** Where only one of them predicts it. */
  one: -0.3,
} as const;

const known = new WeakMap<Model, Neighbours>();

/**
 * Which single faults act at one node. What two of them show together is not to be had from
 * what either shows alone.
 */
export class Neighbours {
  readonly #model: Model;
  readonly #byFault: readonly (readonly number[])[];
  readonly #nodes: readonly string[];

  private constructor(model: Model) {
    const { network } = model.simulation;
    const nodes = model.singles.map(({ faults: [fault] }) =>
      fault ? nodesOf(network, fault.edit) : new Set<number>(),
    );
    this.#model = model;
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

  /** Places of singles that act where one does, by the greatest posterior both could have. */
  hopefulFirst(single: number, evidence: readonly Evidence[], most: number): number[] {
    const { singles } = this.#model;
    const hope = (other: number): number => {
      let log = Math.log(singles[other]!.prior);
      for (const { agrees } of evidence) {
        const both = agrees[single]! + agrees[other]!;
        if (both === 1) log += ASTRAY.one;
        else if (both === 0) log += agrees[singles.length - 1] ? ASTRAY.asSound : ASTRAY.otherwise;
      }
      return log;
    };
    return this.#byFault[single]!.map((other) => [hope(other), other] as const)
      .sort(([x], [y]) => y - x)
      .slice(0, most)
      .map(([, other]) => other);
  }

  /**
   * The first of each that act at the same nodes: a core loose at either end or broken between
   * is one change to the circuit, but for where the rest of it hangs; what floats there is
   * pulled by what runs beside that rest. A core in another terminal is another.
   */
  unlike = (singles: readonly number[]): number[] => {
    const first = new Map(singles.toReversed().map((at) => [this.#nodes[at]!, at]));
    return singles.filter((at) => first.get(this.#nodes[at]!) === at);
  };
}
