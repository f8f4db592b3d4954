import {
  COLOUR_SOURCE,
  CORE_SETS,
  commonPractice,
  EARTH_AT_POINTS_SOURCE,
  MARKING_SOURCE,
  SEGREGATION_SOURCE,
  type Source,
} from '../../published/index.ts';
import type { CoreNeed } from './functions.ts';
import type { PlannedCable } from './partition.ts';

/** Something to bear in mind with a plan, and its source. */
export interface PlanNote {
  readonly text: string;
  readonly source: Source;
}

/** What applies to a plan: only what this one needs said. */
export function notesOf(cables: readonly PlannedCable[], asked: readonly CoreNeed[]): PlanNote[] {
  const cores = cables.flatMap((cable) => cable.cores);
  const asks = (use: CoreNeed['use']) => asked.some((need) => need.use === use);
  const mains = asks('line') || asks('neutral');
  const holding = (use: CoreNeed['use']) =>
    cables.filter((cable) => cable.cores.some(({ need }) => need?.use === use));
  const notes: (PlanNote | false)[] = [
    cores.some(({ sleeve }) => sleeve !== null) && {
      text: 'Sleeve both ends before the core goes into its terminal. A switched live is a live and is brown.',
      source: MARKING_SOURCE,
    },
    cores.some(({ colour, need }) => colour === 'BU' && need?.use === 'line') && {
      text: 'The blue core here is a live. Whoever opens the other end takes it for a neutral unless its sleeve says otherwise.',
      source: commonPractice,
    },
    cores.some(({ colour, need }) => colour === 'GNYE' && need === null) && {
      text: 'The green-yellow core stays unused or goes to an earth terminal. It is never a live and never a neutral, whatever is put over it.',
      source: MARKING_SOURCE,
    },
    mains &&
      asks('extra-low') && {
        text: 'Extra-low voltage has a cable of its own here, even where the rule would let a cable be shared.',
        source: SEGREGATION_SOURCE,
      },
    asks('extra-low') && {
      text: 'Write “extra-low voltage” and the function at both ends: brown and blue look like mains. Read each core to earth before it is joined.',
      source: commonPractice,
    },
    mains &&
      !asks('earth') && {
        text: 'No earth is asked for. Fixed wiring takes one to each point, even where the equipment has no use for it.',
        source: EARTH_AT_POINTS_SOURCE,
      },
    holding('earth').length > 1 && {
      text: 'Each mains cable has its own earth, and the first has the live with its neutral.',
      source: commonPractice,
    },
    cores.some(({ need, colour }) => need === null && colour !== 'GNYE') && {
      text: 'A spare core ends in a terminal of its own or insulated, at both ends. Beside a live core it shows a voltage on a high-impedance meter.',
      source: commonPractice,
    },
    { text: 'Core colours by number of cores.', source: CORE_SETS.source },
    { text: 'Letter codes.', source: COLOUR_SOURCE },
  ];
  return notes.filter((note) => note !== false);
}
