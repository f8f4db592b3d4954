/**
 * Changes the sources one small thing at a time, runs the quick tests that reach each change,
 * and names the changes that no test notices.
 *
 *     npm run mutants -- ROOM [FILE ...]             a room, or files of it by name or path
 *     npm run mutants -- ROOM [FILE ...] --record    and writes what was found to its ledger
 *     npm run mutants -- ROOM --share 0.2            a fifth of the lines of each file, always the same
 *     npm run mutants -- --sample N [--seed SEED]    N stretches of lines from all ledgers
 *
 * `--cores 1` leaves the other core to somebody else. A change that lives and does not stand in
 * its room's ledger is an error: a test is missing, or the ledger must say why it may live.
 */
import { globSync, mkdirSync, readFileSync } from 'node:fs';
import { basename, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { random } from '../support/random.ts';
import { entryOf, type Ledger, readLedger, scoreOf, unlisted, writeLedger } from './ledger.ts';
import { type Mutant, mutate } from './mutate.ts';
import { ROOMS, type Room, type RoomName } from './rooms.ts';

/** Where results are kept from run to run. */
const KEPT = resolve('node_modules/.cache/proveline/mutants');
/** Lines of one stretch of a sample. */
const STRETCH = 12;

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    record: { type: 'boolean', default: false },
    sample: { type: 'string' },
    share: { type: 'string', default: '1' },
    cores: { type: 'string', default: '2' },
    seed: { type: 'string', default: String(Date.now() % 2 ** 31) },
  },
});
const cores = Number(values.cores);
const left =
  values.sample === undefined
    ? await runRoom(positionals[0] ?? '', positionals.slice(1), Number(values.share), values.record)
    : await runSample(Number(values.sample), Number(values.seed));
for (const { file, line, was, becomes } of left) {
  console.log(`${file}:${line}: no test notices “${was}” as “${becomes}”`);
}
if (left.length > 0) process.exitCode = 1;

/** Ends with what is wrong with the command, and no trace: it is nobody's bug. */
function refuse(message: string): never {
  console.error(message);
  process.exit(2);
}

async function runRoom(
  name: string,
  only: readonly string[],
  share: number,
  record: boolean,
): Promise<Mutant[]> {
  if (!isRoom(name)) refuse(`no room “${name}”: there are ${Object.keys(ROOMS).join(', ')}`);
  const room: Room = ROOMS[name];
  const all = globSync([...room.files]).toSorted();
  const names = only.map((file) => basename(file, '.ts'));
  for (const [i, one] of names.entries())
    if (!all.some((file) => basename(file, '.ts') === one))
      refuse(
        `no file “${only[i]}” in room ${name}: it has ${all.map((f) => basename(f, '.ts')).join(', ')}`,
      );
  const files = all.filter((file) => only.length === 0 || names.includes(basename(file, '.ts')));
  mkdirSync(KEPT, { recursive: true });
  const stretches = files.flatMap((file) => (share < 1 ? stretchesOf(file, share) : [file]));
  const mutants = await mutate(stretches, room.tests, `${KEPT}/${name}.json`, cores);
  const before = readLedger(name);
  const found = Object.fromEntries(
    files.flatMap((file): [string, Ledger[string]][] => {
      const own = mutants.filter((mutant) => mutant.file === file);
      return own.length > 0
        ? [[file, { ...(share < 1 ? { share } : {}), ...entryOf(own, before[file]) }]]
        : [];
    }),
  );
  const after: Ledger = { ...before, ...found };
  console.table(
    Object.fromEntries(
      Object.entries(found).map(([file, { mutants: all, killed }]) => [
        file,
        { mutants: all, killed, lives: all - killed, score: percent(killed / all) },
      ]),
    ),
  );
  console.log(`${name}: ${percent(scoreOf(after))} killed of all in its ledger`);
  if (record) writeLedger(name, after);
  return unlisted(mutants, before);
}

/** All stretches of a file, as the tester is told of them. */
function allStretches(file: string): string[] {
  const lines = readFileSync(file, 'utf8').split('\n').length;
  return Array.from({ length: Math.ceil(lines / STRETCH) }, (_, i) => {
    const from = i * STRETCH + 1;
    return `${file}:${from}-${from + STRETCH - 1}`;
  });
}

/** The same few stretches of a file each time, one at least. */
function stretchesOf(file: string, share: number): string[] {
  const left = allStretches(file);
  const count = Math.max(1, Math.round(share * left.length));
  const from = random(left.length);
  return Array.from({ length: count }, () => left.splice(from.below(left.length), 1)[0]!);
}

/** Mutates a few stretches of the files that a ledger knows wholly, even over their lines. */
async function runSample(stretches: number, seed: number): Promise<Mutant[]> {
  const names = Object.keys(ROOMS).filter(isRoom);
  const ledger: Ledger = Object.assign({}, ...names.map(readLedger));
  const places = Object.entries(ledger).flatMap(([file, { share }]) =>
    share === undefined ? allStretches(file) : [],
  );
  const from = random(seed);
  const chosen = new Set(Array.from({ length: stretches }, () => from.pick(places)));
  console.log(`Mutants of ${chosen.size} stretches of ${places.length}, seed ${seed}.`);
  const mutants = await mutate(
    [...chosen],
    names.flatMap((name) => [...ROOMS[name].tests]),
    null,
    cores,
  );
  const killed = mutants.filter((mutant) => mutant.killed).length;
  console.log(`${killed} of ${mutants.length} killed (${percent(killed / mutants.length)}).`);
  return unlisted(mutants, ledger);
}

function isRoom(name: string): name is RoomName {
  return Object.hasOwn(ROOMS, name);
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}
