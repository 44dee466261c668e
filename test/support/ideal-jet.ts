/** A jet of textbook simplicity, for which the textbook's formulas are exact. */
import type { Aircraft } from '../../src/core/aircraft/aircraft.ts';
import { benchmarkAircraft } from './benchmark.ts';

const gravity = 9.80665;

export interface Jet {
  readonly areaM2: number;
  readonly zeroLiftDrag: number;
  readonly inducedFactor: number;
  /** Default 1e7: lift at hardly any angle, so that thrust carries none of it. */
  readonly liftSlope?: number;
  /** At power 1; default 1e6 N. */
  readonly fullThrustN?: number;
  /** Weight of fuel for each thrust and second, 1/s. */
  readonly consumption: number;
}

/** A jet of a parabolic polar at every Mach number, its fuel flow in proportion to thrust; power runs from 0 to 1. */
export function idealJet(jet: Jet): Aircraft {
  const base = benchmarkAircraft();
  const flow = jet.consumption / gravity;
  const full = jet.fullThrustN ?? 1e6;
  return {
    ...base,
    aerodynamics: {
      ...base.aerodynamics,
      wingAreaM2: jet.areaM2,
      at(_mach, _pressureAltitudeM, _geometricHeightM, _cgFraction, out) {
        out.liftSlope = jet.liftSlope ?? 1e7;
        out.zeroLiftAngleRad = 0;
        out.zeroLiftDrag = jet.zeroLiftDrag;
        out.inducedFactor = jet.inducedFactor;
        out.outside = 0;
      },
    },
    limits: [],
    propulsion: {
      ...base.propulsion,
      maximum: 1,
      military: 1,
      descent: 0,
      at(power, _mach, _pressureAltitudeM, _geometricHeightM, _temperatureOffsetK, out) {
        Object.assign(out, { thrustN: power * full, fuelFlowKgS: power * full * flow, power, outside: 0 });
      },
      powerFor(thrustN, _mach, _pressureAltitudeM, _geometricHeightM, _temperatureOffsetK, out) {
        const power = thrustN <= full ? thrustN / full : Number.NaN;
        Object.assign(out, { thrustN, fuelFlowKgS: thrustN * flow, power, outside: 0 });
      },
    },
  };
}
