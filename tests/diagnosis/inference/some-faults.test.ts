import { SEED } from '../../support/property.ts';
import { random } from '../../support/random.ts';
import { proveOf } from './every-fault.ts';
import { detectable, some } from './jobs.ts';

// Some faults of two systems; every fault of every system is in the proofs.
for (const id of ['combi-two-wire', 'combi-volt-free'])
  proveOf(id, (model) => some(detectable(model), 20, random(SEED)));
