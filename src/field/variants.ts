import type { Network } from '../circuit/index.ts';
import { cablesYaml, linksYaml, withKey } from '../tables/index.ts';
import {
  type AsFound,
  differencesOf,
  foundSystem,
  isAsEntry,
  readFoundLink,
} from '../wiring/as-found/index.ts';
import type { Gathered } from './gather.ts';

/** One wiring as found that was met, and how often. */
export interface MetWiring {
  readonly system: string;
  readonly found: AsFound;
  readonly times: number;
  /** What differs, in plain words. */
  readonly differences: readonly string[];
}

/** Marks that say nothing here any more. */
export interface UnreadMarks {
  readonly name: string;
  readonly problem: string;
}

/**
 * Wiring otherwise than its entry, from reports and visits, those met most often first.
 * @param networkOf a system's circuit as its entry has it
 */
export function wiringMet(
  { reports, visits }: Pick<Gathered, 'reports' | 'visits'>,
  networkOf: (system: string) => Network | undefined,
): { readonly met: readonly MetWiring[]; readonly unread: readonly UnreadMarks[] } {
  const marked = [
    ...reports.flatMap(({ name, file: { page, asFound } }) => {
      const [kind, system = ''] = page.split('/');
      return kind === 'systems' && asFound !== null ? { name, system, asFound } : [];
    }),
    ...visits.flatMap(({ name, file: { system, asFound } }) =>
      asFound === null ? [] : { name, system, asFound },
    ),
  ];
  const met = new Map<string, MetWiring>();
  const unread: UnreadMarks[] = [];
  for (const { name, system, asFound } of marked) {
    const network = networkOf(system);
    if (!network) continue;
    const [, text = ''] = /^as=([^&]+)/.exec(asFound) ?? [];
    const read = readFoundLink(network, text);
    if (!('found' in read)) {
      unread.push({ name, problem: read.message });
      continue;
    }
    const { found } = read;
    if (isAsEntry(found)) continue;
    const key = JSON.stringify([network.id, found]);
    const before = met.get(key);
    met.set(key, {
      system: network.id,
      found,
      times: (before?.times ?? 0) + 1,
      differences: differencesOf(network, found).map(({ title }) => title),
    });
  }
  return { met: [...met.values()].sort((a, b) => b.times - a.times), unread };
}

/**
 * The entry of a system as somebody has wired it, as a draft: a person decides whether it is a
 * way of wiring that is met and sound, or a mistake that is made often.
 * @param from text of the entry
 */
export function variantText(
  from: string,
  network: Network,
  { found, times, differences }: MetWiring,
): string {
  const system = foundSystem(network.system, found);
  const links = [
    ...system.links,
    ...found.extraLinks.map(([a, b]) => ({ between: [a, b] as [string, string] })),
  ];
  const title = `title: ${JSON.stringify(`${network.system.title}, as found ${times} times`)}\n`;
  const edited = [
    ['title', title],
    ['cables', cablesYaml(system.cables)],
    ['links', linksYaml(links)],
  ].reduce(
    (text, [key, block]) => withKey(text, key!, block!, 'modes'),
    [
      'aliases',
      'formerly',
      'exceptions',
      'author',
      'review',
      'checked',
      'compose',
      'replaces',
      'extends',
    ].reduce((text, key) => withKey(text, key, ''), from),
  );
  const more = [
    ...found.bridged.map((one) => `bridged, which no entry can say: ${one}`),
    ...found.absent.map((one) => `not there, its cores loose: ${one}`),
    ...Object.entries(found.ratings).map(([one, amps]) => `rated ${amps} A: ${one}`),
  ];
  const said = [
    `Draft: ${network.id} as it was found ${times} times, made by npm run gather. What differs:`,
    ...[...differences, ...more].map((line) => `  ${line}`),
    'It may be a mistake that is often made. Judge it, put modes and words right, move it to',
    'content/systems/, then npm run check and npm run review.',
  ];
  const comment = said.map((line) => `# ${line.replaceAll(/[\r\n]/g, ' ')}\n`).join('');
  return edited.replace(/^---[ \t]*\n/, (opening) => opening + comment);
}
