import type { Device, System } from '../../schemas/index.ts';
import { buildNetwork, type Simulation, simulate } from '../circuit/index.ts';
import { type Composed, compose, REFUSALS, Refusal, readAddress } from '../compose/index.ts';
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
  const used = new Set(Object.values(system.items).map(({ device }) => device));
  const devices = Object.fromEntries(
    [...catalogue.devices].filter(([name]) => used.has(name)),
  ) as Record<string, Device>;
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

/** What is only said of a thing: a word changed there leaves the circuit as it was. */
const SAID: ReadonlySet<string> = new Set([
  ...['title', 'otherwise', 'summary', 'aliases', 'formerly', 'cautions', 'care', 'because'],
  ...['author', 'review', 'checked', 'bring', 'recognise', 'notes', 'why', 'labels', 'sources'],
]);

/**
 * A mark by which a circuit is known again: 16 hexadecimal digits over its items, cables, links,
 * modes and devices, two 32-bit FNV-1a sums beside each other. No seal: it tells a changed part
 * from an unchanged one, and nobody gains by making two alike.
 */
export function circuitMark(
  { items, cables, links, modes }: System,
  devices: Readonly<Record<string, Device>>,
): string {
  const text = JSON.stringify({ items, cables, links, modes, devices }, (key, value) =>
    SAID.has(key) ? undefined : value,
  );
  return [0x811c9dc5, 0x01000193].map((start) => sumOf(text, start)).join('');
}

function sumOf(text: string, start: number): string {
  let sum = start;
  for (let i = 0; i < text.length; i++) {
    sum ^= text.charCodeAt(i);
    sum = Math.imul(sum, 0x01000193);
  }
  return (sum >>> 0).toString(16).padStart(8, '0');
}
