import { atRest, changeNetwork, type Memory, type Network, settle } from '../../circuit/index.ts';
import { situationIn } from '../../site/index.ts';
import { editedCircuit } from '../faults/index.ts';
import { FoundCircuit } from './circuit.ts';
import { both, type Hypothesis } from './hypothesis.ts';
import type { Evidence } from './likelihood.ts';
import { LruCache } from './lru.ts';
import type { Model } from './model.ts';
import type { Observation } from './observation.ts';
import { canBeTogether } from './pair-estimate.ts';
import { ONE_FAULT, PRIOR } from './priors.ts';
import { type Question, questionKey, questionOf } from './question.ts';

/** Two faults tried together. */
export interface Tried {
  /** Places of both among the singles, the lesser first. */
  readonly a: number;
  readonly b: number;
  /** Logarithm of prior and likelihood; hopelessly low where it was given up. */
  readonly log: number;
  /** Whether it predicts everything observed. */
  readonly whole: boolean;
}

interface Asked {
  readonly question: Question;
  readonly key: string;
  readonly evidence: Evidence;
  /** Its place in the list of tests where hands find it out; undefined for any other. */
  readonly act: number | undefined;
  /** Situations that are settled for it: its own, and the modes that this one comes after. */
  readonly settled: readonly number[];
}

/** What is known of a pair from earlier trials: with each report most are tried again. */
interface Known {
  /** Nodes of its circuit; modes in which it was tried what it blows. */
  readonly nodes: number;
  readonly blowing: number;
  /** By question: the code of its answer. */
  readonly answers: Map<string, number>;
}

/**
 * Pairs of a model of which the answers are kept, a kilobyte or less each: more than one search
 * tries, since where fewer are kept each is dropped before the next report asks for it again.
 */
const MOST_KNOWN = 20_000;
const known = new WeakMap<Model, LruCache<Known, number>>();

/** Pairs among which a fault is looked for that explains much: kept in order however far behind. */
export const LOOKED = 40;

/** How far below the best a pair is not varied any more: three misreadings. */
export const HOPELESS = 14;
/** How far behind the best after as many modes a trial is given up: a good misreading more. */
const BEHIND = 6;
/** Taken off the logarithm of a pair that was given up, so that it ranks below all others. */
const GIVEN_UP = 1000;
/** Modes in which it is tried whether two faults blow what one of them does. */
const MOST_BLOWING = 3;
/** Modes in which each single fault blows something, worked out once. */
const blowing = new WeakMap<Hypothesis, readonly string[]>();
/** Networks of single faults kept: those of the anchors, and what was tried last. */
const MOST_NETWORKS = 160;

/** Modes that are settled for one: itself and those it comes after. */
function modesFor(model: Model, mode: string): string[] {
  const { after } = model.simulation.network.system.modes[mode]!;
  return after === undefined ? [mode] : [mode, ...modesFor(model, after)];
}

function settledFor(model: Model, question: Question): string[] {
  const { id, mode } = model.situationOf(question);
  return [id, ...modesFor(model, mode).slice(1)];
}

/** How likely two faults are together before anything is seen. */
const priorOf = (one: Hypothesis, two: Hypothesis): number =>
  (2 * PRIOR.pair * one.prior * two.prior) / ONE_FAULT ** 2;

/**
 * Pairs of faults, each tried as one circuit with both its changes. What a pair shows is
 * worked out mode by mode, and only in modes asked about and those they come after, until it
 * falls hopelessly behind what was best after as many modes: the truth never does, for it
 * predicts all of them. Whatever is handed over is simulated whole.
 */
export class PairTrials {
  readonly #model: Model;
  readonly #tried = new Set<number>();
  /** Likeliest first; of equals the one first that was tried first. None is hopeless but the first few. */
  readonly #ranked: Tried[] = [];
  readonly #networks = new LruCache<Network>(MOST_NETWORKS);
  readonly #known: LruCache<Known, number>;
  /** What was asked by mode, the modes first that the likeliest single explains least. */
  readonly #order: readonly (readonly Asked[])[];
  /** The same, the modes first that last ruled out a pair. */
  #tellingFirst: readonly (readonly Asked[])[];
  /** Logarithm of the greatest likelihood of what was read in so many modes. */
  readonly #bestAfter: number[];
  /** By situation: the last turn in which it was settled. */
  readonly #settledIn: Uint32Array;
  #turn = 0;
  #most = Number.NEGATIVE_INFINITY;
  #whole = false;
  #work = 0;

  /** @param likeliest place of the single that explains most. */
  constructor(
    model: Model,
    observations: readonly Observation[],
    evidence: readonly Evidence[],
    likeliest: number,
  ) {
    this.#model = model;
    this.#known = known.get(model) ?? new LruCache(MOST_KNOWN);
    known.set(model, this.#known);
    const situations = new Map<string, number>();
    const numbered = (id: string): number => {
      const number = situations.get(id) ?? situations.size;
      situations.set(id, number);
      return number;
    };
    const asked = observations.map((observation, i) => {
      const question = questionOf(observation);
      const key = questionKey(question);
      const act = question.kind === 'act' ? model.listedAt(question) : undefined;
      const settled = settledFor(model, question).map(numbered);
      return { question, key, act, evidence: evidence[i]!, settled };
    });
    this.#settledIn = new Uint32Array(situations.size);
    const wrong = (some: readonly Asked[]) =>
      some.reduce((sum, { evidence: { agrees } }) => sum + 1 - agrees[likeliest]!, 0);
    // What rules out most for the least work comes first.
    this.#order = [...Map.groupBy(asked, ({ question }) => question.mode)]
      .map(([mode, some]) => ({ some, gain: wrong(some) / modesFor(model, mode).length }))
      .sort((x, y) => y.gain - x.gain)
      .map(({ some }) => some);
    this.#tellingFirst = this.#order;
    this.#bestAfter = this.#order.map(() => Number.NEGATIVE_INFINITY);
  }

  /** Work done so far: modes settled times the nodes of the circuit. */
  get work(): number {
    return this.#work;
  }

  /** What was tried, likeliest first, as far as it is not hopeless; the first few in any case. */
  get best(): readonly Tried[] {
    return this.#ranked;
  }

  /** Logarithm of prior times likelihood of the best. */
  get most(): number {
    return this.#most;
  }

  /** Whether a pair was met that predicts everything observed. */
  get whole(): boolean {
    return this.#whole;
  }

  /**
   * Tries two singles together; the first is taken to be the likelier alone.
   * @param allowed misreadings after which it is given up: all, unless only a pair that
   *   predicts everything is looked for.
   */
  attempt(first: number, second: number, allowed = Number.POSITIVE_INFINITY): void {
    const { singles } = this.#model;
    const [a, b] = first < second ? [first, second] : [second, first];
    const key = a * singles.length + b;
    if (this.#tried.has(key)) return;
    const [one, two] = [singles[a]!, singles[b]!];
    if (a === b || !canBeTogether(one, two)) return;
    const { log, whole } = this.#weigh(priorOf(one, two), first, second, allowed);
    this.#most = Math.max(this.#most, log);
    this.#whole ||= whole;
    this.#tried.add(key);
    this.#rank({ a, b, log, whole });
  }

  /** What was tried as an explanation, its answers not yet worked out. */
  pairOf({ a, b }: Tried): Hypothesis {
    const { singles } = this.#model;
    const [one, two] = [singles[a]!, singles[b]!];
    return both(one, two, priorOf(one, two), null);
  }

  #rank(one: Tried): void {
    const ranked = this.#ranked;
    let [from, to] = [0, ranked.length];
    while (from < to) {
      const middle = (from + to) >> 1;
      if (ranked[middle]!.log >= one.log) from = middle + 1;
      else to = middle;
    }
    ranked.splice(from, 0, one);
    while (ranked.length > LOOKED && ranked.at(-1)!.log <= this.#most - HOPELESS) ranked.pop();
  }

  #weigh(
    prior: number,
    first: number,
    second: number,
    allowed: number,
  ): Pick<Tried, 'log' | 'whole'> {
    const model = this.#model;
    const strict = Number.isFinite(allowed);
    let circuit: FoundCircuit | undefined;
    const known = this.#known.get(first * model.singles.length + second, () => {
      const { nodes, blowing, ...made } = this.#circuit(first, second);
      circuit = made.circuit;
      return { nodes, blowing, answers: new Map() };
    });
    const circuitOf = (): FoundCircuit => {
      circuit ??= this.#circuit(first, second).circuit;
      return circuit;
    };
    this.#work += known.nodes * known.blowing;
    this.#turn += 1;
    const answer = ({ question, key, act, settled }: Asked): number => {
      const byHand = act === undefined ? null : model.actOfTwo(act, first, second);
      if (byHand !== null) return byHand;
      // Work is what it takes from nothing, so that the same reports give the same ranking
      // whatever was reported before.
      for (const situation of settled) {
        if (this.#settledIn[situation] === this.#turn) continue;
        this.#settledIn[situation] = this.#turn;
        this.#work += known.nodes;
      }
      const before = known.answers.get(key);
      if (before !== undefined) return before;
      const code = model.answerIn(circuitOf(), question);
      known.answers.set(key, code);
      return code;
    };
    const base = Math.log(prior);
    let log = 0;
    let wrong = 0;
    for (const [turn, asked] of (strict ? this.#tellingFirst : this.#order).entries()) {
      const least = strict ? Number.NEGATIVE_INFINITY : this.#bestAfter[turn]! - BEHIND;
      for (const one of asked) {
        const figure = () => model.figureIn(circuitOf(), one.question);
        const likelihood = one.evidence.judge(answer(one), figure);
        log += likelihood.log;
        if (!likelihood.agrees) wrong += 1;
        if (log >= least && wrong <= allowed) continue;
        // What ruled out this pair is asked of the next one first.
        if (strict) this.#tellingFirst = [asked, ...this.#tellingFirst.toSpliced(turn, 1)];
        return { log: base + log - GIVEN_UP, whole: false };
      }
      if (!strict) this.#bestAfter[turn] = Math.max(this.#bestAfter[turn]!, log);
    }
    return { log: base + log, whole: wrong === 0 };
  }

  /** The circuit of a pair, its count of nodes, and of the modes in which it was tried what it blows. */
  #circuit(
    first: number,
    second: number,
  ): { readonly circuit: FoundCircuit; readonly nodes: number; readonly blowing: number } {
    const model = this.#model;
    const { simulation } = model;
    const [near, other] = [model.singles[first]!, model.singles[second]!];
    const network = this.#network(first, second);
    const modes = new Set([near, other].flatMap((single) => this.#blowingModes(single)));
    const { blown, tried } = this.#blown(network, [...modes]);
    const circuit: FoundCircuit = new FoundCircuit({
      id: `${near.id} + ${other.id}`,
      sound: simulation,
      edits: [],
      network,
      keeps: true,
      solutions: new LruCache(1),
      // Where a valve stands decides what it does next: every mode from the one it comes after.
      from: (mode): Memory => {
        const { after } = network.system.modes[mode]!;
        return after === undefined
          ? { ...atRest(network), blown }
          : circuit.round(situationIn(after, null))[0]!;
      },
    });
    return { circuit, nodes: network.nodes.length, blowing: tried };
  }

  /** Modes in which a single alone blows a fuse or trips a breaker that was whole. */
  #blowingModes(single: Hypothesis): readonly string[] {
    const model = this.#model;
    const kept = blowing.get(single);
    if (kept) return kept;
    const { modes } = model.simulation;
    const circuit = model.circuitOf(single);
    const [first] = modes.keys();
    const found = circuit.round(situationIn(first!, null))[0]!.blown.size > 0;
    const own = found
      ? [...modes.keys()].filter((mode) => this.#blownIn(circuit.network, mode).size > 0)
      : [];
    blowing.set(single, own);
    return own;
  }

  /** What both blow in the modes in which one of them does, the first few of these. */
  #blown(network: Network, modes: readonly string[]) {
    let tried = 0;
    for (const mode of modes.slice(0, MOST_BLOWING)) {
      tried++;
      const blown = this.#blownIn(network, mode);
      if (blown.size > 0) return { blown, tried };
    }
    return { blown: new Set<string>(), tried };
  }

  #blownIn(network: Network, mode: string): ReadonlySet<string> {
    const { conditions } = this.#model.simulation.modes.get(mode)!.state;
    const set = new Map([...conditions, ...network.set]);
    return settle(network, set, atRest(network)).state.blown;
  }

  /** The circuit with both, made from that of one of them where that can be. */
  #network(first: number, second: number): Network {
    const { singles, simulation } = this.#model;
    const [one, two] = [singles[first]!.faults[0]!.edit, singles[second]!.faults[0]!.edit];
    if (!two.rewire) return changeNetwork(this.#single(first), two.changes);
    if (!one.rewire) return changeNetwork(this.#single(second), one.changes);
    return editedCircuit(simulation.network, [one, two]);
  }

  #single(at: number): Network {
    const { singles, simulation } = this.#model;
    const { id, faults } = singles[at]!;
    return this.#networks.get(id, () => editedCircuit(simulation.network, [faults[0]!.edit]));
  }
}
