import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Progress, startProgress } from '../../src/cli/progress.ts';
import { type Searcher, type SolvedMemory, solveSequences } from '../../src/cli/solve.ts';
import { solveSequence } from '../../src/diagnosis/search/index.ts';
import { keptIn } from '../../src/folder/index.ts';
import type { ComputedSystem } from '../../src/reference/index.ts';
import { LOCK_FILE, type LockLine, openLock, writeLock } from '../../src/reference/lock.ts';
import { keepingSolver } from '../../src/reference/solver.ts';
import { shippedSystem } from '../support/shipped.ts';

const system = shippedSystem('combi-two-wire');
const systems = new Map([[system.id, system]]);
const STARTS = system.starts.length + system.startsSinceWork.length;
/** States within which some of the system's sequences are proven best, and some are not. */
const LITTLE = 20;
/** States within which all of them are. */
const ENOUGH = 5000;

let folder: string;
let lockFile: string;
let said: string[];
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'solve-'));
  lockFile = join(folder, LOCK_FILE);
  said = [];
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** Its stages without a word, but for what stands between them. */
const progress: Progress = {
  ...startProgress({ stages: 2, quietFor: Number.POSITIVE_INFINITY }),
  say: (line) => said.push(line),
};
/** Searches in this thread, where a thread of its own would only take time to start. */
const here = (): Searcher => ({
  search: async (problem, budget) => solveSequence(problem, budget),
  stop: async () => undefined,
});
/** One build: a new solver with nothing kept but the lock. */
async function build({
  prove = false,
  files = [lockFile],
  code = 'code',
  budget = LITTLE,
  proveBudget = ENOUGH,
  longSearch = Number.POSITIVE_INFINITY,
  inThreads = false,
  memory = undefined as SolvedMemory | undefined,
  of = systems as ReadonlyMap<string, ComputedSystem>,
} = {}) {
  const kept = mkdtempSync(join(folder, 'kept-'));
  const lock = openLock(files, (line) => said.push(line));
  const solver = keepingSolver({ folder: kept, code, lock, budget, wideBudget: budget });
  const options = {
    lockFile,
    prove,
    proveBudget,
    longSearch,
    ...(inThreads ? {} : { startSearcher: here }),
    ...(memory ? { memory } : {}),
  };
  const searches = await solveSequences({ systems: of, solver }, progress, options);
  return { searches, solver };
}
const locked = (): LockLine[] => JSON.parse(readFileSync(lockFile, 'utf8')).sequences;

describe('a build', () => {
  it('solves each sequence once within its budget, and names those not proven best', async () => {
    const { searches } = await build({ inThreads: true });
    expect(searches).toBe(STARTS);
    expect(existsSync(lockFile)).toBe(false);
    expect(said).toHaveLength(1);
    expect(said[0]).toMatch(
      /^Not proven best within 20 states: combi-two-wire\/boiler-display-dark \(gap \d+\.\d %\).*\. npm run build -- --prove searches on, some minutes for large systems, and keeps what it finds in .*sequences\.lock\.json$/,
    );
  });

  it('that proves locks what its budget left open, and searches for nothing of it again', async () => {
    await build({ prove: true });
    const lines = locked();
    expect(lines.length).toBeGreaterThan(1);
    expect(lines.length).toBeLessThan(STARTS);
    for (const { bound, minutes, states } of lines) {
      expect(bound).toBe(minutes);
      expect(states).toBeGreaterThan(0);
    }
    expect(said).toEqual([
      `${relative('.', lockFile)} holds ${lines.length} sequences, ${lines.length} of them proven best`,
    ]);
    said = [];
    const { searches, solver } = await build();
    expect(searches).toBe(STARTS - lines.length);
    expect(said).toEqual([]);
    expect(solver.lock.unused(lockFile)).toEqual([]);
  });

  it('writes the same file again where nothing has changed, whatever the code', async () => {
    await build({ prove: true });
    const text = readFileSync(lockFile, 'utf8');
    const { searches } = await build({ prove: true, code: 'other code' });
    expect(searches).toBe(STARTS - locked().length);
    expect(readFileSync(lockFile, 'utf8')).toBe(text);
  });

  it('proves again what was left unproven, with other code alone', async () => {
    await build({ prove: true, proveBudget: LITTLE });
    const unproven = locked().filter(({ bound, minutes }) => bound < minutes);
    expect(unproven.length).toBeGreaterThan(1);
    const text = readFileSync(lockFile, 'utf8');
    await build({ prove: true });
    expect(readFileSync(lockFile, 'utf8')).toBe(text);
    await build({ prove: true, code: 'other code' });
    expect(locked().filter(({ bound, minutes }) => bound < minutes)).toEqual([]);
    expect(locked().map((line) => line.for)).toEqual(unproven.map((line) => line.for));
  });
});

describe('a lock that nothing needs', () => {
  it('is not written, and one that holds no more than what fits nothing is gone', async () => {
    await build({ prove: true, budget: ENOUGH });
    expect(existsSync(lockFile)).toBe(false);
    expect(said.at(-1)).toBe('No sequence needs a lock');
    await build({ prove: true });
    const gone = locked().map((line) => ({ ...line, problem: 'f'.repeat(40) }));
    writeLock(lockFile, gone.slice(0, 1));
    await build({ prove: true, budget: ENOUGH });
    expect(existsSync(lockFile)).toBe(false);
    expect(said.at(-1)).toMatch(/^No sequence needs a lock; dropped, as fitting none: /);
  });
});

describe('what takes a build long', () => {
  it('is locked though the build proves it, and searched for by no build after', async () => {
    const longSearch = 50;
    await build({ prove: true, budget: ENOUGH, longSearch });
    const lines = locked();
    expect(lines.length).toBeGreaterThan(1);
    for (const { states } of lines) expect(states).toBeGreaterThanOrEqual(longSearch);
    const { searches } = await build({ budget: ENOUGH });
    const alike = new Set(lines.map(({ problem }) => problem)).size;
    expect(searches).toBe(STARTS - alike);
  });

  it('is locked as it is found where only its gap is to be stated', async () => {
    await build({ prove: true, longSearch: LITTLE });
    const sinceWork = locked().filter(
      (line) => / since work$/.test(line.for) && !/\/(?:anything|\w+-seen),/.test(line.for),
    );
    const open = sinceWork.filter(({ minutes, bound }) => bound < minutes);
    expect(open.length).toBeGreaterThan(0);
    // Within the budget of a build, and not searched for beyond it.
    for (const { states } of open) expect(states).toBeLessThan(2 * LITTLE);
  });
});

describe('a lock that does not fit', () => {
  it('a line of no sequence is named, and dropped when the file is written', async () => {
    await build({ prove: true });
    const lines = locked();
    writeLock(lockFile, [
      ...lines,
      { ...lines[0]!, for: 'gone/anything', problem: 'f'.repeat(40) },
    ]);
    said = [];
    await build();
    expect(said).toEqual([
      `${relative('.', lockFile)}: gone/anything fits no sequence of this build; npm run build -- --prove drops it`,
    ]);
    await build({ prove: true });
    expect(locked()).toEqual(lines);
    expect(said.at(-1)).toMatch(/; dropped, as fitting none: gone\/anything$/);
  });

  it('a line edited by hand is solved anew, and proved and written right when asked', async () => {
    await build({ prove: true });
    const text = readFileSync(lockFile, 'utf8');
    const [first] = locked();
    writeFileSync(lockFile, text.replace(`"minutes":${first!.minutes}`, '"minutes":0.5'));
    said = [];
    const { searches } = await build();
    expect(searches).toBe(STARTS - locked().length + 1);
    expect(said[0]).toContain(`:2: ${first!.for} is refused: it says 0.5 minutes, but`);
    await build({ prove: true });
    expect(readFileSync(lockFile, 'utf8')).toBe(text);
  });

  it('a file cut short stays as it is until it is asked for anew', async () => {
    await build({ prove: true });
    const text = readFileSync(lockFile, 'utf8');
    writeFileSync(lockFile, text.slice(0, -9));
    const { searches } = await build();
    expect(searches).toBe(STARTS);
    expect(readFileSync(lockFile, 'utf8')).toBe(text.slice(0, -9));
    await build({ prove: true });
    expect(readFileSync(lockFile, 'utf8')).toBe(text);
  });
});

describe('a system that stands as it was', () => {
  /** The same system, of which nothing may be worked out. */
  const standing = new Proxy(system, {
    get(_, name) {
      throw new Error(`${String(name)} was asked for`);
    },
  });
  const untouched = new Map([[system.id, standing]]);
  const memoryOf = (name: string): SolvedMemory => ({
    kept: keptIn(join(folder, 'solved')),
    keyOf: () => name,
  });

  it('has none of its problems made again, and all that was said of it is said', async () => {
    await build({ memory: memoryOf('one') });
    const [remark] = said;
    expect(remark).toMatch(/^Not proven best within 20 states: /);
    said = [];
    const { searches } = await build({ memory: memoryOf('one'), of: untouched });
    expect(searches).toBe(0);
    expect(said).toEqual([remark]);
  });

  it('is worked out where it is another, and wherever more is proved', async () => {
    await build({ memory: memoryOf('one') });
    await expect(build({ memory: memoryOf('another'), of: untouched })).rejects.toThrow(
      'was asked for',
    );
    await expect(build({ memory: memoryOf('one'), of: untouched, prove: true })).rejects.toThrow(
      'was asked for',
    );
  });

  it('leaves no line of the lock unused', async () => {
    await build({ prove: true });
    said = [];
    await build({ memory: memoryOf('one') });
    await build({ memory: memoryOf('one'), of: untouched });
    expect(said).toEqual([]);
  });

  it('is asked again at every build while a line of it is refused', async () => {
    await build({ prove: true });
    const text = readFileSync(lockFile, 'utf8');
    writeFileSync(lockFile, text.replace(`"minutes":${locked()[0]!.minutes}`, '"minutes":0.5'));
    for (const _ of [1, 2]) {
      said = [];
      await build({ memory: memoryOf('one') });
      expect(said[0]).toContain(' is refused: ');
    }
  });
});

it('a firm’s lock holds what the reference’s does not', async () => {
  await build({ prove: true });
  const lines = locked();
  const reference = join(folder, 'reference.json');
  writeLock(reference, lines.slice(1));
  rmSync(lockFile);
  await build({ prove: true, files: [reference, lockFile] });
  expect(locked()).toEqual(lines.slice(0, 1));
  said = [];
  const { searches } = await build({ files: [reference, lockFile] });
  expect(searches).toBe(STARTS - lines.length);
  expect(said).toEqual([]);
});
