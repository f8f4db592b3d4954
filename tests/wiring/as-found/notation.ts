import type { Network } from '../../../src/circuit/index.ts';
import type { ColourCode } from '../../../src/published/index.ts';
import { AS_ENTRY, type AsFound, dueAt, tidy } from '../../../src/wiring/as-found/index.ts';
import type { CoreEnd } from '../../../src/wiring/index.ts';

/**
 * Wiring as found in a few words, marks apart by `;`:
 * `W2.BN@2 > E1.N` a core's end in another terminal, or `loose`, or `short`;
 * `W2.BN@2 <> W2.BU@2` two ends exchanged; `W4 = BN BU GNYE` the cores there;
 * `X1.1 -- X1.3` a link; `no link 1`; `bridge M1/overflow switch`; `no B1` an item missing;
 * `Q1/fuse 13` a rating in amperes.
 * @throws RangeError for a mark it does not know.
 */
export function foundFrom(network: Network, text: string): AsFound {
  const found = text
    .split(';')
    .map((mark) => mark.trim())
    .reduce((state, mark) => withMark(network, state, mark), AS_ENTRY);
  return tidy(network, found);
}

function withMark({ system }: Network, found: AsFound, mark: string): AsFound {
  const [, a, b] = /^(W\S+) <> (W\S+)$/.exec(mark) ?? [];
  if (a && b) {
    const [first, second] = [endOf(a), endOf(b)];
    const ends = [
      { ...first, point: dueAt(system, second) },
      { ...second, point: dueAt(system, first) },
    ];
    return { ...found, ends: [...found.ends, ...ends] };
  }
  const [, end, point] = /^(W\S+@[12]) > (.+)$/.exec(mark) ?? [];
  if (end && point) return { ...found, ends: [...found.ends, { ...endOf(end), point }] };
  const [, cable, cores] = /^(W[0-9]+) = (.*)$/.exec(mark) ?? [];
  if (cable && cores !== undefined)
    return {
      ...found,
      cables: { ...found.cables, [cable]: cores.split(' ').filter(Boolean) as ColourCode[] },
    };
  const [, from, to] = /^(.+) -- (.+)$/.exec(mark) ?? [];
  if (from && to) return { ...found, extraLinks: [...found.extraLinks, [from, to]] };
  const [, link] = /^no link ([0-9]+)$/.exec(mark) ?? [];
  if (link) return { ...found, missingLinks: [...found.missingLinks, Number(link) - 1] };
  const [, bridged] = /^bridge (.+)$/.exec(mark) ?? [];
  if (bridged) return { ...found, bridged: [...found.bridged, bridged] };
  const [, absent] = /^no ([A-Z]+[0-9]+)$/.exec(mark) ?? [];
  if (absent) return { ...found, absent: [...found.absent, absent] };
  const [, fuse, amps] = /^(.+\/.+) ([0-9]+)$/.exec(mark) ?? [];
  if (fuse && amps) return { ...found, ratings: { ...found.ratings, [fuse]: Number(amps) } };
  throw new RangeError(`no mark: ${mark}`);
}

function endOf(text: string): CoreEnd {
  const [, cable, colour, end] = /^(W[0-9]+)\.([A-Z]+)@([12])$/.exec(text)!;
  return { cable: cable!, colour: colour as ColourCode, end: end === '1' ? 0 : 1 };
}
