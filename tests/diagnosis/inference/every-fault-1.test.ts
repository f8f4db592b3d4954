import { proveInference } from './proofs.ts';

proveInference(0);
