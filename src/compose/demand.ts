import { type Holds, isSo } from './rules.ts';
import type { Roles } from './types.ts';

/** What must be seen: ITEM.outcome → whether. An outcome that is not here may be either. */
export type MustBeSeen = ReadonlyMap<string, boolean>;

/** What the demands and interlocks of a system come to, before any kind of boiler looks at it. */
interface Situation {
  readonly isOn: boolean;
  /** Isolator on, and no interlock takes the boiler’s supply. */
  readonly fed: boolean;
  /** Some demand stands whose heat is not stopped on its way. */
  readonly called: boolean;
  readonly boiler: (condition: string) => boolean;
}

/**
 * What each kind of heat source must do, as a person says it who knows no wiring. Written from
 * what the equipment is for: common practice, no source, but for the boiler’s being off without
 * demand (England, Approved Document L).
 */
const HEAT: Readonly<
  Record<
    Roles['kind'],
    (situation: Situation) => { display: boolean; burner: boolean; pump: boolean }
  >
> = {
  'combi boiler': ({ fed, called, boiler }) => {
    const works = fed && (called || boiler('tap open')) && !boiler('locked out');
    return { display: fed, burner: works && !boiler('water hot'), pump: works };
  },
  'system boiler': ({ fed, called, boiler }) => withOverrun(fed, called, boiler),
  'heat-only boiler with pump overrun': ({ fed, called, boiler }) =>
    withOverrun(fed, called, boiler),
  // It has no supply but its call: without one it is dark, and its pump stops with it.
  'heat-only boiler without pump overrun': ({ fed, called, boiler }) => {
    const works = fed && called;
    return {
      display: works,
      burner: works && !boiler('water hot') && !boiler('locked out'),
      pump: works,
    };
  },
};

/** The kinds of heat source that have a demand table, the commonest first. */
export const KINDS: readonly string[] = Object.keys(HEAT);

function withOverrun(fed: boolean, called: boolean, boiler: Situation['boiler']) {
  const works = fed && called && !boiler('locked out');
  return {
    display: fed,
    burner: works && !boiler('water hot'),
    pump: works || (fed && boiler('overrunning')),
  };
}

/**
 * The demand table evaluated: what must be seen under some conditions, whatever the wiring.
 * @param fresh whether the system comes from new. A valve that keeps a position, and a cut-out
 * that has tripped, hang on what was before; then nothing is said of the valve.
 */
export function mustBeSeen(roles: Roles, conditions: Holds, fresh = true): MustBeSeen {
  const isOn = isSo(roles.on, conditions);
  const holds: Holds = (name) => (name === 'supply on' ? isOn : conditions(name));
  const stands = new Map(
    roles.demands.map(({ id, stands, frost }) => [
      id,
      isOn && (isSo(stands, holds) || (frost !== undefined && isSo(frost, holds))),
    ]),
  );
  const open = (what: 'supply' | 'call') =>
    roles.interlocks.some((one) => one.stops === what && isSo(one.open, holds));
  const served = roles.demands.filter(
    ({ id, limit }) => stands.get(id) && !(limit && isSo(limit, holds)),
  );
  // By gravity hot water is the boiler’s whole call: heating takes its heat from that.
  const calling = roles.gravity ? served.filter((one) => one.service === 'hot water') : served;
  const boiler = (condition: string) => holds(`${roles.boiler}.${condition}`);
  const situation = {
    isOn,
    fed: isOn && !open('supply'),
    called: calling.length > 0 && !open('call'),
    boiler,
  };
  const heat = HEAT[roles.kind](situation);
  const seen = new Map<string, boolean>([
    [`${roles.boiler}.display`, heat.display],
    [`${roles.boiler}.burner`, heat.burner],
    [
      roles.pump,
      roles.gravity ? isOn && served.some((one) => one.service === 'heating') : heat.pump,
    ],
  ]);
  for (const { id, valve, runs } of roles.demands) {
    const isServed = served.some((one) => one.id === id);
    if (valve) seen.set(valve, isServed || holds(latchOf(valve)));
    if (runs) seen.set(runs.pump, isServed && !(runs.unless && isSo(runs.unless, holds)));
  }
  if (roles.shared && fresh) shareValve(roles.shared, roles, stands, isOn, holds, seen);
  for (const [outcome, rule] of roles.sees)
    if (!seen.has(outcome)) seen.set(outcome, isSo(rule, holds));
  return seen;
}

/** The condition by which a lever holds a valve open without its motor. */
const latchOf = (open: string): string => `${open.slice(0, open.indexOf('.'))}.latched`;

/** From new a shared valve is at hot water; heating moves it, to both where hot water stands too. */
function shareValve(
  shared: NonNullable<Roles['shared']>,
  { demands }: Roles,
  stands: ReadonlyMap<string, boolean>,
  isOn: boolean,
  holds: Holds,
  seen: Map<string, boolean>,
): void {
  const wanted = (service: string) =>
    demands.some((one) => one.service === service && stands.get(one.id));
  const heating = isOn && wanted('heating');
  const water = wanted('hot water');
  if (!shared.both) {
    // One or the other, hot water first; with neither asked for it may stand anywhere.
    if (water || heating) {
      seen.set(shared['hot water'], water);
      seen.set(shared.heating, !water);
    }
    return;
  }
  seen.set(shared['hot water'], !heating);
  // With a cut-out open the thermostat still asks: where the valve then stands is left open.
  if (demands.some((one) => one.limit && isSo(one.limit, holds))) return;
  seen.set(shared.both, heating && water);
  seen.set(shared.heating, heating && !water);
}
