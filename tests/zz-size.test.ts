import { test } from 'vitest';
import { loadEntries } from '../src/entries/index.ts';
import { buildNetwork, simulate } from '../src/circuit/index.ts';
import { testPairs } from '../src/wiring/index.ts';
import { signaturesOf } from '../src/diagnosis/signatures.ts';
import { sequenceProblem, startsOf, testSequence } from '../src/diagnosis/sequences/index.ts';
import { solveSequence } from '../src/diagnosis/search/index.ts';
import { ANSWER_WORDS } from '../src/diagnosis/tests/index.ts';
const only = process.env.ONLY?.split(',') ; const starts = process.env.START?.split(',');
test('sizes', () => {
  const { entries } = loadEntries('content') as any;
  const devices = new Map([...entries.devices].map(([id, e]: any) => [id, e.data])) as any;
  const symptoms = new Map([...entries.symptoms].map(([id, e]: any) => [id, e.data])) as any;
  for (const e of entries.systems.values()) {
    if (only && !only.includes(e.id)) continue;
    const simulation = simulate(buildNetwork(e.id, e.data, devices));
    const t0 = performance.now();
    const sig = signaturesOf(simulation, testPairs(simulation.network));
    console.log(e.id, 'tests', sig.tests.length, 'faults', sig.faults.length, 'silent', sig.silent.length, Math.round(performance.now() - t0), 'ms');
    for (const start of startsOf(symptoms, simulation.network, sig)) {
      if (starts && !starts.includes(start.id)) continue;
      const t = performance.now();
      const seq = testSequence(simulation, sig, start, (p) => solveSequence(p, Number(process.env.BUDGET ?? 5000)));
      console.log('  ', start.id, 'open', start.open.length, 'min', seq.minutes.toFixed(2), 'gap', seq.gap.toFixed(3), 'expanded', seq.expanded, Math.round(performance.now() - t), 'ms');
      if (starts) {
        const show = (n: any, d: number): void => {
          const pad = '      ' + '  '.repeat(d);
          if (n.kind === 'end') { const end = seq.ends[n.number - 1]!; console.log(pad + '=> ' + (end.share * 100).toFixed(1) + '% ' + (end.faults.slice(0, 4).map((f) => f.title).join(' | ') || 'sound') + (end.faults.length > 4 ? ` (+${end.faults.length - 4})` : '')); return; }
          const st = seq.steps[n.number - 1]!;
          for (const a of st.answers) { console.log(pad + `[${st.number}] ${st.test.id} = ${ANSWER_WORDS[a.answer]} (${(a.share * 100).toFixed(0)}%)`); show(a.next, d + 1); }
        };
        show(seq.first, 0);
      }
    }
  }
}, 600000);
