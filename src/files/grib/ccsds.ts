/**
 * CCSDS lossless coding: data template 5.42 (7.42) of GRIB 2, the adaptive entropy coder of CCSDS 121.0-B-3 with the
 * options of code table 5.42's flags.
 *
 * Samples come in blocks, each with the identifier of its code, and the blocks in intervals that begin with a reference
 * sample. Where the preprocessor is used, the coded numbers are mapped differences from the sample before (section 4 there).
 */
import { BitReader, type Section } from './bytes.ts';
import type { Packing } from './packing.ts';

/** Flags of octet 22; the other bits tell how samples lie in the encoder's memory. */
const signedSamples = 0x01;
const preprocessed = 0x08;
const restricted = 0x10;
const padded = 0x20;

/** Where zero blocks that run to the end of a segment of 64 blocks have this count. */
const toSegmentEnd = 5;
const segment = 64;

interface Coding {
  readonly bits: number;
  readonly idBits: number;
  readonly blockSize: number;
  /** Blocks from one reference sample to the next. */
  readonly interval: number;
  readonly differences: boolean;
  readonly padded: boolean;
}

/** Whole numbers of a field. */
export function unpackCcsds(data: Uint8Array, { section, count, bits }: Packing): Float64Array {
  if (bits === 0) return new Float64Array(count);
  const coding = codingOf(section, bits);
  const reader = new BitReader(data);
  // Blocks are whole; the last may go beyond the values.
  const values = new Float64Array(count + segment * coding.blockSize);
  const length = coding.interval * coding.blockSize;
  for (let start = 0; start < count; start += length) {
    const end = Math.min(start + length, count);
    readInterval(reader, coding, values, start, end);
    if (coding.differences) undoDifferences(values, start, end, bits);
    if (coding.padded) reader.align();
  }
  return values.slice(0, count);
}

function codingOf(section: Section, bits: number): Coding {
  const flags = section.unsigned(22, 1);
  if ((flags & signedSamples) !== 0) throw section.fault('CCSDS coding of signed samples is not read');
  const blockSize = section.unsigned(23, 1);
  const interval = section.unsigned(24, 2);
  if (blockSize < 2 || blockSize % 2 === 1 || interval < 1) {
    throw section.fault(`CCSDS blocks of ${blockSize} samples, ${interval} from one reference to the next`);
  }
  const narrow = (flags & restricted) !== 0 && bits <= 4;
  const usual = bits > 16 ? 5 : bits > 8 ? 4 : 3;
  return {
    bits,
    idBits: narrow ? (bits <= 2 ? 1 : 2) : usual,
    blockSize,
    interval,
    differences: (flags & preprocessed) !== 0,
    padded: (flags & padded) !== 0,
  };
}

/** The coded numbers of one interval; its first is the reference sample where differences are coded. */
function readInterval(
  reader: BitReader,
  coding: Coding,
  values: Float64Array,
  start: number,
  end: number,
): void {
  const { idBits, blockSize, interval, differences } = coding;
  const uncoded = 2 ** idBits - 1;
  let block = 0;
  for (let at = start; at < end; ) {
    const skipped = differences && block === 0 ? 1 : 0;
    const id = reader.take(idBits);
    let blocks = 1;
    if (id === uncoded) {
      for (let i = 0; i < blockSize; i++) values[at + i] = reader.take(coding.bits);
    } else if (id > 0) {
      if (skipped === 1) values[at] = reader.take(coding.bits);
      readSplit(reader, id - 1, values, at + skipped, at + blockSize);
    } else {
      const extended = reader.take(1) === 1;
      if (skipped === 1) values[at] = reader.take(coding.bits);
      if (extended) readPairs(reader, values, at, skipped, blockSize);
      else {
        blocks = zeroBlocks(reader.zeros() + 1, block, interval);
        values.fill(0, at + skipped, at + blocks * blockSize);
      }
    }
    block += blocks;
    at += blocks * blockSize;
  }
}

/** Sample splitting: the high parts as counts of zeros, then the `low` low bits of each. */
function readSplit(reader: BitReader, low: number, values: Float64Array, from: number, to: number): void {
  const step = 2 ** low;
  for (let i = from; i < to; i++) values[i] = reader.zeros() * step;
  if (low > 0) for (let i = from; i < to; i++) values[i] += reader.take(low);
}

/** Second extension: two samples a and b in one number (a + b)(a + b + 1) / 2 + b; the first of a block may be absent. */
function readPairs(
  reader: BitReader,
  values: Float64Array,
  at: number,
  skipped: number,
  blockSize: number,
): void {
  for (let i = 0; i < blockSize; i += 2) {
    const number = reader.zeros();
    const sum = Math.floor((Math.sqrt(8 * number + 1) - 1) / 2);
    const second = number - (sum * (sum + 1)) / 2;
    if (i >= skipped) values[at + i] = sum - second;
    values[at + i + 1] = second;
  }
}

/** Blocks that a count of zero blocks stands for; the count 5 means all up to the end of the segment or interval. */
function zeroBlocks(count: number, block: number, interval: number): number {
  if (count === toSegmentEnd) return Math.min(interval - block, segment - (block % segment));
  return count > toSegmentEnd ? count - 1 : count;
}

/** The inverse of the unit-delay predictor and of the mapper: numbers become samples from 0 to 2^bits - 1. */
function undoDifferences(values: Float64Array, start: number, end: number, bits: number): void {
  const greatest = 2 ** bits - 1;
  let sample = values[start];
  for (let i = start + 1; i < end; i++) {
    const mapped = values[i];
    const below = sample <= greatest - sample;
    const room = below ? sample : greatest - sample;
    if (mapped <= 2 * room) sample += mapped % 2 === 0 ? mapped / 2 : -(mapped + 1) / 2;
    else sample = below ? mapped : greatest - mapped;
    values[i] = sample;
  }
}
