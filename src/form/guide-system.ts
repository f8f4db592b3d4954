import { ItemReference, MemberName, Slug } from '../../schemas/index.ts';
import { colourNamed } from '../entries/index.ts';
import { formatLine, type Ground, readCables, writeCables } from '../tables/index.ts';
import { GO_ON, Guide, type GuideDesk, yesOrNo } from './guide.ts';
import type { DeviceFacts } from './messages.ts';

/** The same, with what a system is made from. */
export interface SystemDesk extends GuideDesk {
  /** Text of a table's file. @throws Error where there is none */
  readonly table: (file: string) => string;
  readonly devices: readonly DeviceFacts[];
}

type Items = Readonly<Record<string, { readonly device: string; readonly place?: string }>>;
type Mode = {
  readonly title?: string;
  readonly conditions?: Readonly<Record<string, boolean>>;
  readonly expect?: Readonly<Record<string, boolean>>;
};

/** Leads through a system that was begun from another: its words, devices, cores and modes. */
export async function guideSystem(begun: string, desk: SystemDesk): Promise<void> {
  const guide = new SystemGuide(begun, desk);
  await guide.words();
  await guide.items();
  await guide.cores();
  await guide.modes();
  guide.sayHowItStands();
}

class SystemGuide extends Guide<SystemDesk> {
  get #values() {
    return this.written.values;
  }
  get #items(): Items {
    return (this.#values.items ?? {}) as Items;
  }
  #deviceOf(item: string): DeviceFacts | undefined {
    return this.desk.devices.find(({ id }) => id === this.#items[item]?.device);
  }

  /** What readers are told first, and what an engineer knows the system by. */
  async words(): Promise<void> {
    const { summary, recognise = [] } = this.#values as {
      summary?: string;
      recognise?: readonly string[];
    };
    await this.word('Summary, in a line', ['summary'], summary ?? '');
    for (const [i, line] of recognise.entries())
      await this.word(`Recognised by (${i + 1})`, ['recognise', i], line);
  }

  /** Devices of the system, picked from a list. */
  async items(): Promise<void> {
    const ids = this.desk.devices.map(({ id }) => id);
    for (;;) {
      const items = Object.entries(this.#items);
      this.desk.say(
        `Items:\n${items.map(([item, { device, place }]) => `  ${item}  ${device}, ${place ?? ''}`).join('\n')}`,
      );
      const item = await this.desk.ask(`Item to add or change, as B2; -B2 takes it out; ${GO_ON}`);
      if (item === '') return;
      const gone = item.startsWith('-') ? item.slice(1) : undefined;
      if (gone !== undefined && this.#items[gone]) {
        await this.set(['items', gone], undefined);
        continue;
      }
      const named = ItemReference.safeParse(item);
      if (!named.success || gone !== undefined) {
        this.desk.say(
          `  ${gone === undefined ? named.error?.issues[0]?.message : `There is no ${gone}`}`,
        );
        continue;
      }
      this.desk.say(
        this.desk.devices.map(({ id, title }, i) => `  ${i + 1}  ${id}: ${title}`).join('\n'),
      );
      const now = this.#items[item];
      const device = await this.pick('Device, by its number or name', ids, now?.device);
      const place = (await this.desk.ask(`Where it is [${now?.place ?? ''}]`)) || now?.place || '';
      await this.set(['items', item], { ...now, device, place });
    }
  }

  /** Cores, one by one or as a table, read as `npm run import` reads one. */
  async cores(): Promise<void> {
    for (;;) {
      const table = writeCables(this.#wiring());
      this.desk.say(table);
      const typed = await this.desk.ask(
        `Core to add or change, as W3 blue; -W3 blue takes it out; a table’s file, as wiring.csv; ${GO_ON}`,
      );
      if (typed === '') return;
      const next = /\.csv$/i.test(typed)
        ? this.#tableOf(typed)
        : await this.#withCore(table, typed);
      if (next !== undefined) await this.#wire(next);
    }
  }

  #tableOf(file: string): string | undefined {
    try {
      return this.desk.table(file);
    } catch (error) {
      this.desk.say(`  ${error instanceof Error ? error.message : String(error)}`);
      return undefined;
    }
  }

  /** The table with a core as it is answered for; undefined where it is none. */
  async #withCore(table: string, typed: string): Promise<string | undefined> {
    const [, minus, cable, colour] = /^(-?)(W\d{1,2}) +(\S.*)$/.exec(typed) ?? [];
    const code = colour === undefined ? undefined : (colourNamed(colour) ?? colour);
    if (cable === undefined || code === undefined) {
      this.desk.say('  A core is a cable and a colour, as W3 blue');
      return undefined;
    }
    const [head = '', ...rows] = table.trimEnd().split('\n');
    const others = rows.filter((row) => row.split(',')[1] !== code || row.split(',')[3] !== cable);
    if (minus === '-') return [head, ...others, ''].join('\n');
    const terminals = Object.keys(this.#items).flatMap((item) =>
      (this.#deviceOf(item)?.terminals ?? []).map((terminal) => `${item}.${terminal}`),
    );
    const from = await this.pick('From, as E1.L', terminals);
    const to = await this.pick('To', terminals);
    const sleeve = await this.desk.ask('Sleeved at its ends, as brown; Enter: not');
    const facts = rows.some((row) => row.split(',')[3] === cable)
      ? ['', '', '', '']
      : [
          await this.pick('Kind of cable', ['flex', 'twin and earth', 'fixed lead', 'single']),
          await this.desk.ask('Size, mm²'),
          await this.desk.ask('Size of its earth where it is smaller, mm²; Enter: the same'),
          await this.desk.ask('Length, m'),
        ];
    const row = [from, code, to, cable, ...facts, sleeve, ''];
    return [head, ...others, row.join(','), ''].join('\n');
  }

  async #wire(table: string): Promise<void> {
    const { cables, links, problems } = readCables(table, this.#ground());
    if (problems.length > 0) {
      this.desk.say(problems.map(formatLine).join('\n'));
      return;
    }
    const { values, body } = this.written;
    const plain = JSON.parse(JSON.stringify(cables, leftOut)) as typeof cables;
    const next = { ...values, cables: plain, ...(links.length > 0 ? { links } : {}) };
    await this.take({ values: next, body });
  }

  #ground(): Ground {
    const items = Object.keys(this.#items).map(
      (item) => [item, this.#deviceOf(item)?.terminals ?? []] as const,
    );
    return { items: new Map(items), cables: this.#wiring().cables };
  }

  /** Cables as the table writes them, whatever their short form in the file. */
  #wiring(): Parameters<typeof writeCables>[0] {
    const { cables = {}, links = [] } = this.#values as {
      cables?: Record<string, { cores?: object; spare?: string[] }>;
      links?: [];
    };
    const whole = Object.entries(cables).map(([reference, cable]) => [
      reference,
      {
        ...cable,
        spare: cable.spare ?? [],
        cores: Object.fromEntries(
          Object.entries(cable.cores ?? {}).map(([colour, core]) => [
            colour,
            Array.isArray(core) ? { ends: core } : core,
          ]),
        ),
      },
    ]);
    return { cables: Object.fromEntries(whole), links };
  }

  /** What must be seen in each mode, of all that its devices show. */
  async modes(): Promise<void> {
    for (;;) {
      const modes = (this.#values.modes ?? {}) as Readonly<Record<string, Mode>>;
      this.desk.say(
        `Modes:\n${Object.entries(modes)
          .map(([id, { title = '' }]) => `  ${id}  ${title}`)
          .join('\n')}`,
      );
      const id = await this.desk.ask(`Mode to go through or to add, as heating; ${GO_ON}`);
      if (id === '') return;
      if (!Slug.safeParse(id).success) {
        this.desk.say('  A mode is small letters and hyphens, as in hot-water');
        continue;
      }
      const now = modes[id] ?? {};
      const title = (await this.desk.ask(`Title [${now.title ?? ''}]`)) || now.title || id;
      const all = Object.keys(this.#items).flatMap((item) => {
        const device = this.#deviceOf(item);
        return device ? [{ item, device }] : [];
      });
      this.desk.say(`Yes, no, or - for nothing said; Enter leaves it.\nWhat the world sets:`);
      const conditions = await this.#answers(
        all.flatMap(({ item, device }) =>
          device.conditions.map((one) => ({ item, device, ...one })),
        ),
        now.conditions ?? {},
      );
      this.desk.say('What must be seen:');
      const expect = await this.#answers(
        all.flatMap(({ item, device }) => device.outcomes.map((one) => ({ item, device, ...one }))),
        now.expect ?? {},
      );
      await this.set(['modes', id], { ...now, title, conditions, expect });
    }
  }

  async #answers(
    rows: readonly { item: string; device: DeviceFacts; name: string; title: string }[],
    now: Readonly<Record<string, boolean>>,
  ): Promise<Record<string, boolean>> {
    const answers: Record<string, boolean> = { ...now };
    for (const { item, device, name, title } of rows) {
      const id = `${item}.${MemberName.parse(name)}`;
      const said = answers[id] === undefined ? '-' : answers[id] ? 'yes' : 'no';
      for (;;) {
        const typed = await this.desk.ask(`  ${item} ${device.title}: ${title} [${said}]`);
        const answer = yesOrNo(typed);
        if (answer !== undefined) answers[id] = answer;
        else if (typed === '-') delete answers[id];
        else if (typed !== '') {
          this.desk.say('  allowed  yes, no, -');
          continue;
        }
        break;
      }
    }
    return answers;
  }
}

/** Cores as people write them: without a sleeve, two terminals; without spare cores, no list of them. */
function leftOut(key: string, value: unknown): unknown {
  if (key === 'spare' && Array.isArray(value) && value.length === 0) return undefined;
  if (typeof value !== 'object' || value === null || !('ends' in value)) return value;
  const { ends, sleeve } = value as { ends: unknown; sleeve?: unknown };
  return sleeve === undefined ? ends : value;
}
