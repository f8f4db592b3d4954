import { createInterface } from 'node:readline/promises';
import type { Asked } from './options.ts';
import { text } from './options.ts';

/** Answers to a command's questions: from its options, else from whoever sits at the terminal. */
export interface Answers {
  /** @throws Error that names the option where nobody can be asked */
  readonly of: (option: string, question: string, usual?: string) => Promise<string>;
  /** Ends the questions. */
  readonly close: () => void;
}

/** Takes answers from options first; asks for the others only at a terminal. */
export function answersFrom(asked: Asked): Answers {
  let open: ReturnType<typeof createInterface> | undefined;
  return {
    async of(option, question, usual) {
      const given = text(asked, option);
      if (given !== undefined) return given;
      if (!process.stdin.isTTY) {
        if (usual !== undefined) return usual;
        throw new Error(`Say --${option}: ${question}`);
      }
      open ??= createInterface({ input: process.stdin, output: process.stdout });
      const hint = usual === undefined || usual === '' ? '' : ` [${usual}]`;
      for (;;) {
        const answer = (await open.question(`${question}${hint}: `)).trim() || usual;
        if (answer !== undefined) return answer;
      }
    },
    close: () => open?.close(),
  };
}
