import { systemFiles } from '../../support/content.ts';
import { proveInference } from './proofs.ts';

proveInference(systemFiles().filter((id) => !id.startsWith('combi-')));
