import type { Entry, Job } from './job.ts';
import { isSaidByAnother } from './one-look.ts';
import type { Sheet } from './sheet.ts';
import { clauseText } from './words.ts';

/**
 * What was done last, in a clause, so that taking it back says what it takes back.
 * @param sheet null while the system is not known: then no reading can have been entered.
 */
export function lastAct(sheet: Sheet | null, before: Job, after: Job): string {
  const said = (entry: Entry) => (sheet ? clauseText(sheet, entry.observation) : 'a reading');
  const known = new Map(before.entries.map((entry) => [entry.id, entry]));
  const left = new Set(after.entries.map(({ id }) => id));
  const added = after.entries.filter(({ id }) => !known.has(id));
  const gone = before.entries.filter(({ id }) => !left.has(id));
  const changed = after.entries.filter((entry) => {
    const old = known.get(entry.id);
    return old !== undefined && old !== entry;
  });
  if (before.system !== after.system || before.composed !== after.composed)
    return `the system: ${after.systemTitle || 'not known'}`;
  const seen = added.filter(({ observation: o }) => o.kind === 'look' && o.answer === 'seen');
  // One look that settles several: what was seen says the others.
  if (
    sheet &&
    seen.length === 1 &&
    added.every((one) => one === seen[0] || isSaidByAnother(sheet, added, one))
  )
    return said(seen[0]!);
  if (added.length > 1) return `${added.length} findings entered`;
  if (added[0]) return said(added[0]);
  if (gone[0]) return `removed: ${said(gone[0])}`;
  if (changed[0]) return `put right: ${said(changed[0])}`;
  if (after.repairs.length > before.repairs.length) return 'the repair entered';
  if (after.repairs.length < before.repairs.length) return 'the repair taken off';
  if (after.cannot.length > before.cannot.length) return 'what cannot be done here';
  if (after.cannot.length < before.cannot.length) return 'what was brought back';
  if (after.remarks !== before.remarks) return 'what was noticed';
  if (after.photos !== before.photos) return 'a photo';
  if (after.finished !== before.finished)
    return after.finished ? 'finishing' : 'taking it up again';
  if (after.history !== before.history) return 'what the customer says of the time before';
  return 'the words entered';
}
