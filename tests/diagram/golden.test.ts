import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { simulate } from '../../src/circuit/index.ts';
import { drawLegend, drawSystem } from '../../src/diagram/index.ts';
import { circuit } from '../support/notation.ts';
import { everySign } from './every-sign.ts';
import { parseMarkup } from './markup.ts';

const signs = simulate(everySign());
const loop = simulate(
  circuit(`
    F1 mains: supply L N E
    E1 fuse: fuse L feed { rating: 3 }
    E1 call input: sensing return N { ohms: 100000 }
    E1 burner: load SL N { watts: 45 }
    B1 contact: contact COM NO { closed: calling }
    W1: twin and earth 1.5/1 10; BN F1.L E1.L; BU F1.N E1.N; GNYE F1.E E1.E
    W2: flex 0.75 12; BN E1.feed B1.COM; BU E1.return B1.NO; spare GNYE
    link E1.return E1.SL
    mode rest:
    mode call: B1.calling
  `),
);

/** Two valves on a wiring centre: common practice, no source. */
const centre = simulate(
  circuit(`
    X1 is a wiring centre
    Q2 is a valve
    E1 is a class I boiler
    F1 mains: supply L N E
    F1 fuse: fuse L feed { rating: 3 }
    B1 contact: contact COM NO { closed: calling }
    Q2 motor: motor L N { watts: 6, name: valve motor }
    Q2 end switch: contact in out { closed: { energised: motor } }
    E1 burner: load SL N { watts: 45 }
    W1: twin and earth 1.5/1 10; BN F1.feed X1.1; BU F1.N X1.N; GNYE F1.E X1.E
    W2: flex 0.75 12; BN X1.1 B1.COM; BK B1.NO X1.2 BN; spare GNYE
    W3: fixed lead 0.75 1; BN X1.2 Q2.L; BU X1.N Q2.N; GNYE X1.E Q2.E; GY X1.1 Q2.in; OG X1.3 Q2.out
    W4: flex 0.75 3; BN X1.1 E1.L; BU X1.N E1.N; GNYE X1.E E1.E; BK X1.3 E1.SL BN
    mode rest:
    mode call: B1.calling
  `),
);

const CASES = {
  'call-loop': () => drawSystem(loop),
  'call-loop-file': () => drawSystem(loop, { mode: 'call' }),
  'every-sign': () => drawSystem(signs),
  'every-sign-wide': () => drawSystem(signs, { variant: 'wide' }),
  'every-sign-landscape': () => drawSystem(signs, { variant: 'landscape' }),
  'call-loop-landscape': () => drawSystem(loop, { variant: 'landscape' }),
  'two-port-landscape': () => drawSystem(centre, { variant: 'landscape' }),
  'every-sign-landscape-paper': () => drawSystem(signs, { variant: 'landscape paper' }),
  legend: () => drawLegend(),
} as const;

/**
 * A golden that is missing is made with UPDATE_GOLDEN=1 and looked at before it is kept;
 * never where CI is set.
 */
test.each(Object.entries(CASES))('%s is drawn as its golden', (name, draw) => {
  const file = fileURLToPath(new URL(`golden/${name}.svg`, import.meta.url));
  // One element a line, so that a difference shows its place.
  const drawn = `${draw().svg.replaceAll(/></g, '>\n<')}\n`;
  parseMarkup(drawn.replaceAll('\n', ''));
  if (process.env.UPDATE_GOLDEN === '1' && !process.env.CI && !existsSync(file)) {
    writeFileSync(file, drawn);
  }
  expect(drawn).toBe(readFileSync(file, 'utf8'));
});
