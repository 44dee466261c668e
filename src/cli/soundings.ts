/** `ramrise day` on a file of soundings: which there are, and what of the file could not be used. */
import type { Sounding } from '../core/air/sounding.ts';
import { showTime } from '../core/quantities/time.ts';
import { faultText } from '../files/faults.ts';
import { readSoundings } from '../files/soundings.ts';
import { columnSummary, soundingRows } from '../present/weather-file.ts';
import { columns, say, sayJson } from './text.ts';

export function describeSoundings(path: string, json: boolean): void {
  const { file, soundings, remarks, attribution } = readSoundings(path);
  const whole = soundings.map(summary);
  const said = remarks.list.map(faultText);
  if (json) {
    sayJson({ file, soundings: whole, remarks: said, attribution });
    return;
  }
  say(file);
  for (const row of columns(soundingRows(soundings), () => false)) say(row);
  say('A sounding holds at every place and time: its column is printed with --time.');
  for (const text of [...said, ...whole.flatMap(({ remarks }) => remarks)]) say(text);
  for (const text of attribution) say(`\n${text}`);
}

function summary(sounding: Sounding) {
  const { station, timeS, latitudeRad, longitudeRad, levels } = sounding;
  const { ends, remarks } = columnSummary(sounding);
  return {
    station,
    time: Number.isNaN(timeS) ? null : showTime(timeS),
    latitudeDeg: degrees(latitudeRad),
    longitudeDeg: degrees(longitudeRad),
    levels: levels.length,
    windOnlyLevels: levels.filter((level) => Number.isNaN(level.pressurePa)).length,
    ends,
    remarks,
  };
}

function degrees(angleRad: number): number | null {
  return Number.isNaN(angleRad) ? null : Number(((angleRad * 180) / Math.PI).toFixed(9));
}
