import type { Simulation } from '../circuit/index.ts';
import type { DrawingData } from '../components/diagram/data.ts';
import { drawingData } from '../components/diagram/make-data.ts';
import {
  addressOf,
  type Composed,
  circuitMark,
  compose,
  devicesOf,
  REFUSALS,
  Refusal,
  type RefusalReason,
  readAddress,
  type Specification,
} from '../compose/index.ts';
import { drawSystem } from '../diagram/index.ts';
import { composedId } from '../job/subject.ts';
import type { NamedStandard } from '../standards/index.ts';
import { wiringTable } from '../wiring/index.ts';
import { againstDemands, type Progress } from './against-demands.ts';
import { arrangementsFrom, refusalOf } from './look-ahead.ts';
import { catalogueOf, type PartsData, standardsOf } from './parts-data.ts';
import { unusualWords } from './plain.ts';
import { type Answers, type Question, Questions } from './questions.ts';
import { type Offer, offersFor, type ReplacingView, replacing } from './replacing.ts';
import { simulated, type Unsound, unsoundness } from './soundness.ts';
import { answersFor, specificationFor } from './specification.ts';
import { type View, viewOf } from './view.ts';

/** Arrangements judged for one option at most, before it is offered in doubt. */
const MOST_JUDGED = 24;

/** A question as the page shows it. */
export interface Asked extends Question {
  /** Why an option has no circuit with what was answered, by option. */
  readonly refused: Readonly<Record<string, string>>;
}

/** One thing answered, in words. */
export interface Answered {
  readonly id: string;
  readonly about: string;
  readonly title: string;
  readonly module?: string;
}

/** Where somebody who composes stands. */
export interface Standing {
  /** Answers that still hold. */
  readonly answers: Answers;
  readonly answered: readonly Answered[];
  /** What is asked next; null once nothing is. */
  readonly question: Asked | null;
  /** What all that is still open may be left as; null where something must be looked at. */
  readonly usual: Answers | null;
  /** The specification as the part of an address behind its `#`, once nothing is asked. */
  readonly address: string | null;
}

/** What an address came to. */
export type Opened =
  | { readonly specification: Specification; readonly answers: Answers | null }
  | { readonly wrong: string; readonly allowed: readonly string[] };

/** How the comparison with the demand table ended, in words. */
export interface Agreed extends Progress {
  /** What is otherwise than it must be, and when; absent where nothing is. */
  readonly miss?: { readonly what: string; readonly when: string };
}

/** Puts arrangements together from parts, asks for them, and works them out: pure, for a worker. */
export class ComposerEngine {
  readonly #catalogue: ReturnType<typeof catalogueOf>;
  readonly #standards: readonly NamedStandard[];
  readonly #questions: Questions;
  #opened: { readonly specification: Specification; readonly composed: Composed } | undefined;
  #worked: { readonly composed: Composed; readonly simulation: Simulation } | undefined;

  constructor(data: PartsData) {
    this.#catalogue = catalogueOf(data);
    this.#standards = standardsOf(data);
    this.#questions = new Questions(this.#catalogue);
  }

  /** Reads an address; what has no circuit is as wrong as what cannot be read. */
  open(address: string): Opened {
    const read = readAddress(address, this.#catalogue.modules);
    if ('wrong' in read) return read;
    try {
      const composed = compose(read.specification, this.#catalogue);
      this.#opened = { specification: read.specification, composed };
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      return { wrong: `These parts have no circuit: ${REFUSALS[error.reason]}.`, allowed: [] };
    }
    return {
      specification: read.specification,
      answers: answersFor(this.#questions, read.specification),
    };
  }

  /**
   * Where one stands with some answers. Those that no longer go with the ones before them are
   * dropped and asked again.
   * @param at a question to ask again though it is answered.
   */
  stand(given: Answers, at?: string): Standing {
    const answers = this.#settled(given);
    const list = this.#questions.list(answers);
    const open = this.#questions.next(answers);
    const asked = list.find(({ id }) => id === at) ?? open;
    const answered = list.flatMap(({ id, about, options }): Answered[] => {
      const option = options.find((one) => one.id === answers[id]);
      return option
        ? [{ id, about, title: option.title, ...(option.module ? { module: option.module } : {}) }]
        : [];
    });
    const left = list.filter(({ id }) => answers[id] === undefined);
    const usual =
      open && left.every((one) => one.usual !== undefined)
        ? { ...answers, ...Object.fromEntries(left.map((one) => [one.id, one.usual!])) }
        : null;
    return {
      answers,
      answered,
      question: asked ? this.#asked(asked, answers) : null,
      usual,
      address: open ? null : addressOf(specificationFor(this.#questions, answers)),
    };
  }

  /** Answers of which none lacks a circuit because of those before it. */
  #settled(given: Answers): Answers {
    const kept = this.#questions.kept(given);
    if (refusalOf(kept, this.#questions, this.#catalogue) === undefined) return kept;
    let so: Answers = {};
    for (const { id } of this.#questions.list(kept)) {
      if (kept[id] === undefined) continue;
      const next = { ...so, [id]: kept[id] };
      if (refusalOf(next, this.#questions, this.#catalogue) === undefined) so = next;
    }
    return this.#questions.kept(so);
  }

  #asked(question: Question, answers: Answers): Asked {
    const refused = question.options.flatMap(({ id }): [string, string][] => {
      const reason = this.#refused({ ...answers, [question.id]: id }, question.id);
      return reason === undefined ? [] : [[id, REFUSALS[reason]]];
    });
    return { ...question, refused: Object.fromEntries(refused) };
  }

  /** Why an answer has no circuit with those before it; those behind it may be asked again. */
  #refused(answers: Answers, at: string): RefusalReason | undefined {
    return refusalOf(this.#upTo(answers, at), this.#questions, this.#catalogue);
  }

  #upTo(answers: Answers, at: string): Record<string, string> {
    const list = this.#questions.list(answers).map(({ id }) => id);
    const before = list.slice(0, list.indexOf(at) + 1);
    return Object.fromEntries(Object.entries(answers).filter(([id]) => before.includes(id)));
  }

  /**
   * Judges the options of a question that have a circuit, one by one: why nothing that an option
   * leads to is in order; undefined where something is. Where the answers before it lead to nothing
   * in order already, that is said once, of no option.
   */
  *judge(
    { id: at, options, refused }: Asked,
    answers: Answers,
  ): Generator<{ readonly option: string | null; readonly unsound: Unsound | undefined }> {
    const before = this.#upTo(answers, at);
    delete before[at];
    const already = this.#unsound(before);
    if (already) {
      yield { option: null, unsound: already };
      return;
    }
    for (const { id } of options) {
      if (refused[id] !== undefined) continue;
      const so = this.#upTo({ ...answers, [at]: id }, at);
      yield { option: id, unsound: this.#unsound(so) };
    }
  }

  /** Why nothing that some answers lead to is in order; undefined where something is. */
  #unsound(answers: Answers): Unsound | undefined {
    let unsound: Unsound | undefined;
    let judged = 0;
    for (const one of arrangementsFrom(answers, this.#questions, this.#catalogue)) {
      if (typeof one === 'string') continue;
      if (++judged > MOST_JUDGED) break;
      unsound = unsoundness(one, this.#catalogue, this.#standards);
      if (!unsound) break;
    }
    return unsound;
  }

  /** Works a specification out in every mode; what is asked after is of this one. */
  work(specification: Specification): View {
    // What was opened to see whether it has a circuit is not put together twice.
    const composed =
      this.#opened?.specification === specification
        ? this.#opened.composed
        : compose(specification, this.#catalogue);
    const simulation = simulated(composed, this.#catalogue);
    this.#worked = { composed, simulation };
    return viewOf(composed, simulation, this.#standards);
  }

  /** The drawing of what was worked out last. */
  draw = (variant: 'narrow' | 'landscape'): string =>
    drawSystem(this.#last.simulation, { variant }).svg;

  /** What is said of each terminal, core and load of its drawing, and how its modes come about. */
  drawingData(): DrawingData {
    const { composed, simulation } = this.#last;
    const { system } = composed;
    const data = drawingData({
      simulation,
      network: simulation.network,
      wiring: wiringTable(simulation),
    });
    const mark = circuitMark(system, devicesOf(system, this.#catalogue));
    return { ...data, system: composedId(mark) };
  }

  /** What can be offered in place of each item of what was worked out last. */
  offers = (): Offer[] => offersFor(this.#last.simulation, this.#catalogue);

  /** What comes of a device in place of one of its items. */
  replace = (item: string, device: string): ReplacingView =>
    replacing(this.#last.simulation, this.#catalogue, item, device);

  /** Compares what was worked out last with the demand table, step by step. */
  *agree(): Generator<Progress, Agreed> {
    const { composed, simulation } = this.#last;
    const { tried, of, miss } = yield* againstDemands(composed, simulation);
    if (!miss) return { tried, of };
    const when = unusualWords(simulation.network, miss.when);
    return { tried, of, miss: { what: miss.what, when } };
  }

  get #last() {
    if (!this.#worked) throw new Error('nothing was worked out yet');
    return this.#worked;
  }
}
