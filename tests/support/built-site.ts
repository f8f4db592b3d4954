import { spawnSync } from 'node:child_process';
import { unpackBrowser } from '../../src/publish/browser.ts';

/**
 * Before all tests of the site: builds it once for all of them, unless SITE_FOLDER names a
 * site already built, and unpacks the browser once.
 */
export default async function setUp(): Promise<() => Promise<void>> {
  if (process.env.SITE_FOLDER === undefined) {
    const { NODE_ENV, MODE, DEV, PROD, SSR, VITEST, ...surroundings } = process.env;
    const { status } = spawnSync(process.execPath, ['src/cli/build.ts'], {
      stdio: ['ignore', 'inherit', 'inherit'],
      env: surroundings,
    });
    if (status !== 0) throw new Error('The site could not be built; what stopped it stands above');
  }
  if (process.env.CHROME_PATH !== undefined) return async () => {};
  // Workers are started with what stands in the environment now.
  const { executablePath, env, forget } = await unpackBrowser();
  Object.assign(process.env, env, { CHROME_PATH: executablePath });
  return forget;
}
