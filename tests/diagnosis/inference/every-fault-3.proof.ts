import { proveInference } from './every-fault.ts';

proveInference(2);
