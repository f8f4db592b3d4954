import { splitReference } from '../../../schemas/index.ts';
import type { Network } from '../../circuit/index.ts';
import { list } from '../say.ts';

/** Families that make heat. */
export const SOURCES_OF_HEAT: readonly string[] = ['boiler', 'heater'];

/** Outcomes as a person would say them, as in `“Burner lit” at E1 and “Pump running” at M1`. */
export function outcomeWords(network: Network, outcomes: readonly string[]): string {
  return list(
    outcomes.map((id) => {
      const [item, name] = splitReference(id);
      const title = network.items.get(item)?.device.outcomes[name]?.title ?? name;
      return `“${title}” at ${item}`;
    }),
  );
}
