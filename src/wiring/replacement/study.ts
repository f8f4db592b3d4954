import { type Device, ISOLATED } from '../../../schemas/index.ts';
import { INSTRUMENTS, type Network, read, type Simulation, simulate } from '../../circuit/index.ts';
import { type Hazard, type HazardKind, hazardsOf } from '../as-found/hazards/index.ts';
import { itemOf } from '../points.ts';
import { type After, applyPlan } from './apply.ts';
import { type Comparison, compare, effectOf, PAGE_COMBINATIONS } from './compare.ts';
import { partsOf, terminalsFor } from './parts.ts';
import { type Plan, planReplacement } from './plan.ts';
import { type ProvingStep, provingSteps } from './proving.ts';
import { type ChangedReading, changedReadings } from './readings.ts';
import type { LinkStep } from './steps.ts';
import { supplyEarth } from './supply-point.ts';

/**
 * What becomes of a system with the new device.
 * never: it makes a danger; different: something no longer happens, or newly happens; equal
 * with cores: the same once the missing cores are there; equal: the same with what is there.
 */
export type Verdict = 'equal' | 'equal with cores' | 'different' | 'never';

/** What a link does, seen by leaving the step out. */
export interface LinkProof {
  readonly link: LinkStep;
  readonly hazards: readonly Hazard[];
  readonly differences: Comparison['differences'];
}

/** A condition only the new device has, and what it does to the system. */
export interface NewCondition {
  readonly title: string;
  /** A mode in which it changes something; null where it changes nothing here. */
  readonly mode: string | null;
  readonly effects: ReturnType<typeof effectOf>;
}

/** Old to new at one item: what to do, and proof of what it comes to. */
export interface Replacement {
  readonly plan: Plan;
  /** The system as its entry has it. */
  readonly before: Network;
  /** The system with the new device. */
  readonly changed: After;
  readonly comparison: Comparison;
  /** Dangers of the system with the new device that it did not have before. */
  readonly hazards: readonly Hazard[];
  readonly verdict: Verdict;
  readonly links: readonly LinkProof[];
  readonly newConditions: readonly NewCondition[];
  /** Modes in which the new device's own supply is dead, though the isolator is on. */
  readonly unsupplied: readonly string[];
  /** Empty terminals that go live, with the modes. */
  readonly emptyLive: readonly { readonly terminal: string; readonly modes: readonly string[] }[];
  /** Whether the live sent out on a call is no longer the one that came for it. */
  readonly ownLive: boolean;
  /** Terminals of other items that read otherwise than before. */
  readonly readings: readonly ChangedReading[];
  /** Modes to bring about afterwards, with what must be seen and read. */
  readonly proving: readonly ProvingStep[];
  /** Other items that ask for the same service, in series with what the new device asks. */
  readonly series: readonly string[];
}

const GRAVE: readonly HazardKind[] = [
  'earth live',
  'live when isolated',
  'mains on extra-low',
  'safety bypassed',
  'neutral live',
  'short circuit',
];

/**
 * Plans a replacement and proves it: both circuits are simulated in every mode and under
 * combinations of their conditions.
 * @param before the system as its entry has it, at rest in its modes.
 * @param most combinations of conditions to compare.
 * @throws RangeError for an item the system does not have.
 */
export function studyReplacement(
  before: Simulation,
  item: string,
  newId: string,
  device: Device,
  most = PAGE_COMBINATIONS,
): Replacement {
  const plan = planReplacement(before, item, newId, device);
  return studyPlan(before, plan, most);
}

/** The same for a plan that is given: one of somebody's own, or a wrong one. */
export function studyPlan(before: Simulation, plan: Plan, most = PAGE_COMBINATIONS): Replacement {
  const changed = applyPlan(before.network, plan);
  const after = simulate(changed.network);
  // The same device, wired as before, is the same circuit.
  const comparison = compare(before, after, changed, plan, plan.newId === plan.oldId ? 1 : most);
  const hazards = newHazards(after, before);
  return {
    plan,
    before: before.network,
    changed,
    comparison,
    hazards,
    verdict: verdictOf(plan, comparison, hazards),
    links: plan.links
      .filter(({ act }) => act !== 'not put back')
      .map((link) => proveLink(before, plan, link, most)),
    newConditions: newConditionsOf(after, changed, plan),
    unsupplied: unsuppliedModes(after, plan),
    emptyLive: emptyLive(after, plan),
    ownLive: hasOwnLive(plan),
    readings: changedReadings(before, after, plan.item),
    proving: provingSteps(after, plan.item),
    series: inSeries(after, plan),
  };
}

const knownHazards = new WeakMap<Simulation, ReadonlySet<string>>();

function newHazards(after: Simulation, before: Simulation): Hazard[] {
  const had =
    knownHazards.get(before) ??
    new Set(hazardsOf(before, before).map(({ kind, at }) => `${kind} ${at.join()}`));
  knownHazards.set(before, had);
  return hazardsOf(after, before).filter(({ kind, at }) => !had.has(`${kind} ${at.join()}`));
}

function verdictOf(plan: Plan, { differences }: Comparison, hazards: readonly Hazard[]): Verdict {
  if (hazards.some(({ kind }) => GRAVE.includes(kind))) return 'never';
  if (differences.length > 0 || plan.unserved.length > 0) return 'different';
  return plan.newCable ? 'equal with cores' : 'equal';
}

/** What the system does with this step left out. */
function proveLink(before: Simulation, plan: Plan, link: LinkStep, most: number): LinkProof {
  const links = plan.links.map((step): LinkStep => {
    if (step !== link) return step;
    return { ...step, act: step.act === 'take out' ? 'stays' : 'take out' };
  });
  const without = { ...plan, links };
  const changed = applyPlan(before.network, without);
  const after = simulate(changed.network);
  return {
    link,
    hazards: newHazards(after, before),
    differences: compare(before, after, changed, without, most).differences,
  };
}

function newConditionsOf(after: Simulation, { conditions }: After, plan: Plan): NewCondition[] {
  const known = new Set(conditions.values());
  return Object.entries(plan.device.conditions).flatMap(([name, condition]): NewCondition[] => {
    const id = `${plan.item}.${name}`;
    if (known.has(id)) return [];
    const { usual, otherwise } = condition;
    const title = usual ? (otherwise ?? `Not so: ${condition.title}`) : condition.title;
    for (const mode of after.modes.keys()) {
      if (mode === ISOLATED) continue;
      const effects = effectOf(after, mode, { [id]: !condition.usual }).filter(
        ({ outcome }) => itemOf(outcome) !== plan.item,
      );
      if (effects.length > 0) return [{ title, mode, effects }];
    }
    return [{ title, mode: null, effects: [] }];
  });
}

function deadIn(after: Simulation, point: string): string[] {
  const earth = supplyEarth(after);
  if (earth === null) return [];
  return [...after.modes]
    .filter(([mode]) => mode !== ISOLATED)
    .filter(([, s]) => read(s.solution, point, earth, INSTRUMENTS[0]!).class !== 'live')
    .map(([mode]) => mode);
}

function unsuppliedModes(after: Simulation, { item, device, cores }: Plan): string[] {
  const [supply] = terminalsFor(device, 'supply line');
  const [neutral] = terminalsFor(device, 'supply neutral');
  const core = cores.find(({ now }) => now === `${item}.${supply}`);
  if (!supply || !neutral || !core) return [];
  // Where what it is fed from has lost its own supply, that is not this device's wiring.
  const source = itemOf(core.far);
  const fedFrom = after.network.items.get(source)?.device;
  const [own] = fedFrom ? terminalsFor(fedFrom, 'supply line') : [];
  const lost = own ? deadIn(after, `${source}.${own}`) : [];
  return deadIn(after, `${item}.${supply}`).filter((mode) => !lost.includes(mode));
}

function emptyLive(after: Simulation, { item, empty, device }: Plan) {
  const modes = [...after.modes.keys()].filter((mode) => mode !== ISOLATED);
  return empty
    .filter((terminal) => ['line', 'switched'].includes(device.terminals[terminal]!.carries))
    .map((terminal) => {
      const dead = deadIn(after, `${item}.${terminal}`);
      return { terminal, modes: modes.filter((mode) => !dead.includes(mode)) };
    })
    .filter((found) => found.modes.length > 0);
}

/** A feed of its own lies unused while the call goes out: the call now carries another live. */
function hasOwnLive({ old, homeless }: Plan): boolean {
  return homeless.some((name) =>
    partsOf(old, name).some((part) => part === 'heating feed' || part === 'hot water feed'),
  );
}

function inSeries({ network }: Simulation, { item, old, device }: Plan): string[] {
  if (device.family !== 'receiver' || old.family === 'receiver') return [];
  const asked = new Set(Object.values(device.conditions).map(({ wants }) => wants));
  return [...network.items.values()]
    .filter(
      (other) =>
        other.reference !== item &&
        other.device.family === 'control' &&
        Object.values(other.device.conditions).some(
          ({ wants }) => wants === 'heating' && asked.has(wants),
        ),
    )
    .map(({ reference }) => reference);
}
