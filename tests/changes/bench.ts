import { EntriesFacts, type ReferenceFacts, SystemFacts } from '../../src/changes/index.ts';
import { circuitData, entriesData } from '../../src/data/index.ts';
import { loadEntries } from '../../src/entries/index.ts';
import { computeSystem } from '../../src/reference/compute.ts';
import { type Folder, inMemory, ROOT, valid } from '../entries/fixture.ts';

/** A small content folder in which every kind of entry says something of every kind. */
export const BENCH: Folder = {
  ...valid,
  'standards/loss.mdx': `---
title: Leads lose at most 5 %
summary: A valve on a long lead chatters.
severity: fault
rule: { check: volt drop, most: 5 }
sources: [common practice, "no source, from the bench"]
---

Why it is so.
`,
  'standards/tidy.mdx': `---
title: No switched neutral on the bench
summary: It is not tidy.
severity: advice
rule: { check: no switched neutral }
sources: [common practice]
---

A neutral is left alone.
`,
  'procedures/hand-over.mdx': `---
title: Hand the bench over
summary: Show that it works.
kind: handing over
order: 2
tools: [A lamp]
cautions:
  - The heater is hot to the touch for minutes.
steps:
  - do: Switch the bench on and call for heat at the knob.
    expect: The lamp in the knob is lit.
  - do: Put the panel back on its screws.
    caution: Isolated and proved dead before a hand goes behind it.
  - do: Write the day inside the lid of the box.
    why: Whoever comes next asks when it was.
sources: [common practice]
---

Say what was done.
`,
  'procedures/bench-dead-tests.mdx': `---
title: Test the bench dead
summary: Ohms with the bench isolated.
kind: dead tests
order: 3
cautions:
  - Isolated, locked off and proved dead before the leads touch a core.
steps:
  - do: Null the leads of the meter against one another.
  - do: Read each core from end to end.
    expect: Less than half an ohm.
sources: [common practice]
---

## Why the leads are nulled

Leads have ohms of their own. They are taken off the reading.

## What a winding reads

A coil of the bench reads hundreds of ohms.
`,
  'symptoms/knob-dark.mdx': `---
title: Knob stays dark
summary: The lamp of the knob is dark on a call.
says: [The light never comes on.]
seen: [A dark knob.]
checks:
  - do: Look whether the fused switch is on.
    tells: Off, it is nothing worse.
  - do: Look into the lid of the box for water.
    tells: Water there stays for an electrician.
    by: electrician
    caution: Isolated and proved dead before the lid comes off.
cautions: [The bench may be live behind a dark lamp.]
---
`,
  'devices/guard.mdx': `---
title: Guard
summary: A cut-out that opens when hot.
letter: F
family: safety
terminals:
  in: { function: Live in, carries: line }
  out: { function: Live out, aliases: [beyond] }
conditions:
  hot: { title: Guard is hot }
elements:
  guard contact: { kind: contact, between: [in, out], closed: { not: hot } }
outcomes:
  flag: { title: Flag shown, when: hot, care: Hot to the touch. }
openings:
  cap: { title: cap, minutes: 2, care: The cap is hot. }
---

It opens by itself.
`,
};

/** A folder of entries as a comparison sees it; every fault of the edit is told. */
export function factsOf(folder: Folder, cautions: readonly string[] = []): ReferenceFacts {
  const { entries, problems } = loadEntries(ROOT, inMemory(folder));
  if (problems.length > 0) throw new Error(problems.map(({ message }) => message).join('\n'));
  const devices = new Map([...entries.devices].map(([id, { data }]) => [id, data]));
  const firm = {
    settings: {
      name: 'The bench',
      contact: { phone: '01632 960000' },
      base: '/',
      region: 'GB',
      instrument: 'tester',
      cautions: [...cautions],
      hide: [],
      aliases: { entries: {}, terminals: {} },
      reviews: { overdue: 'warn', 'second person': false, drafts: 'refuse' },
    },
  } as const;
  return {
    entries: EntriesFacts.parse(
      JSON.parse(JSON.stringify(entriesData({ entries, firm: structuredClone(firm) as never }))),
    ),
    systems: new Map(
      [...entries.systems].map(([id, entry]) => [
        id,
        SystemFacts.parse(JSON.parse(JSON.stringify(circuitData(computeSystem(entry, devices))))),
      ]),
    ),
  };
}

/** The bench with texts of its files replaced, each standing there once. */
export function withEdits(
  ...edits: readonly (readonly [file: string, from: string, to: string])[]
) {
  const folder: Record<string, string | Uint8Array> = { ...BENCH };
  for (const [file, from, to] of edits) {
    const parts = String(folder[file]).split(from);
    if (parts.length !== 2)
      throw new Error(`“${from}” stands ${parts.length - 1} times in ${file}, not once`);
    folder[file] = parts.join(to);
  }
  return folder;
}
