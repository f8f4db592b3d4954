#!/usr/bin/env node
/**
 * The command of the package, as a firm types it: `npx proveline check`. Plain JavaScript for any
 * Node: it finds the firm's folder, lays Proveline out beside it, and runs the command that is
 * named in Node 24, with the firm's folder as the one that is laid over the reference.
 */
import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { layOut } from './lay-out.mjs';

const PACKAGE = fileURLToPath(new URL('../../../', import.meta.url));
const FIRM_FILE = 'firm.yaml';
/** Node that runs sources as they are written. */
const LEAST_NODE = [24, 2];

/** Commands by name: their file, and what they do in a line. */
const COMMANDS = {
  new: ['new.ts', 'a firm’s folder, or an entry that is in order at once'],
  check: ['check.ts', 'every entry, simulated and judged; --published URL a site that is online'],
  dev: ['dev.ts', 'serves the pages while entries are written'],
  build: ['build.ts', 'the site, into dist/ or --out'],
  start: ['start.ts', 'builds and serves'],
  serve: ['serve.ts', 'serves a built site'],
  pack: ['pack.ts', 'a built site as one PDF, and cupboard labels'],
  review: ['review.ts', 'what changed in an entry since it was reviewed; on yes, who read it'],
  import: ['import.ts', 'wiring from a spreadsheet’s table'],
  export: ['export.ts', 'wiring as a spreadsheet’s table'],
  release: ['release.ts', 'what the folder holds as a release that phones are told of'],
  changes: ['changes.ts', 'what changed between two builds or releases'],
  gather: ['gather.ts', 'what came back from the field'],
  schemas: ['write-schemas.ts', 'renews what editors complete entries by'],
  upgrade: ['upgrade.ts', 'brings the firm’s entries to this version of Proveline'],
};
/** Commands that need no firm's folder. */
const WITHOUT_FIRM = ['serve', 'changes', 'pack'];

const { version } = JSON.parse(readFileSync(join(PACKAGE, 'package.json'), 'utf8'));
const [name, ...rest] = process.argv.slice(2);

if (name === '--version') console.log(version);
else if (name === undefined || name === '--help' || name === 'help') console.log(usage());
else if (!Object.hasOwn(COMMANDS, name)) {
  console.error(`There is no command “${name}”.\n${usage()}`);
  process.exitCode = 2;
} else
  try {
    run(name);
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error));
    process.exitCode = 1;
  }

/** @param {string} command */
function run(command) {
  const found = firmAbove(process.cwd());
  const asked = rest.some((word) => word === '--firm' || word.startsWith('--firm='));
  const isOwn =
    asked ||
    WITHOUT_FIRM.includes(command) ||
    (command === 'new' && rest[0] === 'firm') ||
    rest.some((word) => /^--(help|explain|published)(=|$)/.test(word));
  if (found === undefined && !isOwn)
    throw new Error(
      `There is no ${FIRM_FILE} in ${process.cwd()} or above it, so it is no firm’s folder. Go to the firm’s folder, or make one in an empty folder: npx proveline new firm`,
    );
  const place = found ?? process.cwd();
  const home = layOut(PACKAGE, join(place, '.proveline'));
  const [file] = COMMANDS[/** @type {keyof typeof COMMANDS} */ (command)];
  const cli = (/** @type {string} */ one) => join(home, 'src/cli', one);
  const child = spawn(
    nodeProgram(),
    [
      '--max-semi-space-size=64',
      '--import',
      pathToFileURL(cli('compile-cache.ts')).href,
      cli(file),
      ...rest,
    ],
    {
      stdio: 'inherit',
      env: {
        ...(found === undefined ? {} : { PROVELINE_FIRM: found }),
        ...process.env,
        PROVELINE_HOME: home,
        PROVELINE_KEPT: join(place, '.proveline/kept'),
      },
    },
  );
  for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM', 'SIGHUP']))
    process.on(signal, () => child.kill(signal));
  child.on('error', (error) => {
    console.error(error.message);
    process.exitCode = 1;
  });
  child.on('exit', (code, signal) => {
    process.exit(signal === null ? (code ?? 1) : 1);
  });
}

/**
 * The firm's folder that a folder is or lies in.
 * @param {string} folder
 * @returns {string | undefined}
 */
function firmAbove(folder) {
  if (existsSync(join(folder, FIRM_FILE))) return folder;
  const above = dirname(folder);
  return above === folder ? undefined : firmAbove(above);
}

/** Node 24 as its package brings it, or the one that runs here where that is new enough. */
function nodeProgram() {
  try {
    const own = createRequire(import.meta.url).resolve('node/package.json');
    const program = resolve(own, '../bin/node');
    if (existsSync(program)) return program;
  } catch {
    // Installed without it.
  }
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  const [leastMajor = 0, leastMinor = 0] = LEAST_NODE;
  if (major > leastMajor || (major === leastMajor && minor >= leastMinor)) return process.execPath;
  throw new Error(
    `The package node, which brings Node 24, is not set up: npm was kept from running its install script. Let it (npm rebuild node), or run this with Node ${LEAST_NODE.join('.')} or later; here is ${process.version}`,
  );
}

function usage() {
  const lines = Object.entries(COMMANDS).map(([one, [, what]]) => `  ${one.padEnd(8)}  ${what}`);
  return `npx proveline COMMAND [options], version ${version}\n${lines.join('\n')}\nnpx proveline COMMAND --help says more.`;
}
