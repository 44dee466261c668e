/** The day that a sortie's weather file stands for, by the rules that the sortie states. */
import type { Day } from '../core/air/day.ts';
import { gridDay } from '../core/air/grid-day.ts';
import { usualGapS } from '../core/air/grid-field.ts';
import { showTime } from '../core/quantities/time.ts';
import type { WeatherWindow } from './grid-file.ts';
import type { SortieFile } from './sortie-schema.ts';
import { dayOfSounding, isSoundingFile, readSoundings, soundingAt } from './soundings.ts';
import { describeWeather, readWeather, WeatherError } from './weather.ts';

/** What a sortie says of a weather file. */
export type WeatherOfFile = Extract<SortieFile['weather'], { file: string }>;

export interface DayOfWeather {
  readonly day: Day;
  /** Time of the sounding, or first time of the grid; null where the file says none. */
  readonly run: string | null;
}

/** A weather file that lacks a rule of the sortie; `key` is where the sortie would state it. */
export class MissingRule extends Error {
  readonly key: string;

  constructor(key: string, message: string) {
    super(message);
    this.name = 'MissingRule';
    this.key = key;
  }
}

/** Reads the file at `path`, of a grid only what `reach` needs; throws `WeatherError`, `FileFaults` or `SoundingError` for its faults, `MissingRule` for the sortie's. */
export async function dayOfWeather(
  path: string,
  said: WeatherOfFile,
  reach?: WeatherWindow,
): Promise<DayOfWeather> {
  return isSoundingFile(path) ? dayFromSounding(path, said) : dayFromGrid(path, said, reach);
}

function dayFromSounding(path: string, said: WeatherOfFile): DayOfWeather {
  const file = readSoundings(path);
  if (said.sounding === undefined && said.time !== 'hold') {
    const times = file.soundings.map(({ timeS }) => (Number.isNaN(timeS) ? 'no time' : showTime(timeS)));
    throw new MissingRule(
      'sounding',
      `the file has soundings of ${times.join(', ')}; say which with "sounding", and it holds everywhere and always`,
    );
  }
  const timeS = said.sounding ?? null;
  const sounding = soundingAt(file, timeS);
  const day = dayOfSounding(file, timeS, { top: said.top ?? 'refuse', bottom: said.bottom ?? 'refuse' });
  const run = Number.isNaN(sounding.timeS) ? null : showTime(sounding.timeS);
  return { day: said.title === undefined ? day : retitled(day, said.title, run), run };
}

async function dayFromGrid(path: string, said: WeatherOfFile, reach?: WeatherWindow): Promise<DayOfWeather> {
  if (said.sounding !== undefined) throw new WeatherError(path, null, 'is a grid and has no soundings');
  const grid = await readWeather(path, reach, said.member);
  const first = showTime(grid.timesS[0]);
  if (grid.timesS.length === 1 && said.time !== 'hold') {
    throw new MissingRule(
      'time',
      `the file has one time only, ${first}; say "time: hold" to let it stand for the sortie`,
    );
  }
  const field = said.title === undefined ? grid : { ...grid, title: `${said.title} ${first}` };
  const { time = 'refuse', top = 'refuse', bottom = 'refuse' } = said;
  // The window has a part of the times only; the usual step is that of the file.
  const maximumGapS = said.maximumGap ?? usualGapS(Float64Array.from((await describeWeather(path)).timesS));
  return { day: gridDay(field, { time, top, bottom, maximumGapS }), run: first };
}

function retitled(day: Day, title: string, run: string | null): Day {
  const description = { ...day.description, title: run === null ? title : `${title} ${run}` };
  const { levelsM, steady, timesS, covers } = day;
  return { description, levelsM, steady, timesS, covers, sample: day.sample.bind(day) };
}
