import { type Cable, splitReference } from '../../schemas/index.ts';
import { COLOUR_CODES, CORE_SETS, type ColourCode } from '../published/index.ts';
import { checkTerminal, type SystemContext } from './system-context.ts';
import type { Path } from './types.ts';

const EARTH: ColourCode = 'GNYE';

type Core = NonNullable<Cable['cores'][ColourCode]>;

/** Checks every cable: where its cores go, which cores it has, and which carry earth. */
export function cableProblems(context: SystemContext): void {
  for (const [reference, cable] of Object.entries(context.system.cables)) {
    const cores = Object.entries(cable.cores) as [ColourCode, Core][];
    for (const [colour, core] of cores) checkCore(context, reference, colour, core);
    checkRun(context, reference, cores);
    checkSpare(context, reference, cable);
    checkCoreSet(context, reference, cable);
    checkEarthSize(context, reference, cable);
  }
}

/** The path of a core's end, in whichever of the two forms the author wrote it. */
function endPath({ places }: SystemContext, cable: string, colour: ColourCode, end: 0 | 1): Path {
  const core = ['cables', cable, 'cores', colour];
  return places.has([...core, 'ends']) ? [...core, 'ends', end] : [...core, end];
}

function checkCore(
  context: SystemContext,
  cable: string,
  colour: ColourCode,
  { ends }: Core,
): void {
  const { report } = context;
  for (const i of [0, 1] as const) {
    const path = endPath(context, cable, colour, i);
    const terminal = checkTerminal(context, ends[i], path);
    if (!terminal) continue;
    if (colour === EARTH && terminal.carries !== 'earth') {
      const message = `a ${EARTH} core joins earth terminals only, and ${ends[i]} does not carry earth`;
      report.value('earth-core-astray', path, message, { found: ends[i] });
    }
    if (colour !== EARTH && terminal.carries === 'earth' && terminal.voltage === 'mains') {
      const message = `${ends[i]} carries earth, which only a ${EARTH} core joins; this core is ${colour}`;
      report.value('earth-core-colour', path, message, { found: colour, allowed: EARTH });
    }
  }
  if (ends[0] === ends[1]) {
    const message = `core ${colour} of ${cable} begins and ends at ${ends[0]}`;
    report.value('core-to-itself', endPath(context, cable, colour, 1), message, { found: ends[1] });
  }
}

const itemOf = ({ ends }: Core, end: 0 | 1) => splitReference(ends[end])[0];

/** A cable runs between two items, every core the same way round. */
function checkRun(context: SystemContext, cable: string, all: readonly [ColourCode, Core][]): void {
  const { report, system } = context;
  if (all.length === 0) {
    const message = `${cable} joins nothing: it has no core in use`;
    report.key('cable-astray', ['cables', cable, 'cores'], message);
    return;
  }
  // Cores with an unknown item, or with one terminal for both ends, are reported as such.
  const cores = all.filter(([, core]) => {
    const known = ([0, 1] as const).every((end) => Object.hasOwn(system.items, itemOf(core, end)));
    return known && core.ends[0] !== core.ends[1];
  });
  const [from, to] = mostCommonRun(cores.map(([, core]) => [itemOf(core, 0), itemOf(core, 1)]));
  for (const [colour, core] of cores) {
    const path = (end: 0 | 1) => endPath(context, cable, colour, end);
    const [a, b] = [itemOf(core, 0), itemOf(core, 1)];
    if (a === b) {
      const message = `core ${colour} of ${cable} begins and ends at ${a}; a wire within one item is a link`;
      report.value('cable-astray', path(1), message, { found: core.ends[1] });
    } else if (a === to && b === from) {
      const message = `core ${colour} of ${cable} is written from ${a} to ${b}, its other cores from ${from} to ${to}`;
      const suggestion = `[${core.ends[1]}, ${core.ends[0]}]`;
      report.value('cable-astray', path(0), message, { found: core.ends.join(', '), suggestion });
    } else {
      const wrong = ([0, 1] as const).filter(
        (end) => itemOf(core, end) !== (end === 0 ? from : to),
      );
      for (const end of wrong) {
        const verb = end === 0 ? 'begin' : 'end';
        const message = `core ${colour} of ${cable} ${verb}s at ${itemOf(core, end)}, its other cores ${verb} at ${end === 0 ? from : to}`;
        const allowed = `${end === 0 ? from : to}.terminal`;
        report.value('cable-astray', path(end), message, { found: core.ends[end], allowed });
      }
    }
  }
}

type Run = readonly [from: string, to: string];

/** Where most cores run; the first of several equally common. Cores within one item do not count. */
function mostCommonRun(runs: readonly Run[]): Run {
  const counts = new Map<string, { run: Run; count: number }>();
  for (const run of runs.filter(([from, to]) => from !== to)) {
    const key = run.join('>');
    counts.set(key, { run, count: (counts.get(key)?.count ?? 0) + 1 });
  }
  const [first, ...rest] = counts.values();
  return (
    rest.reduce((best, next) => (next.count > best.count ? next : best), first!)?.run ?? ['', '']
  );
}

function checkSpare({ report }: SystemContext, reference: string, { cores, spare }: Cable): void {
  spare.forEach((colour, i) => {
    const path = ['cables', reference, 'spare', i];
    if (cores[colour]) {
      const message = `core ${colour} of ${reference} is in use, so it is not spare`;
      report.value('core-used-twice', path, message, { found: colour });
    } else if (spare.indexOf(colour) !== i) {
      const message = `core ${colour} of ${reference} is listed as spare twice`;
      report.value('core-used-twice', path, message, { found: colour });
    }
  });
}

const TWIN_AND_EARTH: readonly ColourCode[] = ['BN', 'BU', EARTH];
const FLEX_SETS: readonly (readonly ColourCode[])[] = [
  ...Object.values(CORE_SETS.earthed),
  ...Object.values(CORE_SETS.plain),
];

/** Used and spare cores together are a set that such a cable is made with. */
function checkCoreSet({ report }: SystemContext, reference: string, cable: Cable): void {
  if (cable.kind !== 'flex' && cable.kind !== 'twin and earth') return;
  const sets = cable.kind === 'flex' ? FLEX_SETS : [TWIN_AND_EARTH];
  const has = [...new Set([...(Object.keys(cable.cores) as ColourCode[]), ...cable.spare])];
  const holds = (set: readonly ColourCode[], part: readonly ColourCode[]) =>
    part.every((colour) => set.includes(colour));
  if (sets.some((set) => set.length === has.length && holds(set, has))) return;
  const odd = oddCore(has, sets, Object.keys(cable.cores));
  if (odd) {
    const others = has.filter((colour) => colour !== odd.colour);
    const beside = others.map((colour) => COLOUR_CODES[colour]).join(', ');
    const said = `${cable.kind} is not made with a ${COLOUR_CODES[odd.colour]} core beside ${beside}`;
    report.key('core-set-unknown', ['cables', reference, 'cores', odd.colour], said, {
      found: odd.colour,
      allowed: odd.made.join(', '),
      suggestion: odd.made[0],
    });
    return;
  }
  const message = `${cable.kind} is not made with the cores ${has.join(' ')} alone`;
  const [larger] = sets.filter((set) => holds(set, has)).sort((a, b) => a.length - b.length);
  const spare = larger?.filter((colour) => !cable.cores[colour]);
  report.key('core-set-unknown', ['cables', reference, 'cores'], message, {
    found: has.join(' '),
    allowed: sets.map((set) => set.join(' ')).join(', '),
    suggestion: spare && `spare: [${spare.join(', ')}]`,
  });
}

/** The one core but for which a set is made, with the colours that are made in its stead. */
function oddCore(
  has: readonly ColourCode[],
  sets: readonly (readonly ColourCode[])[],
  used: readonly string[],
): { readonly colour: ColourCode; readonly made: readonly ColourCode[] } | undefined {
  for (const colour of has.filter((one) => used.includes(one))) {
    const others = has.filter((one) => one !== colour);
    const made = sets
      .filter((set) => set.length === has.length && others.every((one) => set.includes(one)))
      .flatMap((set) => set.filter((one) => !others.includes(one)));
    // Where the colour is made beside fewer or more, the cores are miscounted, not miscalled.
    if (made.length > 0 && !sets.some((set) => set.includes(colour))) return { colour, made };
  }
  return undefined;
}

function checkEarthSize({ report }: SystemContext, reference: string, cable: Cable): void {
  if (cable.earthSize === undefined || cable.cores[EARTH] || cable.spare.includes(EARTH)) return;
  const message = `${reference} has no ${EARTH} core, so it has no earthSize`;
  report.key('earth-size-astray', ['cables', reference, 'earthSize'], message, {
    found: String(cable.earthSize),
  });
}
