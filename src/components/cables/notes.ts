import type { Source } from '../../published/index.ts';

/** A source as a reader sees it under a table. */
export interface Note {
  readonly number: number;
  readonly of: string;
  readonly source: Source;
}

/** Numbers the sources of a section in the order in which its tables first name them. */
export class Notes {
  readonly #notes: Note[] = [];

  /** The number of a source; `of` says which values it is for. */
  number(of: string, source: Source): number {
    const known = this.#notes.find((note) => note.source.cite === source.cite);
    if (known) return known.number;
    const note = { number: this.#notes.length + 1, of, source };
    this.#notes.push(note);
    return note.number;
  }

  get all(): readonly Note[] {
    return this.#notes;
  }
}
