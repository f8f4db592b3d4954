import type { Choice, Service, Specification } from '../../src/compose/index.ts';

/** One choice on each axis, by name. */
export interface Combination {
  readonly heat: string;
  readonly hydraulics: string;
  readonly controls: string;
  readonly condensate: string;
  readonly frost: string;
}
type Axis = keyof Combination;

interface Heat {
  readonly heat: string;
  readonly pump?: Choice;
  readonly relay?: true;
  /** Heats water without a cylinder. */
  readonly combi?: true;
  /** Its call is a pair of extra-low voltage. */
  readonly low?: true;
  /** Its pump runs with the call. */
  readonly byCall?: true;
}

const HEAT: Readonly<Record<string, Heat>> = {
  'combi, mains call': { heat: 'combi-mains-call', combi: true },
  'combi, mains call by relay': { heat: 'combi-mains-call', combi: true, relay: true },
  'combi, switched live': { heat: 'combi-switched-live', combi: true },
  'combi, volt-free': { heat: 'combi-volt-free', combi: true, low: true },
  'combi, volt-free by relay': { heat: 'combi-volt-free', combi: true, low: true, relay: true },
  'system boiler': { heat: 'system-boiler' },
  'system boiler, volt-free': { heat: 'system-boiler-volt-free', low: true },
  'system boiler, volt-free by relay': { heat: 'system-boiler-volt-free', low: true, relay: true },
  'heat-only with overrun': { heat: 'heat-only-overrun', pump: 'circulating-pump' },
  'heat-only without overrun': {
    heat: 'heat-only-no-overrun',
    pump: 'circulating-pump',
    byCall: true,
  },
};

interface Hydraulics {
  readonly zones: number;
  readonly valve?: Choice;
  readonly shared?: Choice;
  readonly cylinder?: 'vented' | 'unvented';
  /** Hot water goes round by itself, its stat in the boiler’s call. */
  readonly gravity?: true;
  /** A valve in the way of the hot water alone. */
  readonly waterValve?: Choice;
}

const TWO_PORT = 'two-port-valve';
const HYDRAULICS: Readonly<Record<string, Hydraulics>> = {
  'no valve': { zones: 1 },
  'one zone': { zones: 1, valve: TWO_PORT },
  'two zones': { zones: 2, valve: TWO_PORT },
  'two zones, no end switches': { zones: 2, valve: 'two-port-valve-no-switch' },
  'three zones': { zones: 3, valve: TWO_PORT },
  'zone and cylinder': { zones: 1, valve: TWO_PORT, cylinder: 'vented' },
  'zone and unvented cylinder': { zones: 1, valve: TWO_PORT, cylinder: 'unvented' },
  'two zones and unvented cylinder': { zones: 2, valve: TWO_PORT, cylinder: 'unvented' },
  'mid-position': { zones: 1, shared: 'mid-position-valve', cylinder: 'vented' },
  'mid-position, cut-out': { zones: 1, shared: 'mid-position-valve', cylinder: 'unvented' },
  underfloor: { zones: 1, valve: 'underfloor-manifold' },
  gravity: { zones: 1, cylinder: 'vented', gravity: true },
  'gravity, valve': { zones: 1, cylinder: 'vented', gravity: true, waterValve: TWO_PORT },
  diverter: { zones: 1, shared: 'diverter-valve', cylinder: 'vented' },
};

interface Controls {
  readonly time?: Choice;
  readonly zone: readonly Choice[];
  readonly cylinder?: readonly Choice[];
  /** Its contact is made for extra-low voltage. */
  readonly low?: true;
}

const STAT = ['cylinder-stat'];
const CONTROLS: Readonly<Record<string, Controls>> = {
  'two-wire stat': { zone: ['room-stat-two-wire'], cylinder: STAT },
  'wired stat': { zone: ['room-stat-wired'], cylinder: STAT },
  'three-wire stat': { zone: ['room-stat-mains'], cylinder: STAT },
  'volt-free stat': { zone: ['room-stat-volt-free'], cylinder: STAT, low: true },
  receiver: { zone: ['wireless-receiver'], cylinder: STAT },
  'receiver, mains-switched': { zone: ['receiver-mains-switched'], cylinder: STAT },
  'receiver, extra-low': { zone: ['receiver-extra-low'], cylinder: STAT, low: true },
  'time switch and wired stat': { time: 'time-switch', zone: ['room-stat-wired'], cylinder: STAT },
  'programmer and wired stat': { time: 'programmer', zone: ['room-stat-wired'], cylinder: STAT },
  'programmer and receiver': { time: 'programmer', zone: ['wireless-receiver'], cylinder: STAT },
  'programmer and three-wire stat': {
    time: 'programmer',
    zone: ['room-stat-mains'],
    cylinder: STAT,
  },
  'two-channel receiver': { time: 'receiver-two-channel', zone: [], cylinder: STAT },
  'two-channel receiver, mains': { time: 'receiver-two-channel-mains', zone: [], cylinder: STAT },
};

const VARIANTS: Readonly<Record<string, Choice | undefined>> = {
  none: undefined,
  'in supply': { module: 'condensate-pump', variant: 'in supply' },
  'in call': { module: 'condensate-pump', variant: 'in call' },
};
const FROST: Readonly<Record<string, Choice | undefined>> = {
  none: undefined,
  'from the live': { module: 'frost-pair', variant: 'fed from the live' },
  'from the live to stat': { module: 'frost-pair', variant: 'fed from the live to stat' },
};

/** Every choice of every axis. */
export const AXES: Readonly<Record<Axis, readonly string[]>> = {
  heat: Object.keys(HEAT),
  hydraulics: Object.keys(HYDRAULICS),
  controls: Object.keys(CONTROLS),
  condensate: Object.keys(VARIANTS),
  frost: Object.keys(FROST),
};

/**
 * Whether anybody would ask for it: no cylinder on a combi; no contact for extra-low voltage
 * where the boiler has none; hot water by gravity with a pump that the boiler does not drive;
 * no frost pair on a live to stat that is not there. A third zone is as the second, so frost is
 * tried with two.
 */
function isAsked({ heat, hydraulics, controls, frost }: Combination): boolean {
  const { combi, low, relay, byCall } = HEAT[heat]!;
  const { cylinder, gravity, zones } = HYDRAULICS[hydraulics]!;
  if (zones > 2 && FROST[frost]) return false;
  if (combi && cylinder) return false;
  if (gravity && !byCall) return false;
  if (frost === 'from the live to stat' && !sendsLive(HEAT[heat]!)) return false;
  return !CONTROLS[controls]!.low || (low === true && !relay);
}

/** A live out to the stat: of a mains call, or one side of a pair, where no relay ends the call. */
const sendsLive = ({ heat, low, relay }: Heat): boolean =>
  !relay && (low === true || heat === 'combi-mains-call');

/** Every combination that is asked for. */
export function combinations(): Combination[] {
  const all = AXES.heat.flatMap((heat) =>
    AXES.hydraulics.flatMap((hydraulics) =>
      AXES.controls.flatMap((controls) =>
        AXES.condensate.flatMap((condensate) =>
          AXES.frost.map((frost) => ({ heat, hydraulics, controls, condensate, frost })),
        ),
      ),
    ),
  );
  return all.filter(isAsked);
}

/** Combinations in which any two choices that go together stand together at least once. */
export function pairwise(all: readonly Combination[] = combinations()): Combination[] {
  const axes = Object.keys(AXES) as Axis[];
  const pairsOf = (one: Combination) =>
    axes.flatMap((a, i) => axes.slice(i + 1).map((b) => `${a}=${one[a]}; ${b}=${one[b]}`));
  const open = new Set(all.flatMap(pairsOf));
  const chosen: Combination[] = [];
  for (const most of [10, 8, 6, 4, 2, 1])
    for (const one of all) {
      if (pairsOf(one).filter((pair) => open.has(pair)).length < most) continue;
      chosen.push(one);
      for (const pair of pairsOf(one)) open.delete(pair);
    }
  return chosen;
}

/** What a combination asks the composer for. */
export function specificationOf(combination: Combination): Specification {
  const { heat, pump, relay } = HEAT[combination.heat]!;
  const { zones, valve, shared, cylinder, gravity, waterValve } =
    HYDRAULICS[combination.hydraulics]!;
  const { time, zone, cylinder: stat } = CONTROLS[combination.controls]!;
  const ownValve = valve ? { valve } : {};
  const heating: Service[] = Array.from({ length: zones }, () => ({ controls: zone, ...ownValve }));
  const additions = [
    ...(relay ? ['interface-relay'] : []),
    VARIANTS[combination.condensate],
    FROST[combination.frost],
  ].filter((one): one is Choice => one !== undefined);
  return {
    heat,
    ...(pump ? { pump } : {}),
    ...(time ? { time } : {}),
    ...(shared ? { valve: shared } : {}),
    ...(gravity ? { gravity } : {}),
    heating,
    ...(cylinder
      ? {
          hotWater: {
            controls: stat!,
            ...ownValve,
            ...(waterValve ? { valve: waterValve } : {}),
            ...(cylinder === 'unvented' ? { limit: 'overheat-cut-out' } : {}),
          },
        }
      : {}),
    additions,
  };
}

export const nameOf = (one: Combination): string => Object.values(one).join(' · ');
