import { createInterface } from 'node:readline/promises';
import type { Asked } from './options.ts';
import { text } from './options.ts';

/** Answers to a command's questions: from its options, else from whoever sits at the terminal. */
export interface Answers {
  /** @throws Error that names the option where nobody can be asked */
  readonly of: (option: string, question: string, usual?: string) => Promise<string>;
  /**
   * Asks at a terminal, and takes an empty answer for one.
   * @throws {@link BrokenOff} where the questions are broken off
   */
  readonly ask: (question: string) => Promise<string>;
  /** Ends the questions. */
  readonly close: () => void;
}

/** Nobody answers any more: Ctrl-C, or the end of what was typed. */
export class BrokenOff extends Error {}

/** Takes answers from options first; asks for the others only at a terminal. */
export function answersFrom(asked: Asked): Answers {
  let open: ReturnType<typeof createInterface> | undefined;
  const over = new AbortController();
  const ask = async (question: string): Promise<string> => {
    if (!open) {
      open = createInterface({ input: process.stdin, output: process.stdout });
      for (const end of ['SIGINT', 'close'] as const) open.on(end, () => over.abort());
    }
    try {
      return (await open.question(`${question}: `, { signal: over.signal })).trim();
    } catch {
      throw new BrokenOff('Broken off.');
    }
  };
  return {
    ask,
    async of(option, question, usual) {
      const given = text(asked, option);
      if (given !== undefined) return given;
      if (!process.stdin.isTTY) {
        if (usual !== undefined) return usual;
        throw new Error(`Say --${option}: ${question}`);
      }
      const hint = usual === undefined || usual === '' ? '' : ` [${usual}]`;
      for (;;) {
        const answer = (await ask(`${question}${hint}`)) || usual;
        if (answer !== undefined) return answer;
      }
    },
    close: () => open?.close(),
  };
}
