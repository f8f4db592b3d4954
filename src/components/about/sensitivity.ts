import { z } from 'zod';
import { FAMILIES } from '../../diagnosis/faults/index.ts';
import figures from './sensitivity.json' with { type: 'json' };

/** What is taken twice and half as much, by the name the figures bear. */
const WHAT: Readonly<Record<string, { readonly title: string; readonly of: 'share' | 'minutes' }>> =
  {
    ...Object.fromEntries(
      Object.entries(FAMILIES).map(([name, { title }]) => [name, { title, of: 'share' as const }]),
    ),
    part: { title: 'Every part that fails', of: 'share' },
    connection: { title: 'Every connection that comes apart', of: 'share' },
    'wiring mistake': { title: 'Everything wired otherwise', of: 'share' },
    reading: { title: 'A reading', of: 'minutes' },
    disconnected: { title: 'A core or a part disconnected and tested', of: 'minutes' },
    fuse: { title: 'A fuse taken out and tested', of: 'minutes' },
    seen: { title: 'Looking inside and a tug at each core', of: 'minutes' },
    compare: { title: 'Comparing with the wiring table', of: 'minutes' },
    insulation: { title: 'An insulation test', of: 'minutes' },
    spindle: { title: 'A spindle turned by hand', of: 'minutes' },
    link: { title: 'Linking the call', of: 'minutes' },
    isolate: { title: 'Isolating and proving dead', of: 'minutes' },
    restore: { title: 'Putting the supply back', of: 'minutes' },
    opening: { title: 'Opening each item', of: 'minutes' },
    mode: { title: 'Bringing a mode about', of: 'minutes' },
  };

/** Shares of the visits and the cost of one change to the figures. */
const Effect = z.tuple([
  z.number().meta({ description: 'Share of the visits with another first act' }),
  z.number().meta({ description: 'Share of those with the same first and another second act' }),
  z.number().meta({ description: 'Share of the minutes that keeping to the printed order adds' }),
]);

const ComplaintFigures = z.strictObject({
  system: z.string(),
  complaint: z.string(),
  of: z.string().meta({ description: 'Hash of the problem that it was worked out from' }),
  proven: z.boolean().meta({ description: 'Whether the order is proven best as the figures are' }),
  concerns: z.array(z.string()).meta({ description: 'What of it bears on this complaint' }),
  changes: z.record(z.string(), Effect).meta({
    description: 'By what is taken otherwise, as in `valve ×2`; none where nothing changes',
  }),
});
export type ComplaintFigures = z.infer<typeof ComplaintFigures>;

/** How far the order of tests hangs on shares and minutes that nobody has counted. */
const Sensitivity = z.strictObject({
  states: z.int().meta({ description: 'States that each search expanded at most' }),
  complaints: z.array(ComplaintFigures),
});
export type Sensitivity = z.infer<typeof Sensitivity>;

/** The figures as they were last worked out; a proof holds them against the search as it is. */
export const SENSITIVITY: Sensitivity = Sensitivity.parse(figures);

/** Twice and half: how far off the shares and minutes may be. */
export const FACTORS = { '×2': 2, '÷2': 0.5 } as const;
export type Factor = keyof typeof FACTORS;

/** A complaint counts as changed where the act is another in at least this share of its visits. */
export const CHANGED_SHARE = 0.05;

/** One line of the table. */
export interface SensitivityRow {
  readonly title: string;
  /** Whether it is how often something is met, or how long something takes. */
  readonly of: 'share' | 'minutes';
  /** Complaints that it bears on. */
  readonly concerned: number;
  /** Complaints whose first act changes, with it twice and half as much. */
  readonly first: Readonly<Record<Factor, number>>;
  /** Of the others, those whose second act changes. */
  readonly second: Readonly<Record<Factor, number>>;
  /** Greatest share of the minutes that keeping to the printed order adds. */
  readonly costs: number;
}

/** The table, those that change most first acts on top. */
export function sensitivityRows({ complaints }: Sensitivity): SensitivityRow[] {
  const rows = Object.entries(WHAT).map(([name, { title, of }]): SensitivityRow => {
    const own = complaints.filter(({ concerns }) => concerns.includes(name));
    const effects = (factor: Factor) =>
      own.flatMap(({ changes }) => [changes[`${name} ${factor}`] ?? []].filter((e) => e.length));
    const counted = (by: (effect: readonly number[]) => boolean) => ({
      '×2': effects('×2').filter(by).length,
      '÷2': effects('÷2').filter(by).length,
    });
    return {
      title,
      of,
      concerned: own.length,
      first: counted(([first]) => first! >= CHANGED_SHARE),
      second: counted(([first, second]) => first! < CHANGED_SHARE && second! >= CHANGED_SHARE),
      costs: Math.max(
        0,
        ...[...effects('×2'), ...effects('÷2')].map(([, , costs]) => costs as number),
      ),
    };
  });
  const changes = ({ first }: SensitivityRow) => first['×2'] + first['÷2'];
  return rows
    .filter(({ concerned }) => concerned > 0)
    .sort((a, b) => changes(b) - changes(a) || b.costs - a.costs);
}

/** A complaint with how many of the changes that bear on it change its first act. */
export interface ChangedComplaint {
  readonly system: string;
  readonly complaint: string;
  readonly first: number;
  readonly tried: number;
  /** What changes it most. */
  readonly most: string;
  readonly costs: number;
}

/** The complaints whose first act changes most readily, as many as asked for. */
export function mostChanged({ complaints }: Sensitivity, most: number): ChangedComplaint[] {
  return complaints
    .flatMap(({ system, complaint, concerns, changes }): ChangedComplaint[] => {
      const changed = Object.entries(changes).filter(([, [first]]) => first >= CHANGED_SHARE);
      const [worst] = changed.toSorted(([, a], [, b]) => b[2] - a[2]);
      if (!worst) return [];
      const [name, [, , costs]] = worst;
      const [, what, factor] = /^(.+) (×2|÷2)$/.exec(name)!;
      const { title, of } = WHAT[what!]!;
      const times = factor === '×2' ? 'twice' : 'half';
      return [
        {
          system,
          complaint,
          first: changed.length,
          tried: 2 * concerns.length,
          most: `${title}, ${times} as ${of === 'share' ? 'often' : 'long'}`,
          costs,
        },
      ];
    })
    .sort((a, b) => b.first / b.tried - a.first / a.tried || b.costs - a.costs)
    .slice(0, most);
}
