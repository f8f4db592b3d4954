import type { Device, System } from '../../schemas/index.ts';
import { buildNetwork, type Simulation, simulate } from '../circuit/index.ts';
import { type FamilyShares, HISTORIES, type History } from '../diagnosis/index.ts';
import { type CompactSignatures, Model, type Order } from '../diagnosis/inference/index.ts';
import type { Drawing } from '../diagram/index.ts';

/** What a job needs of one system, as JSON: its entry, its devices, what its faults show. */
export interface JobData {
  readonly id: string;
  readonly system: System;
  readonly devices: Readonly<Record<string, Device>>;
  readonly signatures: CompactSignatures;
  /** The printed orders of tests. */
  readonly orders: readonly Order[];
  /** How often a firm meets each family; absent where the table's own shares hold. */
  readonly families?: FamilyShares;
}

/** A system with everything that a job’s files are made from. */
export interface JobSource {
  readonly simulation: Simulation;
  /** What its faults show, packed. */
  readonly compact: CompactSignatures;
  readonly orders: readonly Order[];
  readonly families?: FamilyShares;
}

/** The job’s data of one system. Pure: the same system gives the same data. */
export function jobData({
  simulation: { network },
  compact,
  orders,
  families,
}: JobSource): JobData {
  const items = [...network.items.values()];
  return {
    id: network.id,
    system: withoutSummary(network.system),
    devices: Object.fromEntries(
      items.map(({ deviceId, device }) => [deviceId, withoutSummary(device)] as const),
    ),
    signatures: compact,
    orders,
    ...(families ? { families } : {}),
  };
}

/** A job shows no summary; without it, a word edited there leaves the job's data as it was. */
const withoutSummary = <T extends { readonly summary: string }>(entry: T): T => ({
  ...entry,
  summary: '',
});

/** Both files of a system by their paths inside the job folder: its data, its drawing. */
export function jobFiles(
  source: JobSource & { readonly draw: () => Drawing },
): Map<string, string> {
  const { id } = source.simulation.network;
  return new Map([
    [`${id}.json`, `${JSON.stringify(jobData(source))}\n`],
    [`${id}.svg`, `${source.draw().svg}\n`],
  ]);
}

/** A system from its data, in all its modes. */
export const simulationOf = ({ id, system, devices }: JobData): Simulation =>
  simulate(buildNetwork(id, system, new Map(Object.entries(devices))));

/**
 * The engine's model of a system from its data, as the build made it.
 * @param history what the customer says of the time before; it decides how likely each fault is.
 * @throws RangeError when the data is of another version of the engine.
 */
export const modelOf = (
  data: JobData,
  history: History = HISTORIES[0],
  simulation: Simulation = simulationOf(data),
): Model => new Model(simulation, data.signatures, history, undefined, data.families);
