import type { Order } from './order.ts';
import { OTHER_HISTORIES } from './other-histories.ts';
import { UNTIL_NOW } from './until-now.ts';

export type { Order } from './order.ts';
/** Every order of the trade that sequences are held against. */
export const ORDERS: readonly Order[] = [...UNTIL_NOW, ...OTHER_HISTORIES];
