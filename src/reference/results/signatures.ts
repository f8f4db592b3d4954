import { buildNetwork, simulate } from '../../circuit/index.ts';
import { signaturesOf } from '../../diagnosis/index.ts';
import { type CompactSignatures, compactSignatures } from '../../diagnosis/inference/index.ts';
import { testPairs } from '../../wiring/index.ts';
import type { Source } from './source.ts';

/** Simulates every fault of a system: seconds of work. */
export function makeSignatures({ id, system, devices }: Source): CompactSignatures {
  const simulation = simulate(buildNetwork(id, system, new Map(Object.entries(devices))));
  return compactSignatures(simulation, signaturesOf(simulation, testPairs(simulation.network)));
}
