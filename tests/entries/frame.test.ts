import { describe, expect, it } from 'vitest';
import { codeFrame, type Position } from '../../src/entries/index.ts';

const frame = (lines: readonly string[], position: Position) =>
  codeFrame({ source: { file: 'a.mdx', lines, positionAt: () => position }, position });

describe('the lines around a place', () => {
  it('are two before and two after', () => {
    expect(frame(['a', 'b', 'c', 'd', 'e', 'f', 'g'], { line: 4, column: 1 })).toBe(
      ['  2 | b', '  3 | c', '> 4 | d', '    | ^', '  5 | e', '  6 | f'].join('\n'),
    );
  });

  it('are fewer at the ends of a file', () => {
    expect(frame(['a', 'b', ''], { line: 1, column: 1 })).toBe('> 1 | a\n    | ^\n  2 | b');
    expect(frame(['a', 'b'], { line: 2, column: 2 })).toBe('  1 | a\n> 2 | b\n    |  ^');
  });

  it('line up when their numbers grow a digit', () => {
    const lines = Array.from({ length: 12 }, (_, i) => `line ${i + 1}`);
    expect(frame(lines, { line: 9, column: 6 })).toBe(
      [
        '   7 | line 7',
        '   8 | line 8',
        '>  9 | line 9',
        '     |      ^',
        '  10 | line 10',
        '  11 | line 11',
      ].join('\n'),
    );
  });

  it('keep the caret under its letter behind a tab and in a long line', () => {
    expect(frame(['\tab'], { line: 1, column: 3 })).toBe('> 1 |  ab\n    |   ^');
    const long = `${'x'.repeat(300)}!${'y'.repeat(300)}`;
    const [text = '', caret = ''] = frame([long], { line: 1, column: 301 }).split('\n');
    expect(text[caret.indexOf('^')]).toBe('!');
    expect(text.length).toBeLessThan(110);
  });

  it('are none in a file without text', () => {
    expect(frame([''], { line: 1, column: 1 })).toBe('');
  });
});
