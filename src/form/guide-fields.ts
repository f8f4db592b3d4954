import { parse, stringify } from 'yaml';
import type { JsonSchema } from '../entries/kinds.ts';
import { pathText } from '../entries/problem.ts';
import { GO_ON, Guide, type GuideDesk, yesOrNo } from './guide.ts';
import { type Field, fieldOf, groupOf, isWhole, resolvedIn } from './schema.ts';
import { type Path, valueAt } from './values.ts';

/** The same, with what an entry of its kind may say. */
export interface FieldsDesk extends GuideDesk {
  readonly schema: JsonSchema;
}

type Of<K extends Field['kind']> = Extract<Field, { kind: K }>;

/** Characters of a value that a list of fields shows. */
const MOST_SHOWN = 60;

/** Leads through an entry's fields and prose by what its schema says of each, as the form does. */
export async function guideFields(begun: string, desk: FieldsDesk): Promise<void> {
  const guide = new FieldsGuide(begun, desk);
  await guide.edit(desk.schema, []);
  await guide.prose();
  guide.sayHowItStands();
}

class FieldsGuide extends Guide<FieldsDesk> {
  #at(path: Path): unknown {
    return valueAt(this.written.values, path);
  }
  #field(schema: JsonSchema): Field {
    return fieldOf(resolvedIn(this.desk.schema, schema));
  }

  /** Goes through what stands at a path. */
  async edit(schema: JsonSchema, path: Path): Promise<void> {
    const field = this.#field(schema);
    switch (field.kind) {
      case 'group':
        return this.#group(field, path);
      case 'variant':
        return this.#variant(field, path);
      case 'record':
        return this.#record(field, path);
      case 'list':
        return this.#list(field, path);
      default:
        for (;;) {
          const next = await this.#plain(field, pathText(path), this.#at(path));
          if (next === undefined || (await this.set(path, next))) return;
        }
    }
  }

  async #group({ of, required }: Of<'group'>, path: Path): Promise<void> {
    for (;;) {
      const record = (this.#at(path) ?? {}) as Readonly<Record<string, unknown>>;
      const names = Object.keys(of);
      const there = names.filter((name) => name in record || required.includes(name));
      const more = names.filter((name) => !there.includes(name));
      this.#show(there.map((name) => [name, record[name]]));
      if (more.length > 0) this.desk.say(`  not there: ${more.join(', ')}`);
      const chosen = await this.#chosen('Field to write or add', there, more);
      if (chosen === undefined) return;
      const at = [...path, chosen.name];
      if (chosen.isOut) await this.set(at, undefined);
      else if (chosen.name in record) await this.edit(of[chosen.name]!, at);
      else await this.#add(of[chosen.name]!, at);
    }
  }

  async #variant(field: Of<'variant'>, path: Path): Promise<void> {
    const now = String((this.#at(path) as Readonly<Record<string, unknown>>)[field.by] ?? '');
    const word = await this.#word(field, now);
    if (
      word === now ||
      (await this.set(path, await this.#freshVariant(field, word, pathText(path))))
    )
      await this.edit(groupOf(field, word), path);
  }

  async #record({ value, key, keys }: Of<'record'>, path: Path): Promise<void> {
    for (;;) {
      const record = (this.#at(path) ?? {}) as Readonly<Record<string, unknown>>;
      this.#show(Object.entries(record));
      const chosen = await this.#chosen(key, Object.keys(record), keys);
      if (chosen === undefined) return;
      const at = [...path, chosen.name];
      if (chosen.isOut) await this.set(at, undefined);
      else if (chosen.name in record) await this.edit(value, at);
      else await this.#add(value, at);
    }
  }

  async #list({ item, exactly }: Of<'list'>, path: Path): Promise<void> {
    for (;;) {
      const list = (this.#at(path) ?? []) as readonly unknown[];
      const chosen = await this.#line('Line', list, exactly === undefined);
      if (chosen === undefined) return;
      const at = [...path, chosen.index];
      if (chosen.isOut) await this.set(at, undefined);
      else if (chosen.index < list.length) await this.edit(item, at);
      else await this.#add(item, at);
    }
  }

  /** What is not there yet: what it must say is asked for first, so that it stands as a whole. */
  async #add(schema: JsonSchema, path: Path): Promise<void> {
    const { description } = resolvedIn(this.desk.schema, schema);
    if (description) this.desk.say(`  ${description}`);
    const stands = await this.set(path, await this.#fresh(schema, pathText(path)));
    if (stands && isWhole(this.#field(schema))) await this.edit(schema, path);
  }

  async #fresh(schema: JsonSchema, name: string): Promise<unknown> {
    const field = this.#field(schema);
    switch (field.kind) {
      case 'group':
        return this.#freshGroup(field, name);
      case 'variant':
        return this.#freshVariant(field, await this.#word(field, ''), name);
      case 'record': {
        const key = await this.desk.ask(`${name}: ${field.key}`);
        return key === '' ? {} : { [key]: await this.#fresh(field.value, `${name}.${key}`) };
      }
      case 'list': {
        const lines: unknown[] = [];
        for (let i = 0; i < (field.exactly ?? 1); i++)
          lines.push(await this.#fresh(field.item, `${name}[${i}]`));
        return lines;
      }
      default:
        return (await this.#plain(field, name, undefined)) ?? '';
    }
  }

  async #freshGroup({ of, required }: Of<'group'>, name: string): Promise<object> {
    const record: Record<string, unknown> = {};
    for (const key of required)
      record[key] = await this.#fresh(of[key] ?? {}, name === '' ? key : `${name}.${key}`);
    return record;
  }

  async #freshVariant(field: Of<'variant'>, word: string, name: string): Promise<object> {
    const group = fieldOf(groupOf(field, word));
    const others = group.kind === 'group' ? await this.#freshGroup(group, name) : {};
    return { [field.by]: word, ...others };
  }

  #word({ by, of }: Of<'variant'>, now: string): Promise<string> {
    this.#number(Object.keys(of));
    return this.pick(by, Object.keys(of), now);
  }

  /** A value of one line; undefined where what stands is left. */
  async #plain(field: Field, name: string, now: unknown): Promise<unknown> {
    const said = typeof now === 'string' ? now : shortOf(now);
    const is = now === undefined ? '' : `, now “${said}”; Enter leaves it`;
    if (field.kind === 'choice') {
      const words = field.of.map(String);
      this.#number(words);
      const word = await this.pick(name, words, now === undefined ? '' : String(now));
      return word === String(now) ? undefined : field.of[words.indexOf(word)];
    }
    const of = field.kind === 'choices' ? `, some of ${field.of.join(', ')}, commas between` : '';
    for (;;) {
      const typed = await this.desk.ask(`${name}${of}${is}`);
      if (typed === '') return undefined;
      const value = typedAs(field, typed);
      if (value !== undefined) return value;
      this.desk.say(field.kind === 'yes or no' ? '  allowed  yes, no' : '  This is no YAML.');
    }
  }

  /** The prose, paragraph by paragraph. */
  async prose(): Promise<void> {
    for (;;) {
      const { values, body } = this.written;
      const paragraphs = body.split(/\n{2,}/).filter((one) => one.trim() !== '');
      const chosen = await this.#line('Paragraph of the prose', paragraphs, true);
      if (chosen === undefined) return;
      const typed = chosen.isOut ? '' : await this.desk.ask('Its words; Enter leaves it');
      if (typed === '' && !chosen.isOut) continue;
      const next = paragraphs.toSpliced(chosen.index, 1, ...(typed === '' ? [] : [typed]));
      await this.take({ values, body: next.join('\n\n') });
    }
  }

  /** A line by its number, or the one after the last; undefined where it goes on. */
  async #line(
    what: string,
    list: readonly unknown[],
    mayGrow: boolean,
  ): Promise<{ index: number; isOut: boolean } | undefined> {
    const rows = list.map((one, i) => [String(i + 1), one] as const);
    this.#show(rows);
    const more = mayGrow ? ['+'] : [];
    const question = mayGrow ? `${what} by its number, + for another` : `${what} by its number`;
    const chosen = await this.#chosen(
      question,
      rows.map(([number]) => number),
      more,
    );
    if (chosen === undefined) return undefined;
    const index = chosen.name === '+' ? list.length : Number(chosen.name) - 1;
    return { index, isOut: chosen.isOut };
  }

  /**
   * One of the names that are there, to be written or taken out, or one that may be added;
   * undefined where it goes on.
   * @param more names that may be added; any if absent
   */
  async #chosen(
    what: string,
    there: readonly string[],
    more: readonly string[] | undefined,
  ): Promise<{ name: string; isOut: boolean } | undefined> {
    for (;;) {
      const out = there.length === 0 ? '' : `-${there[0]} takes that out; `;
      const typed = await this.desk.ask(`${what}; ${out}${GO_ON}`);
      if (typed === '') return undefined;
      const isOut = typed.startsWith('-') && there.includes(typed.slice(1));
      const name = isOut ? typed.slice(1) : typed;
      if (there.includes(name) || (more?.includes(name) ?? !typed.startsWith('-')))
        return { name, isOut };
      this.sayUnknown(typed, [...there, ...(more ?? [])]);
    }
  }

  #show(rows: readonly (readonly [name: string, value: unknown])[]): void {
    if (rows.length === 0) return;
    this.desk.say(rows.map(([name, value]) => `  ${name}  ${shortOf(value)}`).join('\n'));
  }

  #number(words: readonly string[]): void {
    this.desk.say(words.map((word, i) => `  ${i + 1}  ${word}`).join('\n'));
  }
}

/** A value as it is typed; undefined where it can be none. What is no number is kept, for the check to say so. */
function typedAs({ kind }: Field, typed: string): unknown {
  if (kind === 'number') return Number.isNaN(Number(typed)) ? typed : Number(typed);
  if (kind === 'yes or no') return yesOrNo(typed);
  if (kind === 'choices') return typed.split(',').map((word) => word.trim());
  if (kind !== 'yaml') return typed;
  try {
    return parse(typed);
  } catch {
    return undefined;
  }
}

/** A value in a line, as a list of fields shows it. */
function shortOf(value: unknown): string {
  const text =
    typeof value === 'string'
      ? value.trim().replaceAll(/\s+/g, ' ')
      : value === undefined
        ? ''
        : stringify(value, { collectionStyle: 'flow', lineWidth: 0 }).trimEnd();
  return text.length > MOST_SHOWN ? `${text.slice(0, MOST_SHOWN)} …` : text;
}
