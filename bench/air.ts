/** The pieces of air and Earth that every step of a flight asks for, beside the calibration loop. */
import { join } from 'node:path';
import { calibratedAirspeed } from '../src/core/air/airdata.ts';
import { type Day, newAir } from '../src/core/air/day.ts';
import { gridDay } from '../src/core/air/grid-day.ts';
import { offsetDay, standardDay } from '../src/core/air/offset-day.ts';
import { quickTotalTemperature } from '../src/core/air/quick-total.ts';
import { totalTemperature } from '../src/core/air/thermally-perfect.ts';
import { gravityDown } from '../src/core/earth/gravity.ts';
import { Line, newLinePoint } from '../src/core/earth/line.ts';
import { readWeather } from '../src/files/weather.ts';
import { calibration, keep, line, nanoseconds } from './support/clock.ts';

const degree = Math.PI / 180;
const examples = 'examples/weather';
const air = newAir();

/** A climb from the ground to 24 km over 700 km, about a sample each 230 m of track. */
function fly(day: Day): (count: number) => void {
  return (count) => {
    for (let i = 0; i < count; i++) {
      const step = i % 3000;
      day.sample((34 + step * 2e-3) * degree, (-95 + step * 2e-3) * degree, step * 8, 1582473600, air);
      keep(air.temperatureK);
    }
  };
}

export async function bench(): Promise<void> {
  const field = await readWeather(join(examples, 'era5-2020-02-23T16Z-30N54N-100W75W.nc'));
  const grid = gridDay(field, { time: 'hold', top: 'holdOffset', bottom: 'holdOffset' });
  const track = new Line(
    { latitudeRad: 45.5 * degree, longitudeRad: -85 * degree },
    { latitudeRad: 48 * degree, longitudeRad: -60 * degree },
  );
  const point = newLinePoint();
  const unit = calibration();
  const cases: readonly [name: string, run: (count: number) => void][] = [
    ['standard day, one sample', fly(standardDay)],
    ['offset day, one sample', fly(offsetDay(5))],
    ['gridded day, one sample with gradients', fly(grid)],
    ['total temperature, quick', loop((i) => quickTotalTemperature(216 + (i % 20), 500 + (i % 450)))],
    ['total temperature, by iteration', loop((i) => totalTemperature(216 + (i % 20), 500 + (i % 450)))],
    ['calibrated airspeed', loop((i) => calibratedAirspeed(0.5 + (i % 300) / 100, 5000))],
    ['gravity, quick', loop((i) => gravityDown((i % 100) / 100, i % 30000))],
    [
      'point of a prepared line',
      loop((i) => {
        track.at((i * 37) % 1_900_000, point);
        return point.courseRad;
      }),
    ],
  ];
  for (const [name, run] of cases) {
    const time = nanoseconds(200_000, run);
    line(name, `${time.toFixed(1)} ns`, `${(time / unit).toFixed(1)} rounds of the calibration loop`);
  }
}

function loop(value: (i: number) => number): (count: number) => void {
  return (count) => {
    for (let i = 0; i < count; i++) keep(value(i));
  };
}
