import type { Module } from '../../schemas/index.ts';
import type { Nets } from './nets.ts';
import { type Arrangement, type Placed, type PlacedService, refer, wiredOf } from './placed.ts';
import { Refusal } from './types.ts';

type Contact = NonNullable<Module['contacts']['call']>;

/** Where a call begins and where it ends. */
interface Call {
  readonly start: string;
  readonly end: string;
}

/** Puts every module on its named nets, and joins each demand’s chain from its start to its end. */
export function joinChains(arrangement: Arrangement, nets: Nets): void {
  const ownPumpTerminals = pumpAtBoiler(arrangement);
  for (const placed of arrangement.all)
    for (const [net, terminals] of Object.entries(placed.module.joins)) {
      if (placed === arrangement.heat && !ownPumpTerminals && PUMP_RETURNS.includes(net)) continue;
      for (const terminal of terminals ?? []) nets.join(net, refer(placed, terminal));
    }
  for (const placed of arrangement.all)
    for (const [name, terminals] of Object.entries(placed.module.wires))
      for (const terminal of terminals)
        nets.join(`${name}, ${[...placed.references.values()][0]}`, refer(placed, terminal));
  if (!ownPumpTerminals) {
    nets.unite('neutral', 'pump neutral');
    nets.unite('earth', 'pump earth');
  }
  const call = joinRelay(arrangement, nets);
  joinPump(arrangement, nets);
  for (const service of arrangement.services) joinService(arrangement, service, call, nets);
  joinShared(arrangement, call, nets);
  for (const addition of arrangement.additions) joinParallel(arrangement, addition, call, nets);
}

const PUMP_RETURNS: readonly string[] = ['pump neutral', 'pump earth'];

/** Whether the pump’s neutral and earth go to terminals of their own in the boiler. */
function pumpAtBoiler({ heat, pump }: Arrangement): boolean {
  if (!pump || !heat.module.joins['pump neutral']) return false;
  return [...pump.references.keys()].some((item) => wiredOf(pump, item) === 'at the boiler');
}

/** The boiler’s own call, or the coil of a relay that makes it. */
function joinRelay({ heat, additions }: Arrangement, nets: Nets): Call {
  const { joins } = heat.module;
  const own: Call = joins['call pair 1']
    ? { start: 'call pair 1', end: 'call pair 2' }
    : { start: joins['call feed'] ? 'call feed' : 'live', end: 'boiler call' };
  const [first, ...more] = additions.filter(({ module }) => module.relay);
  if (more.length > 0) throw new Refusal('two calls for one relay', more[0]!.id);
  if (!first) return own;
  const { coil, contact } = first.module.relay!;
  nets.join(own.start, refer(first, contact.from));
  nets.join(own.end, refer(first, contact.to));
  nets.join('relay call', refer(first, coil));
  return { start: 'live', end: 'relay call' };
}

/** Whether the pump of a kind of heat source stands outside it, and so is a part of its own. */
export const needsPump = (kind: string | undefined): boolean =>
  kind?.startsWith('heat-only') === true;

function joinPump({ heat, pump, gravity, services, shared, time }: Arrangement, nets: Nets): void {
  const output = heat.module.joins['pump live'];
  const inside = !needsPump(heat.module.kind);
  if (pump && inside) throw new Refusal('no pump output', heat.id);
  if (!pump && !inside) throw new Refusal('no pump', heat.id);
  if (gravity) {
    const water = services.some(({ service }) => service === 'hot water');
    const valves = shared ?? services.find((one) => one.valve && one.service === 'heating');
    if (!pump || output || !time || !water || valves) throw new Refusal('no gravity', heat.id);
    return;
  }
  // Where the boiler has no output for it, the pump runs with the call.
  if (pump && !output) nets.unite('boiler call', 'pump live');
}

/** Contacts in series: each leads from the net reached to the next. */
class Chain {
  readonly #nets: Nets;
  at: string;
  #first = true;

  constructor(nets: Nets, start: string) {
    this.#nets = nets;
    this.at = start;
  }

  through(placed: Placed, { from, to }: Contact, next: string): void {
    const own = placed.module.joins.live?.includes(from) ?? false;
    if (own && !this.#first) throw new Refusal('its own live stands first', placed.id);
    if (!own) this.#nets.join(this.at, refer(placed, from));
    this.#nets.join(next, refer(placed, to));
    this.at = next;
    this.#first = false;
  }
}

function joinService(
  arrangement: Arrangement,
  { service, name, controls, limit, valve }: PlacedService,
  call: Call,
  nets: Nets,
): void {
  const { time, shared, gravity } = arrangement;
  const end = gravity && service === 'heating' ? 'pump live' : call.end;
  const opens = valve?.module.valve?.opens;
  const driven = service === 'heating' ? shared?.module.shared?.heating : undefined;
  // What drives a motor is fed from the live; what calls the boiler, from where the call begins.
  const chain = new Chain(nets, opens || driven ? 'live' : call.start);
  if (time) chain.through(time, contactOf(time, service), `${service} on`);
  controls.forEach((control, i) => {
    const more = i < controls.length - 1 ? ` past ${i + 1}` : '';
    chain.through(control, contactOf(control, 'call', service), `${name} call${more}`);
  });
  if (!time && controls.length === 0) throw new Refusal('nothing calls', name);
  if (limit) chain.through(limit, contactOf(limit, 'call'), `${name} call past the cut-out`);
  if (valve && opens) {
    nets.join(chain.at, refer(valve, opens));
    const ending = valve.module.valve?.['end switch'];
    if (ending) {
      nets.join(call.start, refer(valve, ending.from));
      nets.join(end, refer(valve, ending.to));
    } else nets.unite(end, chain.at);
  } else if (driven) {
    nets.join(chain.at, refer(shared!, driven));
    if (!shared!.module.shared!['boiler call']) nets.unite(end, chain.at);
  } else nets.unite(end, chain.at);
}

/** The contact a module has for a service, by the first name it has one under. */
function contactOf({ id, module }: Placed, ...names: (keyof Module['contacts'])[]): Contact {
  const found = names.map((name) => module.contacts[name]).find(Boolean);
  if (!found) throw new Refusal('no contact for this service', id);
  return found;
}

/** A valve that both services share: driven by heating, told of hot water by what is off. */
function joinShared({ shared, services, time }: Arrangement, call: Call, nets: Nets): void {
  if (!shared) return;
  const valve = shared.module.shared;
  const heating = services.filter(({ service }) => service === 'heating');
  const water = services.filter(({ service }) => service === 'hot water');
  if (!valve || heating.length !== 1 || water.length !== 1)
    throw new Refusal('no such service', shared.id);
  if (valve['boiler call']) nets.join(call.end, refer(shared, valve['boiler call']));
  if (!valve['hot water off']) return;
  nets.join('hot water off', refer(shared, valve['hot water off']));
  const rests = [
    ...(time ? [{ placed: time, contact: time.module.contacts['hot water'] }] : []),
    ...water[0]!.controls.map((placed) => ({ placed, contact: placed.module.contacts.call })),
  ].flatMap(({ placed, contact }) => (contact?.rest ? [refer(placed, contact.rest)] : []));
  if (rests.length === 0) throw new Refusal('no hot water off', shared.id);
  for (const rest of rests) nets.join('hot water off', rest);
}

/** Contacts that call for the first circuit of heating beside its controls, as frost stats do. */
function joinParallel(
  { services, shared, heat, gravity }: Arrangement,
  addition: Placed,
  call: Call,
  nets: Nets,
): void {
  const { parallel } = addition.module;
  if (!parallel) return;
  const fromCall = addition.variant?.feed === 'call feed';
  if (fromCall && call.start === 'live') throw new Refusal('no live out to a control', heat.id);
  const heating = services.find(({ service }) => service === 'heating');
  if (!heating) throw new Refusal('no such service', addition.id);
  const opens = heating.valve?.module.valve?.opens;
  const heatingIn = shared?.module.shared?.heating;
  const driven = opens ? refer(heating.valve!, opens) : heatingIn && refer(shared!, heatingIn);
  const chain = new Chain(nets, fromCall ? call.start : 'live');
  parallel.forEach((contact, i) => {
    chain.through(addition, contact, `frost past ${i + 1}`);
  });
  const end = gravity ? 'pump live' : call.end;
  nets.unite(driven ? netOf(nets, driven) : end, chain.at);
}

const netOf = (nets: Nets, terminal: string): string =>
  [...nets.joined()].find(([, members]) => members.includes(terminal))![0];
