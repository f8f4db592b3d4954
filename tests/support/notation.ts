import { parse } from 'yaml';
import {
  DEMANDS,
  type Demand,
  Device,
  endsOf,
  namesIn,
  System,
  type Terminal,
} from '../../schemas/index.ts';
import { type BuildOptions, buildNetwork, type Network } from '../../src/circuit/index.ts';

/**
 * Test circuits in a few lines. One statement a line; `#` begins a comment.
 *
 *     F1 mains: supply L N E
 *     F1 fuse: fuse L out { rating: 3 }
 *     A1 coil: load L N { watts: 2 }
 *     A1 contact: contact L out { closed: { energised: coil } }
 *     A1 lit: when { energised: coil }             an outcome
 *     A1 rests shut; shut > open: { energised: motor }; open > shut: { not: rain }
 *     A1 is class I boiler                         protection and family; control if not said
 *     B1 wants heating: calling                    what a condition asks for
 *     K1 wants heating by clock: on
 *     A1 comes off: fitted                         a base, and what says that it is on it
 *     A1.L carries line                            a terminal; switched if not said
 *     A1.call carries call, extra-low
 *     W1: flex 0.75 10; BN F1.out A1.L; BU F1.N A1.N; spare GY     mm² and metres
 *     W3: flex 0.75 10; BU A1.L B1.NO BN           a core with the sleeve of its ends
 *     W2: twin and earth 2.5/1.5 10; BN F1.L A1.L                  with its earth's mm²
 *     link A1.out A1.test
 *     mode hot after cold: A1.rain, not A1.fitted
 *
 * What stands in braces is YAML with the schema's own field names, and the schema checks it.
 * `supply` is a mains supply with its line, neutral and earth. Terminals are declared by
 * use, and conditions by the rules that name them.
 * @throws Error that quotes the line that cannot be read.
 */
export function circuit(text: string, options: BuildOptions = {}): Network {
  const draft = new Draft();
  for (const raw of text.split('\n')) {
    const line = raw.replace(/#.*/, '').trim();
    if (line !== '') draft.read(line);
  }
  return draft.network(options);
}

interface DeviceDraft {
  elements: Record<string, unknown>;
  outcomes: Record<string, unknown>;
  mechanism?: { positions: string[]; rest: string; moves: unknown[] };
}

const NAME = '[a-z0-9][a-z0-9 -]*';
const ITEM = '[A-Z]{1,2}[0-9]{1,2}';
const SENTENCES = {
  mode: new RegExp(`^mode (${NAME}?)(?: after (${NAME}))?:(.*)$`),
  link: /^link (\S+) (\S+)$/,
  about: new RegExp(`^(${ITEM}) is (?:an? )?(?:(class I{1,3}) ?)?([a-z ]*)$`),
  off: new RegExp(`^(${ITEM}) comes off: (${NAME})$`),
  wants: new RegExp(`^(${ITEM}) wants (${DEMANDS.join('|')})( by clock)?: (${NAME})$`),
  carries: /^(\S+) carries (line|switched|neutral|earth|call)(, extra-low)?$/,
  cable: /^(W[0-9]+): (flex|twin and earth|fixed lead|single) (\S+) (\S+)((?:;.*)?)$/,
  mechanism: new RegExp(`^(${ITEM}) rests (${NAME})((?:;.*)?)$`),
  outcome: new RegExp(`^(${ITEM}) (${NAME}): when (.+)$`),
  supply: new RegExp(`^(${ITEM}) (${NAME}): supply (\\S+) (\\S+) (\\S+)\\s*({.*})?$`),
  element: new RegExp(`^(${ITEM}) (${NAME}): ([a-z]+) (\\S+) (\\S+)\\s*({.*})?$`),
};

class Draft {
  readonly #devices = new Map<string, DeviceDraft>();
  readonly #cables: Record<string, unknown> = {};
  readonly #links: unknown[] = [];
  readonly #modes: Record<string, unknown> = {};
  readonly #ends: string[] = [];
  readonly #about = new Map<string, { family: string; protection: string }>();
  readonly #wants = new Map<string, { wants: Demand; timed?: true }>();
  readonly #off = new Map<string, string>();
  readonly #carries = new Map<string, Partial<Terminal>>();

  read(line: string): void {
    const found = (Object.keys(SENTENCES) as (keyof typeof SENTENCES)[])
      .map((kind) => ({ kind, parts: SENTENCES[kind].exec(line) }))
      .find(({ parts }) => parts !== null);
    if (!found?.parts) throw new Error(`a test circuit has no such statement: ${line}`);
    const [, ...part] = found.parts.map((text) => text ?? '');
    const [a = '', b = '', c = '', d = '', e = '', f = ''] = part;
    if (found.kind === 'mode') this.#mode(a, b, c);
    else if (found.kind === 'link') this.#links.push({ between: this.#use(a, b) });
    else if (found.kind === 'about') {
      this.#device(a);
      this.#about.set(a, { protection: b || 'class II', family: c || 'control' });
    } else if (found.kind === 'off') {
      this.#device(a);
      this.#off.set(a, b);
    } else if (found.kind === 'wants') {
      this.#wants.set(`${a}.${d}`, { wants: b as Demand, ...(c ? { timed: true } : {}) });
    } else if (found.kind === 'carries') {
      const voltage = c ? 'extra-low' : 'mains';
      this.#carries.set(a, { carries: b as Terminal['carries'], voltage });
    } else if (found.kind === 'cable') this.#cable(a, b, c, d, e);
    else if (found.kind === 'mechanism') this.#mechanism(a, b, c);
    else if (found.kind === 'outcome') {
      this.#device(a).outcomes[b] = { title: b, when: parse(c) };
    } else if (found.kind === 'supply') {
      this.#element(a, b, { kind: 'mains', line: c, neutral: d, earth: e }, f);
    } else this.#element(a, b, { kind: c, between: [d, e] }, f);
  }

  network(options: BuildOptions): Network {
    const devices = new Map<string, Device>();
    const items: Record<string, unknown> = {};
    for (const [item, draft] of this.#devices) {
      devices.set(item.toLowerCase(), this.#finish(item, draft));
      items[item] = { device: item.toLowerCase(), place: 'Bench' };
    }
    const system = System.parse({
      title: 'Test circuit',
      summary: 'Test circuit',
      arrangement: 'combi',
      control: 'two-wire control',
      recognise: ['A test circuit'],
      items,
      cables: this.#cables,
      links: this.#links,
      modes: this.#modes,
      checked: '2026-01-01',
      version: 1,
    });
    return buildNetwork('test-circuit', system, devices, options);
  }

  #finish(item: string, { elements, outcomes, mechanism }: DeviceDraft): Device {
    const about = this.#about.get(item) ?? { family: 'control', protection: 'class II' };
    const bare = { letter: 'A', openings: { front: { title: 'front', minutes: 0 } }, ...about };
    const device = Device.parse({
      ...bare,
      title: item,
      summary: item,
      elements,
      outcomes,
      mechanism,
    });
    const rules = [
      ...Object.values(device.elements).flatMap((el) => (el.kind === 'contact' ? [el.closed] : [])),
      ...Object.values(device.outcomes).map(({ when }) => when),
      ...(device.mechanism?.moves ?? []).map(({ when }) => when),
    ];
    const conditions = rules.flatMap((rule) => namesIn(rule).conditions);
    const off = this.#off.get(item);
    const points = [
      ...Object.values(device.elements).flatMap(endsOf),
      ...this.#ends.filter((end) => end.startsWith(`${item}.`)).map((e) => e.split('.')[1]!),
    ];
    return {
      ...device,
      conditions: {
        ...Object.fromEntries(
          conditions.map((c) => [
            c,
            { title: c, usual: false, ...this.#wants.get(`${item}.${c}`) },
          ]),
        ),
        ...(off ? { [off]: { title: off, usual: true, presence: true } } : {}),
      },
      terminals: Object.fromEntries(
        points.map((p) => [
          p,
          {
            function: p,
            voltage: 'mains',
            carries: 'switched',
            does: [],
            aliases: [],
            ...this.#carries.get(`${item}.${p}`),
          },
        ]),
      ),
    };
  }

  #device(item: string): DeviceDraft {
    const known = this.#devices.get(item) ?? { elements: {}, outcomes: {} };
    this.#devices.set(item, known);
    return known;
  }

  #element(item: string, name: string, core: object, options: string): void {
    this.#device(item).elements[name] = { ...core, ...(options ? parse(options) : {}) };
  }

  #use(...ends: string[]): string[] {
    this.#ends.push(...ends);
    for (const end of ends) this.#device(end.split('.')[0]!);
    return ends;
  }

  #cable(reference: string, kind: string, size: string, length: string, rest: string): void {
    const cores: Record<string, unknown> = {};
    const spare: string[] = [];
    for (const core of clauses(rest)) {
      const [colour = '', from = '', to = '', sleeve] = core.split(/\s+/);
      if (colour === 'spare') spare.push(from);
      else cores[colour] = { ends: this.#use(from, to), ...(sleeve ? { sleeve } : {}) };
    }
    const [conductors, earth] = size.split('/').map(Number);
    this.#cables[reference] = {
      kind,
      size: conductors,
      ...(earth ? { earthSize: earth } : {}),
      length: Number(length),
      cores,
      spare,
    };
  }

  #mechanism(item: string, rest: string, moves: string): void {
    const steps = clauses(moves).map((text) => {
      const [, from = '', to = '', when = ''] = /^(.+?) > (.+?): (.+)$/.exec(text) ?? [];
      return { from, to, when: parse(when) };
    });
    const positions = [...new Set([rest, ...steps.flatMap(({ from, to }) => [from, to])])];
    this.#device(item).mechanism = { positions, rest, moves: steps };
  }

  #mode(id: string, after: string, conditions: string): void {
    const set = conditions
      .split(',')
      .map((text) => text.trim())
      .filter((text) => text !== '')
      .map((text) => (text.startsWith('not ') ? [text.slice(4), false] : [text, true]));
    this.#modes[id] = {
      title: id,
      conditions: Object.fromEntries(set),
      expect: {},
      ...(after ? { after } : {}),
    };
  }
}

const clauses = (text: string): string[] =>
  text
    .split(';')
    .map((clause) => clause.trim())
    .filter((clause) => clause !== '');
