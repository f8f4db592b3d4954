import { Writable } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { type Plan, startProgress } from '../../src/cli/progress.ts';

/** A stream that keeps what it is given, a clock that is set, and a timer that is rung. */
function desk(plan: Plan, rewrites = false, columns = 80) {
  const written: string[] = [];
  const stream = Object.assign(
    new Writable({
      write(chunk, _, done) {
        written.push(String(chunk));
        done();
      },
    }),
    { isTTY: rewrites, columns },
  );
  const bells = new Set<() => void>();
  let time = 0;
  const progress = startProgress(plan, {
    stream,
    rewrites,
    now: () => time,
    every(_, call) {
      bells.add(call);
      return () => bells.delete(call);
    },
  });
  return {
    progress,
    written,
    text: () => written.join(''),
    pass: (milliseconds: number) => {
      time += milliseconds;
    },
    ring: () => bells.forEach((call) => void call()),
    bells,
  };
}

describe('where lines are kept, as when piped', () => {
  it('says first what is done, then a line a stage, then what was reused', async () => {
    const { progress, text, pass } = desk({ stages: 2, headline: 'Building the site' });
    expect(text()).toBe('Building the site\n');
    await progress.stage('Entries', () => pass(400));
    expect(
      await progress.stage('Sequences', (step) => {
        for (let done = 1; done <= 3; done++) {
          pass(300);
          step(done, 3);
        }
        return 'solved';
      }),
    ).toBe('solved');
    progress.reused('sequences', 90, 93);
    progress.reused('systems', 7, 8);
    progress.end();
    expect(text()).toBe(
      `Building the site
1/2 Entries, 0.4 s
2/2 Sequences: 3, 0.9 s
Done in 1.3 s; kept from before: 90 of 93 sequences, 7 of 8 systems
`,
    );
  });

  it('says every two seconds of a long stage where it is', async () => {
    const { progress, text, pass } = desk({ stages: 1 });
    await progress.stage('Sequences', (step) => {
      for (let done = 1; done <= 10; done++) {
        pass(900);
        step(done, 10);
      }
      pass(4000);
      step(10, 10);
    });
    expect(text()).toBe(`1/1 Sequences: 3 of 10, 2.7 s …
1/1 Sequences: 6 of 10, 5.4 s …
1/1 Sequences: 9 of 10, 8.1 s …
1/1 Sequences: 10, 13 s
`);
  });

  it('says so by its timer where a stage counts nothing', async () => {
    const { progress, text, pass, ring, bells } = desk({ stages: 1 });
    await progress.stage('Pages', async () => {
      pass(2000);
      ring();
      await Promise.resolve();
      pass(500);
      ring();
      pass(1500);
      ring();
    });
    expect(bells.size).toBe(0);
    expect(text()).toBe('1/1 Pages, 2.0 s …\n1/1 Pages, 4.0 s …\n1/1 Pages, 4.0 s\n');
  });

  it('writes no colour and no cursor code', async () => {
    const { progress, text } = desk({ stages: 1, headline: 'Building' });
    await progress.stage('Pages', (step) => step(1, 2));
    progress.end();
    expect(text()).not.toContain('\u001b');
    expect(text()).not.toContain('\r');
  });
});

describe('on a terminal', () => {
  it('writes one line over again, with a bar, and ends it', async () => {
    const { progress, written, pass } = desk({ stages: 1 }, true);
    await progress.stage('Sequences', (step) => {
      pass(100);
      step(1, 4);
      pass(10);
      step(2, 4);
      pass(100);
      step(3, 4);
    });
    expect(written.slice(0, 3)).toEqual([
      '1/1 Sequences, 0.0 s\u001b[K\r',
      '1/1 Sequences █████░░░░░░░░░░░░░░░ 1 of 4, 0.1 s\u001b[K\r',
      '1/1 Sequences ███████████████░░░░░ 3 of 4, 0.2 s\u001b[K\r',
    ]);
    expect(written).toHaveLength(4);
    expect(written[3]).toMatch(/^1\/1 Sequences: 4, .*0\.2 s.*\n$/);
  });

  it('keeps a line shorter than the terminal', async () => {
    const { progress, written } = desk({ stages: 1 }, true, 12);
    await progress.stage('Sequences', () => undefined);
    expect(written[0]).toBe('1/1 Sequenc\u001b[K\r');
  });
});

it('says where a stage stopped, and throws on what stopped it', async () => {
  const { progress, text, pass } = desk({ stages: 3 });
  const failed = progress.stage('Pages', (step) => {
    step(2, 9);
    pass(1200);
    throw new Error('no room');
  });
  await expect(failed).rejects.toThrow('no room');
  expect(text()).toBe('1/3 Pages: stopped at 2 of 9 after 1.2 s\n');
});

it('says nothing for as long as it was asked to be quiet', async () => {
  const short = desk({ stages: 2, headline: 'Checking', quietFor: 2000 });
  await short.progress.stage('Entries', () => short.pass(900));
  await short.progress.stage('Standards', () => short.pass(900));
  short.progress.end();
  expect(short.text()).toBe('');

  const long = desk({ stages: 2, quietFor: 2000 });
  await long.progress.stage('Entries', () => long.pass(900));
  await long.progress.stage('Standards', () => long.pass(1900));
  long.progress.end();
  expect(long.text()).toBe('2/2 Standards, 1.9 s\nDone in 2.8 s\n');
});
