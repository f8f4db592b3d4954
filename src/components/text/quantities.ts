/** A resistance as a table says it: `100 kΩ`, `3 kΩ`, `47 Ω`. */
export function ohmsText(ohms: number): string {
  if (ohms >= 1e6) return `${trim(ohms / 1e6)} MΩ`;
  return ohms >= 1e3 ? `${trim(ohms / 1e3)} kΩ` : `${trim(ohms)} Ω`;
}

const trim = (n: number) => String(Number(n.toPrecision(3)));
