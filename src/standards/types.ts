import type { CheckName, RuleOf, Standard, StandardException } from '../../schemas/index.ts';
import type { Subject } from './subject.ts';

/** One place at which a system does not meet a standard. */
export interface Finding {
  /** Conductor (`W3.BU`), cable (`W3`) or item (`E1`) it is about. */
  readonly at: string;
  /** Where in the entry it is written, as keys from the top. */
  readonly path: readonly PropertyKey[];
  /** What is wrong, in plain words. */
  readonly message: string;
  readonly found?: string;
  readonly allowed?: string;
  /** What to change, in plain words. */
  readonly mend: string;
}

/** What a check says of one system. */
export type Verdict =
  /** `proof` says what was looked at, as in `12 conductors, 5 modes`. */
  | { readonly state: 'holds'; readonly proof: string }
  | { readonly state: 'breached'; readonly findings: readonly Finding[] }
  | { readonly state: 'does not apply'; readonly why: string };

/** A check that standards name: computed on the circuit, never on the entry's text. */
export interface Check<C extends CheckName> {
  /**
   * What is looked for, with the limits, as a paragraph for readers.
   * @param deviceName what a device is called in a sentence, by its id.
   */
  readonly words: (rule: RuleOf<C>, deviceName: (id: string) => string) => string;
  readonly run: (rule: RuleOf<C>, subject: Subject) => Verdict;
}

/** A standard by the name of its entry. */
export interface NamedStandard {
  readonly id: string;
  readonly standard: Standard;
}

/** An exception of a system's entry, with its place in the list. */
export interface PlacedException extends StandardException {
  readonly index: number;
}

/** A finding that an exception covers today. */
export interface ExceptedFinding extends Finding {
  readonly exception: PlacedException;
}

/** A standard's verdict on a system, with the exceptions its entry makes. */
export interface Judgement {
  readonly standard: string;
  /** `excepted`: breached, and every breach covered by an exception that holds today. */
  readonly state: Verdict['state'] | 'excepted';
  /** What was looked at, or why it does not apply; empty for a breach. */
  readonly said: string;
  /** Breaches that no exception covers today. */
  readonly findings: readonly Finding[];
  readonly excepted: readonly ExceptedFinding[];
  /** Exceptions to this standard that have ended, have not begun, or cover nothing. */
  readonly idle: readonly IdleException[];
}

/** An exception that does nothing today. */
export interface IdleException {
  readonly exception: PlacedException;
  readonly because: 'ended' | 'not begun' | 'covers nothing';
}

/** `holds` when nothing was found. */
export const verdict = (findings: readonly Finding[], proof: string): Verdict =>
  findings.length > 0 ? { state: 'breached', findings } : { state: 'holds', proof };

/** A verdict on a system that has nothing the check is about. */
export const apart = (why: string): Verdict => ({ state: 'does not apply', why });
