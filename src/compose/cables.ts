import type { System } from '../../schemas/index.ts';
import type { ColourCode } from '../published/index.ts';
import type { CoreNeed } from '../wiring/core-planner/index.ts';
import { share } from '../wiring/core-planner/partition.ts';
import type { Box, Layout, Wiring } from './layout.ts';
import type { Nets } from './nets.ts';
import { type Arrangement, refer } from './placed.ts';
import type { Catalogue } from './types.ts';

type Cables = System['cables'];
type Cable = Cables[string];
type Links = System['links'];

/** A core before its colour is chosen. */
interface Wanted {
  readonly net: string;
  readonly ends: [string, string];
}

/** Length of the flex from the isolator, and of one between two boxes, m. */
const FROM_ISOLATOR = 1.5;
const BETWEEN_BOXES = 4;

/** The cables and links of a system, numbered from the supply on. */
export class CableList {
  readonly cables: Cables = {};
  readonly links: Links = [];
  readonly #lowNets: ReadonlySet<string>;

  constructor(arrangement: Arrangement, layout: Layout, nets: Nets, catalogue: Catalogue) {
    this.#lowNets = lowNets(arrangement, nets.joined(), catalogue);
    this.#supply(arrangement);
    this.#isolator(layout);
    if (layout.box) this.#item(layout.heat, atBox(layout.box, layout.heat), layout);
    for (const wiring of layout.atBoiler) this.#item(wiring, atBoiler(layout.heat, wiring), layout);
    for (const wiring of layout.atBox) this.#item(wiring, atBox(layout.box!, wiring), layout);
    for (const { wiring, box } of layout.byOwnBox) this.#byOwnBox(wiring, box, layout.box!);
    for (const [net, to] of nets.ties()) this.#tie(layout.box!, net, to);
  }

  #add(cable: Cable): void {
    this.cables[`W${Object.keys(this.cables).length + 1}`] = cable;
  }

  #supply({ supply, isolator }: Arrangement): void {
    const [from, to] = [supply, isolator].map(({ module }) => module.circuit!);
    this.#add({
      kind: 'twin and earth',
      size: 2.5,
      earthSize: 1.5,
      length: 15,
      cores: {
        BN: core([refer(supply, from!.live), refer(isolator, to!.live)]),
        BU: core([refer(supply, from!.neutral), refer(isolator, to!.neutral)]),
        GNYE: core([refer(supply, from!.earth), refer(isolator, to!.earth)]),
      },
      spare: [],
    });
  }

  #isolator({ isolator, heat, box }: Layout): void {
    const hub = box ? atBox(box, isolator) : atBoiler(heat, isolator);
    const wanted = hub.map(({ net, ends: [there, here] }) => ({ net, ends: pair(here, there) }));
    this.#planned(wanted, FROM_ISOLATOR, box ? 1 : 0.75);
  }

  /** One item: its own lead, or cables of as many cores as it needs. */
  #item(wiring: Wiring, wanted: readonly Wanted[], layout: Layout): void {
    const { placed, item } = wiring;
    const { lead, length, size } = placed.module.items[item]!;
    // The boiler carries to the box only what somebody there needs.
    const needed =
      wiring === layout.heat ? wanted.filter(({ net }) => layout.box!.ways.has(net)) : wanted;
    if (lead) this.#lead(wiring, needed);
    else {
      const first = firstOfEachNet(needed);
      this.#link(needed, first);
      this.#planned(first, length, size);
    }
  }

  #lead({ placed, item, reference }: Wiring, wanted: readonly Wanted[]): void {
    const { lead, length, size } = placed.module.items[item]!;
    const cores: Cable['cores'] = {};
    const spare: ColourCode[] = [];
    for (const [colour, about] of Object.entries(lead!)) {
      const found = wanted.find(({ ends }) => ends[1] === `${reference}.${about!.to}`);
      if (found) cores[colour as ColourCode] = core(found.ends, about!.sleeve);
      else spare.push(colour as ColourCode);
    }
    this.#add({ kind: 'fixed lead', size: size as Cable['size'], length, cores, spare });
  }

  #byOwnBox(wiring: Wiring, own: Box, main: Box): void {
    const between = [...own.ways].map(([net, way]) => ({
      net,
      ends: pair(`${main.reference}.${main.ways.get(net)}`, `${own.reference}.${way}`),
    }));
    this.#planned(between, BETWEEN_BOXES, 0.75);
    const { lead, length, size } = wiring.placed.module.items[wiring.item]!;
    const wanted = atBox(own, wiring);
    if (lead) this.#lead(wiring, wanted);
    else this.#planned(firstOfEachNet(wanted), length, size);
  }

  /** The link between two ways of the main box, with why it is there. */
  #tie({ reference, ways }: Box, net: string, to: string): void {
    const [from, into] = [to, net].map((one) => `${reference}.${ways.get(one)}`);
    this.links.push({
      between: pair(from!, into!),
      why: `Takes the ${net}; what the boiler gets comes back from there and from nowhere else.`,
    });
  }

  #link(all: readonly Wanted[], cored: readonly Wanted[]): void {
    for (const { net, ends } of all) {
      const first = cored.find((one) => one.net === net)!.ends[1];
      if (first !== ends[1]) this.links.push({ between: [first, ends[1]] });
    }
  }

  /** Cores shared among cables by the core planner, extra-low voltage in cables of its own. */
  #planned(wanted: readonly Wanted[], length: number, size: number): void {
    const needs = new Map(wanted.map((one) => [this.#needOf(one.net), one] as const));
    const of = (...uses: CoreNeed['use'][]) =>
      [...needs.keys()].filter((n) => uses.includes(n.use));
    const [earth] = of('earth');
    const supply = [...needs].flatMap(([need, { net }]) =>
      net === 'live' || net === 'boiler live' || need.use === 'neutral' ? [need] : [],
    );
    const singles = of('line').filter((need) => !supply.includes(need));
    const low = of('extra-low');
    const mains = supply.length + singles.length > 0;
    const planned = [
      ...(mains
        ? share(
            supply.length > 0 ? supply : undefined,
            singles.map((need) => [need]),
            earth,
            true,
          )
        : []),
      ...(low.length > 0 ? share(low, [], mains ? undefined : earth, true) : []),
    ];
    for (const { cores } of planned) {
      const made: Cable['cores'] = {};
      const spare: ColourCode[] = [];
      for (const { colour, need, sleeve } of cores) {
        if (need) made[colour] = core(needs.get(need)!.ends, sleeve ?? undefined);
        else spare.push(colour);
      }
      this.#add({ kind: 'flex', size: size as Cable['size'], length, cores: made, spare });
    }
  }

  #needOf(net: string): CoreNeed {
    const need = (id: CoreNeed['function'], use: CoreNeed['use']) => ({
      function: id,
      title: net,
      use,
    });
    if (net.endsWith('earth')) return need('earth', 'earth');
    if (net.endsWith('neutral')) return need('neutral', 'neutral');
    if (this.#lowNets.has(net)) return need('call', 'extra-low');
    return need(net === 'live' || net === 'boiler live' ? 'live' : 'switched', 'line');
  }
}

const core = (ends: [string, string], sleeve?: ColourCode) => ({ ends, sleeve });
const pair = (a: string, b: string): [string, string] => [a, b];

/** Cores of an item to the box: each from the way of its net. */
const atBox = ({ reference, ways }: Box, { members }: Wiring): Wanted[] =>
  members.flatMap(({ net, terminal }) => {
    const way = ways.get(net);
    return way === undefined ? [] : [{ net, ends: pair(`${reference}.${way}`, terminal) }];
  });

/** Cores of an item to the boiler: each from the boiler’s terminal on its net. */
const atBoiler = (heat: Wiring, { members }: Wiring): Wanted[] =>
  members.flatMap(({ net, terminal }) => {
    const there = heat.members.find((member) => member.net === net);
    return there ? [{ net, ends: pair(there.terminal, terminal) }] : [];
  });

/** Terminals of one item on one net take one core; the others are linked to it. */
const firstOfEachNet = (wanted: readonly Wanted[]): Wanted[] =>
  wanted.filter(({ net }, i) => wanted.findIndex((one) => one.net === net) === i);

/** Nets of extra-low voltage: those on which the boiler has a terminal made for no more. */
function lowNets(
  { heat }: Arrangement,
  nets: ReadonlyMap<string, readonly string[]>,
  { devices }: Catalogue,
): ReadonlySet<string> {
  const [[item, reference] = ['', '']] = [...heat.references];
  const { terminals } = devices.get(heat.module.items[item]!.device)!;
  const low = new Set(
    Object.entries(terminals).flatMap(([name, { voltage }]) =>
      voltage === 'extra-low' ? [`${reference}.${name}`] : [],
    ),
  );
  // Past an insertion the pair is still one of extra-low voltage.
  return new Set(
    [...nets].flatMap(([net, members]) =>
      members.some((one) => low.has(one)) || net.startsWith('call pair') ? [net] : [],
    ),
  );
}
