/** A complex number: a phasor (RMS, referred to the supply's angle) or an impedance. */
export interface Complex {
  readonly re: number;
  readonly im: number;
}

export const complex = (re: number, im = 0): Complex => ({ re, im });
export const magnitude = ({ re, im }: Complex): number => Math.sqrt(re * re + im * im);
export const subtract = (a: Complex, b: Complex): Complex => complex(a.re - b.re, a.im - b.im);
export const add = (a: Complex, b: Complex): Complex => complex(a.re + b.re, a.im + b.im);
export const multiply = (a: Complex, b: Complex): Complex =>
  complex(a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re);

/** a ÷ b, scaled so that neither very small nor very large divisors overflow. */
export function divide(a: Complex, b: Complex): Complex {
  const scale = Math.max(Math.abs(b.re), Math.abs(b.im));
  const re = b.re / scale;
  const im = b.im / scale;
  const square = (re * re + im * im) * scale;
  return complex((a.re * re + a.im * im) / square, (a.im * re - a.re * im) / square);
}
