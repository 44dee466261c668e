/** NetCDF-4: an HDF5 file whose datasets carry their dimensions as attached scales. */
import type { Dataset, File } from 'h5wasm';
import { openHdf5 } from './disk.ts';
import type { Range } from './grid-file.ts';
import type { NetcdfFile, NetcdfVariable } from './netcdf.ts';

/** Opens a NetCDF-4 file; only what is read of it is held. */
export async function openNetcdfHdf5(path: string): Promise<NetcdfFile> {
  const file = await openHdf5(path);
  return {
    path,
    variables: datasetsOf(file).map(variableOf),
    text: (attribute) => textOf(file, attribute),
    close: () => void file.close(),
  };
}

function datasetsOf(file: File): Dataset[] {
  return file
    .keys()
    .map((name) => file.get(name))
    .filter((entity) => entity !== null && 'shape' in entity) as Dataset[];
}

function variableOf(dataset: Dataset): NetcdfVariable {
  const shape = dataset.shape ?? [];
  const name = plain(dataset.path);
  return {
    name,
    shape,
    get dimensions() {
      return shape.map((_, i) => plain(dataset.get_attached_scales(i)[0] ?? ''));
    },
    text: (attribute) => textOf(dataset, attribute),
    number: (attribute) => numbers(dataset.attrs[attribute]?.value)?.[0] ?? null,
    read: (ranges) => numbers(ranges ? dataset.slice(slicesOf(ranges)) : dataset.value),
  };
}

function slicesOf(ranges: readonly (Range | null)[]): [number, number][] {
  return ranges.map((range) => (range ? [...range] : [])) as [number, number][];
}

function plain(path: string): string {
  return path.replace(/^\//, '');
}

function textOf(holder: Dataset | File, attribute: string): string | null {
  const value = holder.attrs[attribute]?.value;
  return typeof value === 'string' ? value.trim() : null;
}

/** Numbers of any stored type as an array of numbers; null where they are none. */
function numbers(stored: unknown): ArrayLike<number> | null {
  if (typeof stored === 'number') return [stored];
  if (typeof stored === 'bigint') return [Number(stored)];
  if (stored instanceof BigInt64Array || stored instanceof BigUint64Array) {
    return Float64Array.from(stored as BigInt64Array, Number);
  }
  if (ArrayBuffer.isView(stored) && 'length' in stored) return stored as unknown as ArrayLike<number>;
  return null;
}
