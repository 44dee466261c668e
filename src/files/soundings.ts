/** Sounding files of any kind: what they hold, and the day of one of their soundings. */
import { basename } from 'pathe';
import type { Day } from '../core/air/day.ts';
import type { Sounding } from '../core/air/sounding.ts';
import { type SoundingRules, soundingDay } from '../core/air/sounding-day.ts';
import { showTime } from '../core/quantities/time.ts';
import { openFile, readText } from './disk.ts';
import { looksLikeIgra, readIgra } from './igra.ts';
import { looksLikeSoundingCsv, readSoundingCsv } from './sounding-csv.ts';
import type { SoundingFile } from './sounding-file.ts';
import { attributionOf, WeatherError } from './weather-variables.ts';

const startBytes = 4096;

/** Whether a file begins as a sounding file does; throws `WeatherError` where there is no such file. */
export function isSoundingFile(path: string): boolean {
  const file = openFile(path);
  if (file === null) throw new WeatherError(path, null, 'no such file');
  try {
    const text = new TextDecoder().decode(file.read(0, startBytes));
    return looksLikeIgra(text) || looksLikeSoundingCsv(text);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EISDIR') throw error;
    throw new WeatherError(path, null, 'is a folder, not a file');
  } finally {
    file.close();
  }
}

/** Reads a sounding file; throws `FileFaults` with lines where nothing of it is whole, `WeatherError` where it is none. */
export function readSoundings(path: string): SoundingFile {
  const text = readText(path);
  const name = basename(path);
  const beside = attributionOf(path);
  const read = looksLikeIgra(text) ? readIgra : looksLikeSoundingCsv(text) ? readSoundingCsv : null;
  if (read === null) throw new WeatherError(path, null, 'is no sounding file');
  const file = read(text, name);
  return beside.length > 0 ? { ...file, attribution: beside } : file;
}

/** The sounding of a time; without one the only one there is. Throws `WeatherError` that names the times there are. */
export function soundingAt(file: SoundingFile, timeS: number | null): Sounding {
  const { soundings } = file;
  if (timeS === null && soundings.length === 1) return soundings[0];
  const found = soundings.find((sounding) => sounding.timeS === timeS);
  if (found) return found;
  const times = soundings.map((sounding) =>
    Number.isNaN(sounding.timeS) ? 'one without a time' : showTime(sounding.timeS),
  );
  const wanted =
    timeS === null ? `has ${soundings.length} soundings` : `has no sounding of ${showTime(timeS)}`;
  throw new WeatherError(file.file, null, `${wanted}; it has ${times.join(', ')}`);
}

/** The day of a sounding of a file: everywhere and always. */
export function dayOfSounding(file: SoundingFile, timeS: number | null, rules: SoundingRules): Day {
  return soundingDay(soundingAt(file, timeS), rules, file.attribution);
}
