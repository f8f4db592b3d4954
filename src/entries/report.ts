import type { ProblemCode } from './catalogue.ts';
import { type Details, makeProblem } from './problem.ts';
import type { Path, Places, Problem } from './types.ts';

type Add = (code: ProblemCode, path: Path, message: string, details?: Details) => void;

/** Collects one entry's problems while its checks run. */
export interface Report {
  readonly problems: readonly Problem[];
  /** Adds a problem at the value of a path. */
  readonly value: Add;
  /** Adds a problem at the key of a path. */
  readonly key: Add;
}

/** An empty report on the entry whose values stand at these places. */
export function reportFor(places: Places): Report {
  const problems: Problem[] = [];
  return {
    problems,
    value: (code, path, message, details) =>
      void problems.push(makeProblem(code, places.value(path), path, message, details)),
    key: (code, path, message, details) =>
      void problems.push(makeProblem(code, places.key(path), path, message, details)),
  };
}

/** A record's own value: names such as “constructor” are not found where none was written. */
export function own<T>(record: Readonly<Record<string, T>>, name: string): T | undefined {
  return Object.hasOwn(record, name) ? record[name] : undefined;
}
