import type { Module, System } from '../../schemas/index.ts';
import { capital } from '../words/index.ts';
import { CableList } from './cables.ts';
import { joinChains } from './chains.ts';
import { insert } from './insertions.ts';
import { boxesOf, type Layout, layOut } from './layout.ts';
import { modesOf } from './modes.ts';
import { Nets } from './nets.ts';
import { type Arrangement, arrange, type Placed } from './placed.ts';
import { rolesOf } from './roles.ts';
import type { Catalogue, Composed, Specification } from './types.ts';
import { wayLabel, wordsOf } from './words.ts';

type ModuleItem = Module['items'][string];

/**
 * Makes a system from what a specification names: its items, cables, links, and modes with what
 * must be seen in them. Nothing is judged here: what has a circuit is composed, and whether the
 * circuit is sound the demand table and the house standards say.
 * @throws Refusal where something has no terminal to go to.
 */
export function compose(specification: Specification, catalogue: Catalogue): Composed {
  const arrangement = arrange(specification, catalogue);
  const nets = new Nets();
  joinChains(arrangement, nets);
  insert(arrangement, nets);
  const joined = nets.joined();
  const layout = layOut(arrangement, joined, nets.ties(), catalogue);
  const { cables, links } = new CableList(arrangement, layout, nets, catalogue);
  const roles = rolesOf(arrangement);
  const system: System = {
    ...wordsOf(specification, arrangement, layout, absentCues(arrangement, catalogue)),
    items: itemsOf(arrangement, layout, catalogue),
    cables,
    links,
    modes: modesOf(arrangement, roles, catalogue),
    exceptions: [],
    version: 1,
  };
  const modules = new Map([
    ...arrangement.all.flatMap(({ id, references }) =>
      [...references.values()].map((reference) => [reference, id] as const),
    ),
    ...boxesOf(layout).map(({ reference, entry }) => [reference, entry.id] as const),
  ]);
  return { system, roles, nets: joined, modules };
}

function itemsOf(arrangement: Arrangement, layout: Layout, catalogue: Catalogue): System['items'] {
  const items: System['items'] = {};
  const add = (reference: string, item: Omit<System['items'][string], 'ratings' | 'labels'>) => {
    items[reference] = { ratings: {}, labels: {}, ...item };
  };
  for (const placed of arrangement.all) {
    const { module, references } = placed;
    for (const [name, reference] of references) {
      const item = module.items[name]!;
      const { device, title = titleOf(placed, arrangement, catalogue) } = item;
      const place = placeOf(item, placed, arrangement);
      add(reference, { device, place, ...(title ? { title } : {}) });
    }
    if (module.slot !== 'isolator') continue;
    for (const { reference, device, place, title, ways } of boxesOf(layout)) {
      add(reference, { device, place, ...(title ? { title } : {}) });
      for (const [net, way] of ways) items[reference]!.labels[way] = wayLabel(net);
    }
  }
  return items;
}

/** Where an item is found in an arrangement. */
function placeOf(
  { place, placeAtCylinder, placeOfFurther }: ModuleItem,
  placed: Placed,
  { services, gravity }: Arrangement,
): string {
  const hasCylinder = gravity || services.some(({ service }) => service === 'hot water');
  const [, ...further] = services.filter(({ service }) => service === 'heating');
  if (further.some(({ controls }) => controls.includes(placed))) return placeOfFurther ?? place;
  return (hasCylinder && placeAtCylinder) || place;
}

/** What a valve, and a control of several like ones, is called by what it serves. */
function titleOf(
  placed: Placed,
  { services }: Arrangement,
  { devices }: Catalogue,
): string | undefined {
  const one = services.find(({ valve, controls }) => valve === placed || controls.includes(placed));
  // What brings several things names each of them itself.
  if (!one || placed.references.size > 1) return undefined;
  if (one.valve === placed) return `${capital(one.name.replace('hot water', 'hot-water'))} valve`;
  // A number stands where heating has several circuits.
  if (!/\d$/.test(one.name)) return undefined;
  const { device } = Object.values(placed.module.items)[0]!;
  const [what] = devices.get(device)!.title.split(',');
  return `${what}, ${one.name}`;
}

/** Cues of what is not there: of modules whose absence shows, one a slot that is empty. */
function absentCues({ all }: Arrangement, { modules }: Catalogue): string[] {
  const there = new Set(all.map(({ id }) => id));
  return [...modules].flatMap(([id, { otherwise }]) => (there.has(id) ? [] : otherwise));
}
