/** A tanker's own fuel against hand calculations: rates times hours, and a way home in a known wind. */
import geographiclib from 'geographiclib-geodesic';
import { describe, expect, it } from 'vitest';
import { standardDay } from '../../../src/core/air/offset-day.ts';
import { draftOf } from '../../../src/core/plan/draft.ts';
import type { TankerOwn } from '../../../src/core/plan/plan.ts';
import { tankerOwnMissing, tankerOwnOf } from '../../../src/core/plan/tanker-own.ts';
import { change, longLoopText, requestOf } from '../../support/demo.ts';

const wgs84 = geographiclib.Geodesic.WGS84;
const hour = 3600;
const knot = 1852 / 3600;
const degrees = 180 / Math.PI;

const request = requestOf(longLoopText);
/** Without wind. */
const still = { ...request, day: standardDay };
const drafted = draftOf(still);
const takeOffS = request.sortie.takeOff.timeS;

function ownOf(name: string, all = tankerOwnOf(drafted)): TankerOwn {
  const found = all.find(({ tanker }) => tanker === name);
  if (!found) throw new Error(`${name} flies by the sortie`);
  return found;
}

describe("a tanker's own fuel", () => {
  /** By hand: on station at 15:20Z, 10 min before take-off; 5 200 kg/h from there to the disconnect. */
  it('[TKO-10] is burnt by its rate from when it is on station to when it leaves', () => {
    const one = ownOf('Ewer One');
    const [refuelling] = drafted.flown.refuellings;
    const leavesS = refuelling.disconnectS - takeOffS;
    expect(one.onStationS).toBe(-600);
    expect(one.leavesS).toBe(leavesS);
    expect(one.waitedKg + one.contactKg).toBeCloseTo(((600 + leavesS) / hour) * 5200, 6);
    expect(one.contactKg).toBeCloseTo(((refuelling.disconnectS - refuelling.contactS) / hour) * 5200, 6);
  });

  /** Distance by another library from the place of the disconnect; 440 KTAS in still air, 5 600 kg/h. */
  it('[TKO-11] takes it home over the geodesic, in still air at its true airspeed', () => {
    for (const own of tankerOwnOf(drafted)) {
      const { flight } = request.sortie.tankers.find(({ name }) => name === own.tanker) ?? {};
      if (!flight || own.home === null) throw new Error('its way home is known');
      const { log } = drafted;
      const [latitude, longitude] = [log.columns.latitudeRad, log.columns.longitudeRad].map(
        (column) => log.at(column, own.leavesS + takeOffS) * degrees,
      );
      const { base } = flight;
      const s12 = wgs84.Inverse(
        latitude,
        longitude,
        base.latitudeRad * degrees,
        base.longitudeRad * degrees,
      ).s12;
      expect(Math.abs(own.home.distanceM - (s12 ?? 0))).toBeLessThan(100);
      expect(own.home.durationS).toBeCloseTo(own.home.distanceM / (440 * knot), 3);
      expect(own.home.burntKg).toBeCloseTo((own.home.durationS / hour) * 5600, 6);
      const burntKg = own.waitedKg + own.contactKg + own.home.burntKg;
      expect(own.onLandingKg).toBeCloseTo(own.ownKg - burntKg, 6);
      expect(own.overReserveKg).toBeCloseTo(own.ownKg - burntKg - 5000, 6);
    }
  });

  /** By hand: what is over the reserve, at the rate on station. */
  it('[TKO-12] can wait as long as what is over its reserve lasts', () => {
    const one = ownOf('Ewer One');
    expect(one.canWaitS).toBeCloseTo(((one.overReserveKg ?? 0) / 5200) * hour, 6);
  });

  /** By hand: ground speed with w from behind is V + w, across V and w it is sqrt(V^2 - w^2). */
  it('[TKO-13] is more against the wind and across it', () => {
    const speedMS = 440 * knot;
    const home = (windEastMS: number, windNorthMS: number) => {
      const day = {
        ...standardDay,
        sample: (...[latitude, longitude, altitude, time, air]: Parameters<typeof standardDay.sample>) => {
          standardDay.sample(latitude, longitude, altitude, time, air);
          air.windEastMS = windEastMS;
          air.windNorthMS = windNorthMS;
        },
      };
      const { crew } = drafted;
      const flight = Object.create(crew.flight, { setup: { value: { ...crew.flight.setup, day } } });
      const own = ownOf('Ewer One', tankerOwnOf({ ...drafted, crew: { ...crew, flight } }));
      if (own.home === null) throw new Error('its way home is known');
      return own.home.distanceM / own.home.durationS;
    };
    // Home to the west-south-west: a wind from the west is ahead, one from the east behind.
    expect(home(20, 0)).toBeLessThan(speedMS - 15);
    expect(home(-20, 0)).toBeGreaterThan(speedMS + 15);
    // Any wind there and back costs: the harmonic mean is below the still-air speed.
    const [out, back] = [home(20, 5), home(-20, -5)];
    expect(2 / (1 / out + 1 / back)).toBeLessThan(speedMS);
  });

  it('[TKO-14] is not told where the sortie does not say how the tanker flies', () => {
    const silent = requestOf(change(longLoopText, [/ {4}flight:\n(?: {6}.*\n){6}/, '']));
    const own = tankerOwnOf(draftOf(silent));
    expect(own.map(({ tanker }) => tanker)).toEqual(['Ewer Two']);
    expect(tankerOwnMissing(silent.sortie, own)).toEqual([
      'the own fuel of Ewer One: the sortie does not say how it flies',
    ]);
  });
});

describe('faults of the flight of a tanker', () => {
  it.each([
    ['home: Curlew Ridge', 'home: Larkmoor', /tankers\.1\.flight\.home: there is no base "Larkmoor"/],
    ['    ownFuel: 19000 kg\n', '', /tankers\.1\.flight: the flight of a tanker needs "ownFuel" beside it/],
    [
      'ownFuel: 19000 kg',
      'ownFuel: 4000 kg',
      /tankers\.1\.flight\.reserve: is more than its own fuel, 4000 kg/,
    ],
    ['trueAirspeed: 440 KTAS', 'trueAirspeed: 440 KCAS', /trueAirspeed: .*"440 KCAS"/],
    ['homeBurn: 5600 kg/h', 'homeBurn: 0 kg/h', /tankers\.0\.flight\.homeBurn: must be above 0/],
    ['from: 2026-02-23T17:00Z', 'from: 17:00', /tankers\.1\.flight\.from: .*is not a date and time/],
  ])('[TKO-15] %s becomes %s', (from, to, says) => {
    expect(() => requestOf(change(longLoopText, [from, to]))).toThrow(says);
  });
});
