import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { oneAtATime } from '../../src/cli/one-at-a-time.ts';

let folder: string;
let file: string;
let said: string[];
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'turns-'));
  file = join(folder, 'made', 'building');
  said = [];
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));
const say = (line: string) => said.push(line);

test('one begins when another is done, and says what it waits for', async () => {
  const order: string[] = [];
  const held = Promise.withResolvers<void>();
  const first = oneAtATime(file, say, async () => {
    order.push('first begins');
    await held.promise;
    order.push('first ends');
  });
  await expect.poll(() => order).toEqual(['first begins']);
  const second = oneAtATime(file, say, async () => order.push('second'));
  await expect.poll(() => said.length).toBe(1);
  held.resolve();
  await Promise.all([first, second]);
  expect(order).toEqual(['first begins', 'first ends', 'second']);
  expect(said).toEqual([
    `Another build of this folder is under way (process ${process.pid}): this one begins after it`,
  ]);
  expect(existsSync(file)).toBe(false);
});

test('what fails lets the next begin', async () => {
  const fails = oneAtATime(file, say, () => Promise.reject(new Error('no')));
  await expect(fails).rejects.toThrow('no');
  expect(await oneAtATime(file, say, async () => 'done')).toBe('done');
  expect(said).toEqual([]);
});

test('nobody waits for a process that is gone, or for a file that names none', async () => {
  const gone = spawn(process.execPath, ['-e', '']);
  await new Promise((resolve) => gone.on('exit', resolve));
  await oneAtATime(file, say, async () => undefined);
  for (const left of [String(gone.pid), '', 'x']) {
    writeFileSync(file, left);
    const held = await oneAtATime(file, say, async () => readFileSync(file, 'utf8'));
    expect(held).toBe(String(process.pid));
  }
  expect(said).toEqual([]);
});

test('nobody waits for a number that another process has got since', async () => {
  await oneAtATime(file, say, async () => undefined);
  // It is alive, and has shown no sign of a build for a minute.
  writeFileSync(file, String(process.ppid));
  const before = new Date(Date.now() - 61_000);
  utimesSync(file, before, before);
  expect(await oneAtATime(file, say, async () => 'done')).toBe('done');
  expect(said).toEqual([]);
});
