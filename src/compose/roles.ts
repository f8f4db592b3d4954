import type { Module } from '../../schemas/index.ts';
import { type Arrangement, type Placed, refer, ruleOf } from './placed.ts';
import type { Demand, Roles, Rule } from './types.ts';

/** What plays which role, taken from the modules’ own words and from no wiring. */
export function rolesOf(arrangement: Arrangement): Roles {
  const { heat, isolator, supply, pump, additions, shared, all } = arrangement;
  const boiler = [...heat.references.values()][0]!;
  const frost = additions.find(({ module }) => module.parallel);
  const demands = arrangement.services.map((service): Demand => {
    const { id, controls, limit, valve } = service;
    const clock = arrangement.time && standsOf(arrangement.time, service.service);
    const rules = [
      ...(clock === undefined ? [] : [clock]),
      ...controls.map((control) => standsOf(control, 'call', service.service)),
    ];
    return {
      id,
      service: service.service,
      stands: rules.length === 1 ? rules[0]! : { all: rules },
      ...(clock === undefined ? {} : { clock }),
      ...(frost && id === 'heating' ? { frost: standsOf(frost, 'call') } : {}),
      ...(limit ? { limit: ruleOf(limit, limit.module.open!) } : {}),
      ...(valve ? ofValve(valve) : {}),
    };
  });
  const sees = all.flatMap((placed) =>
    Object.entries(placed.module.sees).map(
      ([outcome, rule]) => [refer(placed, outcome), ruleOf(placed, rule)] as const,
    ),
  );
  const off = [supply, isolator].flatMap(({ module, references }) =>
    module.open ? [ruleOf({ module, references } as Placed, module.open)] : [],
  );
  return {
    kind: heat.module.kind!,
    boiler,
    pump: pump ? `${[...pump.references.values()][0]}.running` : `${boiler}.pump`,
    ...(arrangement.gravity ? { gravity: true } : {}),
    on: { not: { any: off } },
    demands,
    ...(shared ? { shared: positionsOf(shared) } : {}),
    interlocks: additions.flatMap((addition) => {
      const { open, through } = addition.module;
      const { stops } = addition.variant ?? {};
      return open && through ? [{ open: ruleOf(addition, open), ...(stops ? { stops } : {}) }] : [];
    }),
    sees: new Map(sees),
  };
}

function standsOf(placed: Placed, ...services: (keyof Module['stands'])[]): Rule {
  const rule = services.map((service) => placed.module.stands[service]).find(Boolean);
  return ruleOf(placed, rule!);
}

/** How the valve of a circuit is seen open, and the pump that runs with it. */
function ofValve(valve: Placed): Pick<Demand, 'valve' | 'runs'> {
  const { valve: about, open } = valve.module;
  const [first] = valve.references.keys();
  const unless = open ? { unless: ruleOf(valve, open) } : {};
  return {
    valve: refer(valve, about?.shows ?? `${first}.open`),
    ...(about?.runs ? { runs: { pump: refer(valve, about.runs), ...unless } } : {}),
  };
}

function positionsOf(shared: Placed): NonNullable<Roles['shared']> {
  const { positions } = shared.module.shared!;
  return {
    'hot water': refer(shared, positions['hot water']),
    ...(positions.both ? { both: refer(shared, positions.both) } : {}),
    heating: refer(shared, positions.heating),
  };
}
