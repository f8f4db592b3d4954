import type { Cable, Device, Mode, System } from '../../../schemas/index.ts';
import { ISOLATED, splitReference } from '../../../schemas/index.ts';
import { buildNetwork, type Network } from '../../circuit/index.ts';
import type { ColourCode } from '../../published/index.ts';
import { itemOf } from '../points.ts';
import type { Plan } from './plan.ts';

/** Condition of the old device → the new device's for the same; null where it has none. */
export type ConditionMap = ReadonlyMap<string, string | null>;

/** A system with the new device in place, and what became of its modes. */
export interface After {
  readonly network: Network;
  readonly conditions: ConditionMap;
  /** Modes that can no longer be brought about, by id, with the condition that is gone. */
  readonly gone: ReadonlyMap<string, string>;
}

/** The system as the plan leaves it. */
export function applyPlan(network: Network, plan: Plan): After {
  const conditions = mapConditions(plan.item, plan.old, plan.device);
  const { modes, gone } = mapModes(network.system, conditions, plan);
  const system: System = {
    ...network.system,
    items: { ...network.system.items, [plan.item]: itemAfter(network, plan) },
    cables: cablesAfter(network.system, plan),
    links: linksAfter(network.system, plan),
    modes,
  };
  const devices = new Map([...network.items.values()].map((i) => [i.deviceId, i.device]));
  // A rating that an item has of its own stands in its device here already.
  const rated = new Map(
    [...network.items.values()].map((i) => [`${i.deviceId} at ${i.reference}`, i.device]),
  );
  const items = Object.fromEntries(
    Object.entries(system.items).map(([reference, item]) =>
      reference === plan.item
        ? [reference, item]
        : [reference, { ...item, device: `${item.device} at ${reference}` }],
    ),
  );
  const known = new Map([...devices, ...rated, [plan.newId, plan.device]]);
  const built = buildNetwork(network.id, { ...system, items }, known);
  const named = new Map(
    [...built.items].map(([reference, item]) => [
      reference,
      { ...item, deviceId: system.items[reference]!.device },
    ]),
  );
  return { network: { ...built, system, items: named }, conditions, gone };
}

/** The same demand or state under both devices' names for it. */
export function mapConditions(item: string, old: Device, device: Device): ConditionMap {
  const same = (name: string): string | null => {
    const { wants } = old.conditions[name]!;
    const asking = Object.keys(device.conditions).find(
      (other) => wants !== undefined && device.conditions[other]!.wants === wants,
    );
    if (asking) return asking;
    return wants === undefined && Object.hasOwn(device.conditions, name) ? name : null;
  };
  return new Map(
    Object.keys(old.conditions).map((name) => {
      const found = same(name);
      return [`${item}.${name}`, found === null ? null : `${item}.${found}`];
    }),
  );
}

function itemAfter({ system }: Network, { item, newId, device, oldId }: Plan) {
  const before = system.items[item]!;
  const has = (name: string) => Object.hasOwn(device.terminals, name);
  return {
    ...before,
    device: newId,
    ...(newId === oldId ? {} : { title: before.title ?? device.title }),
    labels: Object.fromEntries(Object.entries(before.labels).filter(([name]) => has(name))),
    ratings: Object.fromEntries(
      Object.entries(before.ratings).filter(([name]) => Object.hasOwn(device.elements, name)),
    ),
  };
}

type Cores = Cable['cores'];

function cablesAfter(system: System, plan: Plan): System['cables'] {
  const cables: Record<string, Cable> = { ...system.cables };
  const { newCable } = plan;
  for (const cable of new Set(plan.cores.map((step) => step.cable))) {
    const before = cables[cable];
    const replaced = newCable?.cable === cable;
    const steps = plan.cores.filter((step) => step.cable === cable);
    const cores: Cores = replaced ? {} : { ...before!.cores };
    const spare = new Set<ColourCode>(replaced ? newCable.spare : before!.spare);
    for (const step of steps) {
      spare.delete(step.colour);
      if (step.now === null && step.colour !== 'GNYE') {
        delete cores[step.colour];
        if (before?.kind !== 'fixed lead') spare.add(step.colour);
        continue;
      }
      // A protective conductor stays joined at its other end whatever becomes of this one.
      const near = step.now ?? `${step.cable}.${step.colour}@${step.end + 1}`;
      const ends: [string, string] = step.end === 0 ? [near, step.far] : [step.far, near];
      cores[step.colour] = { ends, sleeve: step.sleeve ?? undefined };
    }
    const base: Cable = replaced
      ? {
          kind: 'flex',
          size: newCable.size as Cable['size'],
          length: newCable.length,
          cores,
          spare: [],
        }
      : before!;
    cables[cable] = { ...base, cores, spare: [...spare] };
  }
  return cables;
}

function linksAfter(system: System, { item, links }: Plan): System['links'] {
  const made = links
    .filter(({ act }) => act === 'add' || act === 'stays')
    .map(({ between: [a, b] }) => ({
      between: [`${item}.${a}`, `${item}.${b}`] as [string, string],
    }));
  const isMade = (pair: readonly [string, string]) =>
    made.some(({ between }) => between.every((end) => pair.includes(end)));
  return [
    ...system.links.filter(({ between }) => itemOf(between[0]) !== item || isMade(between)),
    ...made.filter(
      ({ between }) =>
        !system.links.some((old) => old.between.every((end) => between.includes(end))),
    ),
  ];
}

function mapModes(system: System, conditions: ConditionMap, { item, old, device }: Plan) {
  const gone = new Map<string, string>();
  const modes: Record<string, Mode> = {};
  for (const [id, mode] of Object.entries(system.modes)) {
    const given: Record<string, boolean> = {};
    for (const [name, value] of Object.entries(mode.conditions)) {
      const to = conditions.has(name) ? conditions.get(name) : name;
      if (to) given[to] = value;
      else if (id !== ISOLATED && value !== old.conditions[splitReference(name)[1]]!.usual)
        gone.set(id, name);
    }
    modes[id] = {
      ...mode,
      conditions: given,
      expect: Object.fromEntries(
        Object.entries(mode.expect).filter(
          ([outcome]) =>
            itemOf(outcome) !== item || Object.hasOwn(device.outcomes, splitReference(outcome)[1]),
        ),
      ),
    };
  }
  for (let found = true; found; ) {
    found = false;
    for (const [id, { after }] of Object.entries(modes)) {
      if (after === undefined || gone.has(id) || !gone.has(after)) continue;
      gone.set(id, gone.get(after)!);
      found = true;
    }
  }
  for (const id of gone.keys()) delete modes[id];
  return { modes, gone };
}
