/** Coasts and borders, loaded when a map is first looked at and the rest of it is drawn. */

import type { OutlineFile, Outlines } from '../present/map/outlines.ts';
import { drawn } from './frame.ts';

let loading: Promise<Outlines> | null = null;

export function loadOutlines(): Promise<Outlines> {
  loading ??= drawn()
    .then(() => Promise.all([import('world-atlas/countries-50m.json'), import('../present/map/outlines.ts')]))
    .then(([file, { outlinesOf }]) => outlinesOf(file.default as unknown as OutlineFile));
  return loading;
}
