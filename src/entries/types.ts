import type {
  Device,
  Module,
  Procedure,
  Standard,
  Symptom,
  System,
  Term,
} from '../../schemas/index.ts';

/** A place in a content file, counted from 1; columns in UTF-16 units, as editors count. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

/** A content file's text, kept so that a problem can show the lines around it. */
export interface SourceText {
  /** Path from the content folder, as in systems/combi.mdx. */
  readonly file: string;
  readonly lines: readonly string[];
  /** Position of a character, by its offset from the start of the file. */
  readonly positionAt: (offset: number) => Position;
}

/** A position and the text it stands in. */
export interface Place {
  readonly source: SourceText;
  readonly position: Position;
}

/** A path inside an entry, as Zod gives it: keys and list indexes from 0. */
export type Path = readonly PropertyKey[];

/**
 * Where an entry's values and keys stand. A device that extends another has values in more
 * than one file, so every answer names its file.
 */
export interface Places {
  /** Whether the author wrote anything at this path. */
  readonly has: (path: Path) => boolean;
  /** The value's first character; the nearest enclosing key if the path is absent. */
  readonly value: (path: Path) => Place;
  /** The key before the value; the value itself in a list. */
  readonly key: (path: Path) => Place;
}

/**
 * Whose an entry is: the reference's own; or a firm's, added beside the reference's, put in
 * the place of one, or laid over one.
 */
export type Origin = 'reference' | 'added' | 'replaced' | 'extended';

/** One content file, read and valid. */
export interface Entry<T> {
  /** File name without .mdx. */
  readonly id: string;
  /** Path from the content folder, as in systems/combi.mdx; a firm's after `firm/content/`. */
  readonly file: string;
  readonly origin: Origin;
  readonly data: T;
  /** MDX after the frontmatter. */
  readonly body: string;
  /** Where a frontmatter value stands in `file`; the nearest enclosing one if absent there. */
  readonly locate: (path: Path) => Position;
  /** The same for values that a device takes from the one it extends, with their text. */
  readonly places: Places;
}

/** Everything a content folder holds, each kind by entry id, in order of file name. */
export interface Entries {
  readonly systems: ReadonlyMap<string, Entry<System>>;
  /** Devices with what they extend already merged in. */
  readonly devices: ReadonlyMap<string, Entry<Device>>;
  readonly symptoms: ReadonlyMap<string, Entry<Symptom>>;
  readonly procedures: ReadonlyMap<string, Entry<Procedure>>;
  readonly standards: ReadonlyMap<string, Entry<Standard>>;
  readonly glossary: ReadonlyMap<string, Entry<Term>>;
  readonly modules: ReadonlyMap<string, Entry<Module>>;
}

/** Something wrong in a content file, with what an author needs to mend it. */
export interface Problem {
  /** Permanent code, as in `terminal-undeclared`; explained in the catalogue. */
  readonly code: string;
  readonly file: string;
  readonly position: Position;
  /** Path inside the entry, as in cables.W2.cores.BN. */
  readonly path: string;
  readonly message: string;
  readonly found?: string;
  readonly allowed?: string;
  /** The nearest allowed value, when one is near. */
  readonly suggestion?: string;
  /** What to change, where the place does not say it by itself. */
  readonly mend?: string;
  /** What follows from it and is put right with it, one line each. */
  readonly beneath?: readonly string[];
  /** Set on what is told and does not fail. */
  readonly warning?: true;
  /** The file's lines around the position, the position marked. */
  readonly frame: string;
}
