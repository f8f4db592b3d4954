import type { Device } from '../../schemas/index.ts';
import { buildNetwork, type Simulation, simulate } from '../circuit/index.ts';
import {
  type Composed,
  circuitMark,
  compose,
  devicesOf,
  REFUSALS,
  Refusal,
  readAddress,
} from '../compose/index.ts';
import { catalogueOf, type PartsData } from '../composer/parts-data.ts';
import type { JobData } from './job-data.ts';
import { composedId } from './subject.ts';

/** An arrangement from parts, put together and simulated. */
export interface Arrangement {
  readonly composed: Composed;
  readonly simulation: Simulation;
  /** Everything of a job’s data but what its faults show. */
  readonly data: Omit<JobData, 'signatures'>;
}

/** A specification that the parts of now make no arrangement of, in words for the reader. */
export class NoArrangement extends Error {}

/**
 * Puts together what a specification says.
 * @param specification as the address of its page holds it
 * @throws NoArrangement where a part is gone or is wired otherwise now, or it has no circuit
 */
export function arrangementOf(specification: string, parts: PartsData): Arrangement {
  const catalogue = catalogueOf(parts);
  const read = readAddress(specification, catalogue.modules);
  if ('wrong' in read) {
    const { wrong, allowed } = read;
    const list = allowed.length > 0 ? ` Allowed there: ${allowed.join(', ')}.` : '';
    throw new NoArrangement(`${wrong}${list}`);
  }
  const composed = composedOr(read.specification, catalogue);
  const { system } = composed;
  const devices: Record<string, Device> = devicesOf(system, catalogue);
  const id = composedId(circuitMark(system, devices));
  const network = buildNetwork(id, system, new Map(Object.entries(devices)));
  return {
    composed,
    simulation: simulate(network),
    data: { id, system, devices, orders: [] },
  };
}

function composedOr(...asked: Parameters<typeof compose>): Composed {
  try {
    return compose(...asked);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    throw new NoArrangement(`These parts have no circuit: ${REFUSALS[error.reason]}.`);
  }
}
