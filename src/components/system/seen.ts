import type { Network, Settled } from '../../circuit/index.ts';
import { isSteadyWhileSound } from '../../site/index.ts';
import { itemOf, outcomeText } from '../../wiring/index.ts';

/** Something seen, heard or felt, in words. */
export interface SeenLine {
  readonly item: string;
  readonly text: string;
  readonly so: boolean;
}

/** What a person notices in a mode. What no mode changes, as a pressure gauge, says nothing of one. */
export const seenIn = (network: Network, { outcomes }: Pick<Settled, 'outcomes'>): SeenLine[] =>
  [...outcomes]
    .filter(([outcome]) => !isSteadyWhileSound(network, outcome))
    .map(([outcome, seen]) => ({
      item: itemOf(outcome),
      text: outcomeText(network, outcome, seen),
      so: seen !== false,
    }));
