import { styleText } from 'node:util';

/** Milliseconds between two lines of one stage where lines are kept, as in CI. */
const LINE_EVERY = 2000;
/** Milliseconds between two drawings of a terminal's line while a stage counts. */
const DRAW_EVERY = 80;
/** Milliseconds between two drawings while a stage does not count, so that seconds advance. */
const TICK = 1000;
/** Milliseconds after which a command that is mostly quicker says what it does. */
export const LONG = 2000;
/** Characters of a full bar. */
const BAR = 20;

/** Says how far a stage is: `done` of `of`. */
export type Step = (done: number, of: number) => void;

/** What a command says of itself while it works: stage by stage, how far each is, and seconds. */
export interface Progress {
  /**
   * Does the work of one stage and says how it went; what it throws is thrown on.
   * Work that holds the processor calls `step` as it goes, or nothing is said until it ends.
   */
  readonly stage: <T>(title: string, work: (step: Step) => T) => Promise<Awaited<T>>;
  /** A line of its own between the stages' lines. */
  readonly say: (line: string) => void;
  /** Notes how many of something did not have to be made again; said at the end. */
  readonly reused: (what: string, kept: number, of: number) => void;
  /** Says how long all of it took and what was reused. */
  readonly end: () => void;
}

/** Where it is said, and by what clock; tests give their own. */
export interface ProgressEffects {
  readonly stream: NodeJS.WritableStream & { readonly isTTY?: boolean; readonly columns?: number };
  /** Whether one line may be written over again; where not, each line stays. */
  readonly rewrites: boolean;
  /** Milliseconds of a clock that is never set back. */
  readonly now: () => number;
  /** Calls something again and again until what it returns is called. */
  readonly every: (milliseconds: number, call: () => void) => () => void;
}

/** This process's error stream, so that what a command answers can be piped by itself. */
const machine = (): ProgressEffects => ({
  stream: process.stderr,
  rewrites: process.stderr.isTTY === true && !process.env.CI,
  now: () => performance.now(),
  every(milliseconds, call) {
    const timer = setInterval(call, milliseconds);
    timer.unref();
    return () => clearInterval(timer);
  },
});

/** What a command knows of its work before it begins. */
export interface Plan {
  /** How many stages there will be. */
  readonly stages: number;
  /** The first line: what is done, and how long that usually takes. */
  readonly headline?: string;
  /** Milliseconds before which nothing is said, for a command that is mostly quicker. */
  readonly quietFor?: number;
}

/**
 * Begins to say how a command gets on: on a terminal one line a stage, written over as it goes,
 * with a bar; elsewhere plain lines, one a stage and one every two seconds of a long one.
 */
export function startProgress(
  { stages, headline, quietFor = 0 }: Plan,
  { stream, rewrites, now, every }: ProgressEffects = machine(),
): Progress {
  const begun = now();
  const kept: string[] = [];
  let number = 0;
  const dim = (words: string) => styleText('dim', words, { stream });
  const isQuiet = () => now() - begun < quietFor;
  const line = (words: string) => {
    if (!isQuiet()) stream.write(rewrites ? `${words}\u001b[K\n` : `${words}\n`);
  };
  const draw = (words: string) => {
    // A line longer than the terminal could not be written over.
    const room = (stream.columns ?? 80) - 1;
    // Back at its beginning, so that a warning of somebody else's is written over it.
    if (!isQuiet()) stream.write(`${words.slice(0, room)}\u001b[K\r`);
  };
  if (headline !== undefined) line(headline);

  async function stage<T>(title: string, work: (step: Step) => T): Promise<Awaited<T>> {
    const head = `${++number}/${stages} ${title}`;
    const from = now();
    let said = from;
    let [done, of] = [0, 0];
    const took = () => seconds(now() - from);
    const show = () => {
      said = now();
      if (rewrites)
        draw(`${head}${of > 0 ? ` ${bar(done / of)} ${done} of ${of}` : ''}, ${took()}`);
      else line(`${head}${of > 0 ? `: ${done} of ${of}` : ''}, ${took()} …`);
    };
    const stop = every(rewrites ? TICK : LINE_EVERY, () => {
      if (now() - said >= (rewrites ? TICK : LINE_EVERY) / 2) show();
    });
    if (rewrites) show();
    try {
      const result = await work((at, whole) => {
        [done, of] = [at, whole];
        // The last one is said by the stage's own line.
        if (done < of && now() - said >= (rewrites ? DRAW_EVERY : LINE_EVERY)) show();
      });
      line(`${head}${of > 0 ? `: ${of}` : ''}, ${dim(took())}`);
      return result;
    } catch (error) {
      line(`${head}: stopped${of > 0 ? ` at ${done} of ${of}` : ''} after ${took()}`);
      throw error;
    } finally {
      stop();
    }
  }

  return {
    stage,
    say: line,
    reused: (what, count, of) => kept.push(`${count} of ${of} ${what}`),
    end() {
      const reused = kept.length > 0 ? `; kept from before: ${kept.join(', ')}` : '';
      line(`Done in ${seconds(now() - begun)}${reused}`);
    },
  };
}

const bar = (share: number): string => {
  const full = Math.round(share * BAR);
  return `${'█'.repeat(full)}${'░'.repeat(BAR - full)}`;
};

/** Seconds as people read them: tenths below ten. */
function seconds(milliseconds: number): string {
  const s = milliseconds / 1000;
  return `${s < 9.95 ? s.toFixed(1) : Math.round(s)} s`;
}
