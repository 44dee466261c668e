/**
 * The values of a field: sections 5 to 7 of a GRIB 2 message.
 *
 * A packed whole number X stands for (R + X 2^E) / 10^D (regulation 92.9.4). Read are the data templates 5.0 simple,
 * 5.2 complex, 5.3 complex with spatial differencing, 5.4 IEEE, 5.40 JPEG 2000, 5.41 PNG and 5.42 CCSDS.
 */
import { BitReader, type ByteSource, GribError, type Section } from './bytes.ts';
import { unpackCcsds } from './ccsds.ts';
import { unpackComplex } from './complex.ts';
import { unpackJpeg2000, unpackPng } from './images.ts';
import type { RawField } from './messages.ts';
import { type Packing, unpackIeee, unpackSimple } from './packing.ts';

/** Whole numbers of a packing, NaN where it marks one as missing. */
type Unpack = (data: Uint8Array, packing: Packing) => Float64Array | Promise<Float64Array>;

const packings: Readonly<Record<number, Unpack>> = {
  0: unpackSimple,
  2: unpackComplex,
  3: unpackComplex,
  40: unpackJpeg2000,
  41: unpackPng,
  42: unpackCcsds,
};
const ieee = 4;
/** A grid of 0.02 degrees; a number beyond it is a damaged one. */
const mostPoints = 2 ** 28;

/** The values of a field in file order, NaN where missing; throws `GribError`, also for data that end too soon. */
export async function valuesOf(source: ByteSource, field: RawField): Promise<Float64Array> {
  try {
    const points = field.grid.unsigned(7, 4);
    if (points > mostPoints)
      throw field.grid.fault(`a grid of ${points} points; up to ${mostPoints} are read`);
    const count = field.representation.unsigned(6, 4);
    if (count > points) throw field.representation.fault(`${count} values for ${points} points`);
    const packed = await packedValues(source, field);
    if (field.bitmap !== null) return spreadOver(field.bitmap, packed, points);
    if (packed.length === points) return packed;
    throw field.representation.fault(`${packed.length} values for ${points} points, and no bitmap`);
  } catch (error) {
    if (error instanceof GribError) throw error;
    const reason = error instanceof Error ? error.message : String(error);
    throw new GribError(field.messageNumber, `data that cannot be decoded: ${reason}`);
  }
}

async function packedValues(source: ByteSource, { representation, data }: RawField): Promise<Float64Array> {
  const template = representation.unsigned(10, 2);
  const bytes = source.read(data[0], data[1]);
  const count = representation.unsigned(6, 4);
  if (template === ieee) return unpackIeee(bytes, representation, count);
  const unpack = packings[template];
  if (unpack === undefined) {
    const known = [...Object.keys(packings), ieee].map(Number).sort((a, b) => a - b);
    throw representation.fault(`data template 5.${template}; read are 5.${known.join(', 5.')}`);
  }
  const bits = representation.unsigned(20, 1);
  if (bits > 32) throw representation.fault(`values of ${bits} bits; up to 32 are read`);
  const values = await unpack(bytes, { section: representation, count, bits });
  const reference = representation.real(12);
  // Encoders write the value of a constant field as R and leave D as it was; ecCodes reads it so too.
  if (bits === 0 && unpack !== unpackComplex) return values.fill(reference);
  const step = 2 ** representation.signed(16, 2);
  const decimals = representation.signed(18, 2);
  const [times, over] = decimals > 0 ? [1, 10 ** decimals] : [10 ** -decimals, 1];
  for (let i = 0; i < count; i++) values[i] = ((reference + values[i] * step) * times) / over;
  return values;
}

/** Values at the points whose bit is 1, NaN at the others. */
function spreadOver(bitmap: Section, packed: Float64Array, points: number): Float64Array {
  const values = new Float64Array(points).fill(Number.NaN);
  const bits = new BitReader(bitmap.bytes.subarray(6));
  let next = 0;
  for (let i = 0; i < points; i++) if (bits.take(1) === 1) values[i] = packed[next++];
  if (next === packed.length) return values;
  throw bitmap.fault(`a bitmap of ${next} points with values, and ${packed.length} values`);
}
