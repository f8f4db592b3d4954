import { readFileSync } from 'node:fs';
import type { Effects } from '../../src/entries/index.ts';
import { type Checked, checkReference } from '../../src/firm/index.ts';
import { CONTENT, type FirmFiles, ROOT, withFirm } from '../firm/memory.ts';
import { sealedAs } from '../firm/sealed.ts';

const reference = (file: string) => readFileSync(`${CONTENT}/${file}`, 'utf8');
const REVIEW = 'review: { by: B. Reader, on: "2026-11-02", due: "2027-11-02" }';

/** Systems of the reference beside which the firm stands; the others would only take time. */
const BESIDE = ['combi-two-wire.mdx'];

/** The reference with few systems, and a firm in memory over it. */
const over = (files: FirmFiles): Effects => {
  const effects = withFirm(files);
  return {
    ...effects,
    list(folder) {
      if (folder === `${CONTENT}/symptoms`) return [];
      const listed = effects.list(folder);
      if (folder !== `${CONTENT}/systems`) return listed;
      return listed?.filter(({ name }) => BESIDE.includes(name));
    },
  };
};

/** A day on which nothing of the firm is overdue. */
export const TODAY = '2026-11-25';

/** Checks a firm in memory as `npm run check` does. */
export const checkAuthors = (files: FirmFiles, today = TODAY): Checked =>
  checkReference({ content: CONTENT, firm: ROOT, today, effects: over(files) });

const UNSEALED: Readonly<Record<string, string>> = {
  'firm.yaml': `name: Our Firm
contact:
  phone: "01632 960000"
accent: { light: "#0b5c4b", dark: "#8fd8c2" }
base: /reference/
hide: [glossary/bypass]
features:
  buffer vessel: { under: Round the boiler, aliases: [buffer tank] }
aliases:
  entries: { systems/combi-two-wire: [our drawing 1] }
  terminals: { room-thermostat-wired: { COM: [our 1] } }
reviews: { second person: true }
`,
  'content/systems/our-house.mdx': reference('systems/heat-only-two-port.mdx')
    .replace(/^title: .*$/m, 'title: Our house with two valves')
    .replace(/^summary: .*$/m, 'summary: As we wire two valves and a cylinder.')
    .replace(/^formerly: .*\n/m, '')
    .replace('pump overrun]', 'pump overrun, buffer vessel]')
    .replace(/^checked: .*$/m, `author: A. Writer\n${REVIEW}`),
  'content/systems/our-composed.mdx': `---
title: Our boiler with a zone and frost stats
summary: One zone, called by a room stat or by frost.
compose:
  heat: system-boiler
  heating: [{ controls: [room-stat-wired], valve: two-port-valve }]
  additions: [{ module: our-frost-pair, variant: fed from the live }]
version: 1
author: A. Writer
${REVIEW}
---
`,
  'content/devices/our-loft-stat.mdx': reference('devices/frost-thermostat-air.mdx')
    .replace(/^title: .*$/m, 'title: Loft stat')
    .replace(/^summary: .*$/m, 'summary: The frost stat that we fit in lofts.')
    .replace(/^aliases: .*$/m, `aliases: [our frost stat]\nauthor: A. Writer\n${REVIEW}`),
  'content/modules/our-frost-pair.mdx': reference('modules/frost-pair.mdx')
    .replace(/^title: .*$/m, 'title: Our frost stats')
    .replace(/^summary: .*$/m, 'summary: Two stats in a garage, in series.')
    .replace(/^checked: .*$/m, `author: A. Writer\n${REVIEW}`),
  'content/standards/fuse-3-amp.mdx': `---
replaces: fuse-3-amp
title: Controls are fed through a 3 A fuse
summary: A short is cleared before a flex burns.
severity: fault
rule:
  check: fuse rating
  ratings: [3]
author: A. Writer
${REVIEW}
sources: [House rule 1]
---

Nothing larger is on our vans.
`,
  'content/procedures/keys.mdx': `---
title: Keys and locks
summary: Who holds the key of a lock-off.
kind: isolation
order: 40
sources: [House rule 2]
cautions: [Whoever locks off keeps the key.]
steps:
  - do: Hang the lock on the spur and keep its key.
author: A. Writer
${REVIEW}
---
`,
  'content/glossary/van-list.mdx': `---
title: Van list
summary: What every van carries.
see: [fuse]
author: A. Writer
${REVIEW}
---
`,
};

/** A firm in order, reviewed as it stands. */
export const AUTHORS = sealedAs(UNSEALED, checkAuthors(UNSEALED));
