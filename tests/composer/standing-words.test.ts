import { describe, expect, it } from 'vitest';
import { standingWords } from '../../src/composer/standing-words.ts';
import type { JudgedBy } from '../../src/composer/verdicts.ts';

const holding = (id: string): JudgedBy => ({
  id,
  title: id,
  severity: 'danger',
  state: 'holds',
  findings: [],
});
const broken: JudgedBy = {
  id: 'fuse',
  title: 'A 3 A fuse protects the controls',
  severity: 'fault',
  state: 'breached',
  findings: [{ message: 'the fuse of Q1 is 13 A', allowed: '3 A', mend: 'fit a 3 A fuse' }],
};

const END = 'No person has reviewed this arrangement: check it against what is in front of you.';

describe('the sentence that stands with every composed arrangement', () => {
  it('has the figures that were computed', () => {
    const view = { verdicts: [holding('a'), holding('b')], missed: [] };
    expect(standingWords(view, { tried: 2168, of: 2168 }, true)).toEqual({
      wrong: [],
      standing: `Composed from parts. Circuit computed; 2 house standards met; 2,168 combinations of conditions agree with what must happen. ${END}`,
    });
  });

  it('says how far the comparison is, and that some were not tried', () => {
    const view = { verdicts: [holding('a')], missed: [] };
    expect(standingWords(view, null, false).standing).toContain(
      'what must happen is still being compared',
    );
    expect(standingWords(view, { tried: 64, of: 200 }, false).standing).toContain(
      '64 of 200 combinations of conditions compared so far agree',
    );
    expect(standingWords(view, { tried: 64, of: 200 }, true).standing).toContain(
      '64 of 200 combinations of conditions agree with what must happen, and the others were not tried',
    );
  });

  it('says first what is broken, with what is allowed; danger before fault', () => {
    const danger = { ...broken, severity: 'danger' as const, title: 'Another' };
    const view = { verdicts: [holding('a'), broken, danger], missed: [] };
    const { wrong, standing } = standingWords(view, null, false);
    expect(wrong.map(({ title }) => title)).toEqual([
      'Against “Another”',
      'Against “A 3 A fuse protects the controls”',
    ]);
    expect(wrong[1]!.said).toBe(
      'Found: the fuse of Q1 is 13 A. Allowed: 3 A. To repair: fit a 3 A fuse.',
    );
    expect(standing).toContain('1 house standard met, 2 not met');
  });

  it('says what is otherwise than it must be, once', () => {
    const miss = { what: 'a valve opens though it must not', when: '“Room asks for heat”' };
    const verdicts = [holding('a')];
    const agreed = { tried: 9, of: 200, miss };
    expect(standingWords({ verdicts, missed: [] }, agreed, true)).toMatchObject({
      wrong: [{ said: 'A valve opens though it must not, with “Room asks for heat”.' }],
      standing: expect.stringContaining(
        'of 9 combinations of conditions one does not agree with what must happen',
      ),
    });
    const missed = [{ mode: 'Heating only', what: miss.what }];
    expect(standingWords({ verdicts, missed }, agreed, true).wrong).toHaveLength(1);
  });

  it('takes advice that is not followed for nothing wrong', () => {
    const advice = { ...broken, severity: 'advice' as const };
    expect(standingWords({ verdicts: [advice], missed: [] }, null, false).wrong).toEqual([]);
  });
});
