import type { Columns } from './columns.ts';
import type { Side } from './geometry.ts';
import type { Lead } from './leads.ts';

export const COLUMN_NAMES = ['left', 'middle', 'right'] as const;
export type ColumnName = (typeof COLUMN_NAMES)[number];

/** Where a conductor's end comes into a channel: which of the two, and from which edge of it. */
export interface Port {
  readonly channel: Side;
  readonly edge: Side;
}

export type PortOf = (lead: Lead, end: 0 | 1) => Port;

export const opposite = (side: Side): Side => (side === 'left' ? 'right' : 'left');

/** Says of each lead's end where it comes into which channel. */
export function portsOf(columns: Columns): PortOf {
  const column = new Map<string, ColumnName>();
  for (const name of COLUMN_NAMES) for (const id of columns[name]) column.set(id, name);
  return (lead, end) => {
    const [own, other] = [lead.items[end], lead.items[1 - end]!];
    const name = column.get(own)!;
    if (name !== 'middle') return { channel: name, edge: name };
    const face = columns.faces.get(own)!;
    if (face !== 'both') return { channel: face, edge: opposite(face) };
    const beyond = column.get(other)!;
    const across = columns.faces.get(other)!;
    const channel = beyond !== 'middle' ? beyond : across === 'both' ? 'right' : across;
    return { channel, edge: opposite(channel) };
  };
}
