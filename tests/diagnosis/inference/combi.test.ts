import { proveInference } from './proofs.ts';

proveInference(
  [
    'combi-two-wire',
    'combi-volt-free',
    'combi-wireless',
    'combi-condensate-pump',
    'combi-wireless-condensate-pump',
  ],
  { faults: 60, inAnyOrder: 10, misread: 40, doubles: 5, doublesProposed: 1 },
);
