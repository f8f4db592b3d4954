import { netlist, simulateAsFound } from '../../src/circuit/index.ts';
import { faultsOf, signaturesOf } from '../../src/diagnosis/index.ts';
import { solveSequence } from '../../src/diagnosis/search/index.ts';
import { startsOf, testSequence } from '../../src/diagnosis/sequences/index.ts';
import { testPairs } from '../../src/wiring/index.ts';
import { ngspice, startNgspice } from '../support/ngspice.ts';
import { random } from '../support/random.ts';
import { ids, shipped, symptoms } from '../support/signatures.ts';
import { median, SEED, table } from './table.ts';

/** Faulty circuits of each system that ngspice is given; all of them would take it an hour. */
const SAMPLE = 30;
/** Runs of ngspice before its time counts. */
const WARM_UP = 5;

/**
 * How long every system's signatures and sequences take, and what ngspice would take over
 * the signatures' circuits alone, from a sample.
 */
export async function sequenceTable(): Promise<string> {
  await startNgspice();
  const rows: string[][] = [];
  for (const id of ids) rows.push(await row(id));
  const heads = [
    'system',
    'circuits',
    'signatures s',
    'each ms',
    'ngspice ms',
    'ratio',
    'ngspice in all s',
    'sequences',
    'solved s',
    'states',
  ];
  return `${table(heads, rows)}

circuits      single faults times modes, each brought to rest
each          the engine, one of them: building, settling, every test answered
ngspice       one such circuit at rest, its netlist read and solved once at one frequency:
              median of ${SAMPLE} picked at random (seed ${SEED}); in all: that times the circuits,
              worked out, not run
sequences     one a start; solved: all of them within the budget of states
`;
}

async function row(id: string): Promise<string[]> {
  const { simulation } = shipped(id);
  const { network } = simulation;
  const began = performance.now();
  const signatures = signaturesOf(simulation, testPairs(network));
  const seconds = (performance.now() - began) / 1000;
  const faults = faultsOf(simulation);
  const circuits = faults.length * simulation.modes.size;

  const from = random(SEED);
  const times: number[] = [];
  for (let i = 0; i < WARM_UP + SAMPLE; i++) {
    const found = simulateAsFound(from.pick(faults).circuit());
    const settled = from.pick([...found.modes.values()]);
    const text = netlist(settled.solution.network, settled.state, 'ac');
    const start = performance.now();
    await ngspice(text);
    if (i >= WARM_UP) times.push(performance.now() - start);
  }
  const spice = median(times);

  const starts = startsOf(symptoms, network, signatures);
  const solving = performance.now();
  const made = starts.map((start) =>
    testSequence(simulation, signatures, start, (problem) => solveSequence(problem)),
  );
  const solved = (performance.now() - solving) / 1000;
  const each = (1000 * seconds) / circuits;
  return [
    id,
    `${circuits}`,
    seconds.toFixed(2),
    each.toFixed(3),
    spice.toFixed(2),
    `${(spice / each).toFixed(0)}×`,
    ((spice * circuits) / 1000).toFixed(0),
    `${made.length}`,
    solved.toFixed(1),
    `${made.reduce((sum, { expanded }) => sum + expanded, 0)}`,
  ];
}
