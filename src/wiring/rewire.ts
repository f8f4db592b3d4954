import type { Cable, System } from '../../schemas/index.ts';
import type { ColourCode } from '../published/index.ts';

/** Which end of a core: 0 the first written in the entry, 1 the second. */
export type EndIndex = 0 | 1;

/** One end of one core. */
export interface CoreEnd {
  readonly cable: string;
  readonly colour: ColourCode;
  readonly end: EndIndex;
}

type Core = NonNullable<Cable['cores'][ColourCode]>;

/** Both points of a core; none where there is no such core. */
export const pointsOfCore = (
  { cables }: System,
  { cable, colour }: Pick<CoreEnd, 'cable' | 'colour'>,
): readonly string[] => cables[cable]?.cores[colour]?.ends ?? [];

/** Every end of every joined core of a system, cable by cable. */
export function coreEnds(system: System): (CoreEnd & { readonly point: string })[] {
  return Object.entries(system.cables).flatMap(([cable, { cores }]) =>
    (Object.entries(cores) as [ColourCode, Core][]).flatMap(([colour, { ends }]) =>
      ([0, 1] as const).map((end) => ({ cable, colour, end, point: ends[end] })),
    ),
  );
}

/**
 * The same system with one core's end at another terminal.
 * @throws RangeError when the core is not there.
 */
export function moveCoreEnd(system: System, at: CoreEnd, point: string): System {
  const cable = system.cables[at.cable];
  const core = cable?.cores[at.colour];
  if (!cable || !core) throw new RangeError(`there is no core ${at.colour} of ${at.cable}`);
  const ends: [string, string] = [...core.ends];
  ends[at.end] = point;
  return {
    ...system,
    cables: {
      ...system.cables,
      [at.cable]: { ...cable, cores: { ...cable.cores, [at.colour]: { ...core, ends } } },
    },
  };
}

/** The same system with one core's end out of its terminal, lying loose. */
export function looseCoreEnd(system: System, at: CoreEnd): System {
  return moveCoreEnd(system, at, `${at.cable}.${at.colour}@${at.end + 1}`);
}

/** The same system with two core ends in each other's terminals. */
export function exchangeCoreEnds(system: System, a: CoreEnd, b: CoreEnd): System {
  const [pointA, pointB] = [pointAt(system, a), pointAt(system, b)];
  return moveCoreEnd(moveCoreEnd(system, a, pointB), b, pointA);
}

/** The terminal a core's end is in. */
export function pointAt(system: System, { cable, colour, end }: CoreEnd): string {
  const core = system.cables[cable]?.cores[colour];
  if (!core) throw new RangeError(`there is no core ${colour} of ${cable}`);
  return core.ends[end];
}
