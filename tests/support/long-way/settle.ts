/**
 * A network brought to rest the long way: sets and maps for its states, a plan of its own, every
 * round of every mode reduced and solved anew. What the engine's shortcuts are held to.
 */
import {
  admittance,
  atRest,
  type Branch,
  breakingAmps,
  type Complex,
  complex,
  conditionsOf,
  holds,
  type Memory,
  type Network,
  type Parts,
  partsOf,
  REFERENCE,
  type State,
} from '../../../src/circuit/index.ts';
import { factorise, planElimination, solveFor, solveSources, type Topology } from './star-mesh.ts';

/** Supply frequency, hertz: BS EN 50160. */
const SUPPLY = 50;
const KINDS = { ac: SUPPLY, dc: 0 } as const;
type Kind = keyof typeof KINDS;

/** A network in one state, solved. */
export interface LongSolution {
  /** Voltage between two nodes, volts. */
  readonly voltage: (kind: Kind, a: number, b: number) => Complex;
  /** Impedance between two nodes with every source at rest, ohms. */
  readonly impedance: (kind: Kind, a: number, b: number) => Complex;
}

/** A network at rest in a mode, or the round of states it goes through. */
export interface LongRest {
  readonly round: readonly State[];
  readonly state: State;
  readonly solution: LongSolution;
}

interface Currents {
  /** Alternating and direct together, amperes. */
  readonly amps: (i: number) => number;
  /** Alternating, from one end to the other, amperes. */
  readonly current: (i: number) => Complex;
}

/** The plan of a network, which no state has a part in. */
const plans = new WeakMap<Network, Topology>();
function planOf(network: Network): Topology {
  const ends = network.branches.map(({ from, to }) => [from, to] as const);
  const plan = plans.get(network) ?? planElimination(network.nodes.length, ends);
  plans.set(network, plan);
  return plan;
}

/** What a network in one state is at one frequency; reduced only where something acts, or is asked. */
class Reduced {
  readonly ys: readonly Complex[];
  readonly volts: { readonly re: Float64Array; readonly im: Float64Array } | null;
  readonly #network: Network;
  #factor: ReturnType<typeof factorise> | undefined;

  constructor(network: Network, parts: readonly Parts[], kind: Kind) {
    this.#network = network;
    this.ys = parts.map((part) => admittance(part, KINDS[kind]));
    const acts = ({ current, volts }: Parts) => current === kind && volts !== 0;
    const flow = (part: Parts, y: number) => (acts(part) ? y * part.volts : 0);
    this.volts = parts.some(acts)
      ? solveSources(
          this.factor,
          Float64Array.from(parts, (part, i) => flow(part, this.ys[i]!.re)),
          Float64Array.from(parts, (part, i) => flow(part, this.ys[i]!.im)),
        )
      : null;
  }

  get factor() {
    this.#factor ??= factorise(
      planOf(this.#network),
      Float64Array.from(this.ys, ({ re }) => re),
      Float64Array.from(this.ys, ({ im }) => im),
    );
    return this.#factor;
  }
}

function solve(network: Network, state: State): LongSolution & Currents {
  const parts = network.branches.map((branch) => partsOf(branch, state, SUPPLY));
  const solved = {
    ac: new Reduced(network, parts, 'ac'),
    dc: new Reduced(network, parts, 'dc'),
  };
  const voltage = (kind: Kind, a: number, b: number) => {
    const { volts } = solved[kind];
    const at = (values: Float64Array | undefined, node: number) =>
      node === REFERENCE || !values ? 0 : values[node]!;
    return complex(at(volts?.re, a) - at(volts?.re, b), at(volts?.im, a) - at(volts?.im, b));
  };
  return {
    voltage,
    impedance: (kind, a, b) => {
      const re = new Float64Array(network.nodes.length);
      re[a]! += 1;
      re[b]! -= 1;
      const { re: x, im: y } = solveFor(solved[kind].factor, re, new Float64Array(re.length));
      return complex(x[a]! - x[b]!, y[a]! - y[b]!);
    },
    current: (i) => {
      const { from, to } = network.branches[i]!;
      const { re, im } = voltage('ac', from, to);
      const y = solved.ac.ys[i]!;
      return complex(re * y.re - im * y.im, re * y.im + im * y.re);
    },
    amps: (i) => {
      const { from, to } = network.branches[i]!;
      const through = (kind: Kind) => {
        const drop = voltage(kind, from, to);
        const y = solved[kind].ys[i]!;
        return Math.hypot(drop.re, drop.im) * Math.hypot(y.re, y.im);
      };
      return Math.hypot(through('ac'), through('dc'));
    },
  };
}

/** By how much line and neutral of a breaker differ, as a multiple of what trips it. */
function residual(network: Network, branch: Branch, { current }: Currents): number {
  if (branch.kind !== 'element' || branch.element.kind !== 'breaker') return 0;
  const { residual: device } = branch.element;
  if (!device) return 0;
  const line = current(network.branchIndex.get(branch.id)!);
  const neutral = current(network.branchIndex.get(`${branch.item}/${device.neutral}`)!);
  return Math.hypot(line.re + neutral.re, line.im + neutral.im) / device.amps;
}

function step(network: Network, state: State, solution: LongSolution & Currents): State {
  const energised = new Set<string>();
  const held = new Set<string>();
  let worst: { id: string; excess: number } | undefined;
  network.branches.forEach((branch: Branch, i) => {
    if (branch.kind !== 'element') return;
    const { element, id, from, to } = branch;
    const isThere = branch.presence === undefined || state.conditions.get(branch.presence);
    if ('operates' in element && !branch.idle && isThere) {
      const ac = solution.voltage('ac', from, to);
      const share =
        Math.hypot(ac.re, ac.im, solution.voltage('dc', from, to).re) / element.ratedVolts;
      if (share >= element.operates) energised.add(id);
      if (share >= element.holds) held.add(id);
    }
    const limit = breakingAmps(branch);
    if (limit === null || state.blown.has(id)) return;
    const excess = Math.max(solution.amps(i) / limit, residual(network, branch, solution));
    if (excess >= 1 && excess > (worst?.excess ?? 0)) worst = { id, excess };
  });
  const blown = worst ? new Set([...state.blown, worst.id]) : state.blown;
  const now: State = { ...state, energised, held, blown };
  if (keyOf(now) !== keyOf(state)) return now;
  const positions = new Map(state.positions);
  for (const [item, { device }] of network.items) {
    if (network.stuck.has(item)) continue;
    const move = device.mechanism?.moves.find(
      (m) => m.from === state.positions.get(item) && holds(m.when, item, now),
    );
    if (move) positions.set(item, move.to);
  }
  return { ...now, positions };
}

const keyOf = ({ energised, held, blown, positions }: State): string =>
  JSON.stringify([energised, held, blown, positions].map((values) => [...values].sort()));

/** A network brought to rest under conditions, from what it remembers. */
export function settleLongWay(
  network: Network,
  conditions: ReadonlyMap<string, boolean>,
  memory: Memory,
): LongRest {
  const states: State[] = [];
  let state: State = { ...memory, conditions };
  for (;;) {
    states.push(state);
    const solution = solve(network, state);
    const next = step(network, state, solution);
    const first = states.findIndex((earlier) => keyOf(earlier) === keyOf(next));
    if (first >= 0) {
      const isRest = first === states.length - 1;
      const last = isRest ? solution : solve(network, next);
      return { round: states.slice(first), state: next, solution: last };
    }
    state = next;
  }
}

/** Every mode of a network as an engineer finds it: what any mode blows is blown in all. */
export function settleAllModes(network: Network): Map<string, LongRest> {
  let memory = atRest(network);
  for (;;) {
    const rests = new Map<string, LongRest>();
    const visit = (id: string): LongRest => {
      const { after, conditions } = network.system.modes[id]!;
      const rest =
        rests.get(id) ??
        settleLongWay(
          network,
          conditionsOf(network, conditions),
          after === undefined ? memory : visit(after).state,
        );
      rests.set(id, rest);
      return rest;
    };
    Object.keys(network.system.modes).forEach(visit);
    const blown = new Set([...rests.values()].flatMap(({ state }) => [...state.blown]));
    if (blown.size === memory.blown.size) return rests;
    memory = { ...memory, blown };
  }
}
