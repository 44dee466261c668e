/** Faults of files: collected while a file is read, told all at once, each with its place. */

import type { Place } from '../core/aircraft/deck.ts';

export type { Place };

/** A fault stops the use of a file; a doubt is a value that can be but is unlikely. */
export interface Fault {
  readonly severity: 'fault' | 'doubt';
  readonly place: Place;
  /** Path in the file's structure such as "limits.2.upper"; empty where it has none. */
  readonly path: string;
  readonly message: string;
}

/** "deck.yaml:14:5: limits.2.upper: Mach 11 ..." */
export function faultText(fault: Fault): string {
  const { file, line, column } = fault.place;
  const where = line === 0 ? file : column === 0 ? `${file}:${line}` : `${file}:${line}:${column}`;
  const path = fault.path === '' ? '' : `${fault.path}: `;
  return `${where}: ${path}${fault.message}`;
}

/** Collects the faults of one or more files. */
export class Faults {
  readonly list: Fault[] = [];

  add(place: Place, path: string, message: string): void {
    this.list.push({ severity: 'fault', place, path, message });
  }

  doubt(place: Place, path: string, message: string): void {
    this.list.push({ severity: 'doubt', place, path, message });
  }

  get faults(): readonly Fault[] {
    return this.list.filter((fault) => fault.severity === 'fault');
  }

  get doubts(): readonly Fault[] {
    return this.list.filter((fault) => fault.severity === 'doubt');
  }

  /** Throws `FileFaults` with all faults so far, if there are any. */
  throwIfAny(title: string): void {
    const faults = this.faults;
    if (faults.length > 0) throw new FileFaults(title, faults);
  }
}

/** A file, or several that belong together, cannot be used; holds every fault that was found. */
export class FileFaults extends Error {
  readonly faults: readonly Fault[];

  constructor(title: string, faults: readonly Fault[]) {
    const count = faults.length === 1 ? '1 fault' : `${faults.length} faults`;
    super(`${title}: ${count}\n${faults.map(faultText).join('\n')}`);
    this.name = 'FileFaults';
    this.faults = faults;
  }
}

const unreadable: Readonly<Record<string, string>> = {
  ENOENT: 'no such file or folder',
  EISDIR: 'is a folder, not a file',
  ENOTDIR: 'is a file, not a folder',
  EEXIST: 'is there already and is no folder',
  EACCES: 'may not be read or written by this user',
};

/** What the operating system says of a file, as a sentence; null where an error is not of that kind. */
export function ofSystem(error: Error): string | null {
  if (!('syscall' in error && 'code' in error)) return null;
  return unreadable[String(error.code)] ?? error.message;
}
