import { systemFiles } from '../../support/content.ts';
import { proveInference } from './proofs.ts';

const ids = systemFiles().filter((id) => id.startsWith('combi-'));
/** As many of the runs as make this many over all the systems, however many there are. */
const each = (runs: number): number => Math.max(3, Math.round(runs / ids.length));

proveInference(ids, { proposed: each(200), inAnyOrder: each(50), misread: each(150) });
