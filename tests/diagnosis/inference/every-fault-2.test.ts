import { proveInference } from './proofs.ts';

proveInference(1);
