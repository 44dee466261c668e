/**
 * NetCDF classic and 64-bit offset: the header by a library, the values read from their place in the file, so that a large
 * file is not held. Numbers are big-endian; a variable along the record dimension has one piece in every record (The NetCDF
 * Classic Format Specification, Unidata).
 */
import { NetCDFReader } from 'netcdfjs';
import { type OpenFile, openFile } from './disk.ts';
import type { Range } from './grid-file.ts';
import type { NetcdfFile, NetcdfVariable } from './netcdf.ts';
import { WeatherError } from './weather-variables.ts';

type Header = NetCDFReader['header'];
type HeaderVariable = Header['variables'][number];
type Attributes = Header['globalAttributes'];

/** Bytes read for the header at first; doubled until it is whole. */
const firstHeaderBytes = 1 << 16;

interface NumberType {
  readonly bytes: number;
  read(view: DataView, at: number): number;
}

const types: Readonly<Record<string, NumberType>> = {
  byte: { bytes: 1, read: (view, at) => view.getInt8(at) },
  short: { bytes: 2, read: (view, at) => view.getInt16(at) },
  int: { bytes: 4, read: (view, at) => view.getInt32(at) },
  float: { bytes: 4, read: (view, at) => view.getFloat32(at) },
  double: { bytes: 8, read: (view, at) => view.getFloat64(at) },
};

/** Opens a NetCDF classic file; throws `WeatherError` where its header is damaged. */
export async function openNetcdfClassic(path: string): Promise<NetcdfFile> {
  const file = openFile(path);
  if (file === null) throw new WeatherError(path, null, 'no such file');
  try {
    const header = readHeader(path, file);
    const recordBytes = recordBytesOf(header);
    return {
      path,
      variables: header.variables.map((variable) => variableOf(variable, header, recordBytes, path, file)),
      text: (attribute) => textOf(header.globalAttributes, attribute),
      close: () => file.close(),
    };
  } catch (error) {
    file.close();
    throw error;
  }
}

function readHeader(path: string, file: OpenFile): Header {
  const { size } = file;
  for (let length = Math.min(firstHeaderBytes, size); ; length = Math.min(2 * length, size)) {
    try {
      return new NetCDFReader(file.read(0, length)).header;
    } catch (error) {
      // A header that goes on beyond the bytes read ends in a range error, as a damaged one does.
      if (error instanceof RangeError && length < size) continue;
      throw new WeatherError(path, null, `has a damaged NetCDF header (${(error as Error).message})`);
    }
  }
}

/** Bytes from one record to the next; a lone record variable is not padded to four bytes. */
function recordBytesOf(header: Header): number {
  const along = header.variables.filter((variable) => variable.record);
  if (along.length !== 1) return header.recordDimension.recordStep ?? 0;
  const [{ type, dimensions }] = along;
  const sizes = dimensions.slice(1).map((id) => header.dimensions[id].size);
  return sizes.reduce((product, size) => product * size, types[type]?.bytes ?? 1);
}

function variableOf(
  variable: HeaderVariable,
  header: Header,
  recordBytes: number,
  path: string,
  file: OpenFile,
): NetcdfVariable {
  const { name, type, record, offset } = variable;
  const attributes: Attributes = variable.attributes;
  const shape = variable.dimensions.map((id, i) =>
    record && i === 0 ? header.recordDimension.length : header.dimensions[id].size,
  );
  const number = types[type];
  return {
    name,
    shape,
    dimensions: variable.dimensions.map((id) => header.dimensions[id].name),
    text: (attribute) => textOf(attributes, attribute),
    number: (attribute) => numberOf(attributes, attribute),
    read(ranges) {
      if (!number) return null;
      const whole = shape.map((length, i): Range => ranges?.[i] ?? [0, length]);
      return readSlab({ path, name, file, number, shape, offset, recordBytes, record }, whole);
    },
  };
}

interface Stored {
  readonly path: string;
  readonly name: string;
  readonly file: OpenFile;
  readonly number: NumberType;
  readonly shape: readonly number[];
  readonly offset: number;
  readonly recordBytes: number;
  readonly record: boolean;
}

/** Reads the part of a variable within ranges, one row of its last dimension after another. */
function readSlab(stored: Stored, ranges: readonly Range[]): Float64Array {
  const { number, shape, offset, recordBytes, record } = stored;
  const counts = ranges.map(([from, to]) => to - from);
  const total = counts.reduce((product, count) => product * count, 1);
  const out = new Float64Array(total);
  const strides = new Array<number>(shape.length).fill(number.bytes);
  for (let i = shape.length - 2; i >= 0; i--) strides[i] = strides[i + 1] * shape[i + 1];
  if (record) strides[0] = recordBytes;
  // One row at a time; a scalar, and each value along a lone record dimension, is a row of its own.
  const last = shape.length - 1;
  const rowLength = last < 0 || (record && last === 0) ? 1 : counts[last];
  const rowBytes = rowLength * number.bytes;
  const index = ranges.map(([from]) => from);
  for (let done = 0; done < total; done += rowLength) {
    const at = index.reduce((sum, value, i) => sum + value * strides[i], offset);
    const row = stored.file.read(at, at + rowBytes);
    if (row.length < rowBytes) {
      throw new WeatherError(stored.path, stored.name, 'the file ends within its values: it is truncated');
    }
    const view = new DataView(row.buffer, row.byteOffset, row.byteLength);
    for (let k = 0; k < rowLength; k++) out[done + k] = number.read(view, k * number.bytes);
    advance(index, ranges, rowLength === 1 ? last : last - 1);
  }
  return out;
}

/** Goes on to the next row: the index of dimension `from` rises, and carries into those before it. */
function advance(index: number[], ranges: readonly Range[], from: number): void {
  for (let i = from; i >= 0; i--) {
    index[i]++;
    if (index[i] < ranges[i][1]) return;
    index[i] = ranges[i][0];
  }
}

function textOf(attributes: Attributes, name: string): string | null {
  const value = attributes.find((attribute) => attribute.name === name)?.value;
  return typeof value === 'string' ? value.trim() : null;
}

function numberOf(attributes: Attributes, name: string): number | null {
  const value: unknown = attributes.find((attribute) => attribute.name === name)?.value;
  const first: unknown = Array.isArray(value) ? value[0] : value;
  return typeof first === 'number' ? first : null;
}
