import { chosenInstrument, chosenMode } from './chosen.ts';
import type { DrawingData } from './data.ts';

/** What a terminal reads in the mode chosen, on the instrument chosen; empty where it is not read. */
export function readingNow({ terminals, texts }: DrawingData, id: string): string {
  const { values } = terminals[id]!;
  const at = values?.[chosenMode()]?.[chosenInstrument()];
  return at === undefined ? '' : texts[at]!;
}

/** Terminals of a net that a line names; the drawing shows the others. */
const MOST_NAMED = 3;

/** A terminal and its net in a line. */
export function terminalLine(data: DrawingData, id: string): string {
  const { name, net, serves, against } = data.terminals[id]!;
  const others = data.nets[net]!.terminals.filter((other) => other !== id);
  const reads = readingNow(data, id);
  const named = others.slice(0, MOST_NAMED).map((other) => data.terminals[other]!.name);
  const more = others.length - named.length;
  const joined =
    others.length === 0
      ? 'No core joins it to another.'
      : `Joined to ${named.join(', ')}${more > 0 ? ` and ${more} more` : ''}.`;
  const first = `${name}${serves ? `: ${serves}` : ''}.`;
  return [
    first.charAt(0).toUpperCase() + first.slice(1),
    reads && `${reads} to ${against}.`,
    joined,
  ]
    .filter(Boolean)
    .join(' ');
}
