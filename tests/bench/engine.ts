import {
  INSTRUMENTS,
  type Network,
  netlist,
  read,
  type Settled,
  simulate,
  solve,
} from '../../src/circuit/index.ts';
import { shippedNetworks } from '../support/content.ts';
import { ngspice, startNgspice } from '../support/ngspice.ts';
import { random } from '../support/random.ts';
import { median, SEED, table } from './table.ts';

const WARM_UP = 3;
const REPEATS = 15;
/** Our solves timed together, so that the clock's own grain does not show. */
const BATCH = 20;
/** Frequencies of ngspice's long run; its further points cost a factorisation and a solve each. */
const POINTS = 101;

/** One system with what is timed of it. */
interface Subject {
  readonly network: Network;
  readonly modes: readonly Settled[];
  /** Microseconds, one sample a mode and repeat. */
  readonly samples: Readonly<Record<Measure, number[]>>;
}
type Measure = 'solve' | 'spice' | 'point' | 'reading' | 'modes';

/** Microseconds a call takes, called `times` times over. */
function timed(times: number, call: () => void): number {
  const start = performance.now();
  for (let i = 0; i < times; i++) call();
  return ((performance.now() - start) * 1000) / times;
}

async function timedSpice(text: string): Promise<number> {
  const start = performance.now();
  await ngspice(text);
  return (performance.now() - start) * 1000;
}

/** The netlist at many frequencies beside the supply's, one node kept: no time goes to output. */
const atManyPoints = (text: string): string =>
  text.replace('.ac lin 1 50 50', `.save v(n0)\n.ac lin ${POINTS} 50 51`);
const atOnePoint = (text: string): string =>
  text.replace('.ac lin 1 50 50', '.save v(n0)\n.ac lin 1 50 50');

async function once({ network, modes, samples }: Subject, keep: boolean): Promise<void> {
  const from = random(SEED);
  const found: Record<Measure, number[]> = {
    solve: [],
    spice: [],
    point: [],
    reading: [],
    modes: [],
  };
  for (const { state, solution } of modes) {
    const text = netlist(network, state, 'ac');
    found.solve.push(timed(BATCH, () => solve(network, state).ac.potentials()));
    found.spice.push(await timedSpice(text));
    const [a, b] = [from.pick(network.nodes).id, from.pick(network.nodes).id];
    const instrument = from.pick(INSTRUMENTS);
    found.reading.push(timed(BATCH, () => read(solution, a, b, instrument)));
    const short = await timedSpice(atOnePoint(text));
    const long = await timedSpice(atManyPoints(text));
    found.point.push((long - short) / (POINTS - 1));
  }
  found.modes.push(timed(1, () => simulate(network)));
  if (!keep) return;
  for (const [measure, times] of Object.entries(found) as [Measure, number[]][]) {
    samples[measure].push(...times);
  }
}

/**
 * How long the engine and ngspice take over the same circuits, side by side in one run.
 */
export async function engineTable(): Promise<string> {
  const subjects: Subject[] = [...shippedNetworks().values()].map((network) => ({
    network,
    modes: [...simulate(network).modes.values()],
    samples: { solve: [], spice: [], point: [], reading: [], modes: [] },
  }));
  await startNgspice();
  for (let i = 0; i < WARM_UP + REPEATS; i++) {
    for (const subject of subjects) await once(subject, i >= WARM_UP);
  }

  const rows = subjects.map(({ network, modes, samples }) => {
    const [ours, spice, point] = [samples.solve, samples.spice, samples.point].map(median) as [
      number,
      number,
      number,
    ];
    return [
      network.id,
      `${network.nodes.length}`,
      `${network.branches.length}`,
      ours.toFixed(0),
      spice.toFixed(0),
      `${(spice / ours).toFixed(0)}×`,
      point.toFixed(0),
      `${(point / ours).toFixed(1)}×`,
      median(samples.reading).toFixed(1),
      (median(samples.modes) / 1000).toFixed(1),
      `${modes.length}`,
    ];
  });
  const heads = [
    'system',
    'nodes',
    'branches',
    'solve µs',
    'ngspice µs',
    'ratio',
    'its point µs',
    'ratio',
    'reading µs',
    'all modes ms',
    'modes',
  ];
  return `${table(heads, rows)}

solve         the engine, one mode of a network met before: impedances, factorisation,
              every node's potential
ngspice       the same netlist and mode: read, operating point, one AC point, results out
its point     each further frequency of a run of ${POINTS}: ngspice's own factorisation and solve,
              without reading or writing
reading       one instrument between two points of a solved mode
all modes     every mode brought to rest, from a network built before
Medians of ${REPEATS} repeats of every mode, the two taking turns, after ${WARM_UP} to warm up.
`;
}
