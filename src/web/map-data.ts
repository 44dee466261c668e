/** Coasts and borders, loaded when a map is first looked at. */
import type { OutlineFile, Outlines } from '../present/map/outlines.ts';

let loading: Promise<Outlines> | null = null;

export function loadOutlines(): Promise<Outlines> {
  loading ??= Promise.all([
    import('world-atlas/countries-50m.json'),
    import('../present/map/outlines.ts'),
  ]).then(([file, { outlinesOf }]) => outlinesOf(file.default as unknown as OutlineFile));
  return loading;
}
