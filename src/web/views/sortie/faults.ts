/** Where faults of a sortie stand in its form. */
import { type Fault, faultText } from '../../../files/faults.ts';
import type { Part } from './form.ts';

/** Words at each path of the form; what has no field of its own stands at the nearest part around it. */
export type FaultsAt = ReadonlyMap<string, readonly string[]>;

/** The faults of the file at a path, each at its part of the form. */
export function faultsAt(faults: readonly Fault[], file: string, parts: readonly Part[]): FaultsAt {
  const paths = new Set(parts.flatMap(pathsOf));
  const at = new Map<string, string[]>();
  for (const { place, path, message } of faults) {
    if (place.file !== file) continue;
    let part = path;
    while (part !== '' && !paths.has(part)) part = part.replace(/(^|\.)[^.]*$/, '');
    at.set(part, [
      ...(at.get(part) ?? []),
      part === path ? message : `${path.slice(part.length).replace('.', '')}: ${message}`,
    ]);
  }
  return at;
}

/** Number of faults in a part and in what it holds. */
export function countWithin(at: FaultsAt, path: string): number {
  let count = 0;
  for (const [place, messages] of at)
    if (place === path || place.startsWith(`${path}.`)) count += messages.length;
  return count;
}

/** A fault as a line of a list: its file only where it is another than the sortie. */
export function faultLine(fault: Fault, file: string): string {
  const { line } = fault.place;
  if (fault.place.file !== file) return faultText(fault);
  const where = [line === 0 ? '' : `Line ${line}`, fault.path].filter((words) => words !== '').join(', ');
  return where === '' ? fault.message : `${where}: ${fault.message}`;
}

function pathsOf(part: Part): string[] {
  if (part.kind === 'field') return [part.path];
  if (part.kind === 'pairs') return [part.path, ...part.fields.map(({ path }) => path)];
  return [part.path, ...(part.kind === 'list' ? part.items : part.children).flatMap(pathsOf)];
}
