import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { canShow, type Sign } from '../../schemas/index.ts';
import {
  atRest,
  type Network,
  type Seen,
  type Simulation,
  settleMode,
  simulateAsFound,
} from '../../src/circuit/index.ts';
import { causesIn, type Fault, type SystemCauses } from '../../src/diagnosis/index.ts';
import { checkEntries } from '../../src/entries/index.ts';
import { shippedSystems } from '../support/shipped.ts';

const { entries, problems } = checkEntries(
  fileURLToPath(new URL('../../content', import.meta.url)),
);
const systems = shippedSystems();
const soundOf = (id: string) => systems.find((s) => s.simulation.network.id === id)!.simulation;

const causes = new Map(
  [...entries.symptoms].map(
    ([id, { data }]) => [id, systems.flatMap((system) => causesIn(data, system) ?? [])] as const,
  ),
);
const ids = [...entries.symptoms.keys()];

function inSystem(symptom: string, system: string): SystemCauses {
  const found = causes.get(symptom)?.find((one) => one.system === system);
  if (!found) throw new RangeError(`${system} cannot show ${symptom}`);
  return found;
}

/** What is seen of a circuit: outcomes by mode, and items whose fuse is gone. */
interface Look {
  readonly outcomes: ReadonlyMap<string, ReadonlyMap<string, Seen>>;
  readonly fuseGone: ReadonlySet<string>;
}

function lookAt({ network, modes }: Simulation): Look {
  const blown = [...modes.values()].flatMap(({ state }) => [...state.blown]);
  // A fuse that is open from the first stands in the circuit as no element any more.
  const gone = network.branches.flatMap(({ id, kind }) =>
    id.endsWith('fuse') && kind !== 'element' ? [id] : [],
  );
  return {
    outcomes: new Map([...modes].map(([mode, { outcomes }]) => [mode, outcomes])),
    fuseGone: new Set([...blown, ...gone].filter((id) => id.endsWith('fuse')).map(itemOfBranch)),
  };
}

const itemOfBranch = (id: string) => id.slice(0, id.indexOf('/'));

const looks = new Map<string, Look>();
/** What is seen with a fault, simulated once. */
function lookWith(system: string, fault: Fault): Look {
  const key = `${system} ${fault.id}`;
  const known = looks.get(key) ?? lookAt(simulateAsFound(fault.circuit()));
  looks.set(key, known);
  return known;
}

/** Whether a look shows a sign, asked of the outcomes and fuses themselves. */
function shows({ outcomes, fuseGone }: Look, { items }: Network, sign: Sign): boolean {
  const about = [...items].filter(
    ([, { deviceId, device }]) =>
      device.family === sign.family &&
      (!sign.devices || [deviceId, device.extends ?? ''].some((id) => sign.devices?.includes(id))),
  );
  if ('fuse' in sign) return about.some(([item]) => fuseGone.has(item));
  const wanted = sign.is === 'comes and goes' ? 'hunting' : sign.is;
  const isSo = ([item]: (typeof about)[number]) =>
    sign.modes.every((mode) => outcomes.get(mode)?.get(`${item}.${sign.outcome}`) === wanted);
  const able = about.filter(([, { device }]) => Object.hasOwn(device.outcomes, sign.outcome));
  return sign.any ? able.some(isSo) : able.every(isSo);
}

/** Whether a look shows a symptom in any of the ways kept for its system. */
const showsSymptom = (look: Look, { system, appearances }: SystemCauses, id: string) =>
  appearances.some((index) =>
    entries.symptoms
      .get(id)!
      .data.shows[index]!.signs.every((sign) => shows(look, soundOf(system).network, sign)),
  );

describe('every shipped symptom', () => {
  it('comes from content without a problem', () => {
    expect(problems).toEqual([]);
    expect(ids.length).toBeGreaterThan(17);
  });

  it.each(ids)('has causes in some system, or no circuit shows it: %s', (id) => {
    const { shows: ways, checks } = entries.symptoms.get(id)!.data;
    if (ways.length === 0) {
      expect(checks.length).toBeGreaterThan(3);
      expect(causes.get(id)).toEqual([]);
      return;
    }
    const found = causes.get(id)!.filter((c) => c.groups.length + c.noFaults.length > 0);
    expect(found.length).toBeGreaterThan(0);
  });

  it('is there where one of two stats shows it, if it says any', () => {
    const [first] = inSystem('control-display-blank', 'combi-two-zones').groups;
    const likeliest = inSystem('control-display-blank', 'combi-two-zones').groups.slice(0, 2);
    expect(first!.share).toBeGreaterThan(10);
    expect(likeliest.map(({ faults }) => faults[0]!.title).toSorted()).toEqual([
      'Room stat B1: electronics failed',
      'Room stat B2: electronics failed',
    ]);
  });

  it.each(ids)('is shown by no sound system in the ways kept: %s', (id) => {
    for (const one of causes.get(id)!) {
      expect(showsSymptom(lookAt(soundOf(one.system)), one, id), one.system).toBe(false);
    }
  });

  it.each(ids)('is really shown by each of its causes: %s', (id) => {
    for (const one of causes.get(id)!) {
      for (const fault of one.groups.flatMap(({ faults }) => faults)) {
        const look = lookWith(one.system, fault);
        expect(showsSymptom(look, one, id), `${one.system} ${fault.id}`).toBe(true);
      }
    }
  });

  it.each(ids)('is shown by no other fault: %s', (id) => {
    for (const one of causes.get(id)!) {
      const named = new Set(one.groups.flatMap(({ faults }) => faults.map((fault) => fault.id)));
      const { signatures } = systems.find((s) => s.simulation.network.id === one.system)!;
      for (const { fault } of signatures.faults.filter((f) => !named.has(f.fault.id))) {
        const look = lookWith(one.system, fault);
        expect(showsSymptom(look, one, id), `${one.system} ${fault.id}`).toBe(false);
      }
    }
  });

  it.each(ids)('leaves out only systems that cannot show it: %s', (id) => {
    const { shows: ways } = entries.symptoms.get(id)!.data;
    const able = systems.filter(({ simulation: { network } }) =>
      ways.some(({ signs }) =>
        signs.every((sign) => canShow(sign, itemsOf(network), network.system.modes)),
      ),
    );
    expect(causes.get(id)!.map(({ system }) => system)).toEqual(
      able.map(({ simulation }) => simulation.network.id),
    );
  });
});

const itemsOf = (network: Network) =>
  [...network.items].map(([item, { deviceId, device }]) => ({ item, deviceId, device }));

describe('a list of causes', () => {
  const all = [...causes.values()].flat();

  it('shares out a hundred per cent, likeliest repair first, each repair once', () => {
    for (const { groups } of all.filter((one) => one.groups.length > 0)) {
      const shares = groups.map(({ share }) => share);
      expect(shares.reduce((a, b) => a + b)).toBeCloseTo(100, 9);
      expect(shares).toEqual(shares.toSorted((a, b) => b - a));
      expect(new Set(groups.map(({ repairKey }) => repairKey)).size).toBe(groups.length);
    }
  });

  it('ranks the faults of a repair by weight, and states the likeliest one’s repair', () => {
    for (const { faults, repair } of all.flatMap(({ groups }) => groups)) {
      const weights = faults.map(({ weight }) => weight);
      expect(weights).toEqual(weights.toSorted((a, b) => b - a));
      expect(repair).toBe(faults[0]!.repair);
    }
  });

  it('puts safeguards first among what is no fault', () => {
    for (const { noFaults } of all) {
      const marks = noFaults.map(({ safeguard }) => safeguard);
      expect(marks).toEqual(marks.toSorted((a, b) => Number(b) - Number(a)));
    }
  });

  it('names no condition that the modes of its signs set themselves', () => {
    const own = inSystem('no-heating-hot-water-works', 'combi-two-wire').noFaults;
    expect(own.map(({ id }) => id)).not.toContain('B1.calling');
    expect(own.map(({ id }) => id)).not.toContain('E1.tap open');
  });
});

describe('what is no fault', () => {
  it('makes the sound circuit show the symptom: each condition alone', () => {
    let proved = 0;
    for (const [id, list] of causes) {
      for (const one of list) {
        const { network } = soundOf(one.system);
        for (const { id: condition } of one.noFaults.filter((n) => !n.id.includes(':'))) {
          const [item, name] = condition.split('.') as [string, string];
          const usual = network.items.get(item)!.device.conditions[name]!.usual;
          const under = new Map(
            Object.entries(network.system.modes).map(([mode, { conditions, after }]) => {
              const before = after === undefined ? {} : network.system.modes[after]!.conditions;
              const first = settleMode(network, mode, { [condition]: !usual, ...before });
              const set = { [condition]: !usual, ...conditions };
              return [mode, settleMode(network, mode, set, after ? first.state : undefined)];
            }),
          );
          const look = lookAt({ network, modes: under, memory: atRest(network) });
          expect(showsSymptom(look, one, id), `${id} ${condition}`).toBe(true);
          proved++;
        }
      }
    }
    expect(proved).toBeGreaterThan(30);
  });

  it('includes a cut-out that has tripped before and keeps its position', () => {
    const { noFaults } = inSystem('no-hot-water-heating-works', 'heat-only-two-port');
    const tripped = noFaults.find(({ id }) => id === 'F2:tripped');
    expect(tripped?.safeguard).toBe(true);
    expect(tripped?.title).toBe("Cut-out's reset button stands out");
    expect(tripped?.tells).toContainEqual({ item: 'Q3', title: 'Valve lever stiff, valve shut' });
  });
});

/** Known cases (common practice, no source). */
describe('causes that an engineer would name', () => {
  const repairs = (symptom: string, system: string) =>
    inSystem(symptom, system).groups.map(({ repairKey }) => repairKey);
  const faults = (symptom: string, system: string) =>
    inSystem(symptom, system).groups.flatMap((group) => group.faults.map(({ id }) => id));
  const noFaults = (symptom: string, system: string) =>
    inSystem(symptom, system).noFaults.map(({ id }) => id);

  it('boiler dark, reservoir full: the overflow doing its job, before any fault', () => {
    for (const system of ['combi-condensate-pump', 'combi-wireless-condensate-pump']) {
      const [first] = inSystem('boiler-dark-reservoir-full', system).noFaults;
      expect(first).toMatchObject({ id: 'M1.condensate high', safeguard: true });
      // Why the water is still there: no supply at all, or the pump itself.
      const others = repairs('boiler-dark-reservoir-full', system).filter((r) => !/F1|Q1/.test(r));
      expect(others[0]).toBe('condensate M1');
    }
  });

  it('tap hot, radiators cold on a combi: the control and its wiring, never pump or burner', () => {
    const found = faults('no-heating-hot-water-works', 'combi-two-wire');
    expect(found).toContain('B1/contact:open');
    expect(found).toContain('W3.BN@2:loose');
    expect(found.filter((id) => /E1\/(pump|burner|board)/.test(id))).toEqual([]);
    // Batteries and the setting before the control, the control before its wiring.
    expect(repairs('no-heating-hot-water-works', 'combi-two-wire').slice(0, 3)).toEqual([
      'set B1',
      'battery B1',
      'control B1',
    ]);
  });

  it('control calls, boiler lit and idle: a lockout and a flow at temperature are no faults', () => {
    const found = noFaults('boiler-ignores-call', 'combi-two-wire');
    expect(found).toEqual(['E1.water hot', 'E1.locked out']);
    // The control shows its call, so its battery is not in question.
    expect(found).not.toContain('B1.battery flat');
  });

  it('boiler dark: the isolator off is no fault; an MCB down, by hand or by itself, is a cause', () => {
    const found = noFaults('boiler-display-dark', 'combi-two-wire');
    expect(found).toEqual(['Q1.off']);
    expect(faults('boiler-display-dark', 'combi-two-wire')).toContain('F1:off on');
    expect(faults('boiler-display-dark', 'combi-two-wire')).toContain('Q1/fuse:blown');
  });

  it('receiver lamp flashing: flat batteries and a lost pairing, and no fault of the wiring', () => {
    expect(repairs('receiver-lamp-flashing', 'combi-wireless')).toEqual(['battery K1', 'pair K1']);
    expect(noFaults('receiver-lamp-flashing', 'combi-wireless')).toEqual([]);
  });

  it('heating never stops: the receiver’s own button; a welded contact; a link left in', () => {
    expect(repairs('heating-never-stops', 'combi-wireless')[0]).toBe('set K1');
    expect(faults('heating-never-stops', 'combi-two-wire')).toContain('B1/contact:welded');
    expect(faults('heating-never-stops', 'combi-volt-free')).toContain(
      'E1.call 1~E1.call 2:link left in',
    );
  });

  it('heating works only with hot water on: grey lost at a mid-position valve', () => {
    const found = faults('heating-only-with-hot-water', 'heat-only-mid-position');
    expect(found).toContain('W8.GY:broken');
    expect(faults('heating-only-with-hot-water', 'heat-only-two-port')).toContain(
      'Q2/end switch:open',
    );
  });

  it('heats upside down: the return on the terminal that makes without a call', () => {
    expect(faults('heating-upside-down', 'combi-wireless')).toEqual(['W3.GY@2:in K1.NC']);
  });

  it('reservoir full and the boiler fires: the overflow switch out of the circuit', () => {
    const found = faults('reservoir-full-boiler-runs', 'combi-condensate-pump');
    expect(found).toContain('M1/overflow switch:welded');
    expect(noFaults('reservoir-full-boiler-runs', 'combi-condensate-pump')).toEqual([]);
  });

  it('boiler dark without a call: its live taken from the switched side', () => {
    const found = faults('dark-without-call', 'combi-two-wire');
    expect(found).toEqual(['W2.BN@2:fed from E1.call return']);
  });

  it('a fuse that blows again: shorts, and the fuse itself, and nothing that is merely open', () => {
    const found = faults('fuse-blows', 'combi-two-wire');
    expect(found).toContain('Q1/fuse:blown');
    expect(found).toContain('W2.BN-GNYE:short');
    expect(found.filter((id) => /:(broken|loose|dead|open)$/.test(id))).toEqual([]);
  });
});
