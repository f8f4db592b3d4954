/** Keeps commands compiled from run to run: loaded before anything else, see `package.json`. */
import { enableCompileCache } from 'node:module';
import { resolve } from 'node:path';

enableCompileCache(resolve('node_modules/.cache/proveline/compiled'));
