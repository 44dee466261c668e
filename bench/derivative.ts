/** One derivative of the full model beside the minimal one; both with the weather of a grid and with the standard day. */
import type { Day } from '../src/core/air/day.ts';
import { gridDay } from '../src/core/air/grid-day.ts';
import { standardDay } from '../src/core/air/offset-day.ts';
import { Line } from '../src/core/earth/line.ts';
import { ROTATING_EARTH } from '../src/core/flight/earth-model.ts';
import { ENGINEERING, Flight } from '../src/core/flight/flight.ts';
import { Leg, type Way } from '../src/core/flight/leg.ts';
import { bledEquivalentAirspeed, constantMach } from '../src/core/flight/speed-law.ts';
import { newState } from '../src/core/flight/state.ts';
import { loadDeck } from '../src/files/deck.ts';
import { deckFolder } from '../src/files/deck-folder.ts';
import { readWeather } from '../src/files/weather.ts';
import { keep, line, nanoseconds } from './support/clock.ts';
import { minimalDerivative, start } from './support/minimal.ts';

const degree = Math.PI / 180;
const calls = 100_000;

function place(latitude: number, longitude: number) {
  return { latitudeRad: latitude * degree, longitudeRad: longitude * degree };
}

/** Nanoseconds of a way of flying, along a line, at heights and masses that change from call to call as in a climb. */
function timed(day: Day, way: (flight: Flight) => Way, altitudeM: number): number {
  const folder = 'decks/sandmartin';
  const { aircraft } = loadDeck(deckFolder(folder));
  const zeroFuelMassKg = aircraft.balance.emptyMassKg;
  const flight = new Flight({ aircraft, day, earth: ROTATING_EARTH, tolerance: ENGINEERING, zeroFuelMassKg });
  const track = new Line(place(42, -95), place(46, -80));
  const massKg = zeroFuelMassKg + 0.6 * aircraft.balance.fuelCapacityKg;
  const state = { ...newState(), timeS: Date.UTC(2020, 1, 23, 16) / 1000, pressureAltitudeM: altitudeM };
  const leg = new Leg(flight, track, state, { altitude: true }, 10, way(flight));
  const y = Float64Array.of(100_000, massKg, altitudeM);
  const rates = new Float64Array(3);
  return nanoseconds(calls, (count) => {
    for (let i = 0; i < count; i++) {
      y[0] = 100_000 + 5 * i;
      y[1] = massKg - 0.02 * i;
      y[2] = altitudeM + 0.01 * i;
      leg.derivative(0, y, rates);
    }
    keep(rates[1]);
  });
}

export async function bench(): Promise<void> {
  const y = Float64Array.from(start);
  const rates = new Float64Array(5);
  const minimal = nanoseconds(calls, (count) => {
    for (let i = 0; i < count; i++) {
      y[1] = 6096 + 0.02 * i;
      y[2] = 253 + 0.001 * i;
      minimalDerivative(0, y, rates);
    }
    keep(rates[2]);
  });
  line('minimal model', `${minimal.toFixed(0)} ns`);
  const file = 'examples/weather/era5-2020-02-23T16Z-30N54N-100W75W.nc';
  const field = await readWeather(file);
  const grid = gridDay(field, { time: 'hold', top: 'refuse', bottom: 'refuse' });
  const climb = (flight: Flight): Way => {
    const law = bledEquivalentAirspeed(225, 2.1, 30);
    return (at) => flight.climbInBalance(law, at.massKg, flight.setup.aircraft.propulsion.maximum);
  };
  const cruise = (flight: Flight): Way => {
    const law = constantMach(2.85);
    return (at) => flight.onLawAtRate(law, at.massKg, 0.3);
  };
  const report = (name: string, time: number) => {
    line(name, `${time.toFixed(0)} ns`, `${(time / minimal).toFixed(1)} times the minimal model`);
  };
  report('full model, climb on a speed law, standard day', timed(standardDay, climb, 14_000));
  report('full model, climb on a speed law, analysis', timed(grid, climb, 14_000));
  report('full model, cruise with thrust as required, analysis', timed(grid, cruise, 21_000));
}
