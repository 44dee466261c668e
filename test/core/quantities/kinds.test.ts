import { describe, expectTypeOf, it } from 'vitest';
import type {
  CalibratedAirspeed,
  EquivalentAirspeed,
  GeometricHeight,
  GeopotentialHeight,
  GroundSpeed,
  Mach,
  PressureAltitude,
  StaticPressure,
  StaticTemperature,
  TotalPressure,
  TotalTemperature,
  TrueAirspeed,
} from '../../../src/core/quantities/kinds.ts';

/** Each line must fail to compile, or the type check of the project fails. */
function confusions(
  mach: Mach,
  cas: CalibratedAirspeed,
  eas: EquivalentAirspeed,
  tas: TrueAirspeed,
  gs: GroundSpeed,
  pressure: PressureAltitude,
  geopotential: GeopotentialHeight,
  geometric: GeometricHeight,
  staticT: StaticTemperature,
  totalT: TotalTemperature,
  staticP: StaticPressure,
  totalP: TotalPressure,
): readonly number[] {
  // @ts-expect-error calibrated is not equivalent
  const a: EquivalentAirspeed = cas;
  // @ts-expect-error equivalent is not true
  const b: TrueAirspeed = eas;
  // @ts-expect-error true is not ground
  const c: GroundSpeed = tas;
  // @ts-expect-error ground is not calibrated
  const d: CalibratedAirspeed = gs;
  // @ts-expect-error pressure altitude is not geopotential height
  const e: GeopotentialHeight = pressure;
  // @ts-expect-error geopotential is not geometric
  const f: GeometricHeight = geopotential;
  // @ts-expect-error geometric is not pressure altitude
  const g: PressureAltitude = geometric;
  // @ts-expect-error static is not total temperature
  const h: TotalTemperature = staticT;
  // @ts-expect-error total is not static temperature
  const i: StaticTemperature = totalT;
  // @ts-expect-error static is not total pressure
  const j: TotalPressure = staticP;
  // @ts-expect-error total is not static pressure
  const k: StaticPressure = totalP;
  // @ts-expect-error Mach is not a speed
  const l: TrueAirspeed = mach;
  return [a, b, c, d, e, f, g, h, i, j, k, l];
}

describe('soft kinds', () => {
  it('[QTY-1] takes a plain number and drops the tag in arithmetic', () => {
    expectTypeOf<number>().toExtend<Mach>();
    expectTypeOf(confusions).returns.toEqualTypeOf<readonly number[]>();
    const eas: EquivalentAirspeed = 200;
    expectTypeOf(eas * 2).toEqualTypeOf<number>();
  });
});
