import { type Appearance, itemsOfSign, type System } from '../../schemas/index.ts';
import type { Computed } from './expectations.ts';
import { reportFor } from './report.ts';
import { itemsIn, systemsShowing } from './symptom-references.ts';
import type { Entries, Problem } from './types.ts';

/**
 * One problem for each appearance of a symptom that every system which can show it shows
 * while nothing is wrong.
 * @param computed by system id; a system without one is passed over.
 */
export function symptomSoundProblems(
  { systems, devices, symptoms }: Pick<Entries, 'systems' | 'devices' | 'symptoms'>,
  computed: ReadonlyMap<string, Computed>,
): Problem[] {
  const known = new Map([...devices].map(([id, { data }]) => [id, data]));
  const wired = new Map(
    [...systems].flatMap(([id, { data }]) => (computed.has(id) ? [[id, data] as const] : [])),
  );
  return [...symptoms.values()].flatMap(({ data, places }) => {
    const report = reportFor(places);
    data.shows.forEach((appearance, i) => {
      const able = systemsShowing(appearance, wired, known);
      const differs = (id: string) =>
        !soundShows(appearance, wired.get(id)!, known, computed.get(id)!);
      if (able.length === 0 || able.some(differs)) return;
      const message = `a sound system shows this: ${able.join(', ')}`;
      report.value('symptom-sound', ['shows', i], message);
    });
    return report.problems;
  });
}

/** Whether a sound circuit shows all signs of an appearance. No sound circuit blows a fuse. */
function soundShows(
  { signs }: Appearance,
  system: System,
  devices: Parameters<typeof itemsIn>[1],
  { modes }: Computed,
): boolean {
  const items = itemsIn(system, devices);
  return signs.every((sign) => {
    if ('fuse' in sign) return false;
    const wanted = sign.is === 'comes and goes' ? 'hunting' : sign.is;
    const isSo = ({ item }: (typeof items)[number]) =>
      sign.modes.every(
        (mode) => modes.get(mode)?.outcomes.get(`${item}.${sign.outcome}`) === wanted,
      );
    const about = itemsOfSign(sign, items);
    return sign.any ? about.some(isSo) : about.every(isSo);
  });
}
