/** A NetCDF file of either kind as the readers of weather see it: named variables with dimensions, attributes, slices. */

import type { Range } from './grid-file.ts';

export interface NetcdfVariable {
  readonly name: string;
  readonly shape: readonly number[];
  /** Names of the dimensions, slowest first; '' where one has none. */
  readonly dimensions: readonly string[];
  /** Text of an attribute; null where there is none or it is not text. */
  text(attribute: string): string | null;
  /** Number of an attribute, alone or first of a list; null where there is none. */
  number(attribute: string): number | null;
  /** Stored numbers, the last dimension fastest, whole or within one range (null: all) for each dimension; null if none are numbers. */
  read(ranges?: readonly (Range | null)[]): ArrayLike<number> | null;
}

export interface NetcdfFile {
  readonly path: string;
  readonly variables: readonly NetcdfVariable[];
  text(attribute: string): string | null;
  close(): void;
}
