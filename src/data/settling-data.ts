import { z } from 'zod';
import {
  BLOWN_OHMS,
  BREAKER_OHMS,
  breakingAmps,
  CLOSED_CONTACT_OHMS,
  FUSE_OHMS,
  OPEN_CONTACT_OHMS,
  type Simulation,
} from '../circuit/index.ts';

const text = z.string();

/** How a circuit finds its rest, step by step, for whoever settles it with other tools. */
const RULE = [
  'A mode starts from where the mode it names as `after` came to rest; without one, from mechanisms at rest, nothing energised, nothing blown.',
  'Conditions are as usual except those the mode sets and those an open place brings; what a fault sets stands before all.',
  'Contacts stand as their rule says of the state; a source gives its volts while what powers it is energised.',
  'The circuit is solved: alternating at the supply’s frequency, direct apart.',
  'A load, motor or input is energised at `operates` of its rated volts or more and held at `holds` or more: the root of the squares of alternating and direct volts. One that is idle does nothing.',
  'Of the fuses and breakers whose current reaches its limit, or whose line and neutral differ by the residual current, the one that exceeds it by the greatest multiple opens.',
  'Where any of this changed, begin again with the contacts. Where nothing did, each mechanism makes the first of its moves that is due, all seen from the same state; where one moved, begin again.',
  'With a fault in it a fuse or breaker that opens in any mode is open from the start in all, until none more opens.',
  'A state that comes again is a round without rest: what changes in it hunts.',
] as const;

/** What decides where a circuit comes to rest. */
export const SettlingData = z.strictObject({
  rule: z.array(text).meta({ description: 'In this order' }),
  ohms: z
    .strictObject({
      closed: z.number(),
      open: z.number(),
      whole: z.strictObject({ fuse: z.number(), breaker: z.number() }),
      blown: z.number(),
    })
    .meta({
      description: 'Ω of contacts, of fuses and breakers; all of a device off its base: open',
    }),
  breaks: z
    .record(text, z.number())
    .meta({ description: 'A at which a fuse or breaker opens, by branch' }),
  rest: z
    .record(text, z.strictObject({ energised: z.array(text), held: z.array(text) }))
    .meta({ description: 'By mode: branches that are energised, and held, at rest' }),
});

/** The open form of how a system’s modes come to rest. */
export const settlingData = ({ network, modes }: Simulation): z.infer<typeof SettlingData> => ({
  rule: [...RULE],
  ohms: {
    closed: CLOSED_CONTACT_OHMS,
    open: OPEN_CONTACT_OHMS,
    whole: { fuse: FUSE_OHMS, breaker: BREAKER_OHMS },
    blown: BLOWN_OHMS,
  },
  breaks: Object.fromEntries(
    network.branches.flatMap((branch) => {
      const amps = branch.kind === 'element' ? breakingAmps(branch) : null;
      return amps === null ? [] : [[branch.id, amps]];
    }),
  ),
  rest: Object.fromEntries(
    [...modes].map(([mode, { state }]) => [
      mode,
      { energised: [...state.energised], held: [...state.held] },
    ]),
  ),
});
