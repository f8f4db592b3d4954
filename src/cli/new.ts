import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { among, formatProblems, KINDS, type Kind } from '../entries/index.ts';
import { checkSources, contentFolder, firmFlag, firmFolder, located } from '../firm/index.ts';
import { asTyped, isPackage } from '../folder/index.ts';
import { writtenIn } from '../form/document.ts';
import { guideFields } from '../form/guide-fields.ts';
import { guideSystem } from '../form/guide-system.ts';
import { type Answers, answersFrom, BrokenOff } from './ask.ts';
import { devicesIn, said, schemaOf } from './form-facts.ts';
import { writeFirm } from './new-firm.ts';
import { readOptions, runCommand, takeFirm, text, WrongUse } from './options.ts';
import { checkedWith } from './own-system.ts';
import { slugOf, writeNew } from './write-new.ts';

const USAGE = `npm run new -- firm FOLDER [--name NAME]
npm run new -- system|device|symptom|procedure|standard|term|module [--firm folder]
  --title TITLE     what readers call it
  --like NAME       the entry it starts from (it asks, or takes the first)
  --id NAME         its file name without .mdx (default: from the title)
  --replaces NAME   in place of the reference's entry of this name
  --extends NAME    added to the reference's entry of this name
  What is not said is asked for; at a terminal the entry is then gone through with you: a
  system’s words, devices, cores and modes, the fields and prose of any other. Each answer is
  written as it is given, so that Ctrl-C loses nothing. A new entry has no review: until somebody
  reads it through, with npm run review, its page says that nobody has.`;

const OPTIONS = Object.fromEntries(
  'firm name title like id replaces extends'.split(' ').map((name) => [name, 'value' as const]),
);

/** Entries that a new one of a kind starts from where nobody says: a plain one of its kind. */
const PLAIN: Partial<Record<Kind, string>> = {
  system: 'combi-two-wire',
  device: 'room-thermostat-wired',
  standard: 'fuse-3-amp',
  module: 'room-stat-two-wire',
};

async function run(): Promise<number> {
  const asked = readOptions(process.argv.slice(2), OPTIONS, USAGE);
  const answers = answersFrom(asked);
  try {
    const [what, folder, ...more] = asked.words;
    if (what === 'firm' && (folder !== undefined || isPackage()) && more.length === 0) {
      const name = await answers.of('name', 'Name of the firm, as readers know it');
      console.log(writeFirm(folder ?? '.', name));
      return 0;
    }
    if (what === undefined || !Object.hasOwn(KINDS, what) || folder !== undefined)
      throw new WrongUse(USAGE);
    takeFirm(text(asked, 'firm'));
    const claim = (['replaces', 'extends'] as const).find((one) => text(asked, one) !== undefined);
    return await writeEntry(what as Kind, claim, answers);
  } finally {
    answers.close();
  }
}

async function writeEntry(
  kind: Kind,
  claim: 'replaces' | 'extends' | undefined,
  answers: Answers,
): Promise<number> {
  const { folder, title: noun } = KINDS[kind];
  const known = readdirSync(join(contentFolder(), folder)).flatMap((name) =>
    name.endsWith('.mdx') ? [name.slice(0, -'.mdx'.length)] : [],
  );
  const one = async (option: string, question: string, usual?: string) => {
    const id = await answers.of(option, question, usual);
    if (known.includes(id)) return id;
    const { suggestion, allowed } = among(id, known);
    const meant = suggestion === undefined ? '' : `; did you mean ${suggestion}?`;
    throw new Error(`There is no ${noun.toLowerCase()} “${id}”${meant}\n  allowed  ${allowed}`);
  };
  if (claim !== undefined && firmFolder() === undefined)
    throw new Error(`--${claim} belongs to a firm’s folder: say --firm FOLDER`);
  const usual = PLAIN[kind] !== undefined && known.includes(PLAIN[kind]) ? PLAIN[kind] : known[0];
  if (process.stdin.isTTY && claim === undefined) console.log(`${known.join('\n')}\n`);
  const like =
    claim === undefined
      ? await one('like', `Which of these is nearest to the new ${noun.toLowerCase()}?`, usual)
      : await one(claim, `Which ${noun.toLowerCase()}?`);
  const title = claim === undefined ? await answers.of('title', 'Title') : undefined;
  const id = claim === undefined ? await answers.of('id', 'File name', slugOf(title!)) : like;
  const { file, problems, copied } = writeNew({ kind, like, id, title, claim });
  console.log(
    `${relative('.', file)} is written${claim ? '' : `, like ${like}`}
Nobody has reviewed it, and its page says so. Whoever reads it through puts a name to it:
  ${asTyped('npm run review -- ')}${kind} ${id} --by "your name"${firmFlag(firmFolder())}`,
  );
  if (copied.length > 0)
    console.log(`\nStill as in ${like}, until it is written anew:\n  ${copied.join('\n  ')}`);
  if (problems.length > 0) console.log(`\n${formatProblems(problems.map(located))}`);
  if (process.stdin.isTTY) await fillIn(kind, file, answers, claim === 'extends');
  return problems.length > 0 ? 1 : 0;
}

/**
 * Goes through a new entry with whoever sits at the terminal. What only adds to another has no
 * devices and cores of its own to begin from: it is gone through field by field.
 */
async function fillIn(kind: Kind, file: string, { ask }: Answers, adds: boolean): Promise<void> {
  const { entries, firm } = checkSources();
  const begun = readFileSync(file, 'utf8');
  const desk = {
    ask,
    say: (words: string) => console.log(words),
    check: (words: string) => said(checkedWith(file, words, kind)),
    write: (words: string) => writeFileSync(file, words),
  };
  const table = (path: string) => {
    if (!existsSync(path)) throw new Error(`There is no file ${path}`);
    return readFileSync(path, 'utf8');
  };
  try {
    if (kind === 'system' && !adds)
      await guideSystem(begun, { ...desk, table, devices: devicesIn(entries) });
    else
      await guideFields(begun, { ...desk, schema: schemaOf(kind, writtenIn(begun).values, firm) });
  } catch (error) {
    if (!(error instanceof BrokenOff)) throw error;
    console.log(
      `\nBroken off: what you entered stands in ${relative('.', file)}. Go on there, or in the form of ${asTyped('npm run dev')}.`,
    );
  }
}

await runCommand(run);
