import { createHash } from 'node:crypto';
import { resolve } from 'node:path';
import { causesOf, type SystemCauses } from '../diagnosis/index.ts';
import { checkEntries, type Entries, formatProblems } from '../entries/index.ts';
import type { Judgement } from '../standards/index.ts';
import { type ComputedSystem, computeSystem } from './compute.ts';

export type { ComputedSystem } from './compute.ts';

/** The whole reference: every valid entry and everything computed from them. */
export interface Reference {
  readonly entries: Entries;
  /** By entry id, in order of title. */
  readonly systems: ReadonlyMap<string, ComputedSystem>;
  /** What every house standard says of a system, by system id. */
  readonly judgements: ReadonlyMap<string, readonly Judgement[]>;
  /** What this build is called and when it was made. */
  /** What gives each symptom in every system that can show it, by symptom id. */
  readonly causes: (symptom: string) => readonly SystemCauses[];
  readonly built: { readonly version: string; readonly date: string };
}

/** Folder the entries are read from: PROVELINE_CONTENT, or `content` where the build runs. */
export const contentFolder = (): string => resolve(process.env.PROVELINE_CONTENT ?? 'content');

/**
 * The build command and the pages' bundle load this module once each, in one process; the
 * reference stands on the process, so that each system is solved once a build.
 */
const shelf: { [key: symbol]: Promise<Reference> | undefined } = globalThis as never;
const PLACE = Symbol.for('proveline reference');

/**
 * The reference of this build, computed once and shared by all pages.
 * @throws Error whose message lists every problem in the entries.
 */
export function getReference(): Promise<Reference> {
  shelf[PLACE] ??= makeReference(contentFolder());
  return shelf[PLACE];
}

/** Forgets the reference, so that the next page of a running server sees edited entries. */
export function forgetReference(): void {
  shelf[PLACE] = undefined;
}

async function makeReference(folder: string): Promise<Reference> {
  const { entries, problems, warnings, judgements } = checkEntries(folder);
  if (warnings.length > 0) console.warn(`\n${formatProblems(warnings)}\n`);
  if (problems.length > 0) throw new Error(`\n${formatProblems(problems)}`);
  const devices = new Map([...entries.devices].map(([id, { data }]) => [id, data]));
  const systems = [...entries.systems.values()]
    .toSorted((a, b) => a.data.title.localeCompare(b.data.title, 'en'))
    .map((entry) => [entry.id, computeSystem(entry, devices)] as const);
  const computed = new Map(systems);
  return {
    entries,
    systems: computed,
    judgements,
    causes: causesBySymptom(entries, computed),
    built: stamp(entries),
  };
}

/** Works a symptom's causes out when they are first asked for, and keeps them. */
function causesBySymptom(
  { symptoms }: Entries,
  systems: ReadonlyMap<string, ComputedSystem>,
): Reference['causes'] {
  const known = new Map<string, readonly SystemCauses[]>();
  return (id) => {
    const entry = symptoms.get(id);
    if (!entry)
      throw new RangeError(`no symptom ${id}; there are ${[...symptoms.keys()].join(', ')}`);
    const causes =
      known.get(id) ??
      causesOf(entry.data, systems.values()).filter(
        ({ groups, noFaults }) => groups.length + noFaults.length > 0,
      );
    known.set(id, causes);
    return causes;
  };
}

/** Version by what the entries say, so that two builds of the same content are one. */
function stamp(entries: Entries): Reference['built'] {
  const hash = createHash('sha256');
  const { systems, devices, symptoms, procedures, standards, glossary } = entries;
  for (const kind of [systems, devices, symptoms, procedures, standards, glossary]) {
    for (const { file, data, body } of kind.values())
      hash.update(JSON.stringify([file, data, body]));
  }
  const epoch = process.env.SOURCE_DATE_EPOCH;
  const now = epoch ? new Date(Number(epoch) * 1000) : new Date();
  return { version: hash.digest('hex').slice(0, 8), date: now.toISOString().slice(0, 10) };
}
