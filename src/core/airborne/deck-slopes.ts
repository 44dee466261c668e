/** Slopes of the fuel flow in level flight from the aircraft's own deck, solved at each node where power follows drag. */
import type { Aircraft } from '../aircraft/aircraft.ts';
import { levelFlight, newLevelPoint } from '../optimise/level-flight.ts';
import type { Trace } from '../plan/plan-trace.ts';
import { standardGravity } from '../quantities/constants.ts';
import type { FlowSlopes } from './expectation.ts';

/**
 * Steps of the differences: toward warmer air, the adverse side and as far as a layer is wont to be off, since power that falls
 * below a setting at which the engine runs turns a corner there.
 */
const kelvin = 5;
const mach = 0.01;

/** null at a node where a table of the deck ends. Lift is taken as the weight at standard gravity. */
export function deckSlopes(
  aircraft: Aircraft,
  { columns }: Pick<Trace, 'columns'>,
): (node: number) => FlowSlopes | null {
  const point = newLevelPoint();
  return (node) => {
    const massKg = columns.massKg[node];
    const flow = (warmerK: number, faster: number): number => {
      levelFlight(
        aircraft,
        columns.mach[node] + faster,
        columns.pressureAltitudeM[node],
        columns.temperatureOffsetK[node] + warmerK,
        massKg * standardGravity,
        columns.fuelKg[node],
        point,
      );
      return point.outside === 0 ? point.fuelFlowKgS : Number.NaN;
    };
    const perKelvin = Math.log(flow(kelvin, 0) / flow(0, 0)) / kelvin;
    const perMach = Math.log(flow(0, mach) / flow(0, -mach)) / (2 * mach);
    return Number.isFinite(perKelvin) && Number.isFinite(perMach) ? { perKelvin, perMach } : null;
  };
}
