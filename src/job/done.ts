/** Verbs with which a repair's clauses begin, as a record says them of what was done. */
const PAST: Readonly<Record<string, string>> = {
  clean: 'cleaned',
  connect: 'connected',
  cut: 'cut',
  draw: 'drew',
  dry: 'dried',
  find: 'found',
  fit: 'fitted',
  free: 'freed',
  isolate: 'isolated',
  move: 'moved',
  prove: 'proved',
  put: 'put',
  remake: 'remade',
  replace: 'replaced',
  report: 'reported',
  run: 'ran',
  set: 'set',
  shut: 'shut',
  stop: 'stopped',
  strip: 'stripped',
  swap: 'swapped',
  switch: 'switched',
  take: 'took',
  treat: 'treated',
};

/** One thing or another, as `the motor or the head of`, `dried or replaced what`. */
const EITHER = /\b((?:the )?[a-z-]+) or ((?:the )?[a-z-]+)(?= (?:of|what)\b)/;

/**
 * A repair that says one thing or another, told as each of them: the record says what was done.
 * None where it says one thing.
 */
export function eitherOf(
  text: string,
): readonly { readonly what: string; readonly text: string }[] {
  const either = EITHER.exec(text);
  return (either?.slice(1) ?? []).map((what) => ({ what, text: text.replace(either![0], what) }));
}

/** Whether a repair was entered from a cause, however sure it was: by what it begins with. */
export const isOfCause = (text: string, title: string): boolean =>
  text.startsWith(`${title}.`) || text.startsWith(`${title} (`);

const HANDED_OVER = /\bhand (?:[^.;]+ )?over to (an? [^.;,]+)/i;

/**
 * What a repair comes to once it is done, in the past tense: its first clauses, up to what only
 * may be needed. Empty where it says nothing that is done, as where somebody is to be asked.
 */
export function asDone(repair: string): string {
  const handed = HANDED_OVER.exec(repair);
  if (handed) return `Handed over to ${handed[1]}.`;
  const [first = ''] = repair.split(/[;.:]|, or | if | where the two match/);
  const clauses = first.split(/(, (?:and )?| and | or )/);
  // A sentence that does not begin with something done is no repair that one makes.
  if (pastOf(clauses[0]!) === null || /^find (?:out|why)\b/i.test(first)) return '';
  const text = clauses
    .map((clause) => pastOf(clause) ?? clause)
    .join('')
    .trim();
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}

/** A clause with its first word in the past tense; null where that is no verb of a repair. */
function pastOf(clause: string): string | null {
  const [verb = ''] = clause.split(' ');
  const past = PAST[verb.toLowerCase()];
  return past === undefined ? null : past + clause.slice(verb.length);
}
