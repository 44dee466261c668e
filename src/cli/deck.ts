/** `ramrise deck check`: what a deck is and covers, and every fault and doubt in it. */

import { inspectDeck, type LoadedDeck } from '../files/deck.ts';
import { deckFolder } from '../files/deck-folder.ts';
import { type Fault, faultText } from '../files/faults.ts';
import { EXIT } from './outcome.ts';
import { say, sayJson } from './text.ts';

export function checkDeck(folder: string, options: { readonly json?: boolean }): void {
  const { loaded, faults } = inspectDeck(deckFolder(folder));
  if (faults.faults.length > 0) process.exitCode = EXIT.refused;
  if (options.json) {
    const { identity, covers } = loaded?.aircraft ?? { identity: null, covers: [] };
    sayJson({
      deck: folder,
      identity,
      covers,
      faults: faults.faults.map(asData),
      doubts: faults.doubts.map(asData),
    });
    return;
  }
  if (loaded) printDeck(loaded);
  for (const fault of faults.list) say(`${fault.severity}: ${faultText(fault)}`);
  const counts = [many(faults.faults.length, 'fault'), many(faults.doubts.length, 'doubt')];
  say(`${folder}: ${counts.join(', ')}`);
}

function printDeck({ aircraft }: LoadedDeck): void {
  const { name, edition, basis, source, tails } = aircraft.identity;
  say(`${name}, edition ${edition}, ${basis}`);
  say(source);
  say(`Valid for ${tails.length === 0 ? 'no tail in particular' : tails.join(', ')}`);
  say('');
  for (const line of aircraft.covers) say(`Covers ${line}`);
  say('');
}

function asData({ place, path, message }: Fault) {
  return { ...place, path, message };
}

function many(count: number, noun: string): string {
  return `${count === 0 ? 'no' : count} ${noun}${count === 1 ? '' : 's'}`;
}
