/** Whether a deck is sane. */
import type { CompiledDeck } from './compile.ts';
import type { Deck, FaultSink } from './deck.ts';

export function checkDeck(_deck: Deck, _compiled: CompiledDeck, _faults: FaultSink): void {}
