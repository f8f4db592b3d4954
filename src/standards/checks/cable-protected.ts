import { apart, type Check, type Finding, verdict } from '../types.ts';

/** Every cable carries no more than its fuse lets through, and stands what that is. */
export const cableProtected: Check<'cable protected'> = {
  words: () =>
    'The largest current of each cable in any mode is no more than the rating of the fuse or MCB before it, or behind it and limiting all it feeds, and that rating is no more than the cable’s capacity.',
  run(_, { cables }) {
    const loads = cables.cables.filter(({ protectedWell }) => protectedWell !== null);
    if (loads.length === 0) return apart('no table gives the capacity of these cables');
    const findings = loads.flatMap((load): Finding[] => {
      if (load.protectedWell) return [];
      const device = load.limiter ?? load.protection;
      const capacity = load.capacity!;
      if (!device)
        return [
          {
            at: load.cable,
            path: ['cables', load.cable],
            message: `no fuse or MCB stands before ${load.cable}`,
            mend: `Feed ${load.cable} from the load side of a fused connection unit`,
          },
        ];
      return [
        {
          at: load.cable,
          path: ['cables', load.cable, 'size'],
          message: `${load.cable} stands ${capacity} A at ${load.size} mm², and ${device.title} lets ${device.rating} A through`,
          found: `${load.size} mm²`,
          allowed: `a capacity of ${device.rating} A or more`,
          mend: `Run ${load.cable} larger, or put a smaller fuse before it`,
        },
      ];
    });
    return verdict(findings, `cables: ${loads.length}`);
  },
};
