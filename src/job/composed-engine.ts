import { againstDemands } from '../composer/against-demands.ts';
import { type PartsData, standardsOf } from '../composer/parts-data.ts';
import { unusualWords } from '../composer/plain.ts';
import { type StandingWords, standingWords } from '../composer/standing-words.ts';
import { judgedBy, missedIn } from '../composer/verdicts.ts';
import { type Sighting, seenWithout } from '../diagnosis/index.ts';
import { GrowingSignatures, listedFor } from '../diagnosis/inference/index.ts';
import { type Arrangement, arrangementOf } from './arrangement.ts';
import { Engine, type Request } from './engine.ts';
import type { JobData } from './job-data.ts';
import type { Sheet } from './sheet.ts';

/** Share of what is believed beforehand that is glanced at for the first ranking. */
const GLANCED = 0.98;
/** Shares of what is believed that are worked out in full before a test is chosen, one after another. */
const ENOUGH = [0.95, 0.98, 0.99, 0.995, 0.999] as const;

/**
 * Causes that the next test is planned for, at most. No proven order leads through the first acts
 * here: each is planned anew, and on a phone within a tenth of a second or so.
 */
const MOST_PLANNED = 100;

/**
 * What has come of some work: a ranking; enough known to choose a test among what is worked out,
 * or all that there is to know; all of it for the first time; whether it does what it must.
 */
type Come = 'a step' | 'ranked' | 'enough' | 'all' | 'whole' | 'standing';

/**
 * The engine of an arrangement from parts. Nobody has worked its faults out: that is done here,
 * for what is asked and the likeliest first, and the engine is the one of every other system.
 */
export class ComposedEngine {
  readonly engine: Engine;
  readonly #arrangement: Arrangement;
  readonly #growing: GrowingSignatures;
  readonly #parts: PartsData;
  #glanced = false;
  /** Whether more is worked out than the engine was given. */
  #isAhead = false;
  #compared = false;
  #standing: StandingWords;

  /** @throws NoArrangement where the specification makes none */
  constructor(specification: string, parts: PartsData) {
    this.#parts = parts;
    this.#arrangement = arrangementOf(specification, parts);
    const { simulation, data } = this.#arrangement;
    this.#growing = new GrowingSignatures(simulation);
    this.engine = new Engine(
      { ...data, signatures: this.#growing.compact },
      simulation,
      MOST_PLANNED,
    );
    this.#standing = this.#words(null, false);
  }

  get simulation(): Arrangement['simulation'] {
    return this.#arrangement.simulation;
  }

  get sheet(): Sheet {
    return { ...this.engine.sheet, composed: this.#standing };
  }

  /** What each symptom that it can show shows for certain, by the symptom’s id. */
  get shows(): Readonly<Record<string, readonly Sighting[]>> {
    const { simulation } = this.#arrangement;
    return seenWithout(this.#parts.symptoms, simulation, listedFor(simulation).tests);
  }

  /** Everything that a job needs of it, once all its faults are worked out. */
  get data(): JobData {
    return { ...this.#arrangement.data, signatures: this.#growing.compact };
  }

  /** How many faults and circumstances are worked out, and of how many. */
  get progress(): { readonly done: number; readonly of: number } {
    return this.#growing.progress;
  }

  get #isWhole(): boolean {
    const { done, of } = this.progress;
    return done === of;
  }

  /**
   * Works out what a request needs, a little at each step: a first ranking by what was looked at,
   * the likeliest in full so that a test can be chosen, then the rest; and at last whether the
   * arrangement does what it must.
   */
  *work(request: Request): Generator<Come> {
    yield* this.#glance(request);
    this.#take();
    yield 'ranked';
    if (this.#isWhole) yield 'all';
    else yield* this.#grow(request);
    if (!this.#compared) yield* this.#compare();
  }

  *#glance({ entries, history }: Request): Generator<Come> {
    const looks = entries.flatMap(({ observation: o }) => (o.kind === 'look' ? o : []));
    const known = looks.filter((look) => this.engine.problem(look) === null);
    if (this.#glanced || this.#isWhole || known.length === 0) return;
    this.#glanced = true;
    const { singles } = this.engine.modelFor(history);
    const likeliest = singles.toSorted((a, b) => b.prior - a.prior);
    let left = GLANCED * likeliest.reduce((sum, { prior }) => sum + prior, 0);
    const ids: string[] = [];
    for (const { id, prior } of likeliest) {
      if (left <= 0) break;
      left -= prior;
      ids.push(id);
    }
    for (const _ of this.#growing.glance(ids, known)) {
      this.#isAhead = true;
      yield 'a step';
    }
  }

  /** Gives the engine what was worked out since it was given something last. */
  #take(): void {
    if (this.#isAhead) this.engine.take(this.#growing.compact);
    this.#isAhead = false;
  }

  *#grow(request: Request): Generator<Come> {
    const { explanations, notAsShown } = this.engine.ranked(request);
    const steps = ENOUGH.map((one) => one * (1 - notAsShown));
    let known = 0;
    for (const { hypothesis, share } of explanations) {
      if (steps.length > 0 && known >= steps[0]!) {
        while (steps.length > 0 && known >= steps[0]!) steps.shift();
        this.#take();
        yield 'enough';
      }
      known += share;
      if (this.#growing.has(hypothesis.id)) continue;
      this.#growing.work(hypothesis.id);
      this.#isAhead = true;
      yield 'a step';
    }
    this.#take();
    yield 'whole';
  }

  *#compare(): Generator<Come> {
    const { composed, simulation } = this.#arrangement;
    const steps = againstDemands(composed, simulation);
    for (;;) {
      const { value, done } = steps.next();
      if (!done) {
        yield 'a step';
        continue;
      }
      const { tried, of, miss } = value;
      const said = miss && {
        miss: { what: miss.what, when: unusualWords(simulation.network, miss.when) },
      };
      this.#compared = true;
      this.#standing = this.#words({ tried, of, ...said }, true);
      yield 'standing';
      return;
    }
  }

  #words(agreed: Parameters<typeof standingWords>[1], isAgreed: boolean): StandingWords {
    const { composed, simulation } = this.#arrangement;
    const verdicts = judgedBy(simulation, standardsOf(this.#parts));
    return standingWords({ verdicts, missed: missedIn(composed, simulation) }, agreed, isAgreed);
  }
}
