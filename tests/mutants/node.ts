import { spawnSync } from 'node:child_process';

/**
 * Runs Node beside this process and waits for it. A test runner inside a test runner must not
 * know of the outer one, so what that sets in the environment is taken out.
 */
export function node(where: string, ...given: string[]) {
  const env = Object.fromEntries(
    Object.entries(process.env).filter(([name]) => !/^(VITEST|TEST|NODE_OPTIONS)/.test(name)),
  );
  return spawnSync(process.execPath, given, { cwd: where, env, encoding: 'utf8' });
}
