/**
 * An inlet whose moving part stands beside its schedule: what the deck's table says of it, and an aircraft that flies so.
 *
 * The error is position less schedule [rad]. Mach and error beyond the table are held at its ends; between its points it is linear.
 */
import type { Aircraft, EnginePoint, InletError, InletErrorPoint } from './aircraft.ts';
import type { Deck } from './deck.ts';
import { columnOf, type Grid, gridValue } from './grid.ts';

export function inletErrorOf(deck: Deck, grid: Grid | null): InletError | null {
  if (deck.inletError === null || grid === null) return null;
  const [machAxis, errorAxis] = grid.axes;
  const [thrust, flow, drag, margin] = ['thrustRatio', 'fuelFlowRatio', 'dragIncrement', 'shockMargin'].map(
    (column) => columnOf(grid, column),
  );
  return {
    schedule: deck.inletError.schedule,
    leastRad: errorAxis.first,
    mostRad: errorAxis.last,
    at(mach, errorRad, out) {
      machAxis.find(mach);
      errorAxis.find(errorRad);
      out.thrustRatio = gridValue(grid, thrust);
      out.fuelFlowRatio = gridValue(grid, flow);
      out.dragIncrement = gridValue(grid, drag);
      out.shockMarginRad = gridValue(grid, margin);
    },
  };
}

export function newInletErrorPoint(): InletErrorPoint {
  return { thrustRatio: 0.5, fuelFlowRatio: 0.5, dragIncrement: 0.5, shockMarginRad: 0.5 };
}

/**
 * The aircraft with every inlet off its schedule by an error, or with one of them: then a share of what all of them would cost,
 * taken by all engines alike; what one side alone does to yaw is left out. The aircraft itself where the deck has no table of it.
 */
export function withInletError(aircraft: Aircraft, errorRad: number, share = 1): Aircraft {
  const { inletError, propulsion, aerodynamics } = aircraft;
  if (inletError === null || errorRad === 0) return aircraft;
  const point = newInletErrorPoint();
  const part = (ratio: number): number => 1 + share * (ratio - 1);
  const scale = (mach: number, out: EnginePoint): void => {
    inletError.at(mach, errorRad, point);
    out.thrustN *= part(point.thrustRatio);
    out.fuelFlowKgS *= part(point.fuelFlowRatio);
  };
  return {
    ...aircraft,
    propulsion: {
      ...propulsion,
      at(power, mach, pressureAltitudeM, geometricHeightM, temperatureOffsetK, out) {
        propulsion.at(power, mach, pressureAltitudeM, geometricHeightM, temperatureOffsetK, out);
        scale(mach, out);
      },
      powerFor(thrustN, mach, pressureAltitudeM, geometricHeightM, temperatureOffsetK, out) {
        inletError.at(mach, errorRad, point);
        const asked = thrustN / part(point.thrustRatio);
        propulsion.powerFor(asked, mach, pressureAltitudeM, geometricHeightM, temperatureOffsetK, out);
        scale(mach, out);
      },
    },
    aerodynamics: {
      ...aerodynamics,
      at(mach, pressureAltitudeM, geometricHeightM, cgFraction, out) {
        aerodynamics.at(mach, pressureAltitudeM, geometricHeightM, cgFraction, out);
        inletError.at(mach, errorRad, point);
        out.zeroLiftDrag += share * point.dragIncrement;
      },
    },
  };
}
