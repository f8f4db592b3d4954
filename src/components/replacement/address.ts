import type { Replacement } from '../../wiring/replacement/index.ts';

/** Last part of a replacement's address: `b1-wireless-receiver`. */
export const pairOf = ({ plan }: Replacement): string => `${plan.item.toLowerCase()}-${plan.newId}`;

/** Root-relative address of a system's replacements, or of one of them. */
export const replacePath = (system: string, pair?: string): string =>
  `/systems/${system}/replace/${pair === undefined ? '' : `${pair}/`}`;
