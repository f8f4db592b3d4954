import { among } from '../entries/index.ts';
import { type Written, withWritten, writtenIn } from './document.ts';
import type { Wrong } from './messages.ts';
import { type Path, withAt } from './values.ts';

/** Whoever sits at the terminal, and the entry's file. */
export interface GuideDesk {
  /** @throws Error where nobody answers any more */
  readonly ask: (question: string) => Promise<string>;
  readonly say: (text: string) => void;
  /** What would be wrong with the entry if its file held this text. */
  readonly check: (text: string) => readonly Wrong[];
  readonly write: (text: string) => void;
}

export const GO_ON = 'Enter goes on';
const YES = /^y(es)?$/i;
const NO = /^n(o)?$/i;

/** What was typed for yes or no; undefined where it is neither. */
export const yesOrNo = (typed: string): boolean | undefined =>
  YES.test(typed) ? true : NO.test(typed) ? false : undefined;

const wrongText = ({ path, message, details }: Wrong): string =>
  [`  ${path === '' ? '' : `${path}: `}${message}`, ...details.map((one) => `    ${one}`)].join(
    '\n',
  );
const keyOf = ({ path, message }: Wrong) => `${path} ${message}`;

/**
 * An entry that is gone through at a terminal. Each answer is judged where it is given, and written
 * as soon as it stands: whoever breaks off finds everything in the file.
 */
export class Guide<Desk extends GuideDesk = GuideDesk> {
  protected readonly desk: Desk;
  #wrong: readonly Wrong[];
  #text: string;

  constructor(begun: string, desk: Desk) {
    this.desk = desk;
    this.#text = begun;
    this.#wrong = desk.check(begun);
  }

  protected get written(): Written {
    return writtenIn(this.#text);
  }

  /** Writes the entry so, if it stands; what brings something wrong only where it is wanted so. */
  protected async take(written: Written): Promise<boolean> {
    const text = withWritten(this.#text, written);
    const found = this.desk.check(text);
    const known = new Set(this.#wrong.map(keyOf));
    const fresh = found.filter((one) => !known.has(keyOf(one)));
    if (fresh.length > 0) {
      this.desk.say(fresh.map(wrongText).join('\n'));
      if (!yesOrNo(await this.desk.ask('Enter it all the same, to be put right after [no]'))) {
        return false;
      }
    }
    this.desk.write(text);
    this.#text = text;
    this.#wrong = found;
    return true;
  }

  protected set(path: Path, value: unknown): Promise<boolean> {
    const { values, body } = this.written;
    return this.take({ values: withAt(values, path, value) as Written['values'], body });
  }

  /** Asks for a word in another's stead until it stands, or the other is left. */
  protected async word(question: string, path: Path, now: string): Promise<void> {
    for (;;) {
      const typed = await this.desk.ask(`${question}, now “${now}”; Enter leaves it`);
      if (typed === '' || (await this.set(path, typed))) return;
    }
  }

  /** A name out of some, by itself or by its number; asked again until it is one of them. */
  protected async pick(question: string, names: readonly string[], now = ''): Promise<string> {
    for (;;) {
      const hint = now === '' ? '' : ` [${now}]`;
      const typed = (await this.desk.ask(`${question}${hint}`)) || now;
      const numbered = /^\d+$/.test(typed) ? names[Number(typed) - 1] : undefined;
      const found = names.includes(typed) ? typed : numbered;
      if (found !== undefined) return found;
      this.sayUnknown(typed, names);
    }
  }

  protected sayUnknown(typed: string, names: readonly string[]): void {
    const { allowed, suggestion } = among(typed, names);
    const meant = suggestion === undefined ? '' : `\n  did you mean ${suggestion}?`;
    this.desk.say(`  There is no “${typed}” here\n  allowed  ${allowed}${meant}`);
  }

  /** Says how the entry stands at the end. */
  sayHowItStands(): void {
    this.desk.say(
      this.#wrong.length === 0
        ? 'In order.'
        : `Still wrong:\n${this.#wrong.map(wrongText).join('\n')}`,
    );
  }
}
