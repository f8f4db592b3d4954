import type { SystemData } from '../../src/data/index.ts';
import { type BareBranch, denseInverse } from '../support/dense.ts';

/*
 * What somebody else's tool would do with the published file alone: the circuit with a fault in
 * it brought to rest by the rule that the file states, and every test answered by the limits it
 * gives. Nothing of the engine or of the diagnosis is used, only the textbook's elimination.
 */

type Test = SystemData['diagnosis']['tests'][number];
type Fault = SystemData['diagnosis']['faults'][number];
type Place = SystemData['places'][number];

/** A rule as devices write it. */
type Rule =
  | string
  | boolean
  | { energised: string }
  | { held: string }
  | { blown: string }
  | { position: string | string[] }
  | { not: Rule }
  | { all: Rule[] }
  | { any: Rule[] };

/** An element as its device says, as far as settling needs it. */
interface Element {
  readonly kind: string;
  readonly closed?: Rule;
  readonly poweredBy?: string;
  readonly volts?: number;
  readonly ratedVolts?: number;
  readonly operates?: number;
  readonly holds?: number;
  readonly rating?: number;
  readonly draws?: string;
  readonly residual?: { readonly amps: number; readonly neutral: string };
}

interface Mechanism {
  readonly rest: string;
  readonly moves: readonly { readonly from: string; readonly to: string; readonly when: Rule }[];
}

/** A branch with what a fault made of it. */
interface Branch {
  readonly id: string;
  readonly from: number;
  readonly to: number;
  readonly item: string;
  readonly element: Element | null;
  readonly presence: string | null;
  readonly parts: SystemData['branches'][number]['parts'];
  /** Ohms that it has whatever the state. */
  readonly fixed?: number;
  readonly series: number;
  readonly idle: boolean;
  /** A path that should not be there. */
  readonly isJoin?: boolean;
}

interface State {
  readonly conditions: ReadonlyMap<string, boolean>;
  readonly positions: ReadonlyMap<string, string>;
  readonly blown: ReadonlySet<string>;
  readonly energised: ReadonlySet<string>;
  readonly held: ReadonlySet<string>;
}

/** A network solved for one kind of current: potentials, and impedances between nodes. */
interface Solved {
  readonly volts: readonly { re: number; im: number }[];
  readonly impedance: (a: number, b: number) => { re: number; im: number };
}

interface Rest {
  /** The states of the round, one where it rests. */
  readonly round: readonly State[];
  readonly state: State;
  readonly ac: Solved;
  readonly dc: Solved;
}

const MOST_ROUNDS = 64;
/** Where the supply's star point is. */
const STAR = -1;

/** The circuit of a published file, sound or with one fault, and what every test answers in it. */
export class Rebuilt {
  readonly #data: SystemData;
  readonly #index: Map<string, number>;
  readonly #branches: readonly Branch[];
  readonly #mechanisms: ReadonlyMap<string, Mechanism>;
  readonly #outcomes: ReadonlyMap<string, Rule>;
  readonly #set = new Map<string, boolean>();
  readonly #stuck = new Map<string, string>();
  readonly #limits: ReadonlyMap<string, number>;
  readonly #fault: Fault | null;
  readonly #rests = new Map<string, Rest>();
  /** Open from the start: what opened in any mode. */
  #blown: ReadonlySet<string> = new Set();

  /** @throws RangeError for a fault that moves cores: the strays of a cable move with them. */
  constructor(data: SystemData, fault: Fault | null) {
    if (fault && Object.keys(fault.edit.cores).length > 0)
      throw new RangeError(`${fault.id} moves cores, whose strays the file gives where they were`);
    this.#data = data;
    this.#fault = fault;
    this.#index = new Map(data.nodes.map(({ id }, i) => [id, i]));
    const items = data.definition.items;
    const elements = new Map<string, Element>(
      items.flatMap(({ reference, elements }) =>
        Object.entries(elements).map(
          ([name, element]) =>
            [`${reference}/${name}`, element as unknown as Element] as [string, Element],
        ),
      ),
    );
    this.#mechanisms = new Map(
      items.flatMap(({ reference, mechanism }) =>
        mechanism ? [[reference, mechanism as unknown as Mechanism] as const] : [],
      ),
    );
    this.#outcomes = new Map(
      items.flatMap(({ reference, outcomes }) =>
        Object.entries(outcomes).map(
          ([name, { when }]) => [`${reference}.${name}`, when as Rule] as const,
        ),
      ),
    );
    const branches: Branch[] = data.branches.map((branch) => ({
      id: branch.id,
      from: this.#at(branch.from),
      to: this.#at(branch.to),
      item: branch.id.split('/')[0]!,
      element: elements.get(branch.id) ?? null,
      presence: branch.presence,
      parts: branch.parts,
      series: 0,
      idle: false,
    }));
    const limits = new Map(Object.entries(data.settling.breaks));
    const alter = (id: string, change: Partial<Branch>) => {
      const at = branches.findIndex((branch) => branch.id === id);
      branches[at] = { ...branches[at]!, ...change };
    };
    const { open, closed } = data.settling.ohms;
    for (const change of fault?.edit.changes ?? []) {
      switch (change.kind) {
        case 'open':
        case 'closed':
          alter(change.branch, {
            element: null,
            presence: null,
            fixed: change.kind === 'open' ? open : closed,
          });
          break;
        case 'welded':
          alter(change.branch, { element: { kind: 'contact', closed: true } });
          break;
        case 'series':
          alter(change.branch, { series: change.ohms });
          break;
        case 'idle':
          alter(change.branch, { idle: true });
          break;
        case 'rated':
          limits.set(
            change.branch,
            (limits.get(change.branch)! * change.rating) / elements.get(change.branch)!.rating!,
          );
          alter(change.branch, {
            element: { ...elements.get(change.branch)!, rating: change.rating },
          });
          break;
        case 'set':
          this.#set.set(change.condition, change.value);
          break;
        case 'stuck':
          this.#stuck.set(change.item, change.position);
          break;
        case 'join':
          branches.push({
            ...joinOf(this.#at(change.from), this.#at(change.to), change.ohms),
            presence:
              branches.find(({ item, presence }) => presence && item === change.inside)?.presence ??
              null,
          });
          break;
        case 'parted':
          throw new RangeError(`${fault!.id} parts a core, whose strays the file gives whole`);
      }
    }
    this.#branches = branches;
    this.#limits = limits;
    for (let before = -1; before < this.#blown.size; ) {
      before = this.#blown.size;
      this.#rests.clear();
      const opened = data.modes.flatMap(({ id }) => [...this.#mode(id).state.blown]);
      this.#blown = new Set(opened);
    }
  }

  /** What a test answers. */
  answer(test: Test): string {
    const { place, mode, points } = test;
    switch (test.kind) {
      case 'look':
        return this.#seen(this.#restOf(mode, null), test.about);
      case 'live':
        return this.#live(this.#restOf(mode, place), test);
      case 'dead': {
        const answer = this.#settledOhms(this.#restOf(mode, place).state, points, points);
        const earths = points.filter(
          (point) => this.#data.nodes[this.#at(point)]!.carries === 'earth',
        );
        return earths.length === 1 && answer !== 'joined' ? 'no short' : answer;
      }
      case 'fuse':
        return this.#fuse(this.#restOf(mode, place), test.about);
      case 'act':
        return this.#act(test);
    }
  }

  #act(test: Test): string {
    const { does, outcome, without } = test.act!;
    switch (does) {
      case 'prove':
        return this.#isLive(this.#restOf(test.mode, test.place), this.#place(test.place!))
          ? 'live'
          : 'dead';
      case 'inside':
      case 'compare':
        return this.#fault?.seen[does].includes(test.place!) ? 'found' : 'nothing';
      case 'spindle':
        return this.#fault?.seen.spindle.includes(test.place!) ? 'not seen' : 'seen';
      case 'link': {
        const [from, to] = test.points;
        const { id } = this.#data.situations.find(
          ({ link, mode }) => link?.from === from && link?.to === to && mode === test.mode,
        )!;
        const linked = this.#situation(id);
        const before = this.#restOf(test.mode, test.place).state.blown;
        // What blows a fuse is not linked.
        if ([...linked.state.blown].some((one) => !before.has(one))) return 'unsettled';
        return this.#seen(linked, outcome!);
      }
      case 'core':
      case 'part': {
        const { state } = this.#mode(test.mode);
        const conditions = new Map(state.conditions);
        if (without !== null && !this.#set.has(without)) conditions.set(without, false);
        const { at, branches, nodes } = this.#disconnected(test);
        const isolated = { ...state, conditions };
        return this.#settledOhms(isolated, test.points, test.points.map(at), branches, nodes);
      }
      case 'insulation':
        return this.#insulation(test);
    }
  }

  /** All points but the last joined by a wire, to the last. */
  #insulation(test: Test): string {
    const loose = this.#disconnected(test);
    const isLoose = test.points[0]!.includes('@');
    const { state } = isLoose ? this.#mode(test.mode) : this.#restOf(test.mode, test.place);
    const { branches, nodes } = isLoose
      ? loose
      : { branches: this.#branches, nodes: this.#data.nodes.length };
    const [first, ...others] = test.points.map(isLoose ? loose.at : (point) => this.#at(point));
    const earth = others.pop()!;
    const wires = others.map((to): Branch => ({ ...joinOf(first!, to, 0.001), presence: null }));
    const { re } = this.#solve([...branches, ...wires], state, 'dc', nodes).impedance(
      first!,
      earth,
    );
    return Math.abs(re) < this.#data.diagnosis.limits.insulation ? 'resistance' : 'open';
  }

  /** The circuit with cores of a lead disconnected: each such end at a node of its own. */
  #disconnected({ act, points }: Test) {
    const { wiring } = this.#data;
    const [, cable, side] = /^(.+)\.[A-Z]+@([12])$/.exec(points[0]!) ?? [];
    const loose = new Map<string, number>();
    let nodes = this.#data.nodes.length;
    const ends = new Map<string, { from?: number; to?: number }>();
    for (const wire of wiring)
      for (const [end, n] of [
        ['from', '1'],
        ['to', '2'],
      ] as const) {
        const is =
          act!.does === 'part'
            ? wire[end].split('.')[0] === act!.part
            : wire.cable === cable && n === side;
        if (!is) continue;
        loose.set(`${wire.id}@${n}`, nodes);
        ends.set(wire.id, { ...ends.get(wire.id), [end]: nodes++ });
      }
    // What is wrong inside a cable goes with its cores.
    const gone = new Map(
      wiring.flatMap((wire) =>
        (['from', 'to'] as const).flatMap((end, i) => {
          const core = `${wire.id}@${i + 1}`;
          const touched = this.#fault?.edit.touches.includes(`end ${core}`);
          return touched && loose.has(core) ? [[this.#at(wire[end]), loose.get(core)!]] : [];
        }),
      ) as [number, number][],
    );
    const moved = (node: number) => gone.get(node) ?? node;
    const branches = this.#branches.map((branch) =>
      branch.isJoin
        ? { ...branch, from: moved(branch.from), to: moved(branch.to) }
        : { ...branch, ...ends.get(branch.id) },
    );
    return { branches, nodes, at: (point: string) => loose.get(point) ?? this.#at(point) };
  }

  /** The answer of a dead test; no short where a board decides between ohms and open. */
  #settledOhms(
    state: State,
    points: readonly string[],
    nodesOf: readonly (number | string)[],
    branches = this.#branches,
    nodes = this.#data.nodes.length,
  ): string {
    const [a, b] = nodesOf.map((point) => (typeof point === 'string' ? this.#at(point) : point));
    const told = (within: readonly Branch[]) => {
      const { re } = this.#solve(within, state, 'dc', nodes).impedance(a!, b!);
      const { open } = this.#data.diagnosis.limits;
      const joined = this.#joinedOhms(points);
      // What floats reads as anything at all, so long as it is far from joined.
      if (Math.abs(re) <= joined) return 'joined';
      return Math.abs(re) < open ? 'resistance' : 'open';
    };
    const { open } = this.#data.settling.ohms;
    const bare = branches.map((branch) =>
      branch.element?.kind === 'sensing' ||
      (branch.element?.kind === 'load' && branch.element.draws === 'board')
        ? { ...branch, element: null, presence: null, fixed: open, series: 0 }
        : branch,
    );
    const answer = told(branches);
    return told(bare) === answer || (answer === 'joined' && typeof nodesOf[0] === 'number')
      ? answer
      : 'no short';
  }

  /** Up to how many ohms two points count as joined; a loose core end as the terminal it is of. */
  #joinedOhms(points: readonly string[]): number {
    const { joined, short } = this.#data.diagnosis.limits;
    const at = points.map((point) => {
      const [, wire, n] = /^(.+)@([12])$/.exec(point) ?? [];
      const of = this.#data.wiring.find(({ id }) => id === wire);
      return this.#at(of ? of[n === '1' ? 'from' : 'to'] : point);
    });
    const isNeutral = (node: number) => this.#data.nodes[node]!.carries === 'neutral';
    const [a, b] = at as [number, number];
    const lives = this.#motorLives();
    return (lives.has(a) && isNeutral(b)) || (isNeutral(a) && lives.has(b)) ? short : joined;
  }

  #lives: ReadonlySet<number> | undefined;

  /** Nodes of the conductors, as they are drawn, that a motor's live end lies on. */
  #motorLives(): ReadonlySet<number> {
    if (this.#lives) return this.#lives;
    const { branches, nodes } = this.#data;
    const next = nodes.map((_, i) => i);
    const net = (i: number): number => (next[i] === i ? i : net(next[i]!));
    for (const { kind, from, to } of branches)
      if (kind === 'conductor' || kind === 'wire link')
        next[net(this.#at(from))] = net(this.#at(to));
    const neutrals = new Set(
      nodes.flatMap(({ carries }, i) => (carries === 'neutral' ? net(i) : [])),
    );
    const motors = branches.filter(({ kind }) => kind === 'motor');
    const lives = new Set(
      motors
        .flatMap(({ from, to }) => [from, to].map((id) => net(this.#at(id))))
        .filter((one) => !neutrals.has(one)),
    );
    this.#lives = new Set(nodes.flatMap((_, i) => (lives.has(net(i)) ? i : [])));
    return this.#lives;
  }

  #fuse({ state }: Rest, id: string): string {
    const branch = this.#branches.find((one) => one.id === id)!;
    if (branch.fixed !== undefined || state.blown.has(id)) return 'blown';
    const [item, name] = id.split('/');
    const device = this.#data.definition.items.find(({ reference }) => reference === item)!;
    return branch.element!.rating === device.elements[name!]!.rating ? 'intact' : 'wrong rating';
  }

  #seen({ round }: Rest, outcome: string): string {
    const rule = this.#outcomes.get(outcome)!;
    const [item] = outcome.split('.');
    const told = new Set(round.map((state) => holds(rule, item!, state)));
    if (told.size > 1) return 'comes and goes';
    return told.has(true) ? 'seen' : 'not seen';
  }

  /** A reading, and whether the instrument decides it. */
  #live(rest: Rest, { points, instrument, about }: Test): string {
    const { kind } = this.#data.pairs.find(({ id }) => id === about)!;
    const { limits } = this.#data.diagnosis;
    const { ohms } = this.#data.instruments.find(({ id }) => id === instrument)!;
    const [from, to] = points.map((point) => this.#at(point));
    if (kind === 'call') {
      const volts = Math.abs(shown(rest.dc, from!, to!, ohms).re);
      const [least, most] = this.#data.classes.direct;
      return volts >= least && volts <= most ? 'dc' : 'no dc';
    }
    const read = (load: number) => this.#class(magnitude(shown(rest.ac, from!, to!, load)));
    const range = kind === 'line' ? limits.loads : [limits.noLoad, limits.loads[0]];
    return range.every((load) => read(load) === read(ohms)) ? read(ohms) : 'unsettled';
  }

  #class(volts: number): string {
    const { dead, live, high } = this.#data.classes;
    if (volts <= dead) return 'dead';
    if (volts < live) return 'between';
    return volts <= high ? 'live' : 'high';
  }

  /** Whether anything but earth at a place is live against the earth of the supply, under load. */
  #isLive({ ac }: Rest, { terminals }: Place): boolean {
    const { from } = this.#data.branches.find(
      ({ kind, id }) => kind === 'supply' && id.endsWith('earth'),
    )!;
    const origin = this.#at(from);
    const load = this.#data.instruments.at(-1)!.ohms;
    return terminals.some((point) => {
      const node = this.#at(point);
      if (this.#data.nodes[node]!.carries === 'earth') return false;
      return this.#class(magnitude(shown(ac, node, origin, load))) !== 'dead';
    });
  }

  #at(id: string): number {
    if (id === 'supply') return STAR;
    const index = this.#index.get(id);
    if (index === undefined) throw new RangeError(`the file has no node ${id}`);
    return index;
  }

  #place(id: string): Place {
    return this.#data.places.find((place) => place.id === id)!;
  }

  /** A mode as an open place leaves it: one of the situations where that changes the circuit. */
  #restOf(mode: string, place: string | null): Rest {
    const found = this.#data.situations.find(
      (one) => one.mode === mode && one.place === place && one.link === null,
    );
    return found ? this.#situation(found.id) : this.#mode(mode);
  }

  #mode(id: string): Rest {
    const known = this.#rests.get(id);
    if (known) return known;
    const { conditions, after } = this.#data.modes.find((mode) => mode.id === id)!;
    const rest = this.#settle(conditions, after === null ? null : this.#mode(after).state);
    this.#rests.set(id, rest);
    return rest;
  }

  #situation(id: string): Rest {
    const known = this.#rests.get(id);
    if (known) return known;
    const { mode, conditions, link } = this.#data.situations.find((one) => one.id === id)!;
    const { after } = this.#data.modes.find((one) => one.id === mode)!;
    const start = after === null ? null : this.#mode(after).state;
    const laid: Branch[] = link
      ? [
          {
            id: 'link laid',
            from: this.#at(link.from),
            to: this.#at(link.to),
            item: '',
            element: null,
            presence: null,
            parts: { ohms: link.ohms, henries: 0, farads: 0, volts: 0, current: 'none' },
            series: 0,
            idle: false,
          },
        ]
      : [];
    const rest = this.#settle(conditions, start, [...this.#branches, ...laid]);
    this.#rests.set(id, rest);
    return rest;
  }

  /** Lets the circuit find its rest by the rule of the file. */
  #settle(
    given: Readonly<Record<string, boolean>>,
    after: State | null,
    branches = this.#branches,
  ): Rest {
    const positions = new Map(
      [...this.#mechanisms].map(([item, { rest }]) => [item, this.#stuck.get(item) ?? rest]),
    );
    const conditions = new Map([...Object.entries(given), ...this.#set]);
    let state: State = after
      ? { ...after, conditions }
      : { conditions, positions, blown: this.#blown, energised: new Set(), held: new Set() };
    const past: State[] = [];
    const nodes = this.#data.nodes.length;
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const ac = this.#solve(branches, state, 'ac', nodes);
      const dc = this.#solve(branches, state, 'dc', nodes);
      const next = this.#step(branches, state, ac, dc);
      if (key(next) === key(state)) return { round: [state], state, ac, dc };
      past.push(state);
      const first = past.findIndex((earlier) => key(earlier) === key(next));
      if (first >= 0)
        return {
          round: past.slice(first),
          state: next,
          ac: this.#solve(branches, next, 'ac', nodes),
          dc: this.#solve(branches, next, 'dc', nodes),
        };
      state = next;
    }
    throw new RangeError('no rest');
  }

  #step(branches: readonly Branch[], state: State, ac: Solved, dc: Solved): State {
    const energised = new Set<string>();
    const held = new Set<string>();
    let opens: string | null = null;
    let worst = 0;
    for (const branch of branches) {
      const { id, element, idle } = branch;
      if (!element) continue;
      const across = magnitude(difference(ac.volts, branch));
      const volts = Math.hypot(across, difference(dc.volts, branch).re);
      if (element.operates !== undefined && !idle && isPresent(branch, state)) {
        const share = volts / element.ratedVolts!;
        if (share >= element.operates) energised.add(id);
        if (share >= element.holds!) held.add(id);
      }
      const limit = this.#limits.get(id);
      if (limit === undefined || state.blown.has(id)) continue;
      const out = this.#current(branch, state, ac, 'ac');
      const direct = this.#current(branch, state, dc, 'dc').re;
      let excess = Math.hypot(out.re, out.im, direct) / limit;
      if (element.residual) {
        const neutral = branches.find(
          (one) => one.id === `${branch.item}/${element.residual!.neutral}`,
        )!;
        const back = this.#current(neutral, state, ac, 'ac');
        excess = Math.max(
          excess,
          Math.hypot(out.re + back.re, out.im + back.im) / element.residual.amps,
        );
      }
      if (excess < 1 || excess <= worst) continue;
      worst = excess;
      opens = id;
    }
    const blown = opens === null ? state.blown : new Set([...state.blown, opens]);
    const next = { ...state, energised, held, blown };
    if (key(next) !== key(state)) return next;
    const positions = new Map(state.positions);
    for (const [item, { moves }] of this.#mechanisms) {
      if (this.#stuck.has(item)) continue;
      const due = moves.find(
        ({ from, when }) => state.positions.get(item) === from && holds(when, item, state),
      );
      if (due) positions.set(item, due.to);
    }
    return { ...next, positions };
  }

  /** Current through a branch from its first end, amperes. */
  #current(branch: Branch, state: State, solved: Solved, current: 'ac' | 'dc') {
    const { ohms, henries, volts, source } = this.#partsOf(branch, state);
    const x = current === 'ac' ? 2 * Math.PI * this.#data.supply.hertz * henries : 0;
    const drop = difference(solved.volts, branch);
    const re = drop.re - (source === current ? volts : 0);
    const square = ohms ** 2 + x ** 2;
    return { re: (re * ohms + drop.im * x) / square, im: (drop.im * ohms - re * x) / square };
  }

  #partsOf(branch: Branch, state: State) {
    const { ohms: table } = this.#data.settling;
    const { parts, element, item } = branch;
    const plain = (ohms: number) => ({ ohms, henries: 0, farads: 0, volts: 0, source: 'none' });
    if (branch.fixed !== undefined) return plain(branch.fixed);
    if (!isPresent(branch, state)) return plain(table.open);
    const added = (ohms: number) => plain(ohms + branch.series);
    if (element?.kind === 'contact')
      return added(holds(element.closed!, item, state) ? table.closed : table.open);
    if (element?.kind === 'fuse' || element?.kind === 'breaker')
      return added(state.blown.has(branch.id) ? table.blown : table.whole[element.kind]);
    const powered =
      element?.poweredBy === undefined || state.energised.has(`${item}/${element.poweredBy}`);
    const volts = element?.kind === 'source' ? element.volts! : parts.volts;
    return {
      ohms: (parts.ohms ?? Number.POSITIVE_INFINITY) + branch.series,
      henries: parts.henries,
      farads: parts.farads,
      volts: powered ? volts : 0,
      source: parts.current as string,
    };
  }

  #solve(branches: readonly Branch[], state: State, current: 'ac' | 'dc', nodes: number): Solved {
    const omega = current === 'ac' ? 2 * Math.PI * this.#data.supply.hertz : 0;
    const bare: BareBranch[] = [];
    const injected = new Float64Array(2 * nodes);
    for (const branch of branches) {
      const { ohms, henries, farads, volts, source } = this.#partsOf(branch, state);
      const { from, to } = branch;
      if (Number.isFinite(ohms)) {
        const x = omega * henries;
        const square = ohms ** 2 + x ** 2;
        const y = { re: ohms / square, im: -x / square };
        bare.push({ from, to, y });
        if (source === current && volts !== 0)
          for (const [node, sign] of [
            [from, 1],
            [to, -1],
          ] as const) {
            if (node === STAR) continue;
            injected[2 * node]! += sign * volts * y.re;
            injected[2 * node + 1]! += sign * volts * y.im;
          }
      }
      if (farads > 0 && omega > 0) bare.push({ from, to, y: { re: 0, im: omega * farads } });
    }
    // A disconnected end has no leakage in the file; it has some, or nothing could be said of it.
    for (let node = this.#data.nodes.length; node < nodes; node++)
      bare.push({ from: node, to: STAR, y: { re: 1e-11, im: 0 } });
    const inverse = denseInverse(nodes, bare);
    const sources = [...Array(nodes).keys()].filter(
      (node) => injected[2 * node] !== 0 || injected[2 * node + 1] !== 0,
    );
    const volts = inverse.map((row) => {
      let re = 0;
      let im = 0;
      for (const node of sources) {
        const [zr, zi] = [row[2 * node]!, row[2 * node + 1]!];
        re += zr * injected[2 * node]! - zi * injected[2 * node + 1]!;
        im += zr * injected[2 * node + 1]! + zi * injected[2 * node]!;
      }
      return { re, im };
    });
    const z = (a: number, b: number, part: 0 | 1) => inverse[a]![2 * b + part]!;
    const impedance = (a: number, b: number) => {
      const [re, im] = ([0, 1] as const).map(
        (part) => z(a, a, part) + z(b, b, part) - z(a, b, part) - z(b, a, part),
      );
      return { re: re!, im: im! };
    };
    return { volts, impedance };
  }
}

const magnitude = ({ re, im }: { re: number; im: number }): number => Math.hypot(re, im);

const isPresent = ({ presence }: Branch, { conditions }: State): boolean =>
  presence === null || conditions.get(presence) === true;

const difference = (volts: Solved['volts'], { from, to }: { from: number; to: number }) => {
  const at = (node: number) => (node === STAR ? { re: 0, im: 0 } : volts[node]!);
  return { re: at(from).re - at(to).re, im: at(from).im - at(to).im };
};

/** A path laid between two nodes. */
const joinOf = (from: number, to: number, ohms: number): Omit<Branch, 'presence'> => ({
  id: `${from}~${to}`,
  from,
  to,
  item: '',
  element: null,
  parts: { ohms, henries: 0, farads: 0, volts: 0, current: 'none' },
  series: 0,
  idle: false,
  isJoin: true,
});

/** What an instrument of so many ohms shows between two nodes. */
function shown({ volts, impedance }: Solved, from: number, to: number, ohms: number) {
  const open = difference(volts, { from, to });
  const z = impedance(from, to);
  const [re, im] = [1 + z.re / ohms, z.im / ohms];
  const square = re ** 2 + im ** 2;
  return {
    re: (open.re * re + open.im * im) / square,
    im: (open.im * re - open.re * im) / square,
  };
}

function holds(rule: Rule, item: string, state: State): boolean {
  if (typeof rule === 'boolean') return rule;
  if (typeof rule === 'string') return state.conditions.get(`${item}.${rule}`) === true;
  if ('energised' in rule) return state.energised.has(`${item}/${rule.energised}`);
  if ('held' in rule) return state.held.has(`${item}/${rule.held}`);
  if ('blown' in rule) return state.blown.has(`${item}/${rule.blown}`);
  if ('position' in rule) return [rule.position].flat().includes(state.positions.get(item) ?? '');
  if ('not' in rule) return !holds(rule.not, item, state);
  if ('all' in rule) return rule.all.every((one) => holds(one, item, state));
  return rule.any.some((one) => holds(one, item, state));
}

const key = ({ positions, blown, energised, held }: State): string =>
  JSON.stringify([
    [...positions].sort(),
    [...blown].sort(),
    [...energised].sort(),
    [...held].sort(),
  ]);
