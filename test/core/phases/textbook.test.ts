/** The phases against textbook relations: values worked out independently of the program, quoted from the trade's check list. */
import { describe, expect, it } from 'vitest';
import type { Day } from '../../../src/core/air/day.ts';
import { standardDay } from '../../../src/core/air/offset-day.ts';
import {
  geometricFromGeopotential,
  pressureAltitudeOf,
  standardPressure,
} from '../../../src/core/air/standard.ts';
import type { Aircraft } from '../../../src/core/aircraft/aircraft.ts';
import { Arc } from '../../../src/core/flight/arc.ts';
import { flatEarth } from '../../../src/core/flight/earth-model.ts';
import { FLAT_RADIUS_M } from '../../../src/core/flight/frame.ts';
import { Leg } from '../../../src/core/flight/leg.ts';
import type { Moment } from '../../../src/core/flight/moment.ts';
import { constantMach, constantTrueAirspeed } from '../../../src/core/flight/speed-law.ts';
import { minimise } from '../../../src/core/numerics/optimum.ts';
import { accelerate, climb, cruise, pushover, turn } from '../../../src/core/phases/index.ts';
import type { Recorder } from '../../../src/core/phases/phase.ts';
import { fly } from '../../../src/core/phases/run.ts';
import { benchmarkAircraft, exactFlight, flatTrack, stateAt, windyDay } from '../../support/benchmark.ts';
import { flatLine } from '../../support/flat-line.ts';
import { idealJet } from '../../support/ideal-jet.ts';

const feet = 0.3048;
const mile = 1852;
const knot = mile / 3600;
const degree = Math.PI / 180;
const gravity = 9.80665;

/** Cruises at Mach 3.2 and 80 000 ft with a lift coefficient near 0.1. */
const jet = idealJet({ areaM2: 170, zeroLiftDrag: 0.01, inducedFactor: 0.6, consumption: 0.0005 });
const heavyKg = 45_000;

function record(
  everyS: number,
): Recorder & { readonly samples: Omit<Moment, 'limitInputs' | 'enginePowers'>[] } {
  const samples: Omit<Moment, 'limitInputs' | 'enginePowers'>[] = [];
  return { everyS, samples, moment: (at) => void samples.push({ ...at }) };
}

describe('turns at Mach 3.2, 30 degrees of bank, 80 000 ft', () => {
  const law = constantMach(3.2);
  const bank = 30 * degree;
  const height = 80_000 * feet;

  function half(day: Day) {
    const flight = exactFlight(jet, flatEarth(), { day });
    const state = stateAt(height, 0, heavyKg);
    const arc = new Arc(flight, law, state, { startRad: bank, rateRadS: 0 });
    const recorder = record(10);
    const there = { at: 'custom', name: 'reversed', value: (at: Moment) => at.headingRad - Math.PI } as const;
    fly(flight, arc, state, { stops: [there], recorder });
    return { state, recorder };
  }

  it('[PHASE-1] the radius is 160.7 km and half a circle takes 8.8 min', () => {
    const { state } = half(standardDay);
    expect((state.longitudeRad * FLAT_RADIUS_M) / 2000).toBeCloseTo(160.7, 0);
    expect(Math.abs((state.longitudeRad * FLAT_RADIUS_M) / 2000 - 160.7)).toBeLessThan(0.5);
    expect(Math.abs(state.timeS / 60 - 8.8)).toBeLessThan(0.05);
  });

  it('[PHASE-2] the drag due to lift is a third greater than on the straight', () => {
    const { recorder } = half(standardDay);
    const flight = exactFlight(jet, flatEarth());
    const state = stateAt(height, 0, heavyKg);
    flight.placeOnTrack(flatTrack, 0, state.pressureAltitudeM, 0);
    flight.levelOnLaw(law, heavyKg);
    const zeroLift = 0.01 * flight.forces.dynamicPressurePa * 170;
    const straight = flight.forces.dragN - zeroLift;
    expect((recorder.samples[0].dragN - zeroLift) / straight).toBeCloseTo(4 / 3, 3);
  });

  it('[PHASE-3] 60 kt of wind shifts half a circle by 8.8 nm', () => {
    const { state } = half(windyDay(() => [60 * knot, 0]));
    expect(Math.abs((state.latitudeRad * FLAT_RADIUS_M) / mile - 8.8)).toBeLessThan(0.05);
  });

  it('[PHASE-4] the lead for 90 degrees is the radius, 86.7 nm, and 2.6 nm for 10 s of roll', () => {
    const lead = (rollRadPerS: number) => {
      const flight = exactFlight(jet, flatEarth());
      const state = stateAt(height, 0, heavyKg);
      const from = flatLine(0, 0, 0, 400_000);
      const to = flatLine(0, 400_000, 90 * degree, 400_000);
      const result = turn(flight, state, from, to, { law, bankRad: bank, rollRadPerS });
      expect(result.reason).toBe('rolledOut');
      expect(Math.abs(result.missM)).toBeLessThan(1);
      expect(result.rollOutM).toBeCloseTo(result.leadM, -1);
      return result.leadM / mile;
    };
    const atOnce = lead(Number.POSITIVE_INFINITY);
    expect(Math.abs(atOnce - 86.7)).toBeLessThan(0.3);
    // The rule is half of the roll, 5 s; as the tangent of bank lags behind bank, 5.24 s and 2.7 nm are exact.
    expect(Math.abs(lead(3 * degree) - atOnce - 2.6)).toBeLessThan(0.15);
  });
});

describe('energy', () => {
  it('[PHASE-5] from Mach 3.1 at 78 000 ft to Mach 0.88 at 34 000 ft is 174 900 ft, and 288 nm at (D-T)/W 0.10', () => {
    // The drag of this aircraft is a tenth of its weight at any speed and height.
    const area = 100;
    const weight = heavyKg * gravity;
    const dragging: Aircraft = {
      ...jet,
      aerodynamics: {
        ...jet.aerodynamics,
        wingAreaM2: area,
        at(mach, pressureAltitudeM, _geometricHeightM, _cgFraction, out) {
          const pressure = 0.7 * standardPressure(pressureAltitudeM) * mach * mach;
          Object.assign(out, { liftSlope: 1e7, zeroLiftAngleRad: 0, inducedFactor: 0, outside: 0 });
          out.zeroLiftDrag = (0.1 * weight) / (pressure * area);
        },
      },
    };
    const flight = exactFlight(dragging, flatEarth());
    const state = stateAt(78_000 * feet, 0, heavyKg);
    flight.placeOnTrack(flatTrack, 0, state.pressureAltitudeM, 0);
    state.trueAirspeedMS = flight.speedOf(constantMach(3.1), heavyKg);
    const recorder = record(60);
    const slow = { at: 'mach', mach: 0.88 } as const;
    expect(accelerate(flight, state, flatTrack, { power: 'idle', stops: [slow], recorder }).reason).toBe(
      'mach',
    );
    const low = {
      at: 'altitude',
      pressureAltitudeM: stateAt(34_000 * feet, 0, 1).pressureAltitudeM,
    } as const;
    const law = constantMach(0.88);
    expect(climb(flight, state, flatTrack, { law, power: 'idle', stops: [low], recorder }).reason).toBe(
      'altitude',
    );
    const { samples } = recorder;
    const fall = samples[0].energyHeightM - samples[samples.length - 1].energyHeightM;
    expect(Math.abs(fall / feet - 174_900)).toBeLessThan(100);
    expect(Math.abs(state.distanceM / mile - 288)).toBeLessThan(1);
  });

  it('[PHASE-6] a shear crossed at 400 m/s on 033 and on 213 degrees differs by 2 190 m of energy height', () => {
    // The wind along 033 degrees of the IGRA sounding USM00070026 of 2010-06-01 00 UTC: 36.0 m/s at 30 065 ft, 9.2 at 38 662 ft.
    const [low, high] = [30_065 * feet, 38_662 * feet];
    const slope = (9.2 - 36) / (high - low);
    const spent = (sign: 1 | -1): number => {
      const day = windyDay((z) => [sign * (36 + slope * (z - low)), sign * slope]);
      const flight = exactFlight(benchmarkAircraft(), flatEarth(), { day });
      const state = stateAt(low, 400, 17_000);
      const recorder = record(0.2);
      const top = { at: 'altitude', pressureAltitudeM: stateAt(high, 0, 1).pressureAltitudeM } as const;
      climb(flight, state, flatTrack, {
        law: constantTrueAirspeed(400),
        power: 'full',
        stops: [top],
        recorder,
      });
      const { samples } = recorder;
      let energy = 0;
      for (let i = 1; i < samples.length; i++) {
        const mean = 0.5 * (samples[i].specificExcessPowerMS + samples[i - 1].specificExcessPowerMS);
        energy += mean * (samples[i].timeS - samples[i - 1].timeS);
      }
      return energy;
    };
    expect(Math.abs((spent(-1) - spent(1)) / 2190 - 1)).toBeLessThan(0.05);
  });

  it('[PHASE-7] the phugoid at Mach 3.2 and 80 000 ft has a period of 151 s', () => {
    // 2 pi / sqrt(2 g^2/V^2 + g/H): Etkin, Dynamics of Atmospheric Flight; H 6.42 km.
    const gliding = idealJet({
      areaM2: 170,
      zeroLiftDrag: 0,
      inducedFactor: 0,
      consumption: 0.0005,
      liftSlope: 2,
    });
    const flight = exactFlight(gliding, flatEarth());
    const state = stateAt(80_000 * feet, 0, heavyKg);
    flight.placeOnTrack(flatTrack, 0, state.pressureAltitudeM, 0);
    state.trueAirspeedMS = flight.speedOf(constantMach(3.2), heavyKg);
    flight.levelOnLaw(constantMach(3.2), heavyKg);
    const trimmed = flight.forces.angleRad;
    state.pathAngleRad = 0.002;
    const leg = new Leg(flight, flatTrack, state, { altitude: true, speed: true, path: true }, 1, (at) => {
      flight.atAngle(at.speedMS, at.massKg, 0, at.pathRad, trimmed);
    });
    const crossings: number[] = [];
    const level = { at: 'custom', name: 'level', value: (at: Moment) => at.pathAngleRad } as const;
    const recorder = {
      everyS: 1e9,
      moment: () => undefined,
      gate: (_i: number, at: Moment) => crossings.push(at.timeS),
    };
    fly(flight, leg, state, { stops: [{ at: 'time', timeS: 500 }], gates: [level], recorder });
    expect(crossings.length).toBeGreaterThan(4);
    expect(Math.abs((crossings[2] - crossings[0]) / 151 - 1)).toBeLessThan(0.02);
  });
});

describe('a dive without surplus of thrust, Mach 0.92 at 36 000 ft to 31 500 ft', () => {
  // Thrust equals drag throughout: neither is there.
  const flight = () => exactFlight(benchmarkAircraft(), flatEarth(), { variation: { dragFactor: 0 } });
  const dive = (pullLoadFactor: number, pushLoadFactor: number) => {
    const f = flight();
    const state = stateAt(36_000 * feet, 0, 19_000);
    f.placeOnTrack(flatTrack, 0, state.pressureAltitudeM, 0);
    state.trueAirspeedMS = f.speedOf(constantMach(0.92), 19_000);
    const result = pushover(f, state, flatTrack, {
      power: 'idle',
      pushLoadFactor,
      pathAngleRad: -8 * degree,
      pullLoadFactor,
      bottomPressureAltitudeM: stateAt(31_500 * feet, 0, 1).pressureAltitudeM,
      rule: 'instant',
    });
    return { f, state, result };
  };

  it('[PHASE-8] ends at Mach 1.053 and 367 KEAS', () => {
    const { f, state, result } = dive(1.4, 0.7);
    expect(result.reason).toBe('bottom');
    expect(Math.abs(f.forces.mach - 1.053)).toBeLessThan(0.0006);
    const eas = state.trueAirspeedMS * Math.sqrt(f.frame.air.densityKgM3 / 1.2249991559);
    expect(Math.abs(eas / knot - 367)).toBeLessThan(0.6);
  });

  it('[PHASE-9] 0.7 g takes 13.2 s to 8 degrees', () => {
    expect(Math.abs(dive(1.4, 0.7).result.push.timeS - 13.2)).toBeLessThan(0.1);
  });

  it.each([
    [1.4, 32_290],
    [1.25, 32_740],
  ])('[PHASE-10] levelling with %f g starts at %i ft', (loadFactor, startFt) => {
    const { result } = dive(loadFactor, 0.7);
    const start = geometricFromGeopotential(result.pullStartPressureAltitudeM as number) / feet;
    expect(Math.abs(start - startFt)).toBeLessThan(50);
  });
});

describe('cruise-climb', () => {
  // Isothermal, with the standard day's pressures; heights by the same temperature.
  const isothermal: Day = {
    ...standardDay,
    sample(latitudeRad, longitudeRad, pressureAltitudeM, timeS, air) {
      standardDay.sample(latitudeRad, longitudeRad, pressureAltitudeM, timeS, air);
      const standard = air.temperatureK;
      air.temperatureK = 216.65;
      air.temperatureOffsetK = 216.65 - standard;
      air.densityKgM3 *= standard / 216.65;
      air.speedOfSoundMS *= Math.sqrt(216.65 / standard);
      air.upward[0] = 0;
      air.upward[3] = 216.65 / standard;
    },
  };
  const law = constantMach(2.85);
  const startM = pressureAltitudeOf(standardPressure(70_000 * feet)) as number;

  /** An aircraft whose best altitude at the mass is 70 000 ft: there L/D is greatest. */
  const best = (() => {
    const pressure = 0.7 * standardPressure(70_000 * feet) * 2.85 ** 2;
    const liftCoefficient = (heavyKg * gravity) / (pressure * 170);
    const inducedFactor = 0.01 / liftCoefficient ** 2;
    return idealJet({ areaM2: 170, zeroLiftDrag: 0.01, inducedFactor, consumption: 0.0005 });
  })();

  it('[PHASE-11] the altitude of least fuel for the distance keeps W/delta within 0.5 %: 70 000 to 78 000 ft at 0.684', () => {
    const flight = exactFlight(best, flatEarth(), { day: isothermal });
    const optimum = (massKg: number): number => {
      const flow = (altitudeM: number): number => {
        flight.placeOnTrack(flatTrack, 0, altitudeM, 0);
        flight.levelOnLaw(law, massKg);
        return flight.forces.fuelFlowKgS / flight.frame.groundSpeedMS;
      };
      return minimise(flow, 17_000, 27_000, 0.01).x;
    };
    const [first, last] = [optimum(heavyKg), optimum(0.684 * heavyKg)];
    const ratio = standardPressure(last) / standardPressure(first) / 0.684;
    expect(Math.abs(first / feet - 70_000)).toBeLessThan(20);
    expect(Math.abs(last / feet - 78_000)).toBeLessThan(100);
    expect(Math.abs(ratio - 1)).toBeLessThan(0.005);
  });

  it.each(['constantLift', 'target'] as const)(
    '[PHASE-12] flown (%s) it ends at 78 000 ft with 0.684 of the mass',
    (how) => {
      const flight = exactFlight(best, flatEarth(), { day: isothermal });
      const state = stateAt(geometricFromGeopotential(startM), 0, heavyKg);
      const pressure = standardPressure(startM) / heavyKg;
      const target = { target: (massKg: number) => pressureAltitudeOf(pressure * massKg) as number };
      const altitude = how === 'target' ? target : how;
      const end = cruise(flight, state, flatTrack, {
        law,
        altitude,
        stops: [{ at: 'fuel', fuelKg: 0.684 * heavyKg }],
      });
      expect(end.reason).toBe('fuel');
      const reached = standardPressure(state.pressureAltitudeM) / standardPressure(startM) / 0.684;
      expect(Math.abs(reached - 1)).toBeLessThan(0.005);
      expect(Math.abs(state.pressureAltitudeM / feet - 78_000)).toBeLessThan(100);
    },
  );
});
