import type { Device, Module, Standard, Symptom } from '../../schemas/index.ts';
import type { Catalogue } from '../compose/index.ts';
import type { NamedStandard } from '../standards/index.ts';

/** What arrangements are composed from and judged by, as JSON. */
export interface PartsData {
  readonly modules: Readonly<Record<string, Module>>;
  readonly devices: Readonly<Record<string, Device>>;
  readonly standards: Readonly<Record<string, Standard>>;
  /** Symptoms that a circuit shows, as a visit begins with one. */
  readonly symptoms: Readonly<Record<string, PartsSymptom>>;
}

/** A symptom as a visit begins with it. */
export interface PartsSymptom extends Pick<Symptom, 'shows'> {
  /** In the customer’s words. */
  readonly words: string;
  /** Its place among the commonest; 0 where it is not among them. */
  readonly common: number;
}

/** Entries of one kind with what they say. */
type Entries<T> = ReadonlyMap<string, { readonly data: T }>;

/** The parts of a reference: its modules, the devices that they bring, its standards. */
export function partsData(entries: {
  readonly modules: Entries<Module>;
  readonly devices: Entries<Device>;
  readonly standards: Entries<Standard>;
  readonly symptoms: Entries<Symptom>;
}): PartsData {
  const modules = [...entries.modules].map(([id, { data }]) => [id, data] as const);
  const used = new Set(
    modules.flatMap(([, { items }]) => Object.values(items).map(({ device }) => device)),
  );
  const devices = [...entries.devices].flatMap(([id, { data }]): [string, Device][] =>
    used.has(id) ? [[id, { ...data, summary: '', aliases: [] }]] : [],
  );
  const standards = [...entries.standards].map(([id, { data }]) => [id, data] as const);
  const symptoms = [...entries.symptoms].flatMap(([id, { data }]): [string, PartsSymptom][] => {
    const { shows, complaint, title, common = 0 } = data;
    return shows.length > 0 ? [[id, { shows, words: complaint ?? title, common }]] : [];
  });
  return {
    modules: Object.fromEntries(modules),
    devices: Object.fromEntries(devices),
    standards: Object.fromEntries(standards),
    symptoms: Object.fromEntries(symptoms),
  };
}

/** The same as the composer takes it. */
export const catalogueOf = ({ modules, devices }: PartsData): Catalogue => ({
  modules: new Map(Object.entries(modules)),
  devices: new Map(Object.entries(devices)),
});

/** Its standards by name. */
export const standardsOf = ({ standards }: PartsData): NamedStandard[] =>
  Object.entries(standards).map(([id, standard]) => ({ id, standard }));
