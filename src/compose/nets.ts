/** Terminals by the named conductor that joins them, while a system is put together. */
export class Nets {
  readonly #members = new Map<string, string[]>();
  readonly #names = new Map<string, string>();
  readonly #ties = new Map<string, string>();

  /** The name under which a net is now kept. */
  nameOf(net: string): string {
    const other = this.#names.get(net);
    return other === undefined ? net : this.nameOf(other);
  }

  /**
   * Puts a terminal on a net; the net is made where there is none. A terminal that lies on another
   * already makes one of the two, as a screw would.
   */
  join(net: string, terminal: string): void {
    const before = [...this.#members].find(([, members]) => members.includes(terminal));
    if (before) this.unite(before[0], net);
    const name = this.nameOf(net);
    const members = this.#members.get(name) ?? [];
    if (!members.includes(terminal)) members.push(terminal);
    this.#members.set(name, members);
  }

  /** Makes one net of two; it is kept under the name of the first. */
  unite(a: string, b: string): void {
    const [first, second] = [this.nameOf(a), this.nameOf(b)];
    if (first === second) return;
    const moved = this.#members.get(second) ?? [];
    this.#members.delete(second);
    this.#names.set(second, first);
    this.#members.set(first, [...(this.#members.get(first) ?? []), ...moved]);
  }

  /** Moves some terminals of a net to one of another name. */
  move(from: string, terminals: readonly string[], to: string): void {
    const name = this.nameOf(from);
    const left = (this.#members.get(name) ?? []).filter((one) => !terminals.includes(one));
    this.#members.set(name, left);
    for (const terminal of terminals) this.join(to, terminal);
  }

  /** Says that a net has a way of its own at the box, linked there to another net. */
  tie(net: string, to: string): void {
    this.#ties.set(net, to);
  }

  /** Nets with a way of their own, and what each is linked to there. */
  ties(): ReadonlyMap<string, string> {
    const ties = [...this.#ties].map(([net, to]) => [this.nameOf(net), this.nameOf(to)] as const);
    return new Map(ties.filter(([net, to]) => net !== to));
  }

  membersOf(net: string): readonly string[] {
    return this.#members.get(this.nameOf(net)) ?? [];
  }

  /** Nets that join something, in the order in which they were made. */
  joined(): ReadonlyMap<string, readonly string[]> {
    const ties = this.ties();
    const named = ['live', 'boiler live'].filter((net) => this.#members.has(net));
    const names = [...named, ...[...this.#members.keys()].filter((net) => !named.includes(net))];
    return new Map(
      names.flatMap((net) => {
        const members = this.#members.get(net)!;
        const isJoined = members.length > 1 || (members.length === 1 && ties.has(net));
        return isJoined ? [[net, members] as const] : [];
      }),
    );
  }
}
