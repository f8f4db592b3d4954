import type { System } from '../../schemas/index.ts';
import { COLUMNS, type Column, LINK } from './columns.ts';
import { writeCsv } from './csv.ts';

/** A system's cables and links as a wiring table, a line for each core; read back it is the same. */
export function writeCables({ cables, links }: Pick<System, 'cables' | 'links'>): string {
  const rows: Partial<Record<Column, string>>[] = [];
  for (const [cable, { kind, size, earthSize, length, cores, spare }] of Object.entries(cables)) {
    const facts = {
      cable,
      kind,
      size: String(size),
      'earth size': earthSize === undefined ? '' : String(earthSize),
      length: String(length),
    };
    for (const [core, joined] of Object.entries(cores))
      if (joined)
        rows.push({
          ...facts,
          core,
          from: joined.ends[0],
          to: joined.ends[1],
          sleeve: joined.sleeve ?? '',
        });
    for (const core of spare) rows.push({ ...facts, core });
  }
  for (const { between, why = '' } of links)
    rows.push({ from: between[0], to: between[1], cable: LINK, why });
  return writeCsv([COLUMNS, ...rows.map((row) => COLUMNS.map((column) => row[column] ?? ''))]);
}

/** A system's cables as an entry's frontmatter writes them. */
export function cablesYaml(cables: System['cables']): string {
  const lines = Object.entries(cables).flatMap(([reference, cable]) => [
    `  ${reference}:`,
    `    kind: ${cable.kind}`,
    `    size: ${cable.size}`,
    ...(cable.earthSize === undefined ? [] : [`    earthSize: ${cable.earthSize}`]),
    `    length: ${cable.length}`,
    `    cores: { ${coresYaml(cable.cores).join(', ')} }`,
    ...(cable.spare.length > 0 ? [`    spare: [${cable.spare.join(', ')}]`] : []),
  ]);
  return `cables:\n${lines.join('\n')}\n`;
}

const coresYaml = (cores: System['cables'][string]['cores']) =>
  Object.entries(cores).flatMap(([colour, core]) => {
    if (!core) return [];
    const ends = `[${core.ends.join(', ')}]`;
    return [`${colour}: ${core.sleeve ? `{ ends: ${ends}, sleeve: ${core.sleeve} }` : ends}`];
  });

/** A system's links as an entry's frontmatter writes them; an empty text where it has no links. */
export function linksYaml(links: System['links']): string {
  if (links.length === 0) return '';
  const lines = links.map(
    ({ between, why }) =>
      `  - { between: [${between.join(', ')}]${why === undefined ? '' : `, why: ${JSON.stringify(why)}`} }\n`,
  );
  return `links:\n${lines.join('')}`;
}
