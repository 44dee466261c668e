/** What a kilogram seems to weigh in level supersonic flight; that a cruise is flown by it shows in the rules of the day. */
import { describe, expect, it } from 'vitest';
import { standardDay } from '../../../src/core/air/offset-day.ts';
import { Line } from '../../../src/core/earth/line.ts';
import { ROTATING_EARTH } from '../../../src/core/flight/earth-model.ts';
import { Flight } from '../../../src/core/flight/flight.ts';
import { ENGINEERING } from '../../../src/core/flight/setup.ts';
import { constantMach } from '../../../src/core/flight/speed-law.ts';
import { sandmartin as aircraft } from '../../support/demo.ts';

const degree = Math.PI / 180;
const foot = 0.3048;

/** On a short line that begins at a latitude and points along a parallel. */
function apparentMass(latitudeDeg: number, eastDeg: number, mach: number, altitudeFt: number): number {
  const flight = new Flight({
    aircraft,
    day: standardDay,
    earth: ROTATING_EARTH,
    tolerance: ENGINEERING,
    zeroFuelMassKg: aircraft.balance.emptyMassKg,
  });
  const at = (longitudeDeg: number) => ({
    latitudeRad: latitudeDeg * degree,
    longitudeRad: longitudeDeg * degree,
  });
  flight.placeOnTrack(new Line(at(0), at(eastDeg)), 0, altitudeFt * foot, 0);
  flight.levelOnLaw(constantMach(mach), 50_000);
  return flight.apparentMass;
}

describe('apparent weight', () => {
  /** Worked out outside this project: at 45 N and M 3.2 westward over eastward is 2.1 % of weight. */
  it('[TRADE-4.1] is 2.1 % less eastward than westward at 45 N and M 3.2', () => {
    const [east, west] = [1, -1].map((way) => apparentMass(45, way, 3.2, 80_000));
    expect(Math.abs(100 * (west / east - 1) - 2.1)).toBeLessThan(0.06);
  });

  /** Worked out outside this project: level at M 3.2 along the equator eastward carries 2.9 % less than at rest, westward 0.02 %. */
  it('[TRADE-4.1] along the equator is 2.9 % less eastward than at rest, and westward the same but for a few hundredths', () => {
    const still = apparentMass(0, 1, 0.01, 80_000);
    expect(Math.abs(100 * (1 - apparentMass(0, 1, 3.2, 80_000) / still) - 2.9)).toBeLessThan(0.08);
    expect(Math.abs(1 - apparentMass(0, -1, 3.2, 80_000) / still)).toBeLessThan(0.001);
  });
});
