import { INSTRUMENTS, type Network, read, type Simulation } from '../../circuit/index.ts';
import { COLOUR_CODES } from '../../published/index.ts';
import type { ComputedSystem } from '../../reference/index.ts';
import {
  changesCircuit,
  leftOn,
  placeOfTerminal,
  readsAt,
  settledIn,
  situationIn,
} from '../../site/index.ts';
import {
  againstFor,
  cableWords,
  extraLowCaution,
  extraLowPoints,
  functionOfTerminal,
  itemOf,
  itemWords,
  livePathIn,
  partWords,
  pointWords,
  storyOf,
  wayWords,
} from '../../wiring/index.ts';
import { capital } from '../../words/index.ts';
import { isExtraLowPair } from '../system/extra-low.ts';
import { readingPlace, shownReading, shownText } from '../system/shown.ts';
import type { DrawingData, LoadData, NetData, TerminalData } from './data.ts';
import { cautionAt, isOpenedForReading, reachWords } from './reach-words.ts';

/** Everything that a page's script says of a system's drawing. */
export function drawingData({
  simulation,
  network,
  wiring,
}: Pick<ComputedSystem, 'simulation' | 'network' | 'wiring'>): DrawingData {
  const { modes } = network.system;
  const ids = [...simulation.modes.keys()];
  const nets = netsOf(network);
  const texts: string[] = [];
  const indexOf = (text: string) => {
    const at = texts.indexOf(text);
    return at === -1 ? texts.push(text) - 1 : at;
  };
  const terminals = network.nodes
    .filter(({ terminal }) => terminal)
    .map(({ id }) => [id, terminalData(simulation, id, nets, indexOf)] as const);
  const cores = [
    ...wiring.runs.flatMap(({ rows }) =>
      rows.map(({ id, cable, colour, sleeve, from, to, function: what }) => {
        const sleeved = sleeve ? ` sleeved ${COLOUR_CODES[sleeve]}` : '';
        const core = `${capital(COLOUR_CODES[colour])} core${sleeved} of the ${cableWords(network, cable)}`;
        const ends = `from ${pointWords(network, from.point)} to ${pointWords(network, to.point)}`;
        return [id, `${core}: ${ends}; ${what}.`] as const;
      }),
    ),
    ...wiring.links.map(({ id, from, to, why }) => {
      const ends = `from ${wayWords(from)} to ${pointWords(network, to)}`;
      return [id, [`Wire link ${ends}.`, why ?? ''].join(' ').trim()] as const;
    }),
  ];
  const stories = ids.map((mode) => {
    const { from, steps } = storyOf(simulation, mode);
    const told = steps.map(({ text, elements }) => [text, elements] as const);
    return [mode, { from: from === null ? '' : modes[from]!.title, steps: told }] as const;
  });
  return {
    system: network.id,
    modes: ids.map((id) => [id, modes[id]!.title, modes[id]!.readings !== 'none']),
    instruments: INSTRUMENTS.map(({ id, title }) => [id, title]),
    terminals: Object.fromEntries(terminals),
    texts,
    cores: Object.fromEntries(cores),
    nets,
    loads: loadsOf(simulation),
    stories: Object.fromEntries(stories),
  };
}

/** Terminals joined by cores and wire links alone, each net once. */
function netsOf(network: Network): NetData[] {
  const outside = network.branches.filter(
    ({ kind }) => kind === 'conductor' || kind === 'wire link',
  );
  const seen = new Set<number>();
  return network.nodes.flatMap(({ terminal, index }): NetData[] => {
    if (!terminal || seen.has(index)) return [];
    seen.add(index);
    const nodes = [index];
    const cores = new Set<string>();
    for (const node of nodes) {
      for (const { id, from, to } of outside) {
        if (from !== node && to !== node) continue;
        cores.add(id);
        const next = from === node ? to : from;
        if (seen.has(next)) continue;
        seen.add(next);
        nodes.push(next);
      }
    }
    return [{ terminals: nodes.map((node) => network.nodes[node]!.id), cores: [...cores] }];
  });
}

function terminalData(
  simulation: Simulation,
  id: string,
  nets: readonly NetData[],
  indexOf: (text: string) => number,
): TerminalData {
  const { network } = simulation;
  const node = network.nodes[network.nodeIndex.get(id)!]!;
  const place = placeOfTerminal(network, id);
  const { here, instead } = readingPlace(network, id);
  const against = againstFor(network, id);
  const stays = leftOn(simulation).get(id);
  const said = {
    name: pointWords(network, id),
    serves: functionOfTerminal(network, node),
    place: network.items.get(itemOf(id))!.place,
    net: nets.findIndex(({ terminals }) => terminals.includes(id)),
    reach: place ? reachWords(place) : 'Nobody gets at it.',
    caution: [
      place ? cautionAt(place, here && against !== null) : '',
      extraLowPoints(network).has(id) ? extraLowCaution(network, itemOf(id)) : '',
    ]
      .filter(Boolean)
      .join(' '),
    ...(stays ? { leftOn: stays } : {}),
    // From an earth alone nothing is read.
    instead: against === null ? null : instead,
  };
  if (!here || against === null) return said;
  const extraLow = isExtraLowPair(network, id, against);
  const values = [...simulation.modes.keys()].map((mode) => {
    const { solution } = settledIn(simulation, situationIn(mode, place));
    return INSTRUMENTS.map((instrument) =>
      indexOf(shownText(shownReading(read(solution, id, against, instrument), extraLow))),
    );
  });
  const bare = place && changesCircuit(place) && readsAt(place) !== 'none';
  const to = itemOf(against) === itemOf(id) ? wayWords(against) : pointWords(network, against);
  const opens = place && isOpenedForReading(place) ? { opens: place.opening.title } : {};
  return { ...said, ...opens, against: bare ? `${to}, on the bare terminals` : to, values };
}

/** Every load that works in some mode, with its live path in each. */
function loadsOf(simulation: Simulation): LoadData[] {
  const { network } = simulation;
  return network.branches.flatMap((branch): LoadData[] => {
    if (branch.kind !== 'element') return [];
    if (!['load', 'motor', 'sensing'].includes(branch.element.kind)) return [];
    const paths: string[][] = [];
    const byMode = [...simulation.modes.keys()].map((mode) => {
      const path = livePathIn(simulation, mode, branch.id);
      if (!path) return -1;
      const via = [...path.hops.flatMap((hop) => hop.via), ...path.closing];
      const nodes = via.flatMap(({ from, to }) => [network.nodes[from]!.id, network.nodes[to]!.id]);
      const ids = [...new Set([...via.map(({ id }) => id), ...nodes])];
      const known = paths.findIndex((one) => one.join() === ids.join());
      return known === -1 ? paths.push(ids) - 1 : known;
    });
    if (paths.length === 0) return [];
    const name = capital(`${partWords(network, branch)} of the ${itemWords(network, branch.item)}`);
    return [{ id: branch.id, name, paths, byMode }];
  });
}
