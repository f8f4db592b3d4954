/** Terminals by the named conductor that joins them, while a system is put together. */
export class Nets {
  readonly #members = new Map<string, string[]>();
  readonly #names = new Map<string, string>();

  /** The name under which a net is now kept. */
  nameOf(net: string): string {
    const other = this.#names.get(net);
    return other === undefined ? net : this.nameOf(other);
  }

  /** Puts a terminal on a net; the net is made where there is none. */
  join(net: string, terminal: string): void {
    const name = this.nameOf(net);
    const members = this.#members.get(name) ?? [];
    if (!members.includes(terminal)) members.push(terminal);
    this.#members.set(name, members);
  }

  /** Makes one net of two; it is kept under the name of the first. */
  unite(a: string, b: string): void {
    const [first, second] = [this.nameOf(a), this.nameOf(b)];
    if (first === second) return;
    for (const terminal of this.#members.get(second) ?? []) this.join(first, terminal);
    this.#members.delete(second);
    this.#names.set(second, first);
  }

  /** Moves some terminals of a net to one of another name. */
  move(from: string, terminals: readonly string[], to: string): void {
    const name = this.nameOf(from);
    const left = (this.#members.get(name) ?? []).filter((one) => !terminals.includes(one));
    this.#members.set(name, left);
    for (const terminal of terminals) this.join(to, terminal);
  }

  membersOf(net: string): readonly string[] {
    return this.#members.get(this.nameOf(net)) ?? [];
  }

  /** Nets that join something, in the order in which they were made. */
  joined(): ReadonlyMap<string, readonly string[]> {
    const named = ['live', 'boiler live'].filter((net) => this.#members.has(net));
    const names = [...named, ...[...this.#members.keys()].filter((net) => !named.includes(net))];
    return new Map(
      names.flatMap((net) => {
        const members = this.#members.get(net)!;
        return members.length > 1 ? [[net, members] as const] : [];
      }),
    );
  }
}
