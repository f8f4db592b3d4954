import type { PartsData } from '../composer/parts-data.ts';
import { type Sighting, seenWithout } from '../diagnosis/index.ts';
import { listedFor } from '../diagnosis/inference/index.ts';
import { ComposedEngine } from '../job/composed-engine.ts';
import { Engine, type Request } from '../job/engine.ts';
import { type JobData, simulationOf } from '../job/job-data.ts';
import { nextText } from '../job/visits.ts';

/** One side of a comparison: whatever a visit to it would begin with. */
export interface Side {
  readonly simulation: ReturnType<typeof simulationOf>;
  /** What each symptom that it can show shows for certain. */
  readonly shows: Readonly<Record<string, readonly Sighting[]>>;
  /** The first act after a complaint, in words; empty where no test tells more. */
  readonly first: (seen: readonly Sighting[]) => string;
  /** Of an arrangement from parts: what is proven of it. */
  readonly standing: string;
  /** What is wrong with it, gravest first. */
  readonly wrong: readonly string[];
}

const requestOf = (seen: readonly Sighting[]): Request => ({
  entries: seen.map((one, i) => ({ id: `e${i}`, observation: { kind: 'look', ...one } })),
  mode: seen[0]?.mode ?? 'standby',
  history: 'worked until now',
  cannot: [],
  pairs: false,
});

const said = (engine: Engine, request: Request): string => {
  const next = engine.next(request);
  return next ? nextText(engine.sheet, next) : '';
};

/** A system of the reference, from its data. */
export function entrySide(data: JobData, { symptoms }: PartsData): Side {
  const simulation = simulationOf(data);
  const engine = new Engine(data, simulation);
  return {
    simulation,
    shows: seenWithout(symptoms, simulation, listedFor(simulation).tests),
    first: (seen) => said(engine, requestOf(seen)),
    standing: '',
    wrong: [],
  };
}

/** An arrangement from parts. @throws NoArrangement where the specification makes none */
export function composedSide(specification: string, parts: PartsData): Side {
  const own = new ComposedEngine(specification, parts);
  const { standing, wrong } = own.sheet.composed!;
  return {
    simulation: own.simulation,
    shows: own.shows,
    first(seen) {
      const request = requestOf(seen);
      // Whatever is worked out already serves; where no test can be chosen yet, more is.
      for (const come of own.work(request)) {
        if (!['enough', 'all', 'whole'].includes(come)) continue;
        const act = said(own.engine, request);
        if (act !== '' || come !== 'enough') return act;
      }
      return '';
    },
    standing,
    wrong: wrong.map(({ title, said: found }) => `${title}. ${found}`),
  };
}
