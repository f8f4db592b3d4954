import { readFileSync } from 'node:fs';
import { FIXTURE } from './memory.ts';

const fixture = (file: string) => readFileSync(`${FIXTURE}/${file}`, 'utf8');
const REVIEW = 'review: { by: A. Reader, on: "2026-01-01", due: "2027-01-01" }';

/** A logo of a few strokes. */
export const LOGO = `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 8 8"><!-- a bar -->
  <defs><linearGradient id="g"><stop offset="0" stop-color="#0b5c4b"/></linearGradient></defs>
  <path d="M0 4h8" stroke="url(#g)" stroke-width="2"/>
</svg>
`;

/** A valid firm over the bench that says something of everything a firm can say. */
export const FIXTURE_FIRM: Readonly<Record<string, string>> = {
  'firm.yaml': `name: Bench Firm
shortName: Bench
contact: { phone: "01632 960001", email: desk@bench.example, address: 1 Bench Row, hours: 9 to 5 }
logo: logo.svg
accent: { light: "#0b5c4b", dark: "#8fd8c2" }
base: /bench/
region: GB
instrument: multimeter
cautions: [Nobody works alone on the bench.]
hide: [glossary/call]
aliases:
  entries: { systems/plain-bench: [bench one] }
  terminals: { room-switch: { call feed: [K1] } }
features: { drip tray: { under: Round it, aliases: [catch tray] } }
reviews: { overdue: warn }
field: { prior strength: 80 }
`,
  'logo.svg': LOGO,
  'content/systems/our-bench.mdx': fixture('systems/lit-bench.mdx')
    .replace('title: Lit bench', 'title: Our bench')
    .replace('summary: One heater', 'summary: Our heater')
    .replace(
      'version: 1',
      `version: 1\nfeatures: [drip tray]\nnotes: [Ours.]\ncautions: [Hot.]\naliases: [bench two]\n${REVIEW}`,
    ),
  'content/systems/plain-bench.mdx': `---
extends: plain-bench
notes: [Ours stands by the door.]
${REVIEW}
---

Ours stands by the door.
`,
  'content/devices/room-switch.mdx': `---
replaces: room-switch
extends: room-switch
summary: The switch that we fit.
aliases: [our knob]
${REVIEW}
---

We fit no other.
`,
  'content/glossary/rag.mdx': `---
title: Rag
summary: What the bench is wiped with.
aliases: [cloth]
abbreviations: [R]
see: [spur]
${REVIEW}
---

Wash it.
`,
  'content/procedures/make-dead.mdx': fixture('procedures/make-dead.mdx').replace(
    'title:',
    `replaces: make-dead\n${REVIEW}\ntitle:`,
  ),
  'content/standards/small-fuse.mdx': `---
extends: small-fuse
title: Our bench is fed through a 3 A fuse
sources: [House rule 1]
${REVIEW}
---

So do we.
`,
};
