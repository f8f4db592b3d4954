import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { asTyped } from '../folder/index.ts';

/** What a command was asked: its words, and its options by name. */
export interface Asked {
  readonly words: readonly string[];
  readonly options: Readonly<Record<string, string | boolean | undefined>>;
}

/** A command asked how it is used, or used in a way it does not know. */
export class WrongUse extends Error {
  /** Exit code: 0 when it was asked. */
  readonly status: number;
  constructor(message: string, status = 2) {
    super(message);
    this.status = status;
  }
}

/**
 * Reads a command's words and options, as in `--firm ../ours`.
 * @param known options by name: whether a value follows.
 * @throws WrongUse with what is wrong and how the command is used
 */
export function readOptions(
  argv: readonly string[],
  known: Readonly<Record<string, 'value' | 'flag'>>,
  usage: string,
): Asked {
  const all: Readonly<Record<string, 'value' | 'flag'>> = { ...known, help: 'flag' };
  const options = Object.fromEntries(
    Object.entries(all).map(([name, kind]) => [
      name,
      { type: kind === 'value' ? ('string' as const) : ('boolean' as const) },
    ]),
  );
  try {
    const { positionals, values, tokens } = parseArgs({
      args: [...argv],
      options,
      allowPositionals: true,
      strict: true,
      tokens: true,
    });
    if (values.help) throw new WrongUse(usage, 0);
    const named = tokens.flatMap((one) => (one.kind === 'option' ? [one.name] : []));
    const twice = named.find((name, at) => named.indexOf(name) !== at);
    if (twice !== undefined)
      throw new WrongUse(
        `--${twice} is given twice: which of them is meant? Give it once\n${usage}`,
      );
    return { words: positionals, options: values as Asked['options'] };
  } catch (error) {
    if (error instanceof WrongUse) throw error;
    const said = error instanceof Error ? error.message.split('. ')[0] : String(error);
    throw new WrongUse(`${said}\n${usage}`);
  }
}

/** The text of an option, if it was given. */
export function text({ options }: Asked, name: string): string | undefined {
  const value = options[name];
  return typeof value === 'string' ? value : undefined;
}

/** Makes a firm's folder the one that this process reads. */
export function takeFirm(folder: string | undefined): void {
  if (folder !== undefined) process.env.PROVELINE_FIRM = resolve(folder);
}

/** Runs a command; what it throws is said without a stack, and its exit code set. */
export async function runCommand(command: () => Promise<number | undefined>): Promise<void> {
  try {
    process.exitCode = (await command()) ?? 0;
  } catch (error) {
    console.error(asTyped(error instanceof Error ? error.message : String(error)));
    process.exitCode = error instanceof WrongUse ? error.status : 1;
  }
}
