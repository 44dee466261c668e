/** What is known of the readings before any comes. */
import { type Scatter, usualScatter } from './model.ts';
import type { Entry } from './reading.ts';

export interface Settings {
  readonly scatter: Scatter;
  /** SI of one of the units in which readings are typed, by key, for the search of slips: 1 kg, 1 K where left out. */
  readonly typedUnits: Readonly<
    Partial<Record<Entry['key'], { readonly scale: number; readonly zero: number }>>
  >;
}

export const usualSettings: Settings = { scatter: usualScatter, typedUnits: {} };
