/** What differs between two sortie files, key by key, as it is written in them. */
import { parse } from 'yaml';
import type { Changed } from '../core/plan/compare.ts';

/**
 * Keys whose values are not the same, in the order of the old file and then of the new one; null where one has no such key.
 * Parts of a list are told apart by their names where they have them ("tankers.Ewer One.offload"), else by their number.
 */
export function changedKeys(oldText: string, newText: string): Changed[] {
  const [before, after] = [leaves(parse(oldText)), leaves(parse(newText))];
  return [...new Set([...before.keys(), ...after.keys()])].flatMap((key) => {
    const [from, to] = [before.get(key) ?? null, after.get(key) ?? null];
    return from === to ? [] : [{ what: key, from, to }];
  });
}

/** Every value that is no list or map, by its path. */
function leaves(value: unknown, path = '', out = new Map<string, string>()): Map<string, string> {
  if (typeof value !== 'object' || value === null) {
    out.set(path, String(value));
    return out;
  }
  const names = Array.isArray(value) ? value.map(nameOf) : [];
  const named = names.every((name) => name !== null) && new Set(names).size === names.length;
  Object.entries(value).forEach(([key, inner], i) => {
    const step = Array.isArray(value) && named ? names[i] : key;
    leaves(inner, path === '' ? `${step}` : `${path}.${step}`, out);
  });
  return out;
}

function nameOf(item: unknown): string | null {
  if (typeof item !== 'object' || item === null || !('name' in item)) return null;
  return typeof item.name === 'string' ? item.name : null;
}
