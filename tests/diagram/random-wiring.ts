import type { Random } from '../support/random.ts';

const COLOURS = ['BN', 'BU', 'GNYE', 'BK', 'GY', 'OG', 'WH'] as const;
const ELEMENTS = [
  'load {from} {to} { watts: 5, name: a lamp or what a name is }',
  'load {from} {to} { watts: 5, draws: heater, name: heater }',
  'motor {from} {to} { watts: 40, name: motor of a circulating pump }',
  'contact {from} {to} { closed: calling, name: contact of the control }',
  'contact {from} {to} { closed: { not: calling } }',
  'fuse {from} {to} { rating: 3, name: fuse link }',
  'sensing {from} {to} { ohms: 100000, name: switched live input }',
  'resistor {from} {to} { ohms: 8200 }',
  'link {from} {to}',
] as const;

/**
 * A system of random wiring in the test notation: as many as nine items, or `most`, of random insides,
 * cables between random items, spare cores and wire links. Electrically it means nothing.
 */
export function randomWiring(chance: Random, most = 9): string {
  const items = Array.from({ length: 2 + chance.below(most - 1) }, (_, i) => `A${i + 1}`);
  const terminals = new Map(items.map((item) => [item, terminalsOf(chance)]));
  const lines = ['F1 mains: supply L N E'];
  terminals.set('F1', ['L', 'N', 'E']);
  for (const item of items) lines.push(...elementsOf(item, terminals.get(item)!, chance));
  const all = ['F1', ...items];
  for (let w = 1; w <= items.length + chance.below(4); w++) {
    const from = chance.pick(all);
    const to = chance.pick(all.filter((item) => item !== from));
    lines.push(cable(`W${w}`, [from, to], terminals, chance));
  }
  for (const item of items) {
    const [a, b] = terminals.get(item)!;
    if (chance.next() < 0.2) lines.push(`link ${item}.${a} ${item}.${b}`);
  }
  return [...lines, 'mode rest:'].join('\n');
}

const NAMES = ['L', 'N', 'E', 'SL', 'call-feed', 'call-return', 'hot-water-off', '1', '2', '3'];

function terminalsOf(chance: Random): string[] {
  const names = [...NAMES];
  const count = 2 + chance.below(6);
  return Array.from({ length: count }, () => names.splice(chance.below(names.length), 1)[0]!);
}

function elementsOf(item: string, terminals: readonly string[], chance: Random): string[] {
  return Array.from({ length: chance.below(5) }, (_, i) => {
    const from = chance.pick(terminals);
    const to = chance.pick(terminals.filter((terminal) => terminal !== from));
    const text = chance.pick(ELEMENTS).replace('{from}', from).replace('{to}', to);
    return `${item} part ${i + 1}: ${text}`;
  });
}

function cable(
  reference: string,
  [from, to]: readonly [string, string],
  terminals: ReadonlyMap<string, readonly string[]>,
  chance: Random,
): string {
  const colours = [...COLOURS];
  const cores = Array.from({ length: 1 + chance.below(5) }, () => {
    const colour = colours.splice(chance.below(colours.length), 1)[0]!;
    const ends = [from, to].map((item) => `${item}.${chance.pick(terminals.get(item)!)}`);
    return `${colour} ${ends.join(' ')}`;
  });
  const spare = chance.next() < 0.3 ? [`spare ${colours[0]}`] : [];
  return `${reference}: flex 0.75 5; ${[...cores, ...spare].join('; ')}`;
}
