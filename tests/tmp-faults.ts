import { readFileSync } from 'node:fs';
import { modelOf } from '../src/job/job-data.ts';
for (const id of process.argv.slice(2)) {
  const m = modelOf(JSON.parse(readFileSync(`dist/job/${id}.json`, 'utf8')));
  console.log(id, m.singles.length);
  for (const s of m.singles.toSorted((a, b) => b.prior - a.prior).slice(0, 40)) console.log('  ', s.id, '|', s.title, s.prior.toFixed(4));
}
