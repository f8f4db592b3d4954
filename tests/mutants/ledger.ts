import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parse, stringify } from 'yaml';
import { z } from 'zod';
import type { Mutant } from './mutate.ts';

/** A mutant that no test kills, and why that is right or borne. */
const Survivor = z.strictObject({
  was: z.string(),
  becomes: z.string(),
  /** How many alike in the file; one unless said. */
  times: z.int().min(2).optional(),
  why: z.string(),
});

const OfFile = z.strictObject({
  /** Share of the file's stretches of lines that were tried; all unless said. */
  share: z.number().gt(0).lt(1).optional(),
  mutants: z.int(),
  killed: z.int(),
  survivors: z.array(Survivor),
});

const Ledger = z.record(z.string(), OfFile);

/** What the mutation tester found in a room, by file. */
export type Ledger = z.infer<typeof Ledger>;

const placeOf = (room: string): string =>
  fileURLToPath(new URL(`ledger/${room}.yaml`, import.meta.url));

/** @throws ZodError when a ledger is not one. */
export const readLedger = (room: string): Ledger =>
  existsSync(placeOf(room)) ? Ledger.parse(parse(readFileSync(placeOf(room), 'utf8')) ?? {}) : {};

export function writeLedger(room: string, ledger: Ledger): void {
  writeFileSync(placeOf(room), stringify(ledger, { lineWidth: 100 }));
}

const keyOf = ({ was, becomes }: Pick<Mutant, 'was' | 'becomes'>): string =>
  JSON.stringify([was, becomes]);

/** What a survivor bears until somebody says why it may live. */
export const UNEXPLAINED = '?';

/** What was found in one file, as its ledger's entry; reasons given before are kept. */
export function entryOf(
  mutants: readonly Mutant[],
  before: Ledger[string] | undefined,
): Ledger[string] {
  const living = Map.groupBy(
    mutants.filter(({ killed }) => !killed),
    keyOf,
  );
  return {
    mutants: mutants.length,
    killed: mutants.filter(({ killed }) => killed).length,
    survivors: [...living].map(([key, alike]) => {
      const { was, becomes } = alike[0]!;
      const why = before?.survivors.find((known) => keyOf(known) === key)?.why ?? UNEXPLAINED;
      return { was, becomes, ...(alike.length > 1 ? { times: alike.length } : {}), why };
    }),
  };
}

/** Those of some mutants that live, though the ledger does not say that they may. */
export function unlisted(mutants: readonly Mutant[], ledger: Ledger): Mutant[] {
  const left = new Map<string, number>();
  for (const [file, { survivors }] of Object.entries(ledger)) {
    for (const survivor of survivors) left.set(file + keyOf(survivor), survivor.times ?? 1);
  }
  return mutants.filter((mutant) => {
    if (mutant.killed) return false;
    const key = mutant.file + keyOf(mutant);
    const times = left.get(key) ?? 0;
    left.set(key, times - 1);
    return times <= 0;
  });
}

/** Share of a room's mutants that are killed. */
export function scoreOf(ledger: Ledger): number {
  const files = Object.values(ledger);
  const sum = (values: number[]) => values.reduce((a, b) => a + b, 0);
  return sum(files.map(({ killed }) => killed)) / sum(files.map(({ mutants }) => mutants));
}
