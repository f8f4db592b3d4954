import { ISOLATED } from '../../../schemas/index.ts';
import type { Network } from '../../circuit/index.ts';
import { type Fault, SEEN_SHARE } from '../faults/index.ts';
import type { Signatures } from '../signatures.ts';
import { baseMinutes, mayBeOne, modeMinutes, openingMinutes, type Test } from '../tests/index.ts';

/** One thing to do about a fault that comes and goes: all there is of a kind at one spot. */
export interface ChanceStep {
  /** watch: look in a mode, every cover on; box: look inside and tug; test: part by part there. */
  readonly kind: 'watch' | 'box' | 'test';
  readonly mode: string;
  /** Id of the place; null with covers on. */
  readonly place: string | null;
  /** Tests of the system's list that it makes. */
  readonly tests: readonly Test[];
  readonly minutes: number;
  /** Chance that it finds the cause, where nothing before it did, as a share of one. */
  readonly chance: number;
  /** Chance that it is found by then. */
  readonly found: number;
  /** What it would find, likeliest first. */
  readonly finds: readonly { readonly fault: Fault; readonly chance: number }[];
}

/** Steps that find less a minute are not worth a visit's time (common practice, no source). */
const LEAST_CHANCE_A_MINUTE = 0.001;

interface Bundle {
  readonly kind: ChanceStep['kind'];
  readonly mode: string;
  readonly place: string | null;
  readonly tests: readonly number[];
  readonly own: number;
}

/**
 * What to do about a fault that comes and goes: imperfect looks and acts, the most chance of
 * finding it per minute first. A test that would show the fault shows it only while it misbehaves
 * (`Fault.intermittent`); what is seen loose or wrong in an open box is there all the time, and
 * looking finds a share of it.
 *
 * Each next step is the one, with what must come before it, of most chance for its minutes. For
 * one cause each that is the order of least expected minutes: cost over probability (Stone,
 * "Theory of Optimal Search", 1975). Where several look for the same causes it takes at most
 * four times as long (Feige, Lovász and Tetali, "Approximating Min Sum Set Cover", 2004).
 */
export function chanceOrder(network: Network, signatures: Signatures): ChanceStep[] {
  const bundles = bundlesOf(network, signatures);
  const detects = bundles.map(({ tests }) => detectionOf(signatures, tests));
  const left = Float64Array.from(signatures.faults, ({ fault }) => fault.shares['comes and goes']);
  const total = left.reduce((sum, share) => sum + share, 0);
  const steps: ChanceStep[] = [];
  const standing = { mode: firstMode(network), opened: new Set<string>() };
  const undone = new Set(bundles.keys());
  let found = 0;
  for (;;) {
    let best: { at: number; minutes: number; worth: number } | null = null;
    for (const at of undone) {
      const bundle = bundles[at]!;
      if (bundle.kind === 'test' && !standing.opened.has(bundle.place!)) continue;
      const minutes = minutesOf(network, standing, bundle);
      const chance = chanceOf(detects[at]!, left) / total;
      const worth = chance / minutes;
      if (worth >= LEAST_CHANCE_A_MINUTE && (!best || worth > best.worth))
        best = { at, minutes, worth };
    }
    if (!best) return steps;
    const { at, minutes } = best;
    const { kind, mode, place, tests } = bundles[at]!;
    const finds = signatures.faults
      .map(({ fault }, i) => ({ fault, chance: (left[i]! * detects[at]![i]!) / total }))
      .filter(({ chance }) => chance > 0)
      .sort((a, b) => b.chance - a.chance);
    const chance = finds.reduce((sum, one) => sum + one.chance, 0);
    found += chance;
    steps.push({
      kind,
      mode,
      place,
      tests: tests.map((test) => signatures.tests[test]!),
      minutes,
      chance,
      found,
      finds,
    });
    for (const [i, share] of detects[at]!.entries()) left[i]! *= 1 - share;
    standing.mode = mode;
    if (place !== null) standing.opened.add(place);
    undone.delete(at);
  }
}

/** What tells anything of all there is to look at in a mode, to see in a box, and to test there dead. */
function bundlesOf(network: Network, { tests, sound, faults }: Signatures): Bundle[] {
  const own = (places: readonly number[]) =>
    places.reduce((sum, at) => sum + baseMinutes(network, tests[at]!), 0);
  const bundle = (kind: Bundle['kind'], list: readonly number[]): Bundle => {
    const { mode, place } = tests[list[0]!]!;
    return { kind, mode, place: kind === 'watch' ? null : place, tests: list, own: own(list) };
  };
  const kindOf = (test: Test): string | null => {
    if (test.kind === 'look') return `watch ${test.mode}`;
    if (test.kind === 'act' && test.act === 'inside') return `box ${test.place}`;
    // What is read live shows what looking shows; linking and comparing are for what never worked.
    const isPart = test.kind === 'act' && ['core', 'part', 'insulation'].includes(test.act);
    return isPart || (test.kind === 'dead' && test.place !== null) ? `test ${test.place}` : null;
  };
  const telling = [...tests.keys()].filter((at) =>
    faults.some(({ answers }) => !mayBeOne(answers[at]!, sound[at]!)),
  );
  const groups = Map.groupBy(telling, (at) => kindOf(tests[at]!));
  groups.delete(null);
  return [...groups].map(([key, list]) => bundle(key!.split(' ')[0] as Bundle['kind'], list));
}

/** By fault: chance that any of some tests shows it where it is the cause, as a share of one. */
function detectionOf({ faults, sound }: Signatures, tests: readonly number[]): Float64Array {
  return Float64Array.from(faults, ({ fault, answers }) => {
    if (tests.some((at) => answers[at] === 'found')) return SEEN_SHARE;
    const shows = tests.some((at) => !mayBeOne(answers[at]!, sound[at]!));
    // One spell of looking or testing meets it in one state.
    return shows ? 1 - (fault.intermittent ?? 0) : 0;
  });
}

const chanceOf = (detects: Float64Array, left: Float64Array): number =>
  detects.reduce((sum, share, i) => sum + share * left[i]!, 0);

/** Minutes from where one stands; a box is opened isolated, and what is watched has the supply on. */
function minutesOf(
  network: Network,
  { mode, opened }: { readonly mode: string; readonly opened: ReadonlySet<string> },
  bundle: Bundle,
): number {
  const change = modeMinutes(network, mode, bundle.mode);
  const { place } = bundle;
  const opens = place !== null && !opened.has(place) ? openingMinutes(network, place) : 0;
  // Watching takes a while of its own: a cycle of the boiler, a valve's travel.
  return change + opens + bundle.own + (bundle.kind === 'watch' ? WATCHING : 0);
}

/** Minutes to watch one mode for (common practice, no source). */
const WATCHING = 3;

const firstMode = ({ system }: Network): string =>
  Object.keys(system.modes).find((mode) => mode !== ISOLATED)!;
