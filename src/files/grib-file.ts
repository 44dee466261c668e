/** GRIB 2 files on disk, read piece by piece. */
import { basename } from 'pathe';
import type { GridField } from '../core/air/grid-field.ts';
import { showTime } from '../core/quantities/time.ts';
import { openFile } from './disk.ts';
import { type ByteSource, GribError } from './grib/bytes.ts';
import { describeGrib, type GribRequest, readGrib } from './grib/day-field.ts';
import type { WeatherDescription } from './grid-file.ts';
import { attributionOfGrid } from './weather-attribution.ts';
import { WeatherError } from './weather-variables.ts';

/** Reads the day in a GRIB 2 file; throws `WeatherError` naming the file and the message. */
export function readGribFile(path: string, request: GribRequest): Promise<GridField> {
  return withSource(path, async (source) => {
    const { centre, runS, member, ...field } = await readGrib(source, request);
    const times = [field.timesS[0], field.timesS[field.timesS.length - 1]].map(showTime);
    const of = member === null ? '' : `, member ${member}`;
    const name = basename(path).replace(/\.[^.]*$/, '');
    const valid = times[0] === times[1] ? times[0] : times.join(' to ');
    return {
      ...field,
      title: `${name}, run ${showTime(runS)}${of}, ${valid}`,
      attribution: attributionOf(path, centre, field.timesS),
    };
  });
}

/** What a GRIB 2 file holds, without decoding its fields. */
export function describeGribFile(path: string): Promise<WeatherDescription> {
  return withSource(path, async (source) => {
    const { centre, runS, ...description } = describeGrib(source);
    return {
      ...description,
      file: basename(path),
      attribution: attributionOf(path, centre, description.timesS),
    };
  });
}

const ecmwf = 98;

function attributionOf(path: string, centre: number, timesS: ArrayLike<number>): string[] {
  const producers = centre === ecmwf ? ['ecmf'] : [];
  return attributionOfGrid(path, { producers, history: [], hasExpver: false, firstS: timesS[0] });
}

async function withSource<T>(path: string, use: (source: ByteSource) => Promise<T>): Promise<T> {
  const file = openFile(path);
  if (file === null) throw new WeatherError(path, null, 'no such file');
  try {
    return await use(file);
  } catch (error) {
    throw error instanceof GribError ? new WeatherError(path, null, error.message) : error;
  } finally {
    file.close();
  }
}
