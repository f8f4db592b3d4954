import { spawn, spawnSync } from 'node:child_process';
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { expect } from 'vitest';
import { ownVersion } from '../../src/folder/index.ts';

/** A command that goes on until it is stopped, and what it printed. */
export interface Going {
  readonly found: string;
  readonly stop: () => void;
}

/** Commands of a block of the README, one a line: the first after a text, what is said of it left out. */
export function readmeBlock(after: string): string[] {
  const [, rest = ''] = readFileSync('README.md', 'utf8').split(after);
  const [, block = ''] = /```sh\n([\s\S]*?)```/.exec(rest) ?? [];
  return block
    .trim()
    .split('\n')
    .map((line) => line.replace(/ +# .*$/, ''));
}

const DAY = readmeBlock("\n## A firm's repository\n");
/** The command of README's day in a firm's repository that begins so. */
export function ofDay(start: string): string {
  const found = DAY.filter((line) => line.startsWith(start));
  expect(found, `one line of README begins ${start}`).toHaveLength(1);
  return found[0]!;
}

/** Every file of a folder with its size and time. */
export const stateOf = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ parentPath, name }) => {
      const { size, mtimeMs } = statSync(join(parentPath, name));
      return `${parentPath}/${name} ${size} ${mtimeMs}`;
    })
    .toSorted();

/** Somebody with nothing but the package and the README: an empty folder, and what is typed there. */
export class Newcomer {
  /** Folder that holds the firm's, the package, and what is built beside them. */
  readonly work = mkdtempSync(join(tmpdir(), 'package-'));
  readonly firm = join(this.work, 'our-firm');
  /** The surroundings of a reader, without what this runner of tests and npm set for themselves. */
  readonly #surroundings = Object.fromEntries(
    Object.entries(process.env).filter(
      ([name]) =>
        !/^(npm_|PROVELINE_|VITEST|NODE_ENV$|NODE_OPTIONS$|MODE$|DEV$|PROD$|SSR$|SITE_FOLDER$|INIT_CWD$)/.test(
          name,
        ),
    ),
  );
  readonly #going = new Set<Going>();

  /** Packs Proveline and installs it as README says. */
  install(): void {
    mkdirSync(this.firm);
    this.done(`npm pack --pack-destination ${this.work}`, resolve('.'));
    const install = ofDay('npm install').replace(/\d+\.\d+\.\d+/, ownVersion());
    this.done(`${install} --prefer-offline --no-audit --no-fund`);
  }

  run(command: string, cwd = this.firm): { status: number | null; said: string } {
    const { status, stdout, stderr } = spawnSync('sh', ['-c', command], {
      cwd,
      encoding: 'utf8',
      // A name for commits that is nobody's of this machine; npm keeps what it fetched.
      env: { ...this.#surroundings, GIT_CONFIG_GLOBAL: join(this.work, '.gitconfig') },
    });
    return { status, said: `${stdout}${stderr}` };
  }

  /** Runs what must go well, and gives what it said. */
  done(command: string, cwd = this.firm): string {
    const { status, said } = this.run(command, cwd);
    expect([command, status, said]).toEqual([command, 0, said]);
    return said;
  }

  /** Runs what must be refused, and gives what it said. */
  refused(command: string, cwd = this.firm): string {
    const { status, said } = this.run(command, cwd);
    expect([command, status, said]).toEqual([command, 1, said]);
    return said;
  }

  /** Starts what serves until it is stopped, and waits for what it prints. */
  async started(command: string, prints: RegExp): Promise<Going> {
    const child = spawn('sh', ['-c', `exec ${command}`], {
      cwd: this.firm,
      env: { ...this.#surroundings, PORT: String(20_000 + (process.pid % 20_000)) },
      detached: true,
    });
    const stop = () => {
      for (const one of this.#going) if (one.stop === stop) this.#going.delete(one);
      if (child.exitCode === null && child.pid !== undefined) process.kill(-child.pid);
    };
    const found = await new Promise<string>((told, failed) => {
      let said = '';
      for (const stream of [child.stdout, child.stderr])
        stream.on('data', (part: Buffer) => {
          said += part;
          const print = prints.exec(said)?.[1];
          if (print) told(print);
        });
      child.on('exit', () => failed(new Error(`${command} ended: ${said}`)));
    });
    const going = { found, stop };
    this.#going.add(going);
    return going;
  }

  read(file: string): string {
    return readFileSync(join(this.firm, file), 'utf8');
  }

  edit(file: string, from: string | RegExp, to: string): void {
    const text = this.read(file);
    expect(text).toMatch(from);
    writeFileSync(join(this.firm, file), text.replace(from, to));
  }

  /** Stops what goes on and takes all away. */
  leave(): void {
    for (const { stop } of this.#going) stop();
    rmSync(this.work, { recursive: true, force: true });
  }
}
