import type { Nets } from './nets.ts';
import { type Arrangement, refer } from './placed.ts';
import { Refusal } from './types.ts';

/**
 * Puts what stands in series into its net, on the boiler’s side. Several in one net go by rank,
 * the highest nearest the boiler. A net that nothing cuts is one with what feeds it; where the
 * live is cut, what goes out to the switch has a way of its own, so that a switch taken out or
 * bridged is a link to see and not a core that might be any.
 */
export function insert({ heat, pump, additions }: Arrangement, nets: Nets): void {
  const cuts = additions
    .filter(({ variant, module }) => variant?.cut && module.through)
    .toSorted((a, b) => a.module.rank - b.module.rank);
  let live = 'live';
  const first = heat.module.joins['call pair 2'] ? 'call pair 2' : 'boiler call';
  let call: string = first;
  for (const addition of cuts) {
    const called = addition.module.title.toLowerCase();
    const [into, out] = addition.module.through!.map((terminal) => refer(addition, terminal));
    if (addition.variant!.cut === 'boiler live') {
      if (!heat.module.joins['boiler live']) throw new Refusal('no permanent live to cut', heat.id);
      const own = `live to the ${called}`;
      nets.join(own, into!);
      nets.tie(own, live);
      live = `boiler live past the ${called}`;
      nets.join(live, out!);
    } else {
      // A pump without an output of the boiler runs with its call, and stops with it.
      const after = heat.module.joins['pump live'] || !pump ? [heat] : [heat, pump];
      const boiler = after.flatMap(({ references }) => [...references.values()]);
      const consumers = nets
        .membersOf(call)
        .filter((terminal) => boiler.some((item) => terminal.startsWith(`${item}.`)));
      const past = `${first} past the ${called}`;
      nets.join(call, into!);
      nets.move(call, consumers, past);
      nets.join(past, out!);
      call = past;
    }
  }
  if (live === 'live') nets.unite('live', 'boiler live');
  else nets.unite('boiler live', live);
}
