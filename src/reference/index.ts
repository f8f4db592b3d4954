import { join } from 'node:path';
import type { Device } from '../../schemas/index.ts';
import { buildNetwork, simulate } from '../circuit/index.ts';
import { causesIn, type Family, familiesIn, type SystemCauses } from '../diagnosis/index.ts';
import {
  calendarDay,
  type Draft,
  type Entries,
  fileSystem,
  formatProblems,
  formerNamesIn,
  type Hidden,
  KINDS,
} from '../entries/index.ts';
import { DEFAULT_STRENGTH, type Learned, learn } from '../field/index.ts';
import {
  checkSources,
  contentFolder,
  type FirmFolder,
  firmFolder,
  located,
  releaseNames,
} from '../firm/index.ts';
import { homeFolder, keptFolder, keptIn } from '../folder/index.ts';
import type { FormerNames } from '../former/index.ts';
import type { Judgement } from '../standards/index.ts';
import { type ComputedSystem, computeSystem, type LearnedShares, type Means } from './compute.ts';
import { LOCK_FILE, openLock } from './lock.ts';
import { type PageKeys, systemPageKeys } from './page-key.ts';
import { keptResults, type Results } from './results/index.ts';
import { ShownSystems, shownOf } from './shown.ts';
import { keepingSolver, type Solver } from './solver.ts';
import { siteCode, versionOf } from './version.ts';

export { contentFolder, firmFolder } from '../firm/index.ts';
export type { ComputedSystem } from './compute.ts';
export { LOCK_FILE, type LockLine, lineOf, problemHash, writeLock } from './lock.ts';
export type { Shown, ShownComplaint } from './shown.ts';
export {
  BUILD_BUDGET,
  LONG_SEARCH,
  MOST_GAP,
  type Solver,
  WIDE_BUDGET,
  WIDE_FURTHER_BUDGET,
  WIDE_PROVE_BUDGET,
} from './solver.ts';

/** The whole reference: every valid entry and everything computed from them. */
export interface Reference extends PageKeys {
  readonly entries: Entries;
  /** What entries were called before, and lead to under those names. */
  readonly former: FormerNames;
  /** By entry id, in order of title. */
  readonly systems: ReadonlyMap<string, ComputedSystem>;
  /** What every house standard says of a system, by system id. */
  readonly judgements: ReadonlyMap<string, readonly Judgement[]>;
  /** What gives a symptom in a system, by their ids; undefined where nothing does. */
  readonly causes: (symptom: string, system: string) => SystemCauses | undefined;
  /** What pages beside a system's own show of it. */
  readonly shown: ShownSystems;
  /** What solves the systems' sequences, each once. */
  readonly solver: Solver;
  /** What keeps the systems' heavy results, each once. */
  readonly results: Results;
  /** What this build is called and when it was made. */
  readonly built: { readonly version: string; readonly date: string };
  /** Hash of the code and packages that it is made by. */
  readonly code: string;
  /** The firm whose folder is laid over the reference. */
  readonly firm?: FirmFolder;
  /** What the firm's own visits make of the shares of causes; absent where none was counted. */
  readonly learned?: LearnedSystems;
  /** A firm's entries that nobody has reviewed as they stand, by folder and name. */
  readonly drafts: ReadonlyMap<string, Draft>;
  /** The firm's own entries left out as drafts, by folder and name. */
  readonly leftOut: readonly string[];
  /** Entries of the reference that the firm does not show. */
  readonly hidden: Hidden;
}

/** Shares learned from visits, and every system as it would be without. */
export interface LearnedSystems extends Learned, LearnedShares {}

/** Where the hash of the code is kept. */
const KEPT = join(keptFolder(), 'code');
/** Where what is shown of systems is kept. */
const SHOWN = join(keptFolder(), 'shown');

const PLACE = Symbol.for('proveline reference');
const SOURCES = Symbol.for('proveline sources');

/**
 * The build command and the pages' bundle load this module once each, in one process; the
 * reference stands on the process, so that each system is solved once a build.
 */
const shelf: {
  [PLACE]?: Promise<Reference> | undefined;
  [SOURCES]?: ReturnType<typeof checkSources> | undefined;
} = globalThis as never;

/**
 * The reference of this build, computed once and shared by all pages.
 * @throws Error whose message lists every problem in the entries.
 */
export function getReference(): Promise<Reference> {
  shelf[PLACE] ??= makeReference();
  return shelf[PLACE];
}

/** Lets whoever asks for the reference from now on wait until what it shows is worked out. */
export function holdReference(until: Promise<unknown>): void {
  const reference = getReference();
  shelf[PLACE] = until.then(() => reference);
  // Said by whoever asks, if anybody does.
  shelf[PLACE].catch(() => {});
}

/** Forgets the reference, so that the next page of a running server sees edited entries. */
export function forgetReference(): void {
  shelf[PLACE] = undefined;
  shelf[SOURCES] = undefined;
}

/** Hands over sources that were just checked, so that they need not be read again for a page. */
export function offerSources(checked: ReturnType<typeof checkSources>): void {
  if (!shelf[PLACE]) shelf[SOURCES] = checked;
}

async function makeReference(): Promise<Reference> {
  const sources = shelf[SOURCES] ?? checkSources();
  shelf[SOURCES] = undefined;
  const { entries, problems, warnings, judgements, drafts, leftOut, firm, hidden } = sources;
  if (warnings.length > 0) console.warn(`\n${formatProblems(warnings.map(located))}\n`);
  if (problems.length > 0) throw new Error(`\n${formatProblems(problems.map(located))}`);
  const devices = new Map([...entries.devices].map(([id, { data }]) => [id, data]));
  const symptoms = new Map([...entries.symptoms].map(([id, { data }]) => [id, data]));
  const lock = openLock(lockFiles(), console.warn);
  const solver = keepingSolver({ lock });
  const results = keptResults();
  const ours = { symptoms, solve: solver.solveFrom, results };
  const learned = learnedFrom(firm, entries, devices, ours);
  const means = { ...ours, learned };
  const systems = [...entries.systems.values()]
    .toSorted((a, b) => a.data.title.localeCompare(b.data.title, 'en'))
    .map((entry) => [entry.id, computeSystem(entry, devices, means)] as const);
  const computed = new Map(systems);
  const code = await siteCode(homeFolder(), keptIn(KEPT));
  const released = releaseNames(firmFolder(), fileSystem);
  const date = calendarDay();
  const { BASE_PATH, SITE_URL, NODE_ENV } = process.env;
  const shared = [
    code,
    lock.figures,
    date,
    BASE_PATH,
    SITE_URL,
    NODE_ENV,
    [...drafts],
    ...(learned ? [learned.families, learned.visits] : []),
  ];
  const causes = causesBySystem(entries, computed);
  const keys = systemPageKeys({ entries, firm, hidden, shared });
  return {
    entries,
    former: formerNamesIn(entries),
    systems: computed,
    judgements,
    drafts,
    leftOut,
    causes,
    shown: new ShownSystems(keptIn(SHOWN), keys.partKey, (id) =>
      shownOf(computed.get(id)!, symptoms, (symptom) => causes(symptom, id)),
    ),
    solver,
    results,
    code,
    built: { version: versionOf(entries, firm, lock.figures, code, released), date },
    ...keys,
    ...(firm ? { firm } : {}),
    ...(learned ? { learned } : {}),
    hidden,
  };
}

/** What the visits that a firm counted make of the shares; nothing where it counted none. */
function learnedFrom(
  firm: FirmFolder | undefined,
  { systems }: Entries,
  devices: ReadonlyMap<string, Device>,
  ours: Means,
): LearnedSystems | undefined {
  if (!firm?.visits) return undefined;
  const known = new Map<string, ReadonlySet<Family> | undefined>();
  const familiesOf = (id: string) => {
    const entry = systems.get(id);
    if (!known.has(id))
      known.set(id, entry && familiesIn(simulate(buildNetwork(id, entry.data, devices))));
    return known.get(id);
  };
  const strength = firm.settings.field?.['prior strength'] ?? DEFAULT_STRENGTH;
  const before = new Map<string, ComputedSystem>();
  return {
    ...learn(firm.visits, strength, familiesOf),
    before(id) {
      const made = before.get(id) ?? computeSystem(systems.get(id)!, devices, ours);
      before.set(id, made);
      return made;
    },
  };
}

/** Files of solved sequences: the reference's, and the firm's where there is one. */
function lockFiles(): string[] {
  const firm = firmFolder();
  return [contentFolder(), ...(firm ? [firm] : [])].map((folder) => join(folder, LOCK_FILE));
}

/** Whether an address within the site leads to an entry that the firm does not show. */
export function isHidden(hidden: Hidden, path: string): boolean {
  const [, folder, id] = /^\/([a-z]+)\/([a-z0-9-]+)\/?(?:[?#].*)?$/.exec(path) ?? [];
  const kind = Object.entries(KINDS).find(([, about]) => about.folder === folder)?.[0];
  return [...hidden].some(([one, ids]) => one === kind && ids.has(id ?? ''));
}

/** Works the causes of a symptom in a system out when they are first asked for, and keeps them. */
function causesBySystem(
  { symptoms }: Entries,
  systems: ReadonlyMap<string, ComputedSystem>,
): Reference['causes'] {
  const known = new Map<string, SystemCauses | undefined>();
  return (symptom, system) => {
    const entry = symptoms.get(symptom);
    if (!entry)
      throw new RangeError(`no symptom ${symptom}; there are ${[...symptoms.keys()].join(', ')}`);
    const name = `${symptom} ${system}`;
    if (known.has(name)) return known.get(name);
    const causes = causesIn(entry.data, systems.get(system)!);
    const shown = causes && causes.groups.length + causes.noFaults.length > 0 ? causes : undefined;
    known.set(name, shown);
    return shown;
  };
}
