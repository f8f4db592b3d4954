import { buildNetwork } from '../../circuit/index.ts';
import { type Layouts, layOutForPages } from '../../diagram/index.ts';
import type { Source } from './source.ts';

/** Lays a system out for its drawings. */
export const makeLayouts = ({ id, system, devices }: Source): Layouts =>
  layOutForPages(buildNetwork(id, system, new Map(Object.entries(devices))));
