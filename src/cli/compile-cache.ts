/** Keeps commands compiled from run to run: loaded before anything else, see `package.json`. */
import { enableCompileCache } from 'node:module';
import { join } from 'node:path';
import { keptFolder } from '../folder/home.ts';

enableCompileCache(join(keptFolder(), 'compiled'));
