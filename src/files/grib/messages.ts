/**
 * The fields of a GRIB 2 file: its messages taken apart into sections, without decoding any data.
 *
 * Conventions of WMO Manual on Codes I.2, FM 92 GRIB edition 2: a message is section 0, 1, then one or more of
 * ([2] 3 4 5 6 7), and 8 ("7777"); from section 2, 3 or 4 on the sections may be repeated within a message and those
 * not repeated still hold. Bytes between messages are passed over.
 */
import { type ByteSource, GribError, Section } from './bytes.ts';

/** One field: the sections that describe it, and where its data stand in the file. */
export interface RawField {
  /** From 1. */
  readonly messageNumber: number;
  /** 0 is meteorological (code table 0.0). */
  readonly discipline: number;
  readonly identification: Section;
  readonly grid: Section;
  readonly product: Section;
  readonly representation: Section;
  /** Section 6 that holds the bitmap; null where every point has a value. */
  readonly bitmap: Section | null;
  /** Bytes [from, to) of the file with the contents of section 7. */
  readonly data: readonly [number, number];
}

/** All fields in file order; throws `GribError` where the file is cut short or is of another edition. */
export function findFields(source: ByteSource): RawField[] {
  const fields: RawField[] = [];
  let at = findMark(source, 0);
  for (let number = 1; at >= 0; number++) {
    const end = readMessage(source, at, number, fields);
    at = findMark(source, end);
  }
  if (fields.length === 0) throw new GribError(0, 'holds no GRIB message');
  return fields;
}

/** The place of the next "GRIB"; -1 where none follows. */
function findMark(source: ByteSource, from: number): number {
  const [g, r, i, b] = [0x47, 0x52, 0x49, 0x42];
  const piece = 65536;
  for (let start = from; start + 4 <= source.size; start += piece - 3) {
    const bytes = source.read(start, Math.min(start + piece, source.size));
    for (let k = bytes.indexOf(g); k >= 0; k = bytes.indexOf(g, k + 1)) {
      if (bytes[k + 1] === r && bytes[k + 2] === i && bytes[k + 3] === b) return start + k;
    }
  }
  return -1;
}

/** Sections of a message that hold until they are repeated. */
interface Held {
  grid: Section | null;
  product: Section | null;
  representation: Section | null;
  bitmap: Section | null;
  /** The bitmap defined last, to which a later section 6 may refer. */
  defined: Section | null;
}

/** Adds the fields of the message that begins at `start`; gives the place after it. */
function readMessage(source: ByteSource, start: number, number: number, fields: RawField[]): number {
  if (start + 16 > source.size) throw new GribError(number, 'is cut short in section 0');
  const indicator = copy(source, start, start + 16);
  const edition = indicator[7];
  if (edition !== 2) throw new GribError(number, `is GRIB edition ${edition}; edition 2 is read`);
  const end = start + Number(new DataView(indicator.buffer).getBigUint64(8));
  if (end > source.size) {
    throw new GribError(number, `is cut short: it ends at byte ${end}, the file at byte ${source.size}`);
  }
  let identification: Section | null = null;
  const held: Held = { grid: null, product: null, representation: null, bitmap: null, defined: null };
  let at = start + 16;
  while (at + 4 < end) {
    const length = sectionLength(source, at, end, number);
    const kind = source.read(at + 4, at + 5)[0];
    const whole = () => new Section(copy(source, at, at + length), number);
    if (kind === 1) identification = whole();
    else if (kind === 3) held.grid = whole();
    else if (kind === 4) held.product = whole();
    else if (kind === 5) held.representation = whole();
    else if (kind === 6) takeBitmap(whole(), held);
    else if (kind === 7)
      fields.push(fieldOf(number, indicator[6], identification, held, [at + 5, at + length]));
    else if (kind !== 2) throw new GribError(number, `has a section of number ${kind}`);
    at += length;
  }
  const tail = source.read(end - 4, end);
  if (at !== end - 4 || tail.some((byte) => byte !== 0x37))
    throw new GribError(number, 'does not end in "7777"');
  return end;
}

function sectionLength(source: ByteSource, at: number, end: number, number: number): number {
  const [a, b, c, d] = source.read(at, at + 4);
  const length = ((a * 256 + b) * 256 + c) * 256 + d;
  if (length < 5 || at + length > end - 4) {
    throw new GribError(number, `has a section of ${length} octets where ${end - 4 - at} are left`);
  }
  return length;
}

/** Holds the bitmap that a section 6 brings or refers to; none for indicator 255 (code table 6.0). */
function takeBitmap(section: Section, held: Held): void {
  const indicator = section.unsigned(6, 1);
  if (indicator === 0) held.defined = section;
  else if (indicator === 254 && held.defined === null) {
    throw section.fault('refers to an earlier bitmap, and has none');
  } else if (indicator < 254) {
    throw section.fault(`has the predefined bitmap ${indicator} of its centre, which is not known`);
  }
  held.bitmap = indicator === 255 ? null : held.defined;
}

function fieldOf(
  messageNumber: number,
  discipline: number,
  identification: Section | null,
  held: Held,
  data: readonly [number, number],
): RawField {
  const { grid, product, representation, bitmap } = held;
  if (!identification || !grid || !product || !representation) {
    throw new GribError(messageNumber, 'has data before the sections that describe them');
  }
  return { messageNumber, discipline, identification, grid, product, representation, bitmap, data };
}

function copy(source: ByteSource, from: number, to: number): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(source.read(from, to));
}
