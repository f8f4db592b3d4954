import { ISOLATED } from '../../schemas/index.ts';
import type { Simulation } from '../circuit/index.ts';
import { HISTORIES, type History } from '../diagnosis/index.ts';
import {
  ANSWER_CODES,
  ANSWERS,
  askedBy,
  type Case,
  doubtedTests,
  type Model,
  needsPairs,
  next,
  type Observation,
  observe,
  openCase,
  type Proposal,
  posterior,
  problemWith,
  questionOf,
  type RankedRepair,
  type Ranking,
  rank,
  ranking,
  standAt,
  verdict,
} from '../diagnosis/inference/index.ts';
import { drawSystem } from '../diagram/index.ts';
import { situationIn } from '../site/index.ts';
import { withoutTest } from './asked.ts';
import { isOfCause } from './done.ts';
import type { Asked, Due, Findings, FoundPath, NextTest } from './findings.ts';
import { partsIn } from './found-parts.ts';
import { repairOf } from './found-repair.ts';
import { foundThere } from './found-there.ts';
import { ALL_DEAD, ALL_INSULATION, ALL_LIVE, METERED_ACTS } from './job.ts';
import { type JobData, modelOf, simulationOf } from './job-data.ts';
import { type Sheet, type SheetMode, sheetOf } from './sheet.ts';
import { ohmsText, voltsText } from './words.ts';

/** What is asked of the engine: all that was found since the last repair, and where one stands. */
export interface Request {
  readonly entries: readonly { readonly id: string; readonly observation: Observation }[];
  /** Mode the engineer has brought about. */
  readonly mode: string;
  /** What the customer says of the time before; see `HISTORIES`. */
  readonly history: History;
  /** Ids of tests that the engineer cannot make, and of places that cannot be opened. */
  readonly cannot: readonly string[];
  /** Id of the published sequence that the visit was begun on, which it follows; none by default. */
  readonly sequence?: string | null;
  /** Whether to look for pairs of faults where no single one explains what was found. */
  readonly pairs: boolean;
}

/** Repairs of a ranking that are told, at most. */
const MOST_REPAIRS = 8;
/** Repairs believed less than this, as a share, are not listed. */
const LEAST_SHARE = 0.005;

/** The engine of one system: the same code as the build, on the build's own signatures. */
export class Engine {
  readonly sheet: Sheet;
  #data: JobData;
  readonly #simulation: Simulation;
  readonly #most: number | undefined;
  /** By history: it decides how likely each fault is. */
  readonly #models = new Map<History, Model>();
  /** Observations by their text: what was worked out of one stays with it. */
  readonly #known = new Map<string, Observation>();
  /** The case as it was last opened: a request that goes on from it makes use of its work. */
  #last: { readonly keys: readonly string[]; readonly open: Case } | undefined;

  /**
   * @param simulation of the data, where it is made already
   * @param most causes that the next test is planned for; all that are likely enough unless given
   * @throws RangeError when the data is of another version of the engine.
   */
  constructor(data: JobData, simulation: Simulation = simulationOf(data), most?: number) {
    this.#data = data;
    this.#most = most;
    this.#simulation = simulation;
    this.sheet = sheetOf(this.#modelOf(HISTORIES[0]).simulation);
  }

  /** Goes on with what is known by now of what faults show: more than before, of the same system. */
  take(signatures: JobData['signatures']): void {
    this.#data = { ...this.#data, signatures };
    this.#models.clear();
    this.#last = undefined;
  }

  /** The system’s drawing, as an entry’s lies beside its data. */
  draw = (): string => drawSystem(this.#simulation, { variant: 'narrow' }).svg;

  /** Whether what every fault shows is known: until then nothing counts as found. */
  get #isWhole(): boolean {
    return this.#data.signatures.soFar === undefined;
  }

  /** The engine’s model, by what the customer says of the time before. */
  modelFor = (history: History): Model => this.#modelOf(history);

  /** Everything that may explain what was found, single causes only, by how likely it is. */
  ranked(request: Request): Ranking {
    const { model, observations } = this.#opened(request).open;
    return posterior(model, observations, []);
  }

  #modelOf(history: History): Model {
    const known = this.#models.get(history);
    if (known) return known;
    const made = modelOf(this.#data, history, this.#simulation);
    this.#models.set(history, made);
    return made;
  }

  /** Any model: what does not depend on how likely the faults are is the same in all. */
  get #model(): Model {
    return this.#last?.open.model ?? this.#modelOf(HISTORIES[0]);
  }

  /** What is believed after everything found. */
  find(request: Request): Findings {
    const { open, ids, refused } = this.#opened(request);
    const { model, observations } = open;
    const wantsPairs = this.#isWhole && needsPairs(model, observations);
    const seeking = wantsPairs && !request.pairs;
    const ranking = seeking ? posterior(model, observations, []) : rank(open);
    const kind = seeking || !this.#isWhole ? null : verdict(open).kind;
    const listed = ranking.repairs.filter(({ share }) => share >= LEAST_SHARE);
    const shown = listed.slice(0, MOST_REPAIRS);
    const doubted = doubtedTests(model, ranking, observations);
    return {
      repairs: shown.map((repair) => repairOf(repair, open)),
      more: ranking.repairs.length - shown.length,
      foundThere: kind === 'found' ? [] : foundThere(open, ranking),
      notAsShown: ranking.notAsShown,
      contradicted: kind === 'not as shown',
      found: kind === 'found',
      doubted: ids.filter((_, i) => {
        const at = model.listedAt(questionOf(observations[i]!));
        return at !== undefined && doubted.has(at) && ranking.explanations[0]!.against.includes(i);
      }),
      refused,
      wantsPairs,
      withPairs: request.pairs,
      count: observations.length,
    };
  }

  /**
   * What a repair’s likeliest cause leaves of the circuit; null where nothing was found yet, or
   * the ranking has no such repair.
   */
  path(request: Request, key: string): FoundPath | null {
    const { open } = this.#opened(request);
    if (open.observations.length === 0) return null;
    const repair = rank(open).repairs.find((one) => one.key === key);
    return repair ? this.#path(repair, open, request.mode) : null;
  }

  /**
   * Modes that can be brought about in which a repair’s cause would have shown to the eye.
   * @param request what was found before the repair.
   * @param said the repair as it was entered: it begins with its cause, else the likeliest is meant.
   */
  shownIn(request: Request, said: string): readonly string[] {
    const { model, observations } = this.#opened(request).open;
    if (observations.length === 0) return [];
    const { repairs } = posterior(model, observations, []);
    const isSaid = ({ explanations: [top] }: RankedRepair) =>
      isOfCause(said, top!.hypothesis.title);
    const top = (repairs.find(isSaid) ?? repairs[0])?.explanations[0];
    if (!top) return [];
    const circuit = model.circuitOf(top.hypothesis);
    const shows = (mode: SheetMode) =>
      Object.entries(mode.due).some(([outcome, due]) => {
        const seen = circuit.seen(situationIn(mode.id, null), outcome);
        return due !== (seen === 'hunting' ? 'comes and goes' : seen ? 'seen' : 'not seen');
      });
    return this.sheet.modes
      .filter((mode) => mode.testable && !mode.isolated && shows(mode))
      .map(({ id }) => id);
  }

  /** Looks for pairs of faults a little at each step, so that `find` then answers at once. */
  *seek(request: Request): Generator<void> {
    yield* ranking(this.#opened(request).open);
  }

  /**
   * The test most worth making now; null when no test tells any more, undefined where that
   * takes pairs of faults and the request does not look for them.
   */
  next(request: Request): NextTest | null | undefined {
    const { open } = this.#opened(request);
    if (!request.pairs && this.#isWhole && needsPairs(open.model, open.observations))
      return undefined;
    const proposal = next(open);
    return proposal && this.#nextTest(proposal, open);
  }

  /** What a sound system shows. */
  due(asked: Asked): Due {
    const model = this.#model;
    const sound = model.singles.at(-1)!;
    const answer = ANSWERS[model.answersTo(asked)(sound)]!;
    if (asked.kind === 'live') {
      return { answer, figure: voltsText(model.figure(sound, asked), asked.current) };
    }
    if (asked.kind === 'dead' && (answer === 'joined' || answer === 'resistance')) {
      return { answer, figure: ohmsText(model.figure(sound, asked)) };
    }
    return { answer, figure: '' };
  }

  /** What is wrong with an observation; null where this system can have it. */
  problem = (observation: Observation): string | null =>
    problemWith(this.#model.simulation, observation);

  /**
   * Works out, a little at each step, what every fault would show for a reading that is about
   * to be entered, so that its ranking then follows at once.
   */
  *warm(asked: Asked): Generator<void> {
    const model = this.#model;
    const answerOf = model.answersTo(asked);
    const wide: readonly number[] = [ANSWER_CODES.between, ANSWER_CODES.resistance];
    for (const single of model.singles) {
      const code = answerOf(single);
      if (wide.includes(code)) model.figure(single, asked);
      yield;
    }
  }

  #opened({ entries, mode, history, cannot, sequence = null }: Request) {
    const refused: { id: string; reason: string }[] = [];
    const taken = entries.filter(({ id, observation }) => {
      const reason = this.problem(observation);
      if (reason !== null) refused.push({ id, reason });
      return reason === null;
    });
    const keys = taken.map(({ observation }) => JSON.stringify(observation));
    const model = this.#modelOf(history);
    const last = this.#last?.open.model === model ? this.#last : undefined;
    let open = last?.keys.every((key, i) => key === keys[i])
      ? last.open
      : openCase(model, this.#data.orders);
    for (const { observation } of taken.slice(open.observations.length))
      open = observe(open, this.#same(observation));
    this.#last = { keys, open };
    const known = model.simulation.modes.has(mode);
    const left = new Set(cannot);
    const without = new Set(
      model.tests.flatMap((test) =>
        left.has(test.id) || left.has(test.place ?? '') || left.has(kindLeftOut(test))
          ? test.id
          : [],
      ),
    );
    return {
      open: standAt(open, {
        without,
        sequence,
        ...(known ? { mode } : {}),
        ...(this.#most === undefined ? {} : { most: this.#most }),
      }),
      ids: taken.map(({ id }) => id),
      refused,
    };
  }

  /** Up to where it is live: in the mode one stands in, or stood in before it was isolated. */
  #path({ explanations }: RankedRepair, open: Case, mode: string): FoundPath {
    const { model, observations } = open;
    const { modes } = model.simulation;
    const stood = [mode, ...observations.map((one) => one.mode).toReversed(), ...modes.keys()];
    const live = stood.find((one) => one !== ISOLATED && modes.has(one))!;
    const { hypothesis } = explanations[0]!;
    const shows = this.sheet.items.flatMap(({ points }) =>
      points.flatMap(({ id, carries, extraLow, against }) =>
        carries === 'earth' || carries === 'neutral' || extraLow || against === null
          ? []
          : [[id, model.classWithCoversOn(hypothesis, live, id, against)] as const],
      ),
    );
    const circuit = model.circuitOf(hypothesis);
    const [state] = circuit.round(situationIn(live, null));
    return { mode: live, shows, parts: partsIn(circuit.network, state!) };
  }

  #same(observation: Observation): Observation {
    const key = JSON.stringify(observation);
    const known = this.#known.get(key);
    if (known) return known;
    this.#known.set(key, observation);
    return observation;
  }

  #nextTest({ test, again, minutes, why }: Proposal, open: Case): NextTest {
    const asked = withoutTest(askedBy(test));
    const place = test.place;
    return {
      id: test.id,
      place,
      asked,
      again,
      why,
      minutes,
      opens: place !== null && !open.opened.has(place),
      due: this.due(asked),
    };
  }
}

/** What a test is left out as, where a whole kind of them is. */
function kindLeftOut(test: Model['tests'][number]): string {
  if (test.kind === 'live') return ALL_LIVE;
  if (test.kind === 'act' && test.act === 'insulation') return ALL_INSULATION;
  const metered = test.kind === 'dead' || (test.kind === 'act' && METERED_ACTS.includes(test.act));
  return metered ? ALL_DEAD : '';
}
