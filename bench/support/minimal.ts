/**
 * The least model that can fly the benchmark interceptor: flat Earth, standard atmosphere, one look-up of aerodynamics and one of
 * thrust, five states (distance, height, speed, path angle, mass). Lift is the weight: a slowly rising acceleration.
 */
import { readFileSync } from 'node:fs';
import { Axis, Table1, Table2 } from '../../src/core/numerics/tables.ts';

const data = 'test/published/data/';

function columns(name: string): number[][] {
  const lines = readFileSync(`${data}${name}.csv`, 'utf8')
    .split('\n')
    .filter((text) => text !== '' && !text.startsWith('#'))
    .slice(1);
  return lines.map((text) => text.split(',').map(Number));
}

const aero = columns('minimum-time-climb-aero');
const thrusts = columns('minimum-time-climb-thrust');
const aeroMach = new Axis(aero.map((row) => row[0]));
const slope = new Table1(
  aeroMach,
  aero.map((row) => row[1]),
);
const zeroLift = new Table1(
  aeroMach,
  aero.map((row) => row[2]),
);
const eta = new Table1(
  aeroMach,
  aero.map((row) => row[3]),
);
const machs = [...new Set(thrusts.map((row) => row[0]))];
const heights = [...new Set(thrusts.map((row) => row[1]))];
const thrust = new Table2(
  new Axis(machs),
  new Axis(heights.map((height) => height * 0.3048)),
  thrusts.map((row) => row[3] * 4.4482216152605),
);

const gravity = 9.80665;
const gasConstant = 287.052874;
const areaM2 = 530 * 0.3048 ** 2;
const perThrust = 1 / (1600 * gravity);

/** Distance, height, speed, path angle, mass. */
export const start = [0, 6096, 253, 0.05, 19050.8795] as const;
export const durationS = 150;

export function minimalDerivative(
  _t: number,
  y: Float64Array | readonly number[],
  rates: Float64Array,
): void {
  const height = y[1];
  const speed = y[2];
  const sine = Math.sin(y[3]);
  const cosine = Math.cos(y[3]);
  const mass = y[4];
  const geopotential = (6356766 * height) / (6356766 + height);
  let temperature = 216.65;
  let pressure = 0;
  if (geopotential < 11000) {
    temperature = 288.15 - 0.0065 * geopotential;
    pressure = 101325 * Math.exp(5.2558797 * Math.log(temperature / 288.15));
  } else {
    pressure = 22632.04 * Math.exp((11000 - geopotential) * 1.57688503e-4);
  }
  const density = pressure / (gasConstant * temperature);
  const mach = speed / Math.sqrt(1.4 * gasConstant * temperature);
  const force = 0.5 * density * speed * speed * areaM2;
  const lift = mass * gravity;
  aeroMach.find(mach);
  const cLalpha = slope.value();
  const alpha = lift / (force * cLalpha);
  const drag = force * (zeroLift.value() + eta.value() * cLalpha * alpha * alpha);
  const push = thrust.at(mach, height);
  const angle = alpha - (alpha * alpha * alpha) / 6;
  rates[0] = speed * cosine;
  rates[1] = speed * sine;
  rates[2] = (push * (1 - 0.5 * alpha * alpha) - drag) / mass - gravity * sine;
  rates[3] = (lift + push * angle) / (mass * speed) - (gravity * cosine) / speed;
  rates[4] = -push * perThrust;
}
