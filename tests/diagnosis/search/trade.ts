import type { SearchProblem, SearchTest } from '../../../src/diagnosis/search/problem.ts';
import { random } from '../../support/random.ts';

/** How large a problem of the trade is to be. */
export interface TradeSize {
  readonly zones: number;
  /** Wrongly exchanged cores among the faults. */
  readonly exchanges: number;
  readonly seed: number;
}

interface Edge {
  readonly name: string;
  readonly a: string;
  readonly b: string;
  readonly kind: 'core' | 'contact' | 'load';
  readonly closed?: (calls: ReadonlySet<string>, running: ReadonlySet<string>) => boolean;
}

interface Change {
  readonly open?: string;
  readonly stuckClosed?: string;
  readonly swap?: readonly [string, string];
}

const PLACES = ['spur', 'centre', 'timer', 'stats', 'valves', 'boiler', 'pump'];
const OPENING = [1.5, 3, 2, 2, 4, 6, 3];

/**
 * A heating control of several zones in logic: what is joined to the line, what to the
 * neutral, what runs. Every conductor may be open, every contact fail either way, and
 * cores be exchanged; every outcome can be seen in every mode, every terminal read in every
 * mode behind its cover, and joints proved when all is isolated.
 */
export function tradeProblem({ zones, exchanges, seed }: TradeSize): SearchProblem {
  const from = random(seed);
  const edges = edgesOf(zones);
  const nodes = [...new Set(edges.flatMap((edge) => [edge.a, edge.b]))];
  const placeOf = (node: string) =>
    PLACES.indexOf(node.slice(0, node.indexOf('.')).replace(/\d/, ''));
  const changes: { change: Change; weight: number; repair: string }[] = [];
  for (const edge of edges) {
    const device = edge.a.slice(0, edge.a.indexOf('.'));
    if (edge.kind === 'core') {
      changes.push({ change: { open: edge.name }, weight: from.spread(0.2, 2), repair: edge.name });
    } else {
      changes.push({ change: { open: edge.name }, weight: from.spread(1, 20), repair: device });
    }
    if (edge.kind === 'contact') {
      changes.push({
        change: { stuckClosed: edge.name },
        weight: from.spread(0.5, 5),
        repair: device,
      });
    }
  }
  for (let i = 0; i < exchanges; i++) {
    const one = from.pick(nodes);
    const near = nodes.filter((node) => node !== one && placeOf(node) === placeOf(one));
    const other = from.pick(near);
    changes.push({
      change: { swap: [one, other] },
      weight: from.spread(0.05, 1),
      repair: `swap ${i}`,
    });
  }

  const zoneNames = Array.from({ length: zones }, (_, i) => `z${i}`);
  const modes: ReadonlySet<string>[] = [
    new Set(),
    ...zoneNames.map((zone) => new Set([zone])),
    new Set(zoneNames),
    new Set(zoneNames.slice(0, 2)),
    new Set(zoneNames),
  ];
  const isolated = modes.length - 1;
  const loads = edges.filter((edge) => edge.kind === 'load');
  const seen = changes.map(({ change }) =>
    modes.map((calls, m) => look(edges, calls, change, m === isolated)),
  );
  const glance = from.pick([0, 0.1]);
  const tests: SearchTest[] = [];
  for (let mode = 0; mode < isolated; mode++) {
    for (const load of loads) {
      const answers = Uint8Array.from(seen, (byMode) =>
        Number(byMode[mode]!.running.has(load.name)),
      );
      tests.push({
        id: `look ${load.name}@${mode}`,
        minutes: glance,
        mode,
        place: -1,
        answers,
      });
    }
    for (const node of nodes) {
      const answers = Uint8Array.from(seen, (byMode) => byMode[mode]!.reading(node));
      const place = placeOf(node);
      tests.push({ id: `read ${node}@${mode}`, minutes: 0.5, mode, place, answers });
    }
  }
  for (const edge of edges) {
    const place = placeOf(edge.a);
    if (place !== placeOf(edge.b)) continue;
    const answers = Uint8Array.from(seen, (byMode) => byMode[isolated]!.joined(edge.a, edge.b));
    tests.push({ id: `prove ${edge.name}`, minutes: 1, mode: isolated, place, answers });
  }
  const repairs = [...new Set(changes.map(({ repair }) => repair))];
  return {
    faults: changes.map(({ weight, repair }) => ({ weight, repair: repairs.indexOf(repair) })),
    tests,
    modeMinutes: modes.map((_, m) => (m === isolated ? 4 : 1)),
    placeMinutes: OPENING,
    start: { mode: 0, opened: [] },
  };
}

function edgesOf(zones: number): Edge[] {
  const edges: Edge[] = [];
  const core = (a: string, b: string) => edges.push({ name: `${a}-${b}`, a, b, kind: 'core' });
  const contact = (a: string, b: string, closed: NonNullable<Edge['closed']>) =>
    edges.push({ name: `${a}/${b}`, a, b, kind: 'contact', closed });
  const load = (name: string, a: string, b: string) => edges.push({ name, a, b, kind: 'load' });
  core('L', 'spur.supplyL');
  core('N', 'spur.supplyN');
  contact('spur.supplyL', 'spur.fuse', () => true);
  core('spur.fuse', 'spur.L');
  contact('spur.supplyN', 'spur.N', () => true);
  core('spur.L', 'centre.L');
  core('spur.N', 'centre.N');
  core('centre.L', 'timer.L');
  for (let i = 0; i < zones; i++) {
    const zone = `z${i}`;
    contact('timer.L', `timer.out${i}`, (calls) => calls.has(zone));
    core(`timer.out${i}`, `centre.p${i}`);
    core(`centre.p${i}`, `stats${i}.L`);
    contact(`stats${i}.L`, `stats${i}.out`, (calls) => calls.has(zone));
    core(`stats${i}.out`, `centre.s${i}`);
    core(`centre.s${i}`, `valves${i}.motorL`);
    load(`valve${i}`, `valves${i}.motorL`, `valves${i}.motorN`);
    core(`valves${i}.motorN`, 'centre.N');
    core('centre.L', `valves${i}.switchL`);
    contact(`valves${i}.switchL`, `valves${i}.switchOut`, (_, running) => running.has(`valve${i}`));
    core(`valves${i}.switchOut`, 'centre.call');
  }
  core('centre.call', 'boiler.call');
  core('centre.L', 'boiler.L');
  core('centre.N', 'boiler.N');
  load('display', 'boiler.L', 'boiler.N');
  load('burner', 'boiler.call', 'boiler.N');
  contact('boiler.L', 'boiler.pumpOut', (_, running) => running.has('burner'));
  core('boiler.pumpOut', 'centre.pump');
  core('centre.pump', 'pump.L');
  load('pump', 'pump.L', 'pump.N');
  core('pump.N', 'centre.N');
  return edges;
}

function look(
  edges: readonly Edge[],
  calls: ReadonlySet<string>,
  change: Change,
  isolated: boolean,
) {
  const { swap } = change;
  const at = (node: string) => (node === swap?.[0] ? swap[1] : node === swap?.[1] ? swap[0] : node);
  const ends = edges.map((edge) =>
    edge.kind === 'core' ? { ...edge, a: at(edge.a), b: at(edge.b) } : edge,
  );
  let running = new Set<string>();
  for (let round = 0; ; round++) {
    const joined = ends.filter(
      (edge) =>
        edge.kind !== 'load' &&
        edge.name !== change.open &&
        (edge.kind === 'core' || edge.name === change.stuckClosed || edge.closed!(calls, running)),
    );
    const alive = ends.filter((edge) => edge.kind === 'load' && edge.name !== change.open);
    const line = isolated ? new Set<string>() : reach(['L'], joined);
    const neutral = reach(['N'], joined);
    const through = reach([...line], [...joined, ...alive]);
    const next = new Set(
      alive
        .filter(({ a, b }) => (line.has(a) && neutral.has(b)) || (line.has(b) && neutral.has(a)))
        .filter(({ name }) => name !== 'burner' || running.has('display') || round === 0)
        .map(({ name }) => name),
    );
    if (round > 8 || (next.size === running.size && [...next].every((name) => running.has(name)))) {
      return {
        running: next,
        reading: (node: string) =>
          line.has(node) ? 1 : neutral.has(node) ? 0 : through.has(node) ? 2 : 0,
        joined: (a: string, b: string) =>
          reach([a], joined).has(b) ? 1 : reach([a], [...joined, ...alive]).has(b) ? 2 : 0,
      };
    }
    running = next;
  }
}

function reach(start: readonly string[], edges: readonly { a: string; b: string }[]): Set<string> {
  const found = new Set(start);
  for (let grown = true; grown; ) {
    grown = false;
    for (const { a, b } of edges) {
      if (found.has(a) === found.has(b)) continue;
      found.add(a).add(b);
      grown = true;
    }
  }
  return found;
}
