/** Decks on a disk. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { DeckSource } from './deck.ts';

/** A folder as the source of a deck; `name` is what messages call it. */
export function deckFolder(path: string, name: string = path): DeckSource {
  return {
    name: name.replace(/\/$/, ''),
    read(file) {
      try {
        return readFileSync(join(path, file), 'utf8');
      } catch (error) {
        if (['ENOENT', 'ENOTDIR'].includes((error as NodeJS.ErrnoException).code ?? '')) return null;
        throw error;
      }
    },
  };
}
