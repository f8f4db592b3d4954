import type { System } from '../../schemas/index.ts';
import { capital } from '../words/index.ts';
import { boxesOf, type Layout } from './layout.ts';
import type { Arrangement, Placed } from './placed.ts';
import type { Specification } from './types.ts';

/** Title, summary, facets, cues, notes and cautions of a composed system. */
export function wordsOf(
  specification: Specification,
  arrangement: Arrangement,
  layout: Layout,
  absent: readonly string[],
): Omit<System, 'items' | 'cables' | 'links' | 'modes' | 'exceptions' | 'checked' | 'version'> {
  const { heat, all, time, services, additions } = arrangement;
  const modules = [
    ...all.map(({ module }) => module),
    ...boxesOf(layout).map(({ entry }) => entry.module),
  ];
  const controlling = [time, ...services.flatMap(({ controls }) => controls)].filter(Boolean);
  const variants = all.flatMap(({ variant }) => (variant ? [variant] : []));
  const features = modules.flatMap((module) => module.features);
  if (layout.box) features.push(...boxFeatures(layout));
  return {
    title: specification.title ?? titleOf(arrangement),
    summary: [
      ...services.map((service) => chainSentence(arrangement, service)),
      ...additions.flatMap(additionSentence),
    ].join(' '),
    aliases: [],
    arrangement: heat.module.arrangement!,
    control: (controlling as Placed[]).map(({ module }) => module.control).find(Boolean)!,
    features: unique(features),
    recognise: unique([...modules.flatMap(({ recognise }) => recognise), ...absent]),
    notes: unique([...pairNotes(all), ...[...modules, ...variants].flatMap(({ notes }) => notes)]),
    cautions: unique(modules.flatMap(({ cautions }) => cautions)),
  };
}

/** What is said of modules that stand together. */
function pairNotes(all: readonly Placed[]): string[] {
  const there = new Set(all.map(({ id }) => id));
  return all.flatMap(({ module, variantName }) =>
    module.pairs.flatMap(({ with: beside, when, note }) => {
      const isSo = when === undefined || (variantName !== undefined && when.includes(variantName));
      return isSo && beside.some((name) => there.has(name)) ? [note] : [];
    }),
  );
}

const unique = <T>(list: readonly T[]): T[] => [...new Set(list)];

/** From seven ways on a box is what the trade calls a wiring centre. */
const boxFeatures = ({ box }: Layout): System['features'] =>
  box!.ways.size > 8 ? ['wiring centre'] : [];

/** `room stat (wired)`: in a list a comma would part what belongs together. */
const named = ({ module, variant }: Placed): string =>
  (variant?.title ?? module.title).replace(/, (.+)$/, ' ($1)').toLowerCase();

/** What a reader is told of a named net, at the way of a box that holds it. */
const WAYS: Readonly<Record<string, string>> = {
  live: 'permanent live',
  'boiler live': "boiler's permanent live",
  'call feed': 'live to stat, from the boiler',
  'boiler call': "call, to the boiler's switched live",
  'relay call': "call, to the relay's coil",
  'call pair 1': 'call pair, one side',
  'call pair 2': 'call pair, other side',
  'pump live': 'pump live',
  'frost past 1': 'frost stat to pipe stat',
  neutral: 'neutrals',
  earth: 'earths',
};

/** The same where something has been put into it on the boiler's side. */
const PAST: Readonly<Record<string, string>> = { 'boiler call': "boiler's call" };

/** How a way of a box is labelled. */
export const wayLabel = (net: string): string => {
  const [, base = net, rest = ''] = /^(.+?)( past the .+)?$/.exec(net) ?? [];
  // What goes out to a switch alone, and not to what the switch is part of.
  const isToSwitch = /^live to the [^,]+$/.test(net);
  return `${(rest && PAST[base]) || (WAYS[base] ?? base)}${rest}${isToSwitch ? "'s switch" : ''}`;
};

function titleOf({ heat, time, services, shared, gravity, additions }: Arrangement): string {
  const limits = services.flatMap(({ limit }) => (limit ? [limit] : []));
  const what = [
    ...valvesOf(services),
    ...(shared ? [named(shared)] : []),
    ...(gravity ? ['hot water by gravity'] : []),
    ...(time ? [named(time)] : []),
    ...unique(services.flatMap(({ controls }) => controls.map((one) => named(one)))),
    // Two arrangements that differ in a safety device must not go by one name.
    ...unique(limits.map((one) => named(one))),
    ...additions.map((one) => named(one)),
  ];
  return what.length === 0 ? heat.module.title : `${heat.module.title}: ${what.join(', ')}`;
}

const NUMBERS: Readonly<Record<number, string>> = { 2: 'two', 3: 'three', 4: 'four', 5: 'five' };

/** Valves of the circuits, like ones together: `two two-port valves`. */
function valvesOf(services: Arrangement['services']): string[] {
  const valves = services.flatMap(({ valve }) => (valve ? [valve] : []));
  return [...Map.groupBy(valves, named)].map(([name, { length }]) =>
    length === 1 ? name : `${NUMBERS[length] ?? length} ${name.replace(/(?= with|$)/, 's')}`,
  );
}

/** How one demand reaches the boiler, as a sentence. */
export function chainSentence(
  arrangement: Arrangement,
  { name, service, controls, limit, valve }: Arrangement['services'][number],
): string {
  const { time, shared, gravity } = arrangement;
  const steps = [
    ...(time ? [named(time)] : []),
    ...controls.map(named),
    ...(limit ? [named(limit)] : []),
  ].map((step) => `the ${step}`);
  const drives = service === 'heating' && shared?.module.shared?.heating;
  const calls = callOf(arrangement);
  const end = valve
    ? valveSentence(valve, calls)
    : drives
      ? `it drives the ${named(shared!)}, which ${calls}`
      : gravity && service === 'heating'
        ? 'it runs the pump'
        : shared && service === 'heating'
          ? `it ${calls}, and the ${named(shared)} lets heating through while hot water asks for nothing`
          : `it ${calls}`;
  // A call that begins and ends at the boiler's own pair has no mains in it.
  const isPair = isPairItself(arrangement) && !valve && !drives && !gravity && !shared;
  const what = isPair ? "the boiler's extra-low-voltage pair" : 'a live';
  return capital(
    `${name}: ${what} through ${steps.join(', then ')}; ${isPair ? 'closed, it calls the boiler' : end}.`,
  );
}

const relayOf = ({ additions }: Arrangement) => additions.find(({ module }) => module.relay);

/** Whether what calls the boiler closes its extra-low-voltage pair, with no relay between. */
const isPairItself = (arrangement: Arrangement): boolean =>
  arrangement.heat.module.joins['call pair 1'] !== undefined && !relayOf(arrangement);

/** What the end of a call does, said of whatever makes it. */
function callOf(arrangement: Arrangement): string {
  const { heat, pump, gravity } = arrangement;
  const relay = relayOf(arrangement);
  // A pump without an output of the boiler runs with its call.
  const both = pump && !heat.module.joins['pump live'] && !gravity;
  const called = both ? 'the boiler and runs the pump' : 'the boiler';
  return relay ? `works the ${named(relay)}, whose contact calls ${called}` : `calls ${called}`;
}

function valveSentence(valve: Placed, calls: string): string {
  const { runs, 'end switch': ending } = valve.module.valve!;
  if (runs)
    return `it opens the loops of the ${named(valve)} and runs its pump, and a contact there ${calls}`;
  return ending
    ? `it opens a valve, whose end switch ${calls}`
    : `it opens a valve and ${calls} at once`;
}

/** What stands in the boiler's own conductors, or calls beside the controls, as a sentence. */
function additionSentence({ module, variant }: Placed): string[] {
  const title = module.title.toLowerCase();
  if (module.parallel) return [`The ${title} call for heating beside the controls.`];
  if (!variant?.cut || !module.through) return [];
  const what = variant.cut === 'boiler live' ? 'permanent live' : 'call';
  return [`The boiler's ${what} goes through the switch of the ${title}.`];
}
