import { expect } from 'vitest';
import { conditionsOf, INSTRUMENTS, read, settleMode } from '../../src/circuit/index.ts';
import {
  type Choice,
  type Composed,
  compose,
  type Specification,
} from '../../src/compose/index.ts';
import { catalogue, networkOf } from './catalogue.ts';

export const pumpIn = (variant: string): Choice => ({ module: 'condensate-pump', variant });

/** An arrangement with some of its parts given, a plain one otherwise. */
export function having({
  heat = 'combi-mains-call',
  control,
  time,
  additions = [],
}: {
  heat?: string;
  control?: string;
  time?: string;
  additions?: Choice[];
}): Specification {
  const isLow = /volt-free/.test(heat);
  const usual = isLow ? 'room-stat-volt-free' : 'room-stat-two-wire';
  const controls = control === undefined ? (time ? [] : [usual]) : [control];
  return {
    heat,
    ...(/^heat-only/.test(heat) ? { pump: 'circulating-pump' } : {}),
    ...(time ? { time } : {}),
    heating: [{ controls, ...(/^combi/.test(heat) ? {} : { valve: 'two-port-valve' }) }],
    additions,
  };
}

/** What is seen under the conditions of a mode and some more, by what the outcome is called. */
export function seenIn(
  specification: Specification,
  mode: string,
  more: readonly string[] = [],
  without: readonly string[] = [],
) {
  const composed = compose(specification, catalogue());
  const network = networkOf('pair', composed);
  const all = [...conditionsOf(network, {}).keys()];
  const named = more.map((name) => all.find((id) => id.endsWith(`.${name}`))!);
  expect(named).not.toContain(undefined);
  const conditions = {
    ...composed.system.modes[mode]!.conditions,
    ...Object.fromEntries(named.map((id) => [id, true])),
  };
  const away = without.flatMap((name) =>
    Object.keys(conditions).filter((id) => conditions[id] && id.endsWith(`.${name}`)),
  );
  expect(away.length > 0).toBe(without.length > 0);
  for (const id of away) conditions[id] = false;
  const { outcomes, solution } = settleMode(network, mode, conditions);
  const itemOf = (device: string | RegExp) =>
    [...network.items].find(([, { deviceId }]) =>
      typeof device === 'string' ? deviceId.startsWith(device) : device.test(deviceId),
    )?.[0];
  const ofDevice = (device: string | RegExp, outcome: RegExp) => {
    const item = itemOf(device);
    const found = [...outcomes].find(([id]) => id.startsWith(`${item}.`) && outcome.test(id));
    return found?.[1];
  };
  const boiler = composed.roles.boiler;
  return {
    notes: composed.system.notes,
    system: composed.system,
    itemOf,
    /** What the two-pole tester shows from a terminal to earth. */
    mains: (terminal: string) => read(solution, terminal, 'F1.E', INSTRUMENTS[0]!).class,
    display: outcomes.get(`${boiler}.display`),
    burner: outcomes.get(`${boiler}.burner`),
    ofDevice,
    pump: ofDevice('condensate-pump', /running$/),
    valves: [...outcomes].filter(([id]) => /^Q\d+\.open$/.test(id)).map(([, so]) => so),
  };
}
/** Cables whose cores end at a terminal. */
export const coresAt = ({ cables }: Composed['system'], terminal: string): string[] =>
  Object.entries(cables).flatMap(([cable, { cores }]) =>
    Object.values(cores).some((core) => core!.ends.includes(terminal)) ? [cable] : [],
  );

export const withManifold = (heat: string): Specification => ({
  ...having({ heat }),
  heating: [{ controls: ['room-stat-mains'], valve: 'underfloor-manifold' }],
});

export const says = (notes: readonly string[], words: string) =>
  notes.some((one) => one.includes(words));
