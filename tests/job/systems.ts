import { Engine } from '../../src/job/engine.ts';
import { type JobData, jobData } from '../../src/job/job-data.ts';
import { shippedSystem } from '../support/shipped.ts';

const known = new Map<string, ReturnType<typeof made>>();

function made(id: string) {
  const { simulation, signatures, compact, orders } = shippedSystem(id);
  // As a browser has it: through a file.
  const data: JobData = JSON.parse(JSON.stringify(jobData({ simulation, compact, orders })));
  return { simulation, signatures, data };
}

/** A shipped system with its signatures and its job data as read back from a file. */
export function systemForJob(id: string) {
  const found = known.get(id) ?? made(id);
  known.set(id, found);
  return { ...found, engine: new Engine(found.data) };
}
