import type { Mode, System } from '../../schemas/index.ts';
import { capital, lowerFirst } from '../words/index.ts';
import { mustBeSeen } from './demand.ts';
import { type Arrangement, type Placed, type PlacedService, refer } from './placed.ts';
import { toSet } from './rules.ts';
import type { Catalogue, Roles } from './types.ts';

type Conditions = Readonly<Record<string, boolean>>;

const AND = new Intl.ListFormat('en-GB');

/** A mode before its expectations. */
type Draft = Omit<Mode, 'expect'>;

/** Every mode of a system, each with what the demand table says must be seen in it. */
export function modesOf(
  arrangement: Arrangement,
  roles: Roles,
  catalogue: Catalogue,
): System['modes'] {
  const usual = usualConditions(arrangement, catalogue);
  const modes: Record<string, Mode> = {};
  const add = (id: string, { minutes = 2, testable = true, ...draft }: Partial<Draft>) => {
    const conditions = draft.conditions ?? {};
    const holds = (name: string) => conditions[name] ?? usual.get(name) ?? false;
    const fresh = draft.after === undefined;
    const expect = Object.fromEntries(mustBeSeen(roles, holds, fresh));
    modes[id] = { title: id, minutes, testable, ...draft, conditions, expect };
  };
  const { demands } = roles;
  const asked = Object.fromEntries(demands.map((d) => [d.id, setAll(toSet(d.stands), usual)]));
  const everything: Conditions = Object.assign({}, ...Object.values(asked));
  const clocks = setAll(
    demands.flatMap(({ clock }) => (clock ? toSet(clock) : [])),
    usual,
  );
  add('standby', { title: 'Nothing calling', bring: bring(arrangement, []), conditions: {} });
  const { services } = arrangement;
  const heating = services.filter(({ service }) => service === 'heating');
  /** Circuits called together: `heating 1 and heating 2`. */
  const call = (id: string, title: string, those: readonly PlacedService[]) => {
    const ids = those.map((one) => one.id);
    const conditions = Object.assign({}, ...ids.map((one) => asked[one]));
    add(id, { title: capital(title), bring: bring(arrangement, ids), conditions });
  };
  for (const one of services)
    call(modeOf(one), `${one.name} ${demands.length > 1 ? 'only' : 'call'}`, [one]);
  // What is told of heating is told of all of its circuits, with no hot water called.
  if (heating.length > 1) call('heating', AND.format(heating.map(({ name }) => name)), heating);
  const hasBoth = heating.length > 0 && heating.length < services.length;
  if (hasBoth) {
    const title = AND.format(services.map(({ name }) => name));
    call('both', services.length > 2 ? 'everything called' : title, services);
  }
  const all = hasBoth ? 'both' : heating.length > 0 ? 'heating' : modeOf(services[0]!);
  if (Object.keys(clocks).length > 0)
    add('satisfied', {
      title: 'Satisfied',
      conditions: clocks,
      bring: bring(arrangement, [], true),
    });
  for (const placed of arrangement.all)
    for (const [id, state] of Object.entries(placed.module.states)) {
      const { over, set, unset, title, summary, bring: how, minutes, testable, readings } = state;
      if (Object.hasOwn(modes, id)) continue;
      const base = over === 'a call' ? asked[callOf(placed, arrangement) ?? demands[0]!.id]! : {};
      add(id, {
        title,
        ...(summary ? { summary } : {}),
        ...(how ? { bring: how } : {}),
        ...(over === 'a call that has ended' ? { after: all } : {}),
        minutes,
        testable,
        ...(readings ? { readings } : {}),
        conditions: {
          ...base,
          ...(over === 'a call that has ended' ? clocks : {}),
          ...Object.fromEntries(set.map((name) => [refer(placed, name), true])),
          ...Object.fromEntries(unset.map((name) => [refer(placed, name), false])),
        },
      });
    }
  const off = refer(arrangement.isolator, toSet(arrangement.isolator.module.open!)[0]!);
  add('isolated', {
    title: 'Isolator off',
    bring:
      'Leave everything calling, switch the fused spur off, lock it off, and prove dead with a tester proved before and after.',
    minutes: 4,
    conditions: { [off]: true, ...everything },
  });
  return modes;
}

/** The mode in which one circuit alone calls. */
const modeOf = ({ name }: PlacedService): string => name.replace(' ', '-');

/** The demand that a control belongs to; undefined for what serves none of its own. */
const callOf = (placed: Placed, { services }: Arrangement): string | undefined =>
  services.find(({ controls, limit }) => controls.includes(placed) || limit === placed)?.id;

const setAll = (names: readonly string[], usual: ReadonlyMap<string, boolean>): Conditions =>
  Object.fromEntries(names.flatMap((name) => (usual.get(name) ? [] : [[name, true]])));

/** Every condition as it usually is. */
export function usualConditions(
  { all }: Pick<Arrangement, 'all'>,
  { devices }: Catalogue,
): ReadonlyMap<string, boolean> {
  return new Map(
    all.flatMap(({ module, references }) =>
      [...references].flatMap(([item, reference]) =>
        Object.entries(devices.get(module.items[item]!.device)!.conditions).map(
          ([name, { usual }]) => [`${reference}.${name}`, usual] as const,
        ),
      ),
    ),
  );
}

/** What is done at clock and controls, so that these demands stand and the others do not. */
function bring(
  { time, services }: Arrangement,
  calling: readonly string[],
  clocksOn = false,
): string {
  const kinds = new Set(services.filter(({ id }) => calling.includes(id)).map((s) => s.service));
  const atClock = time
    ? (['heating', 'hot water'] as const).flatMap((service) => {
        const how = time.module.bring[service];
        if (!how || !services.some((one) => one.service === service)) return [];
        return [clocksOn || kinds.has(service) ? how.on : how.off];
      })
    : [];
  const acts = services.flatMap(({ id, controls }) =>
    controls.flatMap(({ module, references: [first] }) => {
      const how = module.bring.call;
      return how && first ? [[calling.includes(id) ? how.on : how.off, first[1]] as const] : [];
    }),
  );
  // Circuits of heating have like controls: which of them is turned is said by reference.
  const isOneOfSeveral = services.filter(({ service }) => service === 'heating').length > 1;
  const atControls = [...Map.groupBy(acts, ([how]) => how)].map(([how, of]) =>
    isOneOfSeveral
      ? `${of.map(([, reference]) => reference).join(' and ')}: ${lowerFirst(how)}`
      : how,
  );
  const wait =
    calling.length > 0
      ? "Allow for the boiler's anti-cycle pause, some minutes."
      : 'Wait for any overrun to end; 15 minutes at most.';
  return [...new Set([...atClock, ...atControls, wait])].join(' ');
}
