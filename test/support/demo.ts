/** The sorties of the demonstration and changes of them, read once and planned in memory. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Day } from '../../src/core/air/day.ts';
import { gridDay } from '../../src/core/air/grid-day.ts';
import type { Aircraft } from '../../src/core/aircraft/aircraft.ts';
import type { PlanRequest } from '../../src/core/plan/draft.ts';
import { readAreas } from '../../src/files/areas.ts';
import { loadDeck } from '../../src/files/deck.ts';
import { deckFolder } from '../../src/files/deck-folder.ts';
import { Faults } from '../../src/files/faults.ts';
import { compileSortie, plainDay, readSortieFile } from '../../src/files/sortie.ts';
import { readWeather } from '../../src/files/weather.ts';

const at = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url));

export const longLoopText = readFileSync(at('examples/long-loop.yaml'), 'utf8');
export const warmDayText = readFileSync(at('examples/warm-day.yaml'), 'utf8');

const field = await readWeather(at('examples/weather/era5-2020-02-23T16Z-30N54N-100W75W.nc'));

export const sandmartin: Aircraft = loadDeck(deckFolder(at('decks/sandmartin'))).aircraft;

/** The analysis of the demonstration, held over time and below its lowest level. */
const analysis: Day = gridDay(field, { time: 'hold', top: 'refuse', bottom: 'holdOffset' });

/** A text with changes, each of which has to find something; a pattern with `g` changes all it finds. */
export function change(text: string, ...changes: readonly (readonly [string | RegExp, string])[]): string {
  return changes.reduce((before, [from, to]) => {
    const after = before.replace(from, to);
    if (after === before) throw new Error(`the sortie has nothing that matches ${from}`);
    return after;
  }, text);
}

/** What a sortie's text asks to be planned; its weather file is always the analysis. */
export function requestOf(text: string): PlanRequest {
  const faults = new Faults();
  const read = readSortieFile(text, 'sortie.yaml', faults);
  const file = read?.file.areas?.file;
  const areas = file ? readAreas(readFileSync(at(`examples/${file}`), 'utf8'), file, faults) : null;
  const sortie = read && compileSortie(read, sandmartin, null, faults, areas ?? []);
  faults.throwIfAny('sortie.yaml');
  if (!read || !sortie) throw new Error('the sortie has no faults and cannot be read');
  const day = plainDay(read.file) ?? analysis;
  return { sortie, aircraft: sandmartin, day, inputs: [], fingerprint: 'AAAAAA', program: 'test' };
}
