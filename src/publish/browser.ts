import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';

/** Only what a browser needs here; nothing that changes how pages are loaded. */
const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--headless',
];

/** A browser that nobody else uses. */
export interface OwnBrowser {
  readonly browser: Browser;
  readonly close: () => Promise<void>;
}

/**
 * Starts a browser: the program at CHROME_PATH, else the Chromium that a package brings for
 * Linux x64.
 * @param fonts folder of the only fonts that it finds; else those of its own, or the machine's
 * @param flags that it is started with beside those it needs
 * @throws Error that says what to install where there is neither
 */
export async function launch(fonts?: string, flags: readonly string[] = []): Promise<OwnBrowser> {
  const own = process.env.CHROME_PATH;
  const found = own
    ? { executablePath: own, env: process.env, forget: async () => {} }
    : await unpackBrowser();
  const { executablePath } = found;
  const env = fonts ? { ...found.env, FONTCONFIG_FILE: await fontSettings(fonts) } : found.env;
  const args = [...FLAGS, ...flags];
  const browser = await chromium.launch({ executablePath, env: { ...env }, args });
  return {
    browser,
    async close() {
      await browser.close();
      await found.forget();
    },
  };
}

/** A browser's program, the surroundings it needs, and what removes it again. */
interface Unpacked {
  readonly executablePath: string;
  readonly env: NodeJS.ProcessEnv;
  readonly forget: () => Promise<void>;
}

/**
 * Unpacks the Chromium that a package brings into a folder of its own.
 * @throws Error that says what to install where it does not run
 */
export async function unpackBrowser(): Promise<Unpacked> {
  if (process.platform !== 'linux' || process.arch !== 'x64')
    throw new Error(
      `There is no packaged browser for ${process.platform} ${process.arch}: install Chrome or Chromium and set CHROME_PATH to its program`,
    );
  // Read when the package is imported: it then unpacks the libraries that it brings.
  process.env.AWS_EXECUTION_ENV = 'AWS_Lambda_nodejs24.x';
  // It takes a program already in the temporary folder for its own, whatever its version.
  const folder = await mkdtemp(join(tmpdir(), 'chromium-'));
  const before = process.env.TMPDIR;
  process.env.TMPDIR = folder;
  const { default: packaged } = await import('@sparticuz/chromium');
  const executablePath = await packaged.executablePath();
  if (before === undefined) delete process.env.TMPDIR;
  else process.env.TMPDIR = before;
  return {
    executablePath,
    env: { ...process.env, FONTCONFIG_FILE: await fontSettings(join(folder, 'fonts')) },
    forget: () => rm(folder, { recursive: true, force: true }),
  };
}

/**
 * Says where the fonts are, those that came with the packaged browser or others. Its own settings
 * look in a fixed folder; without them a machine that has no fonts shows no text and may crash.
 */
async function fontSettings(fonts: string): Promise<string> {
  const file = `${fonts}.conf`;
  await writeFile(
    file,
    `<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig><dir>${fonts}</dir><cachedir>${fonts}-cache</cachedir></fontconfig>`,
  );
  return file;
}
