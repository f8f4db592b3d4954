import { ISOLATED } from '../../../../schemas/index.ts';
import type { Settled } from '../../../circuit/index.ts';
import { EXTRA_LOW_LIMITS } from '../../../published/index.ts';
import { listed, spoken } from '../names.ts';
import {
  type Circuits,
  energisedModes,
  isLive,
  looseEnds,
  terminals,
  voltsToEarth,
} from './circuits.ts';
import type { Hazard } from './hazard.ts';

const said = (points: readonly string[]) => listed(points.map(spoken));

/** Dangers to whoever touches: what is live that nobody would take for live. */
export const shockHazards = (circuits: Circuits): Hazard[] => [
  ...liveEarths(circuits),
  ...liveWhenIsolated(circuits),
  ...mainsOnExtraLow(circuits),
  ...neutralLive(circuits),
  ...looseLive(circuits),
];

/** Whether a point stands above the limit of extra-low voltage. */
const isDangerous = (settled: Settled, point: string, earth: string) =>
  voltsToEarth(settled, point, earth, EXTRA_LOW_LIMITS.ac) > EXTRA_LOW_LIMITS.ac;

function liveEarths({ found, earth }: Circuits): Hazard[] {
  const points = terminals(found.network, ['earth'])
    .map((n) => n.id)
    .filter((id) => [...found.modes.values()].some((s) => isDangerous(s, id, earth)));
  if (points.length === 0) return [];
  return [
    {
      kind: 'earth live',
      at: points,
      title: `Earthed metal may be live: ${said(points)}`,
      advice:
        'Touch nothing metal. Isolate at the consumer unit, lock off and prove dead before anything else.',
    },
  ];
}

/** Terminals, and points inside an isolator, that ought to be dead with it off. */
function liveWhenIsolated({ found, intended, earth }: Circuits): Hazard[] {
  const now = found.modes.get(ISOLATED);
  const due = intended.modes.get(ISOLATED);
  if (!now || !due) return [];
  const points = found.network.nodes
    .filter(({ item, terminal }) =>
      terminal
        ? terminal.carries !== 'earth'
        : item && found.network.items.get(item)!.device.family === 'isolation',
    )
    .map((n) => n.id)
    .filter((id) => isLive(now, id, earth) && !isLive(due, id, earth));
  if (points.length === 0) return [];
  return [
    {
      kind: 'live when isolated',
      at: points,
      title: `Live with the isolator off: ${listed(points.map((id) => spoken(id)))}`,
      advice:
        'This isolator does not isolate. Isolate at the consumer unit, lock off and prove dead between all conductors.',
    },
  ];
}

function mainsOnExtraLow({ found, earth }: Circuits): Hazard[] {
  const points = found.network.nodes
    .filter(({ terminal }) => terminal?.voltage === 'extra-low' || terminal?.carries === 'call')
    .map((n) => n.id)
    .filter((id) => [...found.modes.values()].some((s) => isDangerous(s, id, earth)));
  if (points.length === 0) return [];
  return [
    {
      kind: 'mains on extra-low',
      at: points,
      title: `Mains on extra-low-voltage terminals: ${said(points)}`,
      advice:
        'What looks safe to touch is not, and the equipment behind it is likely destroyed. Isolate, lock off and prove dead before going on.',
    },
  ];
}

function neutralLive({ found, intended, earth }: Circuits): Hazard[] {
  const points = terminals(found.network, ['neutral'])
    .map((n) => n.id)
    .filter((id) =>
      energisedModes(found).some((s) => {
        const due = intended.modes.get(s.mode);
        return isLive(s, id, earth) && due && !isLive(due, id, earth);
      }),
    );
  if (points.length === 0) return [];
  return [
    {
      kind: 'neutral live',
      at: points,
      title: `Neutral terminals live: ${said(points)}`,
      advice:
        'Polarity is reversed or a neutral is lost: switches and fuses no longer make dead what they feed. Isolate, lock off and prove dead to earth as well as to neutral.',
    },
  ];
}

function looseLive({ found, intended, earth }: Circuits): Hazard[] {
  const wasLive = (mode: string, id: string) => {
    const due = intended.modes.get(mode);
    return due !== undefined && intended.network.nodeIndex.has(id) && isLive(due, id, earth);
  };
  const points = looseEnds(found.network).filter((id) =>
    energisedModes(found).some((s) => isLive(s, id, earth) && !wasLive(s.mode, id)),
  );
  if (points.length === 0) return [];
  const cores = [...new Set(points.map((p) => p.replace(/@.*/, '')))];
  return [
    {
      kind: 'loose live',
      at: points,
      title: `Loose core live: ${listed(cores)}`,
      advice:
        'Keep away from it. Isolate, lock off and prove dead before it is touched; then end it in a terminal.',
    },
  ];
}
