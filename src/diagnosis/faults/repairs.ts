import type { Network } from '../../circuit/index.ts';
import { isAtUnvented, isUnvented } from '../../site/index.ts';
import {
  atItem,
  type CoreEnd,
  cableWords,
  corePair,
  coreWords,
  itemOf,
  itemWords,
  pointsOfCore,
  pointWords,
} from '../../wiring/index.ts';
import type { Repair } from './fault.ts';

/** Repairs, each the smallest part that is replaced (common practice, no source). */

const ISOLATE = 'Isolate, prove dead';
const WIRING_PROOF = 'Dead tests of what was touched, then every call alone, both and off.';

/** Everything from the spur's faceplate to the consumer unit is one person's work. */
export const electrician = (read: string): Repair => ({
  repair: `Spur or supply side: hand over to an electrician, with what was read. ${read}`.trim(),
  repairKey: 'supply side',
  proving:
    'Supply at the next box behind the spur: line to neutral, line to earth, neutral to earth.',
  who: 'electrician',
});

/**
 * The boiler is a boundary: what lies inside ends in one handing over.
 * @param shows what has been proved at its terminals and what it does, as one sentence.
 */
export const handOver = (reference: string, shows: string): Repair => ({
  repair: `${shows} Hand over to a Gas Safe registered engineer, with code and readings.`,
  repairKey: `boiler ${reference}`,
  proving: 'Fires on each call alone and on both, and stops when the last call goes.',
  who: 'Gas Safe registered engineer',
});

export const valveHead = (network: Network, item: string): Repair =>
  guarded(network, item, {
    repair: `${ISOLATE}, replace the motor or the head of the ${itemWords(network, item)}; no drain-down on most.`,
    repairKey: `head ${item}`,
    proving: 'Each call alone, both, and off: lever, flow and boiler follow.',
    who: 'controls engineer',
  });

export const valveBody = (network: Network, item: string): Repair =>
  guarded(network, item, {
    repair: `${ISOLATE}, take off the head of the ${itemWords(network, item)} and free the spindle once; if it sticks again, replace the body: drain-down, inhibitor after it.`,
    repairKey: `body ${item}`,
    proving: 'No leak, full travel, then each call alone, both, and off.',
    who: 'controls engineer',
  });

export const control = (network: Network, item: string): Repair =>
  guarded(network, item, {
    repair: `${ISOLATE}, replace the ${itemWords(network, item)}, on its existing backplate where the two match.`,
    repairKey: `control ${item}`,
    proving: 'On and off by it: what it switches follows; a wireless one in its own room.',
    who: 'controls engineer',
  });

/**
 * The stat and the valve of an unvented cylinder are safety devices as its cut-out is: they
 * are looked at and read, and anything more is for a person qualified for it (Approved
 * Document G3).
 */
function guarded(network: Network, item: string, repair: Repair): Repair {
  if (!isUnvented(network, item)) return repair;
  return {
    ...repair,
    repair: `It belongs to an unvented cylinder: hand over to a person qualified for unvented hot water, with what was read. The part is theirs to replace.`,
    who: 'unvented-qualified engineer',
  };
}

export const pump = (network: Network, item: string): Repair => ({
  repair: `${ISOLATE}, shut the valves either side, replace the head of the ${itemWords(network, item)}, or the whole pump.`,
  repairKey: `pump ${item}`,
  proving: 'No leak, flow on both sides, quiet.',
  who: 'controls engineer',
});

export const condensatePump = (network: Network, item: string): Repair => ({
  repair: `${ISOLATE}, clean tank, float and non-return valve of the ${itemWords(network, item)}; if it does not pump then, replace it complete. Its overflow switch is never linked out.`,
  repairKey: `condensate ${item}`,
  proving: 'Fill: it pumps. Hold the water high: the boiler stops.',
  who: 'controls engineer',
});

/** What stops the boiler when the reservoir fills, linked out or stuck closed. */
export const overflow = (network: Network, item: string): Repair => ({
  repair: `${ISOLATE}, take out any link across the overflow switch of the ${itemWords(network, item)}, or replace the pump complete if its switch has stuck. Boiler off until filling it proves that the overflow stops it.`,
  repairKey: `overflow ${item}`,
  proving: 'Fill, every lid on: the boiler stops before it spills.',
  who: 'controls engineer',
});

/** A cut-out or a limit that no longer passes on what it should, or no longer opens. */
export const limit = (network: Network, item: string): Repair => {
  const isTheirs = isAtUnvented(network, item);
  return {
    repair: isTheirs
      ? `Never link it out, not even to test. Hand the ${itemWords(network, item)} over to a person qualified for unvented hot water.`
      : `Never link it out, not even to test. ${ISOLATE}, replace the ${itemWords(network, item)}; find first why it was too hot.`,
    repairKey: `safety ${item}`,
    proving: 'It is made to act, and stops the heat.',
    who: isTheirs ? 'unvented-qualified engineer' : 'controls engineer',
  };
};

/** Under the cover of an unvented cylinder's stat, cut-out or valve nothing is remade without the qualification. */
function theirEnd(network: Network, { cable, colour }: Pick<CoreEnd, 'cable' | 'colour'>): string {
  const item = pointsOfCore(network.system, { cable, colour })
    .map(itemOf)
    .find((one) => isAtUnvented(network, one));
  return item === undefined
    ? ''
    : ` Its end ${atItem(network, item)} is for a person qualified for unvented hot water.`;
}

/** One core remade at both ends. A core of a fixed lead belongs to the part that it comes with. */
export const remake = (
  network: Network,
  { cable, colour }: Pick<CoreEnd, 'cable' | 'colour'>,
): Repair => ({
  repair: `${ISOLATE}, cut back, strip and remake the ${coreWords(network, { cable, colour })}; replace a burnt terminal, and the cable if the core is broken along it.${theirEnd(network, { cable, colour })}`,
  repairKey: `core ${cable}.${colour}`,
  proving: 'Tug it, then volts across the joint under load, then every call.',
  who: 'controls engineer',
});

export const newCable = (network: Network, cable: string, why: string): Repair => ({
  repair: `${ISOLATE}, ${why} the ${cableWords(network, cable)}, and replace it.`,
  repairKey: `cable ${cable}`,
  proving: `Insulation test of the new cable. ${WIRING_PROOF}`,
  who: 'controls engineer',
});

export const dry = (network: Network, item: string): Repair => ({
  repair: `${ISOLATE}, find the water ${atItem(network, item)}, stop it, dry or replace what was wet; it stays off until then.`,
  repairKey: `damp ${item}`,
  proving: 'Insulation test, electronics disconnected: 1 MΩ or more.',
  who: 'controls engineer',
});

/** A core moved to where the wiring table has it. */
export const moveCore = (network: Network, end: CoreEnd & { readonly point: string }): Repair => ({
  repair: `${ISOLATE}, move the ${coreWords(network, end)} to ${pointWords(network, end.point)}.${isAtUnvented(network, itemOf(end.point)) ? theirEnd(network, end) : ''}`,
  repairKey: `move ${end.cable}.${end.colour}`,
  proving: WIRING_PROOF,
  who: 'controls engineer',
});

export const swapBack = (network: Network, item: string, a: CoreEnd, b: CoreEnd): Repair => ({
  repair: `${ISOLATE}, swap over ${corePair(network, a, b)}, ${atItem(network, item)}.`,
  // Swapped over at one end or at the other of one cable: the same swap puts both right.
  repairKey:
    a.cable === b.cable
      ? `swap ${a.cable} ${a.colour} ${b.colour}`
      : `swap ${item} ${[a, b].map(({ cable, colour }) => `${cable}.${colour}`).join(' ')}`,
  proving: WIRING_PROOF,
  who: 'controls engineer',
});

/** Any other change of wiring. */
export const rewire = (repairKey: string, what: string): Repair => ({
  repair: `${ISOLATE}, ${what}`,
  repairKey,
  proving: WIRING_PROOF,
  who: 'controls engineer',
});

/** Something set, flat or lost: the act is the repair. */
export const setRight = (
  repairKey: string,
  what: string,
  proving = 'Call by it and take the call away: what it switches follows.',
): Repair => ({
  repair: what,
  repairKey,
  proving,
  who: 'controls engineer',
});

/** Every load in turn, since a fuse is proved by what it carries. */
export const LOADED = 'Every call, one load after the other, under load.';

export const frontFuse = (branch: string, amps: number): Repair => ({
  repair: `Find why it blew first: prove the circuit clear of a short. Then fit one known good ${amps} A fuse, or the rating that the instructions give.`,
  repairKey: `restore ${branch}`,
  proving: LOADED,
  who: 'controls engineer',
});

export const isAtSupply = (network: Network, point: string): boolean =>
  ['isolation', 'supply'].includes(network.items.get(itemOf(point))?.device.family ?? '');
