/**
 * What a page knows of its drawing beside what is drawn: read by the page's script, so that a
 * tap answers with no signal.
 */
export interface DrawingData {
  /** Id of the system. */
  readonly system: string;
  /** Titles by id, in the author's order, and whether live readings are taken in them. */
  readonly modes: readonly (readonly [id: string, title: string, isRead: boolean])[];
  readonly instruments: readonly (readonly [id: string, title: string])[];
  /** Every reading that occurs, as text. */
  readonly texts: readonly string[];
  /** By terminal, as in `E1.SL`. */
  readonly terminals: Readonly<Record<string, TerminalData>>;
  /** Cores and wire links by branch id, in a line: what it is, from, to, what for. */
  readonly cores: Readonly<Record<string, string>>;
  /** Terminals that cores and wire links join, net by net, and those conductors. */
  readonly nets: readonly NetData[];
  readonly loads: readonly LoadData[];
  /** How each mode comes about, by mode. */
  readonly stories: Readonly<Record<string, StoryData>>;
}

export interface StoryData {
  /** Title of the mode that it begins from; empty where none is meant. */
  readonly from: string;
  readonly steps: readonly (readonly [text: string, ids: readonly string[]])[];
}

export interface TerminalData {
  /** In words: `SL at the boiler E1`. */
  readonly name: string;
  readonly serves: string;
  readonly place: string;
  readonly net: number;
  /** Who gets at it and how. */
  readonly reach: string;
  /** What comes off for a live reading, which is then made step by step; absent where nothing does. */
  readonly opens?: string;
  /** How the isolator leaves it on the supply; absent where it is parted from it. */
  readonly leftOn?: 'live' | 'neutral';
  readonly caution: string;
  /** Where the same conductor is read, where this terminal is not; null where nothing is. */
  readonly instead: string | null;
  /** In words, what it is read against; absent where it is not read. */
  readonly against?: string;
  /** Index into the texts, mode by mode, instrument by instrument. */
  readonly values?: readonly (readonly number[])[];
}

export interface NetData {
  readonly terminals: readonly string[];
  readonly cores: readonly string[];
}

export interface LoadData {
  readonly id: string;
  readonly name: string;
  /** Ids of all that its live path passes, each path once. */
  readonly paths: readonly (readonly string[])[];
  /** Which of the paths it is in each mode; −1 where it does not work. */
  readonly byMode: readonly number[];
}
