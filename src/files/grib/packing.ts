/** What the packings of GRIB 2 have in common, and the plain ones: data templates 5.0 and 5.4. */
import { BitReader, type Section } from './bytes.ts';

/** What the packings have in common: octets 6 to 20 of section 5. */
export interface Packing {
  readonly section: Section;
  /** Number of values that are packed: the points that the bitmap does not leave out. */
  readonly count: number;
  readonly bits: number;
}

/** Template 5.0. */
export function unpackSimple(data: Uint8Array, { count, bits }: Packing): Float64Array {
  const values = new Float64Array(count);
  if (bits === 0) return values;
  const reader = new BitReader(data);
  for (let i = 0; i < count; i++) values[i] = reader.take(bits);
  return values;
}

/** Template 5.4 with its precisions of code table 5.7: single and double. */
export function unpackIeee(data: Uint8Array, section: Section, count: number): Float64Array {
  const precision = section.unsigned(12, 1);
  if (precision !== 1 && precision !== 2) {
    throw section.fault(`IEEE values of precision ${precision} of code table 5.7; 1 and 2 are read`);
  }
  const view = new DataView(data.buffer, data.byteOffset, data.byteLength);
  const values = new Float64Array(count);
  for (let i = 0; i < count; i++)
    values[i] = precision === 1 ? view.getFloat32(4 * i) : view.getFloat64(8 * i);
  return values;
}
