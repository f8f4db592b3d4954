import type { Module } from '../../schemas/index.ts';
import { type Catalogue, type Choice, Refusal, type Rule, type Specification } from './types.ts';

type Slot = Module['slot'];
type Variant = Module['variants'][string];
type Wired = Module['items'][string]['wired'];

/** A module in a system: its items with their reference designations. */
export interface Placed {
  readonly id: string;
  readonly module: Module;
  readonly variant: Variant | undefined;
  readonly variantName: string | undefined;
  /** Item of the module → reference, `pump` → `M1`. */
  readonly references: ReadonlyMap<string, string>;
}

/** A circuit of heating or hot water with its modules. */
export interface PlacedService {
  readonly id: string;
  readonly service: 'heating' | 'hot water';
  /** `heating`, `heating 2`, `hot water`: begins the names of its nets. */
  readonly name: string;
  readonly controls: readonly Placed[];
  readonly limit?: Placed;
  readonly valve?: Placed;
}

/** Every module of a system, in the order in which references are given. */
export interface Arrangement {
  readonly supply: Placed;
  readonly isolator: Placed;
  readonly heat: Placed;
  readonly time?: Placed;
  readonly services: readonly PlacedService[];
  readonly shared?: Placed;
  readonly pump?: Placed;
  readonly gravity: boolean;
  readonly additions: readonly Placed[];
  readonly all: readonly Placed[];
}

/** ITEM.terminal of a module as ITEM.terminal of the system. */
export function refer({ references }: Placed, inModule: string): string {
  const dot = inModule.indexOf('.');
  return `${references.get(inModule.slice(0, dot))}${inModule.slice(dot)}`;
}

/** A module's rule with the system's references. */
export function ruleOf(placed: Placed, rule: Rule): Rule {
  if (typeof rule === 'string') return rule === 'supply on' ? rule : refer(placed, rule);
  if ('not' in rule) return { not: ruleOf(placed, rule.not) };
  if ('all' in rule) return { all: rule.all.map((one) => ruleOf(placed, one)) };
  return { any: rule.any.map((one) => ruleOf(placed, one)) };
}

/** Where an item of a module is wired, if module or variant say. */
export const wiredOf = ({ module, variant }: Placed, item: string): Wired =>
  variant?.wired?.[item] ?? module.items[item]!.wired;

/**
 * Takes the modules that a specification names and gives their items references.
 * @throws Refusal for a name that is not there.
 */
export function arrange(specification: Specification, catalogue: Catalogue): Arrangement {
  const next = new Map<string, number>();
  const all: Placed[] = [];
  const place = (slot: Slot, choice: Choice): Placed => {
    const id = typeof choice === 'string' ? choice : choice.module;
    const module = catalogue.modules.get(id);
    if (module?.slot !== slot) throw new Refusal('no such module', id);
    const variantName =
      typeof choice === 'string' ? Object.keys(module.variants)[0] : choice.variant;
    const variant = variantName === undefined ? undefined : module.variants[variantName];
    if (variantName !== undefined && !variant) throw new Refusal('no such variant', variantName);
    const references = new Map(
      Object.entries(module.items).map(([item, { device }]) => {
        const letter = catalogue.devices.get(device)?.letter;
        if (!letter) throw new Refusal('no such module', `${id}, ${device}`);
        const number = (next.get(letter) ?? 0) + 1;
        next.set(letter, number);
        return [item, `${letter}${number}`] as const;
      }),
    );
    const placed = { id, module, variant, variantName, references };
    all.push(placed);
    return placed;
  };
  const given = (slot: Slot, choice: Choice | undefined) =>
    choice === undefined ? undefined : place(slot, choice);

  const supply = place('supply', specification.supply ?? 'supply-circuit');
  const isolator = place('isolator', specification.isolator ?? 'fused-spur');
  const heat = place('heat', specification.heat);
  const time = given('time', specification.time);
  const zones = specification.heating.map((zone, i) => ({
    service: 'heating' as const,
    name: specification.heating.length > 1 ? `heating ${i + 1}` : 'heating',
    id: i === 0 ? 'heating' : `heating-${i + 1}`,
    zone,
  }));
  const water = specification.hotWater
    ? [
        {
          service: 'hot water' as const,
          name: 'hot water',
          id: 'hot-water',
          zone: specification.hotWater,
        },
      ]
    : [];
  const asking = [...zones, ...water].map(({ zone, ...about }) => ({
    ...about,
    zone,
    controls: (zone.controls ?? []).map((choice) => place('control', choice)),
  }));
  const limited = asking.map((one) => ({ ...one, limit: given('limit', one.zone.limit) }));
  const services = limited.map(({ zone, limit, ...one }): PlacedService => {
    const valve = given('valve', zone.valve);
    return { ...one, ...(limit ? { limit } : {}), ...(valve ? { valve } : {}) };
  });
  const shared = given('valve', specification.valve);
  const pump = given('pump', specification.pump);
  const additions = (specification.additions ?? []).map((choice) => place('addition', choice));
  return {
    supply,
    isolator,
    heat,
    ...(time ? { time } : {}),
    services,
    ...(shared ? { shared } : {}),
    ...(pump ? { pump } : {}),
    gravity: specification.gravity ?? false,
    additions,
    all,
  };
}
