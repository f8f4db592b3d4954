import type { JsonSchema, Kind } from '../entries/kinds.ts';

/** Entries that may be written, and those that a new one may start from. */
export interface Offered {
  /** Whose folder they are written into; absent for the reference's own. */
  readonly firm?: string;
  readonly kinds: readonly { readonly kind: Kind; readonly title: string }[];
  readonly own: readonly {
    readonly kind: Kind;
    readonly id: string;
    readonly title: string;
    /** How many problems its file has. */
    readonly wrong: number;
  }[];
  readonly like: readonly { readonly kind: Kind; readonly id: string; readonly title: string }[];
}

/** What a device offers to an entry that holds it. */
export interface DeviceFacts {
  readonly id: string;
  readonly title: string;
  readonly terminals: readonly string[];
  readonly conditions: readonly { readonly name: string; readonly title: string }[];
  readonly outcomes: readonly { readonly name: string; readonly title: string }[];
}

/** Something wrong, by the path of its field. */
export interface Wrong {
  readonly path: string;
  readonly message: string;
  readonly details: readonly string[];
  /** Line of the file. */
  readonly line: number;
}

export interface Verdict {
  readonly problems: readonly Wrong[];
}

/** An entry as the form shows it. */
export interface EntryToWrite extends Verdict {
  readonly kind: Kind;
  readonly id: string;
  readonly file: string;
  /** Hash of its text as it was read. */
  readonly base: string;
  readonly values: Readonly<Record<string, unknown>>;
  readonly body: string;
  readonly schema: JsonSchema;
  readonly devices: readonly DeviceFacts[];
  /** Lines that stand word for word in another entry. */
  readonly copied?: { readonly from: string; readonly at: readonly string[] };
}
