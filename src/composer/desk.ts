import type { DrawingData } from '../components/diagram/data.ts';
import type { Agreed, Answered, Standing } from './engine.ts';
import type { FromComposer, ToComposer } from './messages.ts';
import type { Answers } from './questions.ts';
import type { Offer, ReplacingView } from './replacing.ts';
import type { Unsound } from './soundness.ts';
import type { View } from './view.ts';

/** Where in an arrangement one looks. */
export const PARTS = ['', 'readings', 'live-path', 'diagram', 'wiring', 'replace'] as const;
export type Part = (typeof PARTS)[number];

/** What a step of the browser's history holds of this page, beside the address. */
export interface Step {
  readonly answers?: Answers;
  /** A question asked again. */
  readonly at?: string;
  readonly part?: Part;
}

/** A worked-out arrangement as far as it has come. */
export interface Worked {
  readonly address: string;
  readonly view: View;
  readonly answers: Answers | null;
  readonly answered: readonly Answered[];
  readonly drawings: Readonly<Partial<Record<'narrow' | 'landscape', string>>>;
  /** What the drawing says of its parts; null until it is worked out. */
  readonly told: DrawingData | null;
  readonly agreed: Agreed | null;
  readonly isAgreed: boolean;
  /** What can take the place of each item; null until it is asked for. */
  readonly offers: readonly Offer[] | null;
  /** A device in place of an item, once it is worked out. */
  readonly replaced: {
    readonly item: string;
    readonly device: string;
    readonly sheet: ReplacingView;
  } | null;
}

/** What the page shows. */
export type Screen =
  | { readonly kind: 'opening' }
  | { readonly kind: 'failed'; readonly reason: string }
  | {
      readonly kind: 'wrong';
      readonly address: string;
      readonly wrong: string;
      readonly allowed: readonly string[];
    }
  | {
      readonly kind: 'asking';
      readonly standing: Standing;
      /** Why nothing that an option leads to is in order, by option; null where something is. */
      readonly unsound: Readonly<Record<string, Unsound | null>>;
      /** Why nothing that is left is in order, whatever is answered now. */
      readonly already: Unsound | null;
      /** The arrangement kept from before, offered at the first question. */
      readonly kept: Kept | null;
    }
  | { readonly kind: 'worked'; readonly worked: Worked; readonly part: Part };

/** An arrangement that was composed on this phone before. */
export interface Kept {
  readonly address: string;
  readonly title: string;
}

/** The browser as the desk needs it. */
export interface Effects {
  /** Starts the worker; what it says goes to `listen`. */
  readonly start: (listen: (message: FromComposer) => void) => (message: ToComposer) => void;
  /** Address of the parts. */
  readonly parts: string;
  /** The address behind its `#`, and the step that history holds with it. */
  readonly here: () => { readonly address: string; readonly step: Step };
  readonly push: (address: string, step: Step) => void;
  readonly replace: (address: string, step: Step) => void;
  readonly kept: () => Kept | null;
  readonly keep: (kept: Kept) => void;
}

/** Composing, from question to question, as the browser's history goes. */
export class ComposerDesk {
  readonly #effects: Effects;
  readonly #show: (screen: Screen) => void;
  readonly #send: (message: ToComposer) => void;
  #number = 0;
  /** Whether the answer on its way is a step of its own in history. */
  #pushes = false;
  /** Whether an answer is on its way: what is shown is asked no more. */
  #isAnswered = false;
  /** Whether all the rest is to be as usual once that answer is taken in. */
  #thenUsual = false;
  screen: Screen = { kind: 'opening' };

  constructor(effects: Effects, show: (screen: Screen) => void) {
    this.#effects = effects;
    this.#show = show;
    this.#send = effects.start((message) => this.#hear(message));
    this.#send({ type: 'open', address: effects.parts });
  }

  /** Shows what the address and the step say, as after Back or an opened link. */
  follow(): void {
    const { address, step } = this.#effects.here();
    this.#pushes = false;
    if (address === '') {
      this.#ask(step.answers ?? {}, step.at);
      return;
    }
    const { screen } = this;
    if (screen.kind === 'worked' && screen.worked.address === address) {
      this.#set({ ...screen, part: step.part ?? '' });
      return;
    }
    this.#work(address);
  }

  /** Takes an answer to the question that is asked. */
  answer(option: string): void {
    const { screen } = this;
    if (screen.kind !== 'asking' || !screen.standing.question || this.#isAnswered) return;
    this.#pushes = true;
    this.#ask({ ...screen.standing.answers, [screen.standing.question.id]: option });
  }

  /** Leaves all that is open as usual, after the answer that is on its way. */
  answerUsual(): void {
    const { screen } = this;
    if (screen.kind !== 'asking' || !screen.standing.usual) return;
    if (this.#isAnswered) {
      this.#thenUsual = true;
      return;
    }
    this.#pushes = true;
    this.#ask(screen.standing.usual);
  }

  /** Asks a question again, the others answered as they are. */
  change(at: string): void {
    const { screen } = this;
    const answers =
      screen.kind === 'worked'
        ? screen.worked.answers
        : screen.kind === 'asking'
          ? screen.standing.answers
          : null;
    if (!answers) return;
    this.#effects.push('', { answers, at });
    this.#pushes = false;
    this.#ask(answers, at);
  }

  /** Begins anew. */
  begin(): void {
    this.#effects.push('', {});
    this.#pushes = false;
    this.#ask({});
  }

  /** Opens an arrangement by its address. */
  openKept(address: string): void {
    this.#effects.push(address, {});
    this.#pushes = false;
    this.#work(address);
  }

  /** Looks at another part of the arrangement. */
  look(part: Part): void {
    const { screen } = this;
    if (screen.kind !== 'worked' || screen.part === part) return;
    this.#effects.push(screen.worked.address, { part });
    this.#set({ ...screen, part });
  }

  /** Asks what can take the place of each item. */
  askOffers(): void {
    this.#send({ type: 'offer', of: this.#number });
  }

  /** Puts a device in place of an item; null goes back to what can be offered. */
  replace(item: string, device: string | null): void {
    this.#further({ replaced: null });
    if (device !== null) this.#send({ type: 'replace', of: this.#number, item, device });
  }

  #ask(answers: Answers, at?: string): void {
    this.#number += 1;
    this.#isAnswered = true;
    this.#thenUsual = false;
    this.#send({
      type: 'stand',
      number: this.#number,
      answers,
      ...(at === undefined ? {} : { at }),
    });
  }

  #work(address: string): void {
    this.#number += 1;
    this.#send({ type: 'work', number: this.#number, address });
  }

  #hear(message: FromComposer): void {
    if (message.type === 'failed') {
      this.#set({ kind: 'failed', reason: message.reason });
      return;
    }
    if (message.type === 'opened') {
      this.follow();
      return;
    }
    if (message.number !== this.#number) return;
    const { screen } = this;
    switch (message.type) {
      case 'standing':
        this.#stand(message.standing);
        return;
      case 'judged':
        if (screen.kind !== 'asking') return;
        if (message.option === null) this.#set({ ...screen, already: message.unsound });
        else {
          const unsound = { ...screen.unsound, [message.option]: message.unsound };
          this.#set({ ...screen, unsound });
        }
        return;
      case 'wrong': {
        const { address } = this.#effects.here();
        const { wrong, allowed } = message;
        this.#set({ kind: 'wrong', address, wrong, allowed });
        return;
      }
      case 'worked': {
        const { view, answers, answered } = message;
        const { address, step } = this.#effects.here();
        const worked = { address, view, answers, answered };
        this.#effects.keep({ address, title: view.title });
        this.#set({
          kind: 'worked',
          worked: {
            ...worked,
            drawings: {},
            told: null,
            agreed: null,
            isAgreed: false,
            offers: null,
            replaced: null,
          },
          part: step.part ?? '',
        });
        return;
      }
      case 'drawn':
        this.#further({ drawings: { [message.variant]: message.svg } });
        return;
      case 'told':
        this.#further({ told: message.data });
        return;
      case 'offered':
        this.#further({ offers: message.offers });
        return;
      case 'replaced': {
        const { item, device, sheet } = message;
        this.#further({ replaced: { item, device, sheet } });
        return;
      }
      case 'agreeing':
        this.#further({ agreed: message.agreed, isAgreed: message.isDone });
        return;
    }
  }

  #further(more: Partial<Worked>): void {
    const { screen } = this;
    if (screen.kind !== 'worked') return;
    const drawings = { ...screen.worked.drawings, ...more.drawings };
    this.#set({ ...screen, worked: { ...screen.worked, ...more, drawings } });
  }

  #stand(standing: Standing): void {
    const { answers, address, question } = standing;
    this.#isAnswered = false;
    if (!question && address !== null) {
      // Nothing is asked: what the answers come to stands in the address.
      if (this.#pushes) this.#effects.push(address, {});
      else this.#effects.replace(address, {});
      this.#work(address);
      return;
    }
    if (this.#pushes) this.#effects.push('', { answers });
    const isFirst = standing.answered.length === 0;
    this.#set({
      kind: 'asking',
      standing,
      unsound: {},
      already: null,
      kept: isFirst ? this.#effects.kept() : null,
    });
    if (this.#thenUsual) this.answerUsual();
  }

  #set(screen: Screen): void {
    this.screen = screen;
    this.#show(screen);
  }
}
