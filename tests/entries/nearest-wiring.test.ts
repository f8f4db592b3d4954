import { describe, expect, it } from 'vitest';
import { checkEntries, type Effects, fileSystem, formatProblem } from '../../src/entries/index.ts';
import { CONTENT } from '../firm/memory.ts';

/** The content folder with one system's file written otherwise. */
function edited(system: string, edit: (text: string) => string): Effects {
  const file = `${CONTENT}/systems/${system}.mdx`;
  return {
    ...fileSystem,
    read(path) {
      if (path !== file) return fileSystem.read(path);
      const before = new TextDecoder().decode(fileSystem.read(path));
      const after = edit(before);
      expect(after).not.toBe(before);
      return new TextEncoder().encode(after);
    },
  };
}
const problemsWith = (system: string, edit: (text: string) => string) =>
  checkEntries(CONTENT, edited(system, edit)).problems;

/** Two values of the frontmatter in each other's place, where each stands first. */
const exchange = (a: string, b: string) => (text: string) =>
  text.replace(a, '\u0000').replace(b, a).replace('\u0000', b);

describe('a slip in the wiring that many expectations show', () => {
  it('is one problem, the change first and what follows beneath', () => {
    const [only, ...more] = problemsWith('heat-only-two-port', (text) =>
      text
        .replace('BK: { ends: [X1.4, B1.NO]', 'BK: { ends: [X1.4, B1.N]')
        .replace('GY: { ends: [X1.N, B1.N]', 'GY: { ends: [X1.N, B1.NO]'),
    );
    expect(more).toEqual([]);
    expect(formatProblem(only!).split('\n').slice(0, 9)).toEqual([
      'systems/heat-only-two-port.mdx:83:7  wiring-differs',
      '  exchange black and grey of the room stat cable W5 in the wiring centre X1, and all 26 expectations that differ hold',
      '  at       cables.W5.cores.BK',
      '  mend     Or: exchange black and grey of the room stat cable W5 at the room stat B1. Compare with what is on the wall; where that is as written here, what the modes expect is wrong',
      '  - in mode “Heating only” this expects “Programmer display lit”; the circuit gives “No display on the programmer”',
      '  - in mode “Heating only” this expects “Programmer shows heating on”; the circuit gives “Programmer shows heating off”',
      '  - in mode “Heating only” this expects “Valve lever slack, valve open”; the circuit gives “Valve lever stiff, valve shut”',
      '  - in mode “Heating only” this expects “Boiler display lit”; the circuit gives “No display on the boiler”',
      '  - and 22 more',
    ]);
  });

  it.each([
    ['heat-only-two-port', exchange('Q2.motor L]', 'Q2.end switch feed]')],
    ['heat-only-mid-position', exchange('B2.call]', 'B2.satisfied]')],
    ['combi-wireless', exchange('K1.NO]', 'K1.N]')],
    ['system-boiler-internal-pump', exchange('E1.SL]', 'E1.L]')],
    ['combi-condensate-pump', exchange('M1.overflow COM]', 'M1.N]')],
  ])('%s: the first message is the change', (system, slip) => {
    const problems = problemsWith(system, slip);
    const [first, ...others] = problems.map(({ code, message }) => `${code} ${message}`);
    expect(first).toMatch(/^wiring-differs (exchange|move) .* expectations that differ hold$/);
    // What a house standard finds may be a danger: it is never told beneath anything.
    for (const other of others) expect(other).toMatch(/^standard-breached /);
  });

  it('is not looked for behind one expectation, and told only where a single change does', () => {
    const one = problemsWith('combi-two-wire', (text) =>
      text.replace('E1.burner: true', 'E1.burner: false'),
    );
    expect(one.map(({ code }) => code)).toEqual(['expectation-differs']);
    const other = problemsWith('combi-two-wire', (text) =>
      text
        .replaceAll('E1.pump: true', 'E1.pump: false')
        .replaceAll('E1.display: true', 'E1.display: false'),
    );
    expect(new Set(other.map(({ code }) => code))).toEqual(new Set(['expectation-differs']));
  });

  it('takes with it what prose reads where the slip left nothing, and nothing else', () => {
    const slipped = (text: string) =>
      text.replace('ends: [X1.5, B2.call]', 'ends: [X1.5, B2.satisfied]');
    const reads = (text: string) =>
      `${text}\nIt gives <Reading at="B2.call" mode="hot-water" /> then.\n`;
    const wrong = (text: string) =>
      `${text}\nAnd <Reading at="B2.satisfied" mode="hot-water" /> else.\n`;
    const misspelt = (text: string) => text.replace('mode="standby" />', 'mode="stand-by" />');
    const codes = (edit: (text: string) => string) =>
      problemsWith('heat-only-two-port', edit).flatMap(({ code }) =>
        // What house standards find stays beside it.
        code === 'standard-breached' ? [] : [code],
      );
    expect(codes((text) => reads(slipped(text)))).toEqual(['wiring-differs']);
    // Wired as it should be, nothing is there to be read either: it is a slip of its own.
    expect(codes(wrong)).toEqual(['reading-against-nothing']);
    expect(codes((text) => misspelt(reads(slipped(text))))).toEqual([
      'wiring-differs',
      'mode-unknown',
    ]);
    expect(codes(misspelt)).toEqual(['mode-unknown']);
  });
});
