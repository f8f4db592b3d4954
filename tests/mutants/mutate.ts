import { readFileSync } from 'node:fs';
import { relative } from 'node:path';
import { Stryker } from '@stryker-mutator/core';

/** One change that the mutation tester made to a source file, and what the tests made of it. */
export interface Mutant {
  /** Path from the project's root. */
  readonly file: string;
  /** Line on which it begins, from 1. */
  readonly line: number;
  /** What stood there, spaces drawn together. */
  readonly was: string;
  /** What the tester put in its place, spaces drawn together. */
  readonly becomes: string;
  readonly killed: boolean;
}

/**
 * Mutates source files and runs the tests that reach each mutant. What a mutant changes only
 * while its file is loaded (a constant beside the functions) is left out: every one of these
 * would need a start of its own.
 *
 * @param files paths from the project's root, each with `:from-to` for a stretch of lines.
 * @param kept where results are kept, so that only what changed since is run again; null for
 *   nowhere.
 * @param cores how many mutants are tried at a time.
 */
export async function mutate(
  files: readonly string[],
  tests: readonly string[],
  kept: string | null,
  cores: number,
): Promise<Mutant[]> {
  const options: ConstructorParameters<typeof Stryker>[0] = {
    testRunner: 'vitest',
    vitest: { configFile: 'tests/mutants/vitest.config.ts' },
    mutate: [...files],
    testFiles: [...tests],
    ignoreStatic: true,
    ...(kept === null ? {} : { incremental: true, incrementalFile: kept }),
    concurrency: cores,
    timeoutMS: 3000,
    // One of its own for each run, so that two may go on side by side.
    tempDirName: `.stryker-${process.pid}`,
    reporters: process.stdout.isTTY ? ['progress'] : ['progress-append-only'],
    allowConsoleColors: false,
    ignorePatterns: ['/dist', '/.astro', '/coverage', '/.stryker-*'],
  };
  const results = await new Stryker(options).runMutationTest();
  const sources = new Map<string, string[]>();
  return results.flatMap(({ fileName, location, replacement, status }): Mutant[] => {
    if (status === 'Ignored' || status === 'CompileError' || status === 'RuntimeError') return [];
    const lines = sources.get(fileName) ?? readFileSync(fileName, 'utf8').split('\n');
    sources.set(fileName, lines);
    const { start, end } = location;
    const stretch = lines.slice(start.line - 1, end.line);
    stretch[stretch.length - 1] = stretch.at(-1)!.slice(0, end.column - 1);
    stretch[0] = stretch[0]!.slice(start.column - 1);
    return [
      {
        file: relative(process.cwd(), fileName),
        line: start.line,
        was: drawnTogether(stretch.join('\n')),
        becomes: drawnTogether(replacement ?? ''),
        killed: status === 'Killed' || status === 'Timeout',
      },
    ];
  });
}

const drawnTogether = (text: string): string => text.replaceAll(/\s+/g, ' ').trim();
