/**
 * Physical quantities as branded numbers, so that volts never pass for ohms.
 * A branded value is an ordinary number at run time; arithmetic gives a plain number
 * again, which one of the makers below has to name before it crosses a room's door.
 */
declare const unit: unique symbol;
type Quantity<U extends string> = number & { readonly [unit]: U };

/** Electric potential difference, RMS for alternating quantities, in volts. */
export type Volts = Quantity<'V'>;
/** Electric current, RMS for alternating quantities, in amperes. */
export type Amps = Quantity<'A'>;
/** Resistance or magnitude of impedance, in ohms. */
export type Ohms = Quantity<'Ω'>;
/** Conductance, in siemens. */
export type Siemens = Quantity<'S'>;
/** Capacitance, in farads. */
export type Farads = Quantity<'F'>;
/** Active power, in watts. */
export type Watts = Quantity<'W'>;
/** Frequency, in hertz; 0 is direct current. */
export type Hertz = Quantity<'Hz'>;
/** Length, in metres. */
export type Metres = Quantity<'m'>;
/** Conductor cross-section, in square millimetres. */
export type SquareMillimetres = Quantity<'mm²'>;
/** Time an engineer spends, in minutes. */
export type Minutes = Quantity<'min'>;
/** Temperature, in degrees Celsius. */
export type Celsius = Quantity<'°C'>;

export const volts = (n: number) => n as Volts;
export const amps = (n: number) => n as Amps;
export const ohms = (n: number) => n as Ohms;
export const siemens = (n: number) => n as Siemens;
export const farads = (n: number) => n as Farads;
export const watts = (n: number) => n as Watts;
export const hertz = (n: number) => n as Hertz;
export const metres = (n: number) => n as Metres;
export const minutes = (n: number) => n as Minutes;
export const celsius = (n: number) => n as Celsius;
