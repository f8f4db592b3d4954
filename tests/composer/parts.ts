import { ComposerEngine } from '../../src/composer/engine.ts';
import { type PartsData, partsData } from '../../src/composer/parts-data.ts';
import { Questions } from '../../src/composer/questions.ts';
import { catalogue, entries } from '../compose/catalogue.ts';

/** The parts as a phone has them: written as JSON and read again. */
export const parts = (): PartsData => JSON.parse(JSON.stringify(partsData(entries())));

export const engine = (): ComposerEngine => new ComposerEngine(parts());

export const questions = (): Questions => new Questions(catalogue());
