/**
 * Complex packing: data templates 5.2 and 5.3 (7.2 and 7.3) of GRIB 2.
 *
 * The values lie in groups, each with its own reference, width in bits and length. With spatial differencing (5.3) the
 * groups hold first or second differences less their overall minimum; missing values take no part in the differences.
 */
import { BitReader, type Section } from './bytes.ts';
import type { Packing } from './packing.ts';

interface Groups {
  readonly references: Float64Array;
  readonly widths: Float64Array;
  readonly lengths: Float64Array;
}

/** What precedes the groups in template 7.3. */
interface Differencing {
  /** The first one or two values, and the least difference. */
  readonly first: readonly number[];
  readonly minimum: number;
}

const withDifferencing = 3;

/** Whole numbers of a field, NaN where one is missing. */
export function unpackComplex(data: Uint8Array, packing: Packing): Float64Array {
  const { section, count, bits } = packing;
  const management = section.unsigned(23, 1);
  if (management > 2) throw section.fault(`missing value management ${management} of code table 5.5`);
  const groupCount = section.unsigned(32, 4);
  if (groupCount === 0) return new Float64Array(count);
  const reader = new BitReader(data);
  const differencing =
    section.unsigned(10, 2) === withDifferencing ? readDifferencing(reader, section) : null;
  const groups = readGroups(reader, section, groupCount, bits);
  const total = groups.lengths.reduce((sum, length) => sum + length, 0);
  if (total !== count) throw section.fault(`groups of ${total} values where ${count} are packed`);
  const values = readValues(reader, groups, count, bits, management);
  if (differencing !== null) integrate(values, differencing);
  return values;
}

/** Null for order 0, which code table 5.6 reserves and a common encoder writes for "none", without descriptors. */
function readDifferencing(reader: BitReader, section: Section): Differencing | null {
  const order = section.unsigned(48, 1);
  const octets = section.unsigned(49, 1);
  if (order === 0) return null;
  if (order > 2) throw section.fault(`spatial differencing of order ${order}; 1 and 2 are read`);
  if (octets < 1 || octets > 4) {
    throw section.fault(`differencing descriptors of ${octets} octets; 1 to 4 are read`);
  }
  const first = Array.from({ length: order }, () => reader.take(8 * octets));
  const sign = reader.take(1) === 1 ? -1 : 1;
  return { first, minimum: sign * reader.take(8 * octets - 1) };
}

function readGroups(reader: BitReader, section: Section, count: number, bits: number): Groups {
  const list = (width: number, start: number, step: number) => {
    const numbers = Float64Array.from({ length: count }, () => start + step * reader.take(width));
    reader.align();
    return numbers;
  };
  const references = list(bits, 0, 1);
  const widths = list(section.unsigned(37, 1), section.unsigned(36, 1), 1);
  const lengths = list(section.unsigned(47, 1), section.unsigned(38, 4), section.unsigned(42, 1));
  lengths[count - 1] = section.unsigned(43, 4);
  const widest = widths.reduce((most, width) => Math.max(most, width), 0);
  if (widest > 32) throw section.fault(`a group of ${widest} bits a value; up to 32 are read`);
  return { references, widths, lengths };
}

/**
 * Each value plus its group's reference. With missing value management 1 the greatest number of a width (of the references
 * in a group of width 0) marks a missing value, with 2 the two greatest.
 */
function readValues(
  reader: BitReader,
  { references, widths, lengths }: Groups,
  count: number,
  bits: number,
  management: number,
): Float64Array {
  const values = new Float64Array(count);
  let i = 0;
  for (let group = 0; group < lengths.length; group++) {
    const width = widths[group];
    const reference = references[group];
    const end = i + lengths[group];
    if (width === 0) {
      values.fill(reference >= 2 ** bits - management ? Number.NaN : reference, i, end);
      i = end;
      continue;
    }
    const firstMark = 2 ** width - management;
    for (; i < end; i++) {
      const value = reader.take(width);
      values[i] = value >= firstMark ? Number.NaN : reference + value;
    }
  }
  return values;
}

/** Undoes the differences, in place. */
function integrate(values: Float64Array, { first, minimum }: Differencing): void {
  let seen = 0;
  let last = 0;
  let beforeLast = 0;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    const difference = values[i] + minimum;
    let value = last + difference;
    if (seen < first.length) value = first[seen];
    else if (first.length === 2) value += last - beforeLast;
    values[i] = value;
    beforeLast = last;
    last = value;
    seen++;
  }
}
