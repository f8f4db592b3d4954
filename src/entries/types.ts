import type { Device, Procedure, System, Term } from '../../schemas/index.ts';

/** A place in a content file, counted from 1. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

/** One content file, read and valid. */
export interface Entry<T> {
  /** File name without .mdx. */
  readonly id: string;
  /** Path from the content folder, as in systems/combi.mdx. */
  readonly file: string;
  readonly data: T;
  /** MDX after the frontmatter. */
  readonly body: string;
  /** Where a frontmatter value stands; the nearest enclosing one if the path is absent. */
  readonly locate: (path: readonly PropertyKey[]) => Position;
}

/** Everything a content folder holds, each kind by entry id, in order of file name. */
export interface Entries {
  readonly systems: ReadonlyMap<string, Entry<System>>;
  /** Devices with what they extend already merged in. */
  readonly devices: ReadonlyMap<string, Entry<Device>>;
  readonly procedures: ReadonlyMap<string, Entry<Procedure>>;
  readonly glossary: ReadonlyMap<string, Entry<Term>>;
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
  /** The file's lines around the position, the position marked. */
  readonly frame: string;
}
