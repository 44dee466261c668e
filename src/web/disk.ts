/** Files that live in memory, in the place of `files/disk.ts`: what came with the page and what a user dropped into it. */
import type { File as Hdf5File } from 'h5wasm';
import type { OpenFile } from '../files/disk.ts';

const files = new Map<string, Uint8Array<ArrayBuffer>>();

/** Puts a file in its place, or takes the place of the one that was there. */
export function putFile(path: string, bytes: Uint8Array<ArrayBuffer>): void {
  files.set(path, bytes);
}

/** Paths of all files, in order. */
export function listFiles(): readonly string[] {
  return [...files.keys()].sort();
}

export function openFile(path: string): OpenFile | null {
  const bytes = files.get(path);
  if (bytes === undefined) return null;
  return { size: bytes.length, read: (from, to) => bytes.slice(from, to), close: () => {} };
}

export function readText(path: string): string {
  const bytes = files.get(path);
  if (bytes === undefined) {
    throw Object.assign(new Error(`${path}: no such file`), { code: 'ENOENT', syscall: 'open', path });
  }
  return new TextDecoder().decode(bytes);
}

/** The library reads from a file system of its own, from which the name is taken away again while the file stays open. */
export async function openHdf5(path: string): Promise<Hdf5File> {
  const { default: h5wasm } = await import('h5wasm');
  const { FS } = await h5wasm.ready;
  const bytes = files.get(path);
  if (bytes === undefined) throw new Error(`${path}: no such file`);
  const name = path.replaceAll('/', '_');
  FS.writeFile(name, bytes);
  const file = new h5wasm.File(name, 'r');
  FS.unlink(name);
  return file;
}
