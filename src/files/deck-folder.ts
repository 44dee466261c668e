/** Decks on a disk. */
import { join } from 'pathe';
import type { DeckSource } from './deck.ts';
import { readText } from './disk.ts';

/** A folder as the source of a deck; `name` is what messages call it. */
export function deckFolder(path: string, name: string = path): DeckSource {
  return {
    name: name.replace(/\/$/, ''),
    read(file) {
      try {
        return readText(join(path, file));
      } catch (error) {
        if (['ENOENT', 'ENOTDIR'].includes((error as NodeJS.ErrnoException).code ?? '')) return null;
        throw error;
      }
    },
  };
}
