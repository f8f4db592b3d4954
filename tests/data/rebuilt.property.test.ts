import { describe, expect, it } from 'vitest';
import { type SystemData, systemData } from '../../src/data/index.ts';
import { PROVING, SEED, tried } from '../support/property.ts';
import { random } from '../support/random.ts';
import { shippedSystems } from '../support/shipped.ts';
import { Rebuilt } from './rebuild.ts';

/** Faults whose whole rows are rebuilt, of each system. */
const FAULTS = PROVING ? 5 : 4;

/** The systems, smallest first: a small one takes a second. */
const systems = tried(
  shippedSystems().toSorted((a, b) => a.network.nodes.length - b.network.nodes.length),
  2,
);

type Fault = SystemData['diagnosis']['faults'][number];

/** Whether one of two answers leaves the other open: `no short` rules out `joined` alone. */
const leavesOpen = (a: string | undefined, b: string | undefined): boolean =>
  a === 'unsettled' || (a === 'no short' && b !== 'joined');

/**
 * Tests of which the file says another answer than is rebuilt from it. A fault that nothing
 * settled tells from the sound circuit has the sound row: of it what is left open may differ.
 */
function differences({ diagnosis }: SystemData, fault: Fault | null, rebuilt: Rebuilt): string[] {
  const row = diagnosis.rows[fault?.row ?? 0]!;
  return diagnosis.tests.flatMap((test, i) => {
    const published = diagnosis.answers[Number.parseInt(row[i]!, 36)];
    const answer = rebuilt.answer(test);
    const open =
      fault?.row === 0 && (leavesOpen(answer, published) || leavesOpen(published, answer));
    return answer === published || open
      ? []
      : [`${test.id}: ${published} in the file, ${answer} rebuilt`];
  });
}

/** Whether a fault leaves every core where it is. */
const staysWired = ({ edit }: Fault): boolean =>
  Object.keys(edit.cores).length === 0 && edit.changes.every(({ kind }) => kind !== 'parted');

describe.each(systems.map((s) => [s.id, s] as const))(
  'answers of %s, from its file alone',
  (_, system) => {
    const data: SystemData = JSON.parse(JSON.stringify(systemData(system)));
    const { diagnosis } = data;

    it('are those of the sound circuit, for every test', () => {
      expect(differences(data, null, new Rebuilt(data, null))).toEqual([]);
    });

    it(`are those of ${FAULTS} faults, for every test, seed ${SEED}`, () => {
      const { pick } = random(SEED);
      const wired = diagnosis.faults.filter(staysWired);
      expect(wired.length).toBeGreaterThan(10);
      for (let i = 0; i < FAULTS; i++) {
        const fault = pick(wired);
        const found = differences(data, fault, new Rebuilt(data, fault));
        expect(found, fault.id).toEqual([]);
      }
    });

    it('say of every fault where it is seen: only where the box shows what it takes hold of', () => {
      const shown = new Map(data.places.map(({ id, terminals }) => [id, terminals] as const));
      const ends = new Map<string, string[]>(
        data.wiring.flatMap(({ id, from, to }) => [
          [`end ${id}@1`, [from]] as const,
          [`end ${id}@2`, [to]] as const,
        ]),
      );
      const links = new Map<string, string[]>(
        data.branches.map(({ id, from, to }) => [`branch ${id}`, [from, to]] as const),
      );
      const acts = diagnosis.tests.flatMap(({ act, place }, i) =>
        act?.does === 'inside' || act?.does === 'compare'
          ? [{ does: act.does, place: place!, i }]
          : [],
      );
      for (const { id, row, seen, edit } of diagnosis.faults) {
        const points = edit.touches.flatMap(
          (touch) =>
            ends.get(touch) ?? links.get(touch) ?? /^join (.+)\|(.+)$/.exec(touch)?.slice(1) ?? [],
        );
        for (const place of [...seen.inside, ...seen.compare])
          expect(
            shown.get(place)!.some((point) => points.includes(point)),
            `${id} at ${place}`,
          ).toBe(true);
        for (const { does, place, i } of acts) {
          const published = diagnosis.answers[Number.parseInt(diagnosis.rows[row]![i]!, 36)];
          expect(published, `${id}, ${does} ${place}`).toBe(
            seen[does].includes(place) ? 'found' : 'nothing',
          );
        }
      }
    });

    it('weigh the families as the table of histories does', () => {
      for (const history of ['worked until now', 'since work', 'comes and goes'] as const) {
        const families = Map.groupBy(diagnosis.faults, ({ family }) => family);
        const all = [...families.keys()].reduce(
          (sum, family) => sum + diagnosis.families[family]!.percent[history],
          0,
        );
        for (const [family, faults] of families) {
          const share = faults.reduce((sum, { shares }) => sum + shares[history], 0);
          expect(share, family).toBeCloseTo(diagnosis.families[family]!.percent[history] / all, 9);
        }
      }
    });
  },
);
