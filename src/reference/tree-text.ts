import type { SearchProblem, SearchTree } from '../diagnosis/search/index.ts';

const END = '.';

/**
 * A tree in one line: the index of each step's test, from the top down, before what follows
 * each of its answers by ascending code; `.` for an end. Which faults are open where follows
 * from the problem.
 */
export function treeText(tree: SearchTree): string {
  if (tree.kind === 'end') return END;
  return [tree.test, ...tree.branches.map(({ next }) => treeText(next))].join(' ');
}

/**
 * The tree that a line stands for, over its problem.
 * @throws RangeError that says where it is no tree of this problem: a test that is not there or
 * tells nothing apart, an end that leaves something apart, too little or too much of it
 */
export function treeFrom(problem: SearchProblem, text: string): SearchTree {
  const { faults, tests } = problem;
  const words = text.split(' ');
  let at = 0;
  const tree = read(Array.from(faults.keys()));
  if (at < words.length) throw new RangeError(`its tree goes on after its last end: ${words[at]}`);
  return tree;

  function read(open: readonly number[]): SearchTree {
    const word = words[at++];
    if (word === undefined) throw new RangeError('its tree is cut short');
    if (word === END) {
      if (!isEnd(problem, open))
        throw new RangeError(`its tree ends where ${open.length} faults can still be told apart`);
      return { kind: 'end', faults: open };
    }
    const test = tests[Number(word)];
    if (!/^\d+$/.test(word) || !test)
      throw new RangeError(
        `its tree says ${word || 'nothing'} for a test; there are 0 to ${tests.length - 1}`,
      );
    const parts = Map.groupBy(open, (fault) => test.answers[fault]!);
    if (parts.size < 2) throw new RangeError(`its tree takes ${test.id} where it tells nothing`);
    const branches = [...parts]
      .sort(([a], [b]) => a - b)
      .map(([answer, part]) => ({ answer, next: read(part) }));
    return { kind: 'test', test: Number(word), faults: open, branches };
  }
}

/** Whether faults share one repair, or no test tells any of them apart. */
function isEnd({ faults, tests }: SearchProblem, [first, ...others]: readonly number[]): boolean {
  if (first === undefined) return false;
  return (
    others.every((fault) => faults[fault]!.repair === faults[first]!.repair) ||
    tests.every(({ answers }) => others.every((fault) => answers[fault] === answers[first]))
  );
}
