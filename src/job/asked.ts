import type { Observation } from '../diagnosis/inference/index.ts';
import type { Asked } from './findings.ts';

/** What an observation answers. */
export function askedAbout(observation: Observation): Asked {
  const { mode } = observation;
  switch (observation.kind) {
    case 'look':
      return { kind: 'look', mode, outcome: observation.outcome };
    case 'act':
      return { kind: 'act', mode, id: observation.id };
    case 'fuse':
      return { kind: 'fuse', mode, branch: observation.branch };
    case 'dead':
      return { kind: 'dead', mode, from: observation.from, to: observation.to };
    case 'live': {
      const { from, to, instrument, answer } = observation;
      const direct =
        typeof answer === 'string'
          ? answer === 'dc' || answer === 'no dc'
          : answer.current === 'dc';
      return { kind: 'live', mode, from, to, instrument, current: direct ? 'dc' : 'ac' };
    }
  }
}

/** The same as one word: equal ones are of the same thing. */
export const askedKey = (observation: Observation): string =>
  JSON.stringify(askedAbout(observation));
