/** Design points that a deck's maker states, against its tables. */

import { standardPressure } from '../air/standard.ts';
import { standardGravity } from '../quantities/constants.ts';
import type { AeroPoint, Aircraft, EnginePoint } from './aircraft.ts';
import type { CompiledDeck } from './compile.ts';
import type { Deck, DesignPoint, FaultSink } from './deck.ts';

/** Forces in level flight at a design point; lift is the weight, thrust that of the settings. SI. */
export interface DesignPointForces {
  readonly dynamicPressurePa: number;
  readonly liftCoefficient: number;
  readonly angleOfAttackRad: number;
  readonly dragN: number;
  readonly thrustN: number;
  readonly fuelFlowKgS: number;
  /** (thrust - drag)/weight. */
  readonly excess: number;
  readonly outside: boolean;
}

/** Level, unaccelerated flight with the weight on the wing, on the standard day plus the point's offset. */
export function designPointForces(aircraft: Aircraft, point: DesignPoint): DesignPointForces {
  const { aerodynamics, propulsion, balance } = aircraft;
  const { mach, pressureAltitudeM: altitude, massKg } = point;
  const aero: AeroPoint = {
    liftSlope: 0,
    zeroLiftAngleRad: 0,
    zeroLiftDrag: 0,
    inducedFactor: 0,
    outside: 0,
  };
  const engine: EnginePoint = { thrustN: 0, fuelFlowKgS: 0, power: 0, outside: 0 };
  const weight = massKg * standardGravity;
  const dynamicPressurePa = 0.7 * standardPressure(altitude) * mach * mach;
  const force = dynamicPressurePa * aerodynamics.wingAreaM2;
  aerodynamics.at(mach, altitude, altitude, balance.cgFraction(massKg - balance.emptyMassKg, mach), aero);
  let outside = aero.outside !== 0;
  const liftCoefficient = weight / force;
  const wash = point.inWash ? (aerodynamics.washDrag?.increment ?? 0) : 0;
  const dragN = force * (aero.zeroLiftDrag + wash + aero.inducedFactor * liftCoefficient ** 2);
  let thrustN = 0;
  let fuelFlowKgS = 0;
  for (const setting of point.settings) {
    const power = propulsion.names.indexOf(setting);
    propulsion.at(power, mach, altitude, altitude, point.temperatureOffsetK, engine);
    thrustN += engine.thrustN;
    fuelFlowKgS += engine.fuelFlowKgS;
    if (engine.outside !== 0) outside = true;
  }
  return {
    dynamicPressurePa,
    liftCoefficient,
    angleOfAttackRad: aero.zeroLiftAngleRad + liftCoefficient / aero.liftSlope,
    dragN,
    thrustN,
    fuelFlowKgS,
    excess: (thrustN - dragN) / weight,
    outside,
  };
}

export function checkDesignPoints(deck: Deck, compiled: CompiledDeck, faults: FaultSink): void {
  const names = compiled.aircraft.propulsion.names;
  const engines = compiled.aircraft.propulsion.engines.length;
  deck.designPoints.forEach((point, index) => {
    const path = `designPoints.${index}`;
    const unknown = point.settings.filter((setting) => !names.includes(setting));
    if (unknown.length > 0 || point.settings.length !== engines) {
      const message = `needs one of ${names.join(', ')} for each of ${engines} engines`;
      faults.add(deck.place(['designPoints', index, 'settings']), `${path}.settings`, message);
      return;
    }
    const found = designPointForces(compiled.aircraft, point);
    if (found.outside) {
      faults.add(deck.place(['designPoints', index]), path, `"${point.name}" lies outside the tables`);
      return;
    }
    if (Math.abs(found.excess - point.excess) <= point.within) return;
    const percent = (value: number): string => `${(100 * value).toFixed(2)} %`;
    const message = `"${point.name}": thrust less drag is ${percent(found.excess)} of weight by the tables, stated ${percent(point.excess)}`;
    faults.doubt(deck.place(['designPoints', index, 'excess']), `${path}.excess`, message);
  });
}
