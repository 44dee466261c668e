/** The inputs that two plans name, found again by their hashes, so that the difference can be flown one input at a time. */
import { dirname, join, resolve } from 'pathe';
import type { Aircraft } from '../core/aircraft/aircraft.ts';
import type { Area } from '../core/earth/area.ts';
import type { Side, Sources } from '../core/plan/causes.ts';
import type { Changed } from '../core/plan/compare.ts';
import type { PlanRequest } from '../core/plan/draft.ts';
import type { Plan, PlanInput } from '../core/plan/plan.ts';
import { CannotPlan } from '../core/plan/sortie-flyer.ts';
import { readText } from './disk.ts';
import { Faults, faultText, ofSystem } from './faults.ts';
import { sha256, sha256OfFile } from './fingerprint.ts';
import type { WeatherWindow } from './grid-file.ts';
import { SORTIE_COPY } from './plan.ts';
import { asSaid, type ReadDay, readAircraft, readAreasOf, readDay } from './plan-request.ts';
import { compileSortie, type ReadSortie, readSortieFile } from './sortie.ts';
import { changedKeys } from './sortie-changes.ts';
import { reachOf } from './sortie-reach.ts';

/** A plan and the path of its file. */
export interface PlanFile {
  /** null where it is compared with no other. */
  readonly side: Side | null;
  readonly path: string;
  readonly plan: Plan;
}

/** What was found, or why it cannot be used. */
type OrReason<T extends object> = T | string;

export interface FoundInputs {
  readonly sources: Sources;
  /** Keys of the sortie files that differ; none where one of the files is gone. */
  readonly keys: readonly Changed[];
}

/**
 * Looks for the inputs of two plans by the names in them: from the folder where the command runs, and from that of the plan
 * and every folder above it; for the sortie also in the copy beside the plan. What has another hash by now is not used.
 */
export async function findInputs(old: PlanFile, now: PlanFile): Promise<FoundInputs> {
  const texts = { old: findSortie(old), new: findSortie(now) };
  const sorties = { old: readSortie(old, texts.old), new: readSortie(now, texts.new) };
  const sameDeck = hashOf(old.plan, 'deck') === hashOf(now.plan, 'deck');
  const newAircraft = findAircraft(now);
  const aircraft = { old: sameDeck ? newAircraft : findAircraft(old), new: newAircraft };
  const weatherChanged = weatherOf(old.plan, sorties.old) !== weatherOf(now.plan, sorties.new);
  const reach = reachOfBoth(sorties.old, sorties.new);
  const newDay = await findDay(now, sorties.new, reach);
  const days = { old: weatherChanged ? await findDay(old, sorties.old, reach) : newDay, new: newDay };
  const areas = { old: findAreas(old, sorties.old), new: findAreas(now, sorties.new) };
  const sources: Sources = {
    weatherChanged,
    aircraftChanged: !sameDeck,
    remarks: areaRemarks(areas),
    day: (of) => found(days[of]).day,
    aircraft: (of) => found(aircraft[of]),
    sortie(of, on) {
      const faults = new Faults();
      const other = typeof areas[of] === 'string' ? areas[of === 'old' ? 'new' : 'old'] : areas[of];
      const kept = typeof other === 'string' ? [] : other;
      const sortie = compileSortie(found(sorties[of]), found(aircraft[on]), null, faults, kept);
      if (sortie) return sortie;
      const why = faults.faults.map(faultText).join('; ');
      throw new CannotPlan(`the ${of} sortie cannot be flown with the ${on} aircraft: ${why}`);
    },
  };
  const keys =
    typeof texts.old === 'string' || typeof texts.new === 'string'
      ? []
      : changedKeys(texts.old.text, texts.new.text);
  return { sources, keys };
}

function found<T extends object>(value: OrReason<T>): T {
  if (typeof value === 'string') throw new CannotPlan(value);
  return value;
}

function hashOf({ inputs }: Plan, role: string): string {
  return inputs
    .filter((input) => input.role === role)
    .map((input) => input.sha256)
    .join();
}

/** What the weather of a plan is: its file, and the rules by which the sortie takes it. */
function weatherOf(plan: Plan, sortie: OrReason<ReadSortie>): string {
  const { title, continuedBy } = plan.weather;
  const rules = typeof sortie === 'string' ? [title, continuedBy] : sortie.file.weather;
  return hashOf(plan, 'weather') + JSON.stringify(rules);
}

/** Areas move no number of a plan; where those of one side are gone, those of the other stand in. */
function areaRemarks(areas: Readonly<Record<Side, OrReason<readonly Area[]>>>): string[] {
  return (['old', 'new'] as const).flatMap((side) => {
    const gone = areas[side];
    return typeof gone === 'string' ? [`${gone}; those of the other plan are kept out of instead`] : [];
  });
}

function reachOfBoth(...sorties: readonly OrReason<ReadSortie>[]): WeatherWindow {
  const files = sorties.flatMap((sortie) => (typeof sortie === 'string' ? [] : [sortie.file]));
  return reachOf({
    bases: files.flatMap(({ bases }) => bases),
    tankers: files.flatMap(({ tankers }) => tankers),
    legs: files.flatMap(({ legs }) => legs),
  });
}

function planOf({ side }: PlanFile): string {
  return side === null ? 'the plan' : `the ${side} plan`;
}

function inputOf({ plan }: PlanFile, role: string): PlanInput | undefined {
  return plan.inputs.find((input) => input.role === role);
}

/** Where a plan's sortie may have been named from: here, the folder of the plan, and those above it. */
function places({ path }: PlanFile): string[] {
  const all = [resolve('.')];
  for (let folder = dirname(resolve(path)); ; folder = dirname(folder)) {
    all.push(folder);
    if (folder === dirname(folder)) return [...new Set(all)];
  }
}

/** Where the names in a plan's sortie are taken from. */
function folders(file: PlanFile): string[] {
  const sortie = inputOf(file, 'sortie');
  return places(file).map((place) => dirname(resolve(place, sortie?.name ?? '')));
}

/** The first of some paths with the hash of an input; else a sentence on what became of it. */
function pathOf(
  file: PlanFile,
  input: PlanInput,
  paths: readonly string[],
  hash: (path: string) => string | null,
): OrReason<{ readonly path: string }> {
  let there = false;
  for (const path of paths) {
    const now = hash(path);
    if (now === input.sha256) return { path };
    there ||= now !== null;
  }
  const became = there ? 'has changed since' : 'is not found';
  const what = input.role === 'areas' ? 'file of areas' : input.role;
  return `the ${what} of ${planOf(file)}, ${input.name}, ${became}`;
}

/** What `read` gives; null where the system says that there is no such file. */
function ifThere<T>(read: () => T): T | null {
  try {
    return read();
  } catch (error) {
    if (ofSystem(error as Error) === null && (error as NodeJS.ErrnoException).code === undefined) throw error;
    return null;
  }
}

/** An object for the text, so that it is not taken for a reason. */
function findSortie(file: PlanFile): OrReason<{ readonly text: string }> {
  const input = inputOf(file, 'sortie');
  if (!input) return `${planOf(file)} names no sortie`;
  const paths = [
    join(dirname(resolve(file.path)), SORTIE_COPY),
    ...places(file).map((place) => resolve(place, input.name)),
  ];
  const place = pathOf(file, input, paths, (path) => ifThere(() => sha256(readText(path))));
  return typeof place === 'string' ? place : { text: readText(place.path) };
}

function readSortie(file: PlanFile, source: OrReason<{ readonly text: string }>): OrReason<ReadSortie> {
  if (typeof source === 'string') return source;
  const faults = new Faults();
  const read = readSortieFile(source.text, inputOf(file, 'sortie')?.name ?? '', faults);
  const why = faults.faults.map(faultText).join('; ');
  return read ?? `the sortie of ${planOf(file)} cannot be read by this program: ${why}`;
}

/** All that a plan was made from, found again by its hashes, or the first that is not. */
export async function findRequest(file: PlanFile): Promise<OrReason<PlanRequest>> {
  const { inputs, fingerprint, program } = file.plan;
  const sortie = readSortie(file, findSortie(file));
  const aircraft = findAircraft(file);
  if (typeof sortie === 'string') return sortie;
  if (typeof aircraft === 'string') return aircraft;
  const weather = await findDay(file, sortie, reachOf(sortie.file));
  const areas = findAreas(file, sortie);
  if (typeof weather === 'string') return weather;
  const faults = new Faults();
  const kept = typeof areas === 'string' ? [] : areas;
  const compiled = compileSortie(sortie, aircraft, weather.run, faults, kept);
  if (compiled === null) return faults.faults.map(faultText).join('; ');
  return { sortie: compiled, aircraft, day: weather.day, inputs, fingerprint, program };
}

/** The deck by the name and the hash that a plan has of it, or what became of it. */
export function findAircraft(file: PlanFile): OrReason<Aircraft> {
  const input = inputOf(file, 'deck');
  if (!input) return `${planOf(file)} names no deck`;
  const known = new Map<string, ReturnType<typeof readAircraft>>();
  const read = (path: string) => {
    const there = known.get(path) ?? readAircraft(path, input.name, new Faults());
    known.set(path, there);
    return there;
  };
  const paths = folders(file).map((folder) => resolve(folder, input.name));
  // A folder without a deck has the hash of nothing read.
  const place = pathOf(file, input, paths, (path) =>
    ifThere(() => (readText(join(path, 'deck.yaml')) === '' ? null : read(path).sha256)),
  );
  if (typeof place === 'string') return place;
  return read(place.path).aircraft ?? `the deck of ${planOf(file)} has faults that this program finds`;
}

async function findDay(
  file: PlanFile,
  sortie: OrReason<ReadSortie>,
  reach: WeatherWindow,
): Promise<OrReason<ReadDay>> {
  if (typeof sortie === 'string') return sortie;
  const input = inputOf(file, 'weather');
  const faults = new Faults();
  const place = input ? folderWith(file, input) : { path: '.' };
  if (typeof place === 'string') return place;
  const day = await readDay(sortie, place.path, reach, faults);
  if (day) return { ...day, day: asSaid(day.day, sortie) };
  return `the weather of ${planOf(file)}: ${faults.faults.map(faultText).join('; ')}`;
}

/** The folder from which the sortie names a file with the hash of an input. */
function folderWith(file: PlanFile, input: PlanInput): OrReason<{ readonly path: string }> {
  return pathOf(file, input, folders(file), (folder) =>
    ifThere(() => sha256OfFile(resolve(folder, input.name))),
  );
}

function findAreas(file: PlanFile, sortie: OrReason<ReadSortie>): OrReason<readonly Area[]> {
  const input = inputOf(file, 'areas');
  if (!input || typeof sortie === 'string') return [];
  const place = folderWith(file, input);
  if (typeof place === 'string') return place;
  return readAreasOf(sortie, place.path, new Faults()).areas;
}
