/** What a change of wind with height is worth, on a measured sounding (IGRA version 2, station USM00070026, 2010-06-01 00 UTC). */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { soundingDay } from '../../../src/core/air/sounding-day.ts';
import { STILL_EARTH } from '../../../src/core/flight/earth-model.ts';
import type { Moment } from '../../../src/core/flight/moment.ts';
import { constantTrueAirspeed } from '../../../src/core/flight/speed-law.ts';
import { newState } from '../../../src/core/flight/state.ts';
import { accelerateOn } from '../../../src/core/optimise/acceleration-heading.ts';
import { climb } from '../../../src/core/phases/index.ts';
import type { Recorder } from '../../../src/core/phases/phase.ts';
import { readIgra } from '../../../src/files/igra.ts';
import { exactFlight } from '../../support/benchmark.ts';
import { idealJet } from '../../support/ideal-jet.ts';

const degree = Math.PI / 180;
const foot = 0.3048;
const path = new URL('../../published/data/igra2-USM00070026-2010.txt', import.meta.url);
const [sounding] = readIgra(readFileSync(path, 'utf8'), 'igra2.txt').soundings;
const day = soundingDay(sounding, { top: 'refuse', bottom: 'refuse' });
const jet = idealJet({ areaM2: 170, zeroLiftDrag: 0.01, inducedFactor: 0.3, consumption: 0.0003 });
const flight = exactFlight(jet, STILL_EARTH, { day });

/** Specific excess power summed over a flight: the energy height that thrust gives. */
class ThrustEnergy implements Recorder {
  readonly everyS = 1;
  energyM = 0;
  private last: { timeS: number; powerMS: number } | null = null;

  moment({ timeS, specificExcessPowerMS: powerMS }: Moment): void {
    if (this.last) this.energyM += 0.5 * (timeS - this.last.timeS) * (powerMS + this.last.powerMS);
    this.last = { timeS, powerMS };
  }
}

/** From 30 065 ft to 38 662 ft at a held 400 m/s. */
function climbAlong(courseDeg: number) {
  const thrust = new ThrustEnergy();
  const from = { ...newState(), timeS: sounding.timeS, pressureAltitudeM: 30_065 * foot, massKg: 20_000 };
  const flown = accelerateOn(from, sounding, courseDeg * degree, (state, track, wind) => {
    const end = climb(flight, state, track, {
      law: constantTrueAirspeed(400),
      power: 0.08,
      stops: [{ at: 'altitude', pressureAltitudeM: 38_662 * foot }],
      recorder: {
        everyS: 1,
        moment(at) {
          thrust.moment(at);
          wind.moment(at);
        },
      },
    });
    return end.stop === 0 ? null : end;
  });
  return { flown, thrustM: thrust.energyM };
}

describe('accelerating along a heading', () => {
  const [with033, with213] = [climbAlong(33), climbAlong(213)];

  it('[ACCEL-1] between 30 065 and 38 662 ft 033 gains 1 095 m of energy height and 213 loses as much (dE = -V dW/g)', () => {
    expect(with033.flown.refused).toBeNull();
    expect(Math.abs(with033.flown.windEnergyM / 1095 - 1)).toBeLessThan(0.05);
    expect(Math.abs(with213.flown.windEnergyM / -1095 - 1)).toBeLessThan(0.05);
  });

  it('[ACCEL-2] on 213 thrust has to give 2 V dW/g = 2 190 m of energy height more, within 5 %', () => {
    expect(Math.abs((with213.thrustM - with033.thrustM) / 2190 - 1)).toBeLessThan(0.05);
    expect(with213.flown.fuelKg).toBeGreaterThan(with033.flown.fuelKg);
    expect(with213.flown.timeS).toBeGreaterThan(with033.flown.timeS);
  });

  it('[ACCEL-3] a refused heading has no numbers', () => {
    const from = { ...newState(), pressureAltitudeM: 10_000, massKg: 20_000 };
    const refused = { reason: 'thrust', text: 'the thrust does not suffice' };
    const flown = accelerateOn(from, sounding, 0, () => refused);
    expect(flown).toMatchObject({ refused, end: null, fuelKg: Number.NaN, windEnergyM: Number.NaN });
  });
});
