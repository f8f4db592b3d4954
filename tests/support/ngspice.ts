import { Simulation } from 'eecircuit-engine';
import { type Complex, complex } from '../../src/circuit/index.ts';

/** Node voltages to node 0 as ngspice gives them, by node name, in full double precision. */
export type NodeVoltages = ReadonlyMap<string, Complex>;

/** All that ngspice gives of one analysis. */
export interface Run {
  readonly voltages: NodeVoltages;
  /** Currents through voltage sources from their first node to their second, amperes, by name. */
  readonly currents: ReadonlyMap<string, Complex>;
}

let engine: Promise<Simulation> | undefined;
let turn: Promise<unknown> = Promise.resolve();
let runs = 0;

/** Loads ngspice (a WebAssembly build in this process); later calls share it. */
export function startNgspice(): Promise<Simulation> {
  engine ??= (async () => {
    const simulation = new Simulation();
    await besideWindow(() => simulation.start());
    return simulation;
  })();
  return engine;
}

const surroundings: { window?: unknown } = globalThis;
let window: unknown;

/**
 * Runs what needs the window that ngspice makes for itself, and takes it away afterwards: what is
 * tested next in this process would take itself for a page.
 */
async function besideWindow<T>(run: () => Promise<T>): Promise<T> {
  if (window !== undefined) surroundings.window = window;
  try {
    return await run();
  } finally {
    window = surroundings.window;
    delete surroundings.window;
  }
}

/**
 * Runs one analysis of a netlist in ngspice and returns every node's voltage: complex after
 * `.ac` at a single frequency, real after `.op`. Values come from ngspice's binary raw file,
 * so they are its own doubles. One run at a time; calls queue.
 * @throws Error with ngspice's own words when it warns or fails. ngspice has then fallen
 *   back on another method or kept an older circuit, and its figures prove nothing.
 */
export async function ngspice(netlist: string): Promise<NodeVoltages> {
  return (await ngspiceRun(netlist)).voltages;
}

/** The same with the currents. */
export function ngspiceRun(netlist: string): Promise<Run> {
  const result = turn.then(() => runOnce(netlist));
  turn = result.catch(() => undefined);
  return result;
}

async function runOnce(netlist: string): Promise<Run> {
  const simulation = await startNgspice();
  // A circuit that cannot be read leaves the one before in place: the title tells them apart.
  const title = `* run ${++runs}`;
  simulation.setNetList(`${title}\n${netlist}`);
  const result = await besideWindow(() => simulation.runSim());
  const complaints = simulation.getError().filter((line) => line.trim() !== '');
  if (complaints.length > 0) throw new Error(`ngspice: ${complaints.join(' ').trim()}`);
  if (!result.header.startsWith(`Title: ${title}\n`)) {
    throw new Error(`ngspice did not take the netlist up; it answered for another:\n${netlist}`);
  }
  const found = { voltage: new Map<string, Complex>(), current: new Map<string, Complex>() };
  for (const { name, type, values } of result.data) {
    const of = /^[vi]\((.+)\)$/.exec(name)?.[1];
    const value = values[0];
    if (of === undefined || value === undefined || !(type in found)) continue;
    found[type as keyof typeof found].set(
      of,
      typeof value === 'number' ? complex(value) : complex(value.real, value.img),
    );
  }
  return { voltages: found.voltage, currents: found.current };
}

/** Above this, ohms, a resistor stays a resistor in {@link withBranchCurrents}. */
export const LARGE_OHMS = 1e6;

/**
 * The same circuit with the current of every small resistor as an unknown of its own (a
 * sensed current-controlled voltage source, v = R·i), and the largest number of a column as
 * its pivot.
 *
 * As ngspice stands it adds conductances up on a node's diagonal: a loop that floats behind
 * 100 GΩ beside a contact of 50 mΩ loses 13 of its 16 digits there, and its direct voltage
 * to earth comes out to four. Written so, eight are left. The equations are the same ones.
 */
export function withBranchCurrents(netlist: string): string {
  const rewritten = netlist.replace(/^R(\d+) (\S+) (\S+) (\S+)$/gm, (line, i, from, to, ohms) =>
    Number(ohms) > LARGE_OHMS
      ? line
      : `VS${i} ${from} s${i} DC 0 AC 0\nH${i} s${i} ${to} VS${i} ${ohms}`,
  );
  return `.options klu pivrel=0.99\n${rewritten}`;
}
