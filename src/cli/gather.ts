import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { buildNetwork, type Network } from '../circuit/index.ts';
import { FAMILIES, HISTORIES } from '../diagnosis/index.ts';
import { type Entries, fileSystem, formerNamesIn, loadEntries } from '../entries/index.ts';
import {
  COUNTS_FILE,
  type CountedVisit,
  countsText,
  countVisits,
  type Gathered,
  gather,
  type KeptReport,
  keptOf,
  type MetWiring,
  MOST_REPORTS,
  REPORTS_FILE,
  type Refused,
  readReports,
  reportsByEntry,
  reportsFileText,
  shown,
  variantText,
  wiringMet,
} from '../field/index.ts';
import { contentFolder, firmFolder, pathOf, readFirm } from '../firm/index.ts';
import { currentPath } from '../former/index.ts';
import { readOptions, runCommand, takeFirm, text, WrongUse } from './options.ts';

const USAGE = `npm run gather -- FOLDER [--firm folder] [--drafts]
  reads the files that came back from the field: pages reported as wrong, wiring met otherwise than
  its entry, and finished visits. What cannot be taken is said, file by file; the rest is read.
  --firm folder  adds the visits to the firm's ${COUNTS_FILE}: from then on its sequences
                 and jobs follow what was actually wrong. Reports are kept in its
                 ${REPORTS_FILE}, and each is told once
  --drafts       writes wiring that was met more than once as entries to judge, into the firm's
                 field/drafts/`;

/** Wiring met so often is worth a draft. */
const OFTEN = 2;
/** Reports of one entry that are shown. */
const MOST_SHOWN = 20;

function run(): number {
  const asked = readOptions(process.argv.slice(2), { firm: 'value', drafts: 'flag' }, USAGE);
  const [folder, ...more] = asked.words;
  if (folder === undefined || more.length > 0) throw new WrongUse(USAGE);
  takeFirm(text(asked, 'firm'));
  const firm = firmFolder();
  if (asked.options.drafts === true && firm === undefined)
    throw new Error('Say --firm FOLDER: drafts are written into a firm’s folder.');
  const read = firm === undefined ? undefined : readFirm(firm, fileSystem);
  const [wrong] = read?.problems ?? [];
  if (wrong)
    throw new Error(
      `${wrong.message} (${pathOf(wrong.file)}): put this right first, nothing is gathered.`,
    );
  const { entries } = loadEntries(contentFolder(), fileSystem, read?.layer);
  const gathered = gather(folder, knownOf(entries));
  const networks = networksOf(entries);
  const { met, unread } = wiringMet(gathered, networks);
  const before = read?.firm?.visits ?? [];
  const counted = countVisits(before, gathered.visits);
  const kept = firm === undefined ? [] : keptIn(firm);
  const known = new Set(kept.map(({ id }) => id));
  const reports = gathered.reports.filter(({ file }) => !known.has(file.id));
  const blocks = [
    summary(gathered, [...gathered.refused, ...counted.refused], reports.length),
    reportsText(reports),
    wiringText(met),
    ...unread.map(({ name, problem }) => `${shown(name)}: its marks are passed over: ${problem}`),
    countsTable(counted.visits),
    refusedText([...gathered.refused, ...counted.refused]),
  ];
  console.log(blocks.filter((block) => block !== '').join('\n\n'));
  if (firm !== undefined && counted.added > 0) {
    const file = join(firm, COUNTS_FILE);
    writeWhole(file, countsText(counted.visits));
    console.log(`\n${visitsText(counted.added)} added to ${relative('.', file)}`);
  } else if (gathered.visits.length > 0)
    console.log(
      `\n${firm === undefined ? 'Nothing is written: say --firm FOLDER to count the visits' : 'No new visit: the counts stand as they were'}`,
    );
  if (firm !== undefined && reports.length > 0) keep(firm, kept, reports);
  if (asked.options.drafts === true) writeDrafts(firm!, entries, networks, met);
  return 0;
}

/**
 * Reports that were gathered before.
 * @throws Error where their file is not in order: nothing is then written over it
 */
function keptIn(firm: string): readonly KeptReport[] {
  const file = join(firm, REPORTS_FILE);
  if (!existsSync(file)) return [];
  const read = readReports(readFileSync(file, 'utf8'));
  if ('problem' in read)
    throw new Error(
      `${relative('.', file)}: ${read.problem}. Put this right first, nothing is gathered.`,
    );
  return read.reports;
}

/** Adds reports to those kept; the oldest go where there are too many. */
function keep(firm: string, kept: readonly KeptReport[], reports: Gathered['reports']): void {
  const all = [...kept, ...reports.map(({ file }) => keptOf(file))]
    .toSorted((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0))
    .slice(-MOST_REPORTS);
  const file = join(firm, REPORTS_FILE);
  writeWhole(file, reportsFileText(all));
  console.log(`\n${counts(reports.length, 'report')} added to ${relative('.', file)}`);
}

/** What the entries say of addresses; a former name leads to the entry of now. */
function knownOf(entries: Entries) {
  const former = formerNamesIn(entries);
  const kinds: Readonly<Record<string, ReadonlyMap<string, unknown>>> = {
    systems: entries.systems,
    devices: entries.devices,
    symptoms: entries.symptoms,
    procedures: entries.procedures,
    standards: entries.standards,
  };
  return {
    current(path: string) {
      const now = currentPath(former, path);
      const [kind = '', id = ''] = now.split('/');
      return Object.hasOwn(kinds, kind) && kinds[kind]!.has(id) ? now : undefined;
    },
    systems: [...entries.systems.keys()],
  };
}

function networksOf({ systems, devices }: Entries): (id: string) => Network | undefined {
  const known = new Map<string, Network>();
  const data = new Map([...devices].map(([id, device]) => [id, device.data]));
  return (id) => {
    const entry = systems.get(id);
    if (entry && !known.has(id)) known.set(id, buildNetwork(id, entry.data, data));
    return known.get(id);
  };
}

const counts = (n: number, one: string, many = `${one}s`) => `${n} ${n === 1 ? one : many}`;
const visitsText = (n: number) => counts(n, 'visit');

function summary(
  { reports, visits, again }: Gathered,
  refused: readonly Refused[],
  untold: number,
): string {
  const before = reports.length - untold;
  const known = before === 0 ? '' : ` (${before} told before)`;
  const twice = again.length === 0 ? '' : `, ${counts(again.length, 'file')} twice`;
  const not = refused.length === 0 ? '' : `, ${counts(refused.length, 'file')} not taken`;
  return `${counts(reports.length, 'report')}${known}, ${visitsText(visits.length)}${twice}${not}`;
}

/** Reports by entry; what was written is shown as text on one line, whatever it holds. */
function reportsText(reports: Gathered['reports']): string {
  if (reports.length === 0) return '';
  const lines = reportsByEntry(reports).flatMap(({ entry, reports: own }) => [
    `  ${entry}: ${own.length} times`.replace(/: 1 times$/, ': once'),
    ...own.slice(0, MOST_SHOWN).map(({ file: { on, page, seen, build } }) => {
      const version = build === null ? 'version not known' : `version ${build.version}`;
      const where = page === `${entry}/` ? '' : `${page.slice(entry.length + 1)} `;
      return `    ${on} ${where}(${version}): ${seen.trim() === '' ? 'nothing is said' : shown(seen.trim())}`;
    }),
    ...(own.length > MOST_SHOWN ? [`    and ${own.length - MOST_SHOWN} more`] : []),
  ]);
  return ['Reported as wrong', ...lines].join('\n');
}

function wiringText(met: readonly MetWiring[]): string {
  const often = met.filter(({ times }) => times >= OFTEN);
  if (often.length === 0) return '';
  const lines = often.flatMap(({ system, times, differences }) => [
    `  ${system}: ${times} times`,
    ...differences.map((line) => `    ${line}`),
  ]);
  return ['Wired otherwise, and met more than once', ...lines].join('\n');
}

/** What was actually wrong, by family and history. */
function countsTable(visits: readonly CountedVisit[]): string {
  if (visits.length === 0) return '';
  const title = (family: CountedVisit['family']) =>
    family === 'sound'
      ? 'Nothing was wrong'
      : family === 'other'
        ? 'Something that no family is of'
        : FAMILIES[family].title;
  const rows = [...Map.groupBy(visits, ({ family }) => family)]
    .map(([family, own]) => ({ family, own }))
    .sort((a, b) => b.own.length - a.own.length || (a.family < b.family ? -1 : 1))
    .map(({ family, own }) => {
      const by = HISTORIES.map((one) => own.filter(({ history }) => history === one).length);
      return `  ${title(family).padEnd(40)}${String(own.length).padStart(6)}   ${by.join(' / ')}`;
    });
  return [
    `What was wrong, of ${visitsText(visits.length)} in all (${HISTORIES.join(' / ')})`,
    ...rows,
  ].join('\n');
}

function refusedText(refused: readonly Refused[]): string {
  if (refused.length === 0) return '';
  const lines = refused.flatMap(({ name, problem, allowed }) => [
    `  ${shown(name, 120)}: ${shown(problem)}`,
    `    allowed  ${shown(allowed)}`,
  ]);
  return ['Not taken', ...lines].join('\n');
}

function writeDrafts(
  firm: string,
  { systems }: Entries,
  networks: (id: string) => Network | undefined,
  met: readonly MetWiring[],
): void {
  for (const [i, one] of met.filter(({ times }) => times >= OFTEN).entries()) {
    const entry = systems.get(one.system)!;
    const from = readFileSync(pathOf(entry.file), 'utf8');
    if (/^compose:/m.test(from)) {
      console.log(`${one.system} is composed from parts: no draft is written of it`);
      continue;
    }
    const file = join(firm, 'field/drafts', `${one.system}-as-found-${i + 1}.mdx`);
    writeWhole(file, variantText(from, networks(one.system)!, one));
    console.log(`Draft in ${relative('.', file)}`);
  }
}

/** Written beside its place and moved there, so that nothing reads half a file. */
function writeWhole(file: string, body: string): void {
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(`${file}.new`, body);
  renameSync(`${file}.new`, file);
}

await runCommand(async () => run());
