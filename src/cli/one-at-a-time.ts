import { readFileSync, rmSync, statSync, utimesSync } from 'node:fs';
import { mkdir, writeFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import { setTimeout } from 'node:timers/promises';

/** Milliseconds between two looks whether another is done. */
const LOOK_EVERY = 250;
/** Milliseconds between two signs of life, and after which without one nobody is at work. */
const SIGN_EVERY = 5_000;
const SILENT = 60_000;

/**
 * Does some work while no other process does any under the same file: builds of one folder write
 * into the same folders between them, and would spoil each other's pages. Who comes second waits
 * and says so.
 *
 * @param file holds the number of the process at work, which touches it now and then; what a
 *   process that is gone left is void, though another has its number by now.
 * @param say tells whoever waits what for.
 */
export async function oneAtATime<T>(
  file: string,
  say: (line: string) => void,
  work: () => Promise<T>,
): Promise<T> {
  await mkdir(dirname(file), { recursive: true });
  let told = false;
  while (!(await take(file))) {
    const holder = holderOf(file) ?? (await holderSoon(file));
    if (holder === null || !isAlive(holder) || isSilent(file)) {
      rmSync(file, { force: true });
      continue;
    }
    if (!told)
      say(
        `Another build of this folder is under way (process ${holder}): this one begins after it`,
      );
    told = true;
    await setTimeout(LOOK_EVERY);
  }
  const signs = setInterval(() => touch(file), SIGN_EVERY);
  signs.unref();
  const leave = () => {
    clearInterval(signs);
    if (holderOf(file) === process.pid) rmSync(file, { force: true });
  };
  process.once('exit', leave);
  try {
    return await work();
  } finally {
    process.off('exit', leave);
    leave();
  }
}

/** Takes the file for this process; false where another has it. */
async function take(file: string): Promise<boolean> {
  try {
    await writeFile(file, String(process.pid), { flag: 'wx' });
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  }
}

/** The process that a file names; null where it names none. */
function holderOf(file: string): number | null {
  try {
    const holder = Number(readFileSync(file, 'utf8'));
    return Number.isInteger(holder) && holder > 0 ? holder : null;
  } catch {
    return null;
  }
}

/** The same after a moment: who has just taken the file may not have written into it yet. */
async function holderSoon(file: string): Promise<number | null> {
  await setTimeout(LOOK_EVERY);
  return holderOf(file);
}

function isAlive(holder: number): boolean {
  try {
    process.kill(holder, 0);
    return true;
  } catch (error) {
    // It is there, and somebody else's.
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/** Whether nobody has touched a file for long; false for one that has just gone. */
function isSilent(file: string): boolean {
  const touched = statSync(file, { throwIfNoEntry: false })?.mtimeMs;
  return touched !== undefined && Date.now() - touched > SILENT;
}

function touch(file: string): void {
  try {
    utimesSync(file, new Date(), new Date());
  } catch {
    // Somebody has taken the folder away; the build itself will say so.
  }
}
