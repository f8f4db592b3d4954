import { readdirSync, readFileSync } from 'node:fs';
import type { Plain } from '../../src/job/ladder.ts';

/** One shape in which jobs were kept and sent on, as the page that wrote it left it. */
export interface Shape {
  readonly name: string;
  /** Version that it says it is of. */
  readonly version: number;
  /** As the browser kept it, in the layout of the database of that time. */
  readonly record: Plain & { readonly job: Plain & { readonly id: string } };
  /** As it was exported. */
  readonly file: Plain & { readonly job: Plain & { readonly id: string } };
}

const FOLDER = new URL('shapes/', import.meta.url);

/** Every shape that ever landed: `vN.json`, or `vN-what.json` where several bore one number. */
export const SHAPES: readonly Shape[] = readdirSync(FOLDER)
  .filter((file) => /^v[0-9]+(-[a-z-]+)?\.json$/.test(file))
  .map((file) => ({
    name: file.replace('.json', ''),
    version: Number(/[0-9]+/.exec(file)![0]),
    ...JSON.parse(readFileSync(new URL(file, FOLDER), 'utf8')),
  }));

/** Text of a file beside the shapes; empty where there is none. */
export function besideShapes(file: string): string {
  try {
    return readFileSync(new URL(file, FOLDER), 'utf8');
  } catch {
    return '';
  }
}
