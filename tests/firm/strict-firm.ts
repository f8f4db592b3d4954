/** A firm that asks for more than the wiring rules do: no conductor under 1 mm². */
export const STRICT = {
  'firm.yaml': 'name: Strict\n',
  'content/standards/conductor-size.mdx': `---
extends: conductor-size
title: No conductor is smaller than 1 mm²
rule: { check: minimum conductor size, smallest: 1, earth: 1, extraLow: 0.5 }
sources: [House rule 1]
---

Ours.
`,
};
