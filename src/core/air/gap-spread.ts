/**
 * How far the temperature offset may be off where a day is continued beyond its data by holding the offset of its edge.
 *
 * The day's own columns tell: over a height d inside the data the offset changes by sqrt(mean((o(h+d) - o(h))^2)), its structure
 * function. Heights are taken every 500 m; d goes up to half of the height that the data cover.
 */
import type { DayGap } from './day.ts';
import type { Axis } from './grid-axis.ts';
import type { GridField, GridRules } from './grid-field.ts';
import { pressureAltitudeOf, standardTemperature } from './standard.ts';

const spacingM = 500;
const distancesM = [500, 1000, 2000, 5000, 10000, 15000];

/** Pressure altitudes [m], rising, and temperatures [K] of one column. */
export interface OffsetColumn {
  readonly altitudesM: ArrayLike<number>;
  readonly temperaturesK: ArrayLike<number>;
}

/** What a column says of the gap beyond one of its ends; no spread where the columns cover less than a kilometre. */
export function gapBeyond(side: DayGap['side'], columns: readonly OffsetColumn[]): DayGap {
  const [{ altitudesM }] = columns;
  const last = altitudesM.length - 1;
  const count = Math.floor((altitudesM[last] - altitudesM[0]) / spacingM) + 1;
  const offsets = columns.map((column) => offsetsOf(column, count));
  const spreads = distancesM
    .filter((distance) => distance / spacingM <= (count - 1) / 2)
    .map((beyondM) => ({ beyondM, spreadK: rootMeanSquare(offsets, beyondM / spacingM) }));
  return { side, edgeM: side === 'above' ? altitudesM[last] : altitudesM[0], spreads };
}

/** Columns taken for the spread beyond the data. */
const heardColumns = 64;

/** How far a held offset may be off, from columns spread over all places and times of the data. */
export function gridGaps(field: GridField, rules: GridRules, levels: Axis): DayGap[] {
  const held = { above: rules.top, below: rules.bottom };
  const sides = (['above', 'below'] as const).filter((side) => held[side] === 'holdOffset');
  if (sides.length === 0) return [];
  const altitudesM = levels.values.map((minusLog) => pressureAltitudeOf(Math.exp(-minusLog)));
  const sheet = field.latitudesRad.length * field.longitudesRad.length;
  const places = sheet * field.timesS.length;
  const step = Math.max(1, Math.floor(places / heardColumns));
  const columns: OffsetColumn[] = [];
  for (let place = 0; place < places; place += step) {
    const start = Math.floor(place / sheet) * sheet * levels.count + (place % sheet);
    const temperaturesK = Array.from(levels.offsets, (offset) => field.temperatureK[start + offset]);
    columns.push({ altitudesM, temperaturesK });
  }
  return sides.map((side) => gapBeyond(side, columns));
}

function offsetsOf({ altitudesM, temperaturesK }: OffsetColumn, count: number): Float64Array {
  const out = new Float64Array(count);
  let cell = 0;
  for (let i = 0; i < count; i++) {
    const altitude = altitudesM[0] + i * spacingM;
    while (cell < altitudesM.length - 2 && altitudesM[cell + 1] < altitude) cell++;
    const part = (altitude - altitudesM[cell]) / (altitudesM[cell + 1] - altitudesM[cell]);
    const temperature = temperaturesK[cell] + part * (temperaturesK[cell + 1] - temperaturesK[cell]);
    out[i] = temperature - standardTemperature(altitude);
  }
  return out;
}

function rootMeanSquare(columns: readonly Float64Array[], steps: number): number {
  let sum = 0;
  let count = 0;
  for (const offsets of columns) {
    for (let i = 0; i + steps < offsets.length; i++) {
      const change = offsets[i + steps] - offsets[i];
      if (Number.isNaN(change)) continue;
      sum += change * change;
      count++;
    }
  }
  return count === 0 ? Number.NaN : Math.sqrt(sum / count);
}

/** Standard deviation [K] of a held offset at a height [m] beyond its edge, linear between those known; NaN where none is. */
export function spreadBeyond({ spreads }: DayGap, beyondM: number): number {
  let [fromM, fromK] = [0, 0];
  for (const { beyondM: toM, spreadK } of spreads) {
    if (beyondM <= toM) return fromK + ((spreadK - fromK) * (beyondM - fromM)) / (toM - fromM);
    [fromM, fromK] = [toM, spreadK];
  }
  return fromM > 0 ? fromK : Number.NaN;
}
