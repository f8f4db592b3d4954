import { ISOLATED } from '../../../../schemas/index.ts';
import {
  type ElementBranch,
  effectiveAmps,
  resistanceBetween,
  type Simulation,
} from '../../../circuit/index.ts';
import { capital } from '../../../words/index.ts';
import { JOIN_OHMS } from '../../reach.ts';
import { listed, partText } from '../names.ts';
import { areJoined, type Circuits, energisedModes, terminals } from './circuits.ts';
import type { Hazard } from './hazard.ts';

/**
 * Current above which an earth carries a load and not what filters let through:
 * that of a device for additional protection (BS 7671 415.1.1, from memory), A.
 */
const LOAD_AMPS = 0.03;

/** Dangers of protection that is missing or misused: earths, fuses, the green-yellow core. */
export const protectionHazards = (circuits: Circuits): Hazard[] => [
  ...earthMissing(circuits),
  ...coreColours(circuits),
  ...currentInEarth(circuits),
  ...shortCircuits(circuits),
  ...oversizeFuses(circuits),
];

function earthMissing({ found, intended, earth }: Circuits): Hazard[] {
  const joined = ({ modes }: Simulation, id: string) => {
    const settled = modes.get(ISOLATED) ?? [...modes.values()][0]!;
    const { solution } = settled;
    return solution.network.nodeIndex.has(id) && resistanceBetween(solution, id, earth) < JOIN_OHMS;
  };
  const fed = new Set(
    found.network.branches.flatMap((b) =>
      b.kind === 'conductor' || b.kind === 'strange path'
        ? [b.from, b.to].flatMap((i) => found.network.nodes[i]!.item ?? [])
        : [],
    ),
  );
  return [...found.network.items.values()].flatMap(({ reference, device, title }) => {
    // An item that is not there, or that nothing reaches any more, needs no earth.
    if (device.protection !== 'class I' || !fed.has(reference)) return [];
    const own = terminals(found.network, ['earth']).filter((n) => n.item === reference);
    const lost = own.filter((n) => joined(intended, n.id) && !joined(found, n.id)).map((n) => n.id);
    if (lost.length === 0) return [];
    return [
      {
        kind: 'earth missing' as const,
        at: lost,
        title: `No protective earth: ${reference} ${title.toLowerCase()}`,
        advice:
          'A fault inside would make its metal live. Leave it isolated until the earth is proved.',
      },
    ];
  });
}

/** Green-yellow cores in other terminals than earths, and other cores in earth terminals. */
function coreColours({ found, intended }: Circuits): Hazard[] {
  const misused = ({ network }: Simulation) =>
    new Map(
      network.branches.flatMap((b) => {
        if (b.kind !== 'conductor') return [];
        const carries = [b.from, b.to].flatMap((i) => network.nodes[i]!.terminal?.carries ?? []);
        const isWrong = (kind: string) => (b.colour === 'GNYE') !== (kind === 'earth');
        return carries.some(isWrong) ? [[b.id, b.colour] as const] : [];
      }),
    );
  const due = misused(intended);
  const now = [...misused(found)].filter(([id]) => !due.has(id));
  if (now.length === 0) return [];
  const yellow = now.filter(([, colour]) => colour === 'GNYE').map(([id]) => id);
  const others = now.filter(([, colour]) => colour !== 'GNYE').map(([id]) => id);
  return [
    {
      kind: 'core colour',
      at: now.map(([id]) => id),
      title: [
        ...(yellow.length > 0
          ? [`Green-yellow used for something other than earth: ${listed(yellow)}`]
          : []),
        ...(others.length > 0 ? [`Another colour in an earth terminal: ${listed(others)}`] : []),
      ].join('. '),
      advice:
        'Green-yellow serves as earth and as nothing else, sleeved or not, and nothing else serves in its place (IEC 60446): whoever comes next takes it for earth.',
    },
  ];
}

function currentInEarth({ found, intended }: Circuits): Hazard[] {
  const carrying = (simulation: Simulation) =>
    new Set(
      energisedModes(simulation).flatMap(({ solution }) =>
        simulation.network.branches.flatMap((b, i) =>
          b.kind === 'conductor' && b.colour === 'GNYE' && effectiveAmps(solution, i) > LOAD_AMPS
            ? [b.id]
            : [],
        ),
      ),
    );
  const due = carrying(intended);
  const now = [...carrying(found)].filter((id) => !due.has(id));
  if (now.length === 0) return [];
  return [
    {
      kind: 'current in earth',
      at: now,
      title: `The earth carries a load: ${listed(now)}`,
      advice:
        'Broken anywhere, it makes all metal behind it live. Isolate, lock off and prove dead before an earth is undone.',
    },
  ];
}

function shortCircuits({ found, intended }: Circuits): Hazard[] {
  const blown = ({ modes }: Simulation) =>
    new Set([...modes.values()].flatMap((s) => [...s.state.blown]));
  const due = blown(intended);
  const now = [...blown(found)].filter((id) => !due.has(id));
  if (now.length === 0) return [];
  return [
    {
      kind: 'short circuit',
      at: now,
      title: `Short circuit: ${listed(now.map((id) => partText(found.network, id)))} blows or trips`,
      advice:
        'Never put a larger fuse in. Find the short with dead tests first, isolated and proved dead.',
    },
  ];
}

const isFuse = ({ element }: ElementBranch) =>
  element.kind === 'fuse' || element.kind === 'breaker';

/** Fuses of a higher rating, and fuses with a way round them. */
function oversizeFuses({ found, intended }: Circuits): Hazard[] {
  return intended.network.branches.flatMap((due) => {
    if (due.kind !== 'element' || !isFuse(due) || !('rating' in due.element)) return [];
    const now = found.network.branches[found.network.branchIndex.get(due.id) ?? -1];
    // Another device is in its place, and its own entry says what protects there.
    if (!now) return [];
    const name = capital(partText(intended.network, due.id));
    const rating = now.kind === 'element' && 'rating' in now.element ? now.element.rating : null;
    const title =
      rating === null || isRound(found, intended, due)
        ? `${name} is bridged, and nothing protects what it feeds`
        : rating > due.element.rating
          ? `${name}: ${rating} A where it should be ${due.element.rating} A`
          : null;
    if (title === null) return [];
    return [
      {
        kind: 'oversize fuse' as const,
        at: [due.id],
        title,
        advice:
          'Thin cable and small contacts are without their protection. Fit the right rating before the supply is put on again.',
      },
    ];
  });
}

/** Whether a path goes round a fuse that the intended circuit has no path round. */
function isRound(found: Simulation, intended: Simulation, fuse: ElementBranch): boolean {
  const ends = [fuse.from, fuse.to].map((i) => intended.network.nodes[i]!.id) as [string, string];
  const round = (simulation: Simulation) =>
    energisedModes(simulation).some((s) => areJoined(s, ...ends, fuse.id));
  return round(found) && !round(intended);
}
