import { certaintyText } from '../published/index.ts';
import type { Findings } from './findings.ts';
import { type Job, openEntries } from './job.ts';

/** What a job says where no listed test tells more. */
export interface LeftWords {
  /** What is left, in a sentence. */
  readonly left: string;
  /** Whether a fuse has blown: what it feeds is then taken off one thing at a time. */
  readonly isFuse: boolean;
}

/** What is left of a job in which no test tells more, and by what sort of work it is told. */
export function leftWords(
  job: Job,
  { repairs, notAsShown }: Pick<Findings, 'repairs' | 'notAsShown'>,
): LeftWords {
  const drawn = repairs.filter(({ sound }) => !sound);
  const beyond = `something that is not on the drawing: ${certaintyText(notAsShown)}`;
  return {
    left:
      drawn.length === 0
        ? 'Nothing on the drawing accounts for what was entered.'
        : drawn.length === 1
          ? `One cause on the drawing is left. It may also be ${beyond}.`
          : `What is left reads the same at every point a probe reaches. It may also be ${beyond}.`,
    isFuse: openEntries(job).some(
      ({ observation }) => observation.kind === 'fuse' && observation.answer === 'blown',
    ),
  };
}
