import type { GuideDesk } from '../../src/form/guide.ts';

const BROKEN_OFF = 'broken off';

/** Somebody at a terminal who types these lines, one after each question, and then breaks off. */
export async function typed(
  begun: string,
  lines: readonly string[],
  guide: (desk: Pick<GuideDesk, 'ask' | 'say' | 'write'>) => Promise<void>,
) {
  const told: string[] = [];
  const left = [...lines];
  let text = begun;
  const over = await guide({
    async ask(question) {
      told.push(question);
      const line = left.shift();
      if (line === undefined) throw new Error(BROKEN_OFF);
      return line;
    },
    say: (words) => void told.push(words),
    write(words) {
      text = words;
    },
  }).then(
    () => true,
    (error: Error) => {
      if (error.message !== BROKEN_OFF) throw error;
      return false;
    },
  );
  return { told: told.join('\n'), text, over, left };
}
