/**
 * The one place that reads from a disk. What runs in a browser has another module with the same functions in its place, over
 * the files that a user gave it.
 */
import { closeSync, fstatSync, openSync, readFileSync, readSync } from 'node:fs';
import type { File as Hdf5File } from 'h5wasm';

/** A file open for reading. */
export interface OpenFile {
  /** Bytes. */
  readonly size: number;
  /** The bytes from `from` up to `to` or the end of the file. */
  read(from: number, to: number): Uint8Array<ArrayBuffer>;
  close(): void;
}

/** The text of a file; throws what the system says, with its `code`. */
export function readText(path: string): string {
  return readFileSync(path, 'utf8');
}

/** Opens a file; null where there is none. Throws what else the system says, with its `code`. */
export function openFile(path: string): OpenFile | null {
  let descriptor: number;
  try {
    descriptor = openSync(path, 'r');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  }
  return {
    size: fstatSync(descriptor).size,
    read(from, to) {
      const bytes = new Uint8Array(to - from);
      let done = 0;
      while (done < bytes.length) {
        const count = readSync(descriptor, bytes, done, bytes.length - done, from + done);
        if (count === 0) break;
        done += count;
      }
      return bytes.subarray(0, done);
    },
    close: () => closeSync(descriptor),
  };
}

/** Opens an HDF5 file; only what is read of it is held. */
export async function openHdf5(path: string): Promise<Hdf5File> {
  const { default: h5wasm } = await import('h5wasm/node');
  await h5wasm.ready;
  return new h5wasm.File(path, 'r');
}
