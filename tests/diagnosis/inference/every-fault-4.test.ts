import { proveInference } from './proofs.ts';

proveInference(3);
