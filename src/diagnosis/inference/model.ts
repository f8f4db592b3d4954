import {
  INSTRUMENTS,
  isExtraLow,
  type ReadingClass,
  type Settled,
  type Simulation,
} from '../../circuit/index.ts';
import { type Situation, settledIn, situationIn } from '../../site/index.ts';
import { volts } from '../../units/index.ts';
import { testPairs } from '../../wiring/index.ts';
import {
  type FamilyShares,
  type Fault,
  faultsOf,
  HISTORIES,
  type History,
} from '../faults/index.ts';
import { type Circumstance, circumstancesOf, settleUnder } from '../no-fault.ts';
import { roundOf, type SettledState } from '../settled-states.ts';
import {
  type ActTest,
  deadAnswer,
  joinedOhms,
  type Test,
  type TestAnswer,
  takesOut,
  testsOf,
} from '../tests/index.ts';
import { FoundCircuit, type SolutionCache, situationOfAct } from './circuit.ts';
import { circumstanceHypothesis } from './circumstances.ts';
import { ANSWER_CODES, rowCodes } from './codes.ts';
import type { CompactSignatures } from './compact.ts';
import { type Hypothesis, single, soundHypothesis } from './hypothesis.ts';
import { LruCache } from './lru.ts';
import { ONE_FAULT, PRIOR } from './priors.ts';
import { askedBy, type Question, questionKey, situationFor } from './question.ts';

/** Modes and currents of which solutions are kept for off-list readings. */
const MOST_SOLVED = 4;
/** Circuits of pairs kept for off-list readings. */
const MOST_PAIR_CIRCUITS = 50;
/** Pairs of which all answers are kept. */
const MOST_PAIR_ROWS = 1000;
/** Explanations whose answers to what was asked are kept for the next search. */
const MOST_ANSWERED = 5000;

/**
 * What each explanation of a system's behaviour shows for anything that can be observed.
 * Listed tests are looked up; anything else is worked out from the fault's own circuit, and
 * kept.
 */
export class Model {
  readonly simulation: Simulation;
  readonly history: History;
  readonly tests: readonly Test[];
  /** Place of each test in the list, by id. */
  readonly testAt: ReadonlyMap<string, number>;
  /** Every single fault in the order they are made, every circumstance, then the sound system. */
  readonly singles: readonly Hypothesis[];
  readonly #questions: readonly Question[];
  readonly #listed: ReadonlyMap<string, number>;
  readonly #signatures: CompactSignatures;
  readonly #solutions: SolutionCache = new LruCache(MOST_SOLVED);
  readonly #circuits = new Map<string, FoundCircuit>();
  readonly #pairCircuits = new LruCache<FoundCircuit>(MOST_PAIR_CIRCUITS);
  readonly #pairRows = new LruCache<Uint8Array>(MOST_PAIR_ROWS);
  readonly #answers = new LruCache<Map<string, number>>(MOST_ANSWERED);
  readonly #places: ReadonlyMap<string, number>;

  /**
   * @param simulation the system as its entry shows, in all its modes.
   * @param history what the customer says of the time before: it decides how likely each fault is.
   * @param weightOf how likely a fault is beside the others; its share in that history unless given.
   * @param families how often each family is met; the table's own shares unless given.
   * @throws RangeError when the signatures are of another version of the system.
   */
  constructor(
    simulation: Simulation,
    signatures: CompactSignatures,
    history: History = HISTORIES[0],
    weightOf: (fault: Fault) => number = ({ shares }) => shares[history],
    families?: FamilyShares,
  ) {
    this.simulation = simulation;
    this.history = history;
    this.#signatures = signatures;
    this.tests = listedFor(simulation).tests;
    const same =
      this.tests.length === signatures.tests.length &&
      this.tests.every(({ id }, i) => id === signatures.tests[i]);
    if (!same) this.#refuse(`${signatures.tests.length} tests, not these ${this.tests.length}`);
    this.testAt = new Map(this.tests.map(({ id }, i) => [id, i]));
    this.#questions = this.tests.map(askedBy);
    this.#listed = new Map(this.#questions.map((question, i) => [questionKey(question), i]));
    this.singles = this.#hypotheses(weightOf, families);
    this.#places = new Map(this.singles.map(({ id }, i) => [id, i]));
  }

  /** The place of a question in the list of tests; undefined where it is not listed. */
  listedAt(question: Question): number | undefined {
    return this.#listed.get(questionKey(question));
  }

  /** What any explanation answers to a question, by code. */
  answersTo(question: Question): (hypothesis: Hypothesis) => number {
    const at = this.listedAt(question);
    const key = questionKey(question);
    return (hypothesis) => {
      if (at !== undefined && hypothesis.row) return hypothesis.row[at]!;
      if (this.#isOpen(hypothesis))
        return this.#signatures.soFar?.[hypothesis.id]?.[key] ?? ANSWER_CODES.unsettled;
      const answers = this.#answers.get(hypothesis.id, () => new Map());
      let code = answers.get(key);
      if (code === undefined) {
        code = this.#answerOf(hypothesis, this.circuitOf(hypothesis), question);
        answers.set(key, code);
      }
      return code;
    };
  }

  /** Whether a single explanation is not worked out yet: then only what it was looked at for is known. */
  #isOpen = ({ row, faults }: Hypothesis): boolean =>
    this.#signatures.soFar !== undefined && row === null && faults.length < 2;

  /**
   * Chance that one look or reading finds an explanation behaving well: of single faults that come
   * and go, where the customer says that the trouble does.
   */
  behavesWell({ faults: [fault, second] }: Hypothesis): number {
    return this.history === 'comes and goes' && !second ? (fault?.intermittent ?? 0) : 0;
  }

  /** What one explanation answers to a question, by code. */
  predicted(hypothesis: Hypothesis, question: Question): number {
    return this.answersTo(question)(hypothesis);
  }

  /** The figure an explanation gives to a reading: volts or ohms. */
  figure(hypothesis: Hypothesis, question: Question): number {
    return this.figureIn(this.circuitOf(hypothesis), question);
  }

  /** The figure that a circuit gives to a reading: volts or ohms. */
  figureIn(circuit: FoundCircuit, question: Question): number {
    const situation = situationFor(this.simulation.network, question);
    if (question.kind === 'dead') return circuit.ohms(situation, question.from, question.to);
    if (question.kind !== 'live') throw new RangeError(`a ${question.kind} has no figure`);
    const { from, to, instrument, current } = question;
    return circuit.volts(situation, from, to, instrumentOf(instrument), current);
  }

  /** What the voltage tester shows between two terminals of an explanation with every cover on. */
  classWithCoversOn(hypothesis: Hypothesis, mode: string, from: string, to: string): ReadingClass {
    const situation = situationIn(mode, null);
    return this.circuitOf(hypothesis).classOf(situation, from, to, instrumentOf('tester'));
  }

  /** The circuit of an explanation as found. */
  circuitOf(hypothesis: Hypothesis): FoundCircuit {
    const { id, faults } = hypothesis;
    if (faults.length > 1)
      return this.#pairCircuits.get(id, () => this.#made(hypothesis, new LruCache(MOST_SOLVED)));
    const known = this.#circuits.get(id);
    if (known) return known;
    const made = this.#made(hypothesis, this.#solutions);
    this.#circuits.set(id, made);
    return made;
  }

  #made(hypothesis: Hypothesis, solutions: SolutionCache): FoundCircuit {
    const { id, faults, circumstance } = hypothesis;
    return new FoundCircuit({
      id,
      sound: this.simulation,
      edits: faults.map(({ edit }) => edit),
      known: this.#restOf(hypothesis),
      conditions: circumstance?.conditions,
      solutions,
    });
  }

  #restOf({
    faults: [fault, second],
    circumstance,
  }: Hypothesis): ((situation: Situation) => SettledState[]) | null {
    if (circumstance) return (situation) => [...this.#under(circumstance, situation).round];
    if (!fault) return (situation) => [...settledIn(this.simulation, situation).round];
    const { settled } = this.#signatures;
    const isKnown = !second && Object.hasOwn(settled.faults, fault.id);
    return isKnown ? ({ id }) => roundOf(settled, fault.id, id) : null;
  }

  #under(circumstance: Circumstance, situation: Situation): Settled {
    const then = settleUnder(this.simulation.network, [situation.mode], circumstance);
    return settledIn(then, situation);
  }

  /** Place of a single explanation in `singles`; −1 for any other. */
  placeOf({ id }: Hypothesis): number {
    return this.#places.get(id) ?? -1;
  }

  /** The pair with what every listed test answers, simulated once. */
  withRow(pair: Hypothesis): Hypothesis {
    return { ...pair, row: this.rowOfPair(pair) };
  }

  /** What every listed test answers with two faults at once, simulated once. */
  rowOfPair(pair: Hypothesis): Uint8Array {
    return this.#pairRows.get(pair.id, () => {
      const circuit = new FoundCircuit({
        id: pair.id,
        sound: this.simulation,
        edits: pair.faults.map(({ edit }) => edit),
        keeps: true,
        solutions: new LruCache(MOST_SOLVED),
      });
      return Uint8Array.from(this.#questions, (question) =>
        this.#answerOf(pair, circuit, question),
      );
    });
  }

  /**
   * What an act finds with two faults at once: in an open box, what either shows; with
   * the cores of a lead disconnected, what the one shows that lies behind it. Null where only a
   * circuit with both can tell.
   * @param at its place in the list of tests.
   * @param a place of one fault among the singles.
   * @param b place of the other.
   */
  actOfTwo(at: number, a: number, b: number): number | null {
    const test = this.tests[at];
    const [one, two] = [this.singles[a]!.row, this.singles[b]!.row];
    if (test?.kind !== 'act' || !one || !two) return null;
    const sound = this.singles.at(-1)!.row![at]!;
    const codes = [one[at]!, two[at]!];
    switch (test.act) {
      case 'inside':
      case 'compare':
        return Math.max(ANSWER_CODES.nothing, ...codes);
      case 'spindle':
        return Math.max(ANSWER_CODES.seen, ...codes);
      case 'core':
      case 'part':
      case 'insulation': {
        if (!takesOut(test)) return null;
        const other = new Set(codes.filter((code) => code !== sound));
        return other.size > 1 ? null : ([...other][0] ?? sound);
      }
      default:
        return null;
    }
  }

  /** What a hypothesis answers: what its circuit does, but for what hands find one by one. */
  #answerOf(hypothesis: Hypothesis, circuit: FoundCircuit, question: Question): number {
    return this.#actOfPair(hypothesis, question) ?? this.answerIn(circuit, question);
  }

  #actOfPair({ faults: [a, b] }: Hypothesis, question: Question): number | null {
    if (!a || !b || question.kind !== 'act') return null;
    const [one, two] = [this.#places.get(a.id)!, this.#places.get(b.id)!];
    return this.actOfTwo(this.listedAt(question)!, one, two);
  }

  /** The situation in which a question is asked. */
  situationOf(question: Question): Situation {
    const { network } = this.simulation;
    return question.kind === 'act'
      ? situationOfAct(network, this.#act(question))
      : situationFor(network, question);
  }

  #act(question: Extract<Question, { kind: 'act' }>): ActTest {
    const test = this.tests[this.listedAt(question)!];
    if (test?.kind !== 'act') throw new RangeError(`there is no act ${question.id}`);
    return test;
  }

  /** What a circuit answers to a question, by code. */
  answerIn = (circuit: FoundCircuit, question: Question): number =>
    ANSWER_CODES[this.#workedOut(circuit, question)];

  #workedOut(circuit: FoundCircuit, question: Question): TestAnswer {
    if (question.kind === 'act') return circuit.act(this.#act(question));
    const situation = situationFor(this.simulation.network, question);
    switch (question.kind) {
      case 'look': {
        const seen = circuit.seen(situation, question.outcome);
        if (seen === 'hunting') return 'comes and goes';
        return seen ? 'seen' : 'not seen';
      }
      case 'dead':
        return deadAnswer(
          circuit.ohms(situation, question.from, question.to),
          joinedOhms(this.simulation.network, question.from, question.to),
        );
      case 'fuse':
        return circuit.fuse(situation, question.branch);
      case 'live': {
        const { from, to } = question;
        const instrument = instrumentOf(question.instrument);
        if (question.current === 'ac') return circuit.classOf(situation, from, to, instrument);
        const direct = circuit.volts(situation, from, to, instrument, 'dc');
        return isExtraLow(volts(direct)) ? 'dc' : 'no dc';
      }
    }
  }

  #hypotheses(weigh: (fault: Fault) => number, families?: FamilyShares): Hypothesis[] {
    const { faults, rows, soFar, circumstances } = this.#signatures;
    const codes = rows.map(rowCodes);
    const { network } = this.simulation;
    const all = families ? faultsOf(this.simulation, families) : listedFor(this.simulation).faults;
    const made = new Map(all.map((fault) => [fault.id, fault]));
    if (!soFar && made.size !== faults.length)
      this.#refuse(`${faults.length} faults, not ${made.size}`);
    const total = [...made.values()].reduce((sum, fault) => sum + weigh(fault), 0);
    const rowOf = new Map(faults);
    const byId = new Map(circumstancesOf(network).map((one) => [one.id, one]));
    return [
      ...[...made.values()].map((fault) => {
        const row = rowOf.get(fault.id);
        if (row === undefined && !soFar) this.#refuse(`no fault ${fault.id}`);
        const shows = row === undefined ? null : codes[row]!;
        return single(fault, (ONE_FAULT * weigh(fault)) / total, shows);
      }),
      ...circumstances.map(([id, row]) => {
        const circumstance = byId.get(id);
        if (!circumstance) this.#refuse(`a circumstance ${id}`);
        const prior = PRIOR.circumstance / circumstances.length;
        const shows = row === null ? null : rowCodes(row);
        return circumstanceHypothesis(network, circumstance!, prior, shows);
      }),
      soundHypothesis(PRIOR.sound, codes[0]!),
    ];
  }

  #refuse(what: string): never {
    throw new RangeError(
      `${this.simulation.network.id}: its signatures have ${what}: build the data anew`,
    );
  }
}

const listed = new WeakMap<Simulation, { tests: readonly Test[]; faults: readonly Fault[] }>();

/**
 * The tests and faults of a system, listed once: while what its faults show is still worked out,
 * one model of it follows another.
 */
export function listedFor(simulation: Simulation): {
  readonly tests: readonly Test[];
  readonly faults: readonly Fault[];
} {
  const before = listed.get(simulation);
  if (before) return before;
  const tests = testsOf(simulation, testPairs(simulation.network));
  const made = { tests, faults: faultsOf(simulation) };
  listed.set(simulation, made);
  return made;
}

function instrumentOf(id: string) {
  const instrument = INSTRUMENTS.find((i) => i.id === id);
  if (!instrument) throw new RangeError(`there is no instrument ${id}`);
  return instrument;
}
