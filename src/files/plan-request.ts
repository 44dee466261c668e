/** Everything a plan is made from, read from a disk: the sortie, and the deck, the weather and the areas that it names. */
import { dirname, resolve } from 'pathe';
import type { Day } from '../core/air/day.ts';
import { SoundingError } from '../core/air/sounding.ts';
import { warmerDay } from '../core/air/warmer-day.ts';
import type { Aircraft } from '../core/aircraft/aircraft.ts';
import type { Area } from '../core/earth/area.ts';
import type { PlanRequest } from '../core/plan/draft.ts';
import type { PlanInput } from '../core/plan/plan.ts';
import { readAreas } from './areas.ts';
import { type DayOfWeather, dayOfWeather, MissingRule } from './day-of-weather.ts';
import { type DeckSource, inspectDeck } from './deck.ts';
import { deckFolder } from './deck-folder.ts';
import { readText } from './disk.ts';
import { Faults, FileFaults, ofSystem } from './faults.ts';
import { fingerprintOf, sha256, sha256OfFile } from './fingerprint.ts';
import type { WeatherWindow } from './grid-file.ts';
import { compileSortie, plainDay, type ReadSortie, readSortieFile } from './sortie.ts';
import { reachOf } from './sortie-reach.ts';
import { WeatherError } from './weather-variables.ts';

/**
 * Reads a sortie and all it names. `program` is name and version of the program, which count into the fingerprint.
 * Throws `FileFaults` with every fault of the sortie, the deck, the weather and the areas.
 */
export async function readPlanRequest(path: string, program: string): Promise<PlanRequest> {
  const faults = new Faults();
  const text = textOf(path, faults);
  const read = text === null ? null : readSortieFile(text, path, faults);
  if (text === null || !read) throw refuse(faults, path);
  const { deck } = read.file.aircraft;
  const { aircraft, sha256: deckSha256 } = readAircraft(resolve(dirname(path), deck), deck, faults);
  const weather = await readDay(read, dirname(path), reachOf(read.file), faults);
  const { areas, inputs: areaInputs } = readAreasOf(read, dirname(path), faults);
  const sortie = aircraft && compileSortie(read, aircraft, weather?.run ?? null, faults, areas);
  if (faults.faults.length > 0 || !sortie || !aircraft || !weather) throw refuse(faults, path);
  const inputs: PlanInput[] = [
    { role: 'sortie', name: path, sha256: sha256(text) },
    { role: 'deck', name: deck, sha256: deckSha256 },
    ...weather.inputs,
    ...areaInputs,
  ];
  const day = asSaid(weather.day, read);
  return { sortie, aircraft, day, inputs, fingerprint: fingerprintOf(inputs, program), program };
}

/** A day with what the sortie adds to its temperatures. */
export function asSaid(day: Day, { file: { weather } }: ReadSortie): Day {
  return 'file' in weather ? warmerDay(day, weather.temperatureOffset) : day;
}

/** The aircraft of the deck in a folder, null where it has faults, and the hash of the files read; `name` is what messages call it. */
export function readAircraft(
  folder: string,
  name: string,
  faults: Faults,
): { readonly aircraft: Aircraft | null; readonly sha256: string } {
  const source = hashing(deckFolder(folder, name));
  const report = inspectDeck(source);
  for (const fault of report.faults.faults) faults.add(fault.place, fault.path, fault.message);
  return { aircraft: report.loaded?.aircraft ?? null, sha256: source.hash() };
}

function refuse(faults: Faults, path: string): Error {
  try {
    faults.throwIfAny(path);
  } catch (error) {
    return error as Error;
  }
  return new Error(`${path} cannot be planned`);
}

function textOf(path: string, faults: Faults): string | null {
  try {
    return readText(path);
  } catch (error) {
    const words = ofSystem(error as Error);
    if (words === null) throw error;
    faults.add({ file: path, line: 0, column: 0 }, '', words);
    return null;
  }
}

/** The areas that a sortie names, from `folder`, and their file; none, with the faults collected, where it cannot be used. */
export function readAreasOf(
  { file: { areas } }: ReadSortie,
  folder: string,
  faults: Faults,
): { readonly areas: readonly Area[]; readonly inputs: readonly PlanInput[] } {
  const text = areas ? textOf(resolve(folder, areas.file), faults) : null;
  if (!areas || text === null) return { areas: [], inputs: [] };
  const inputs = [{ role: 'areas', name: areas.file, sha256: sha256(text) }];
  return { areas: readAreas(text, areas.file, faults) ?? [], inputs };
}

/** A day, its run, and the files it was read from. */
export interface ReadDay extends DayOfWeather {
  readonly inputs: readonly PlanInput[];
}

/** The day of a sortie whose files are named from `folder`; null where it has faults. */
export async function readDay(
  read: ReadSortie,
  folder: string,
  reach: WeatherWindow,
  faults: Faults,
): Promise<ReadDay | null> {
  const plain = plainDay(read.file);
  if (plain) return { day: plain, run: null, inputs: [] };
  const { weather } = read.file;
  if (!('file' in weather)) return null;
  const file = resolve(folder, weather.file);
  const place = read.place(['weather', 'file']);
  try {
    const day = await dayOfWeather(file, weather, reach);
    const inputs = [{ role: 'weather', name: weather.file, sha256: sha256OfFile(file) }];
    return { ...day, inputs };
  } catch (error) {
    if (error instanceof FileFaults) {
      for (const fault of error.faults) faults.add(fault.place, fault.path, fault.message);
      return null;
    }
    const key = error instanceof MissingRule ? error.key : 'file';
    const ofFile = error instanceof WeatherError || error instanceof SoundingError || key !== 'file';
    if (!ofFile && (error as NodeJS.ErrnoException).code === undefined) throw error;
    faults.add(place, `weather.${key}`, (error as Error).message);
    return null;
  }
}

/** A deck source that hashes what is read from it. */
function hashing(source: DeckSource): DeckSource & { hash(): string } {
  const files = new Map<string, string>();
  return {
    name: source.name,
    read(file) {
      const text = source.read(file);
      if (text !== null) files.set(file, sha256(text));
      return text;
    },
    hash: () =>
      sha256(
        [...files]
          .sort()
          .map((entry) => entry.join(' '))
          .join('\n'),
      ),
  };
}
