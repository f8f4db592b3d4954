import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { CalendarDate, Review } from '../../schemas/index.ts';
import { buildNetwork, simulate } from '../circuit/index.ts';
import {
  among,
  calendarDay,
  type Entry,
  entriesByKind,
  formatProblems,
  isSamePerson,
  KINDS,
  type Kind,
  type Read,
  type Reviewable,
  readOf,
  sealOf,
  yearAfter,
} from '../entries/index.ts';
import {
  type Checked,
  changesBetween,
  checkSources,
  firmFolder,
  located,
  pathOf,
  recordFrom,
  recordPath,
  recordText,
  reviewLine,
} from '../firm/index.ts';
import { withKey } from '../tables/index.ts';
import { answersFrom } from './ask.ts';
import { mistakesText } from './mistakes.ts';
import { readOptions, runCommand, takeFirm, text, WrongUse } from './options.ts';
import { LONG, startProgress } from './progress.ts';

const USAGE = `npm run review -- KIND NAME --by "your name" --firm folder
  shows what changed in one of the firm's entries since it was last reviewed, in its text, in the
  devices it holds and in the figures it gives; on yes it writes who read it, when, when it is due
  again, and a seal of what was read.
  KIND is one of ${Object.keys(KINDS).join(', ')}
  --due YYYY-MM-DD  when it is due again (default: in a year)
  --yes             says yes: you have read it`;

const OPTIONS = { by: 'value', due: 'value', firm: 'value', yes: 'flag' } as const;
/** The line by which a new entry says that nobody has read it. */
const UNREAD = /^# Nobody has reviewed this yet\..*\n/m;

async function run(): Promise<number> {
  const asked = readOptions(process.argv.slice(2), OPTIONS, USAGE);
  const [kind, id, ...more] = asked.words;
  if (kind === undefined || id === undefined || more.length > 0) throw new WrongUse(USAGE);
  if (!Object.hasOwn(KINDS, kind)) {
    const { allowed, suggestion } = among(kind, Object.keys(KINDS));
    const meant = suggestion === undefined ? '' : `; did you mean ${suggestion}?`;
    throw new WrongUse(
      `There is no kind of entry “${kind}”${meant}\n  allowed  ${allowed}\n${USAGE}`,
    );
  }
  takeFirm(text(asked, 'firm'));
  const firm = firmFolder();
  if (firm === undefined)
    throw new Error(
      'Say --firm FOLDER: reviews are of a firm’s own entries. The reference’s are checked by its proofs.',
    );
  const progress = startProgress({ stages: 1, quietFor: LONG });
  const checked = await progress.stage('Systems simulated, then judged', (step) =>
    checkSources({ step }),
  );
  progress.end();
  const entry = ownEntry(checked, kind as Kind, id);
  const faults = checked.problems.filter(({ file }) => file === entry.file);
  if (faults.length > 0) {
    console.log(`${formatProblems(faults.map(located))}\n`);
    throw new Error('Put this right first: what is not in order cannot be reviewed.');
  }
  const answers = answersFrom(asked);
  try {
    const by = (await answers.of('by', 'Who reviews it')).trim();
    refuseAuthor(by, entry, checked.firm?.settings.reviews['second person'] ?? false);
    const on = calendarDay();
    const review = reviewOf(by, on, text(asked, 'due') ?? yearAfter(on));
    const read = readOf(entry, kind === 'system' ? simulationOf(checked, id) : undefined);
    const record = join(firm, recordPath(KINDS[kind as Kind].folder, id));
    showChanges(entry, read, record);
    // What its own modes would not show is what a second person has to look at.
    if (kind === 'system') console.log(`${mistakesText(checked.entries, id)}\n`);
    const said =
      asked.options.yes === true ||
      /^y(es)?$/i.test(
        await answers.of('yes', 'Have you read it, and does it stand? (yes or no)', 'no'),
      );
    if (!said) {
      console.log('Nothing is written. With --yes, or yes at a terminal, it is reviewed.');
      return 1;
    }
    const file = pathOf(entry.file);
    write(file, record, { ...review, seal: sealOf(read) }, read);
    console.log(`${file}: reviewed by ${by} on ${on}, due again on ${review.due}`);
    return 0;
  } finally {
    answers.close();
  }
}

/** An entry of the firm's own, by kind and name. */
function ownEntry({ entries, problems }: Checked, kind: Kind, id: string): Reviewable {
  const own = entriesByKind(entries).flatMap(([one, , entry]) =>
    one === kind && entry.origin !== 'reference' ? [entry as Reviewable] : [],
  );
  const entry = own.find((one) => one.id === id);
  if (entry) return entry;
  const broken = problems.filter(({ file }) => file.endsWith(`/${KINDS[kind].folder}/${id}.mdx`));
  if (broken.length > 0) {
    console.log(`${formatProblems(broken.map(located))}\n`);
    throw new Error('Put this right first: what is not in order cannot be reviewed.');
  }
  const known = own.map((one) => one.id);
  const { suggestion } = among(id, known);
  const meant = suggestion === undefined ? '' : `; did you mean ${suggestion}?`;
  throw new Error(
    `The firm has no ${kind} “${id}” of its own${meant}\n  allowed  ${known.join(', ') || 'none yet'}`,
  );
}

function refuseAuthor(by: string, entry: Reviewable, second: boolean): void {
  const { data, file, places } = entry;
  const { author } = data;
  if (author !== undefined && isSamePerson(author, by))
    throw new Error(
      `${author} wrote this entry: a second person reviews it.\n  said at  ${pathOf(file)}:${places.value(['author']).position.line}\n  found    --by ${by}\n  allowed  anybody else`,
    );
  if (second && author === undefined)
    throw new Error(
      `The firm asks for a second person, and ${pathOf(file)} does not say who wrote it: add author: NAME to its frontmatter.`,
    );
}

function reviewOf(by: string, on: string, due: string): Review {
  if (!CalendarDate.safeParse(due).success)
    throw new Error(`--due ${due}: a date is written YYYY-MM-DD, as in ${yearAfter(on)}`);
  const review = Review.safeParse({ by, on, due });
  if (!review.success)
    throw new Error(review.error.issues.map(({ message }) => message).join('; '));
  return review.data;
}

function simulationOf({ entries }: Checked, id: string) {
  const devices = new Map([...entries.devices].map(([name, { data }]) => [name, data]));
  return simulate(buildNetwork(id, entries.systems.get(id)!.data, devices));
}

/** Says what there is to read: what changed since the last review, or all of it. */
function showChanges(
  { data: { review } }: Entry<{ review?: Review | undefined }>,
  read: Read,
  record: string,
): void {
  const kept = existsSync(record) ? recordFrom(readFileSync(record, 'utf8')) : null;
  if (!kept) {
    const why = review
      ? `${review.by} reviewed it on ${review.on}, and what was read then is not on record`
      : 'Nobody has reviewed it yet';
    console.log(`${why}. All of it is to be read:\n\n${read.text}`);
    if (read.figures !== '')
      console.log(`and ${read.figures.split('\n').length} figures that its pages give.\n`);
    return;
  }
  const { by, on } = kept.review;
  const changes = changesBetween(kept.read, read);
  console.log(
    changes.length === 0
      ? `Nothing has changed since ${by} reviewed it on ${on}.\n`
      : `Since ${by} reviewed it on ${on}:\n\n${changes.join('\n')}`,
  );
}

/** Writes the review into the entry and what was read beside it; the record first. */
function write(file: string, record: string, review: Review, read: Read): void {
  const before = readFileSync(file, 'utf8');
  mkdirSync(dirname(record), { recursive: true });
  writeFileSync(record, recordText({ review, read }));
  writeFileSync(file, withKey(before.replace(UNREAD, ''), 'review', reviewLine(review)));
  console.log(`What was read is kept in ${relative('.', record)}`);
}

await runCommand(run);
