/** The turns of a plan against stall and structure, where each comes nearest to the warning. */
import { standardPressure } from '../air/standard.ts';
import type { Draft } from './draft.ts';
import { ManoeuvreBounds } from './manoeuvre-bounds.ts';
import type { JudgedTurn } from './plan.ts';

/** One for each turn of the log, in its order. */
export function judgedTurns({ log, crew }: Draft): JudgedTurn[] {
  const { columns } = log;
  const { timeS } = columns;
  const { day } = crew.flight.setup;
  const bounds = new ManoeuvreBounds(crew.flight.setup, crew.sortie.manoeuvres);
  /** Load factor to spare before the warning; without one it is least where most is pulled. */
  const spareAt = (node: number): number => {
    bounds.load(columns.fuelKg[node]);
    bounds.pressureAltitudeM = columns.pressureAltitudeM[node];
    bounds.air.pressurePa = standardPressure(columns.pressureAltitudeM[node]);
    bounds.air.geometricHeightM = columns.geometricHeightM[node];
    return (bounds.stall('warning', columns.mach[node]) ?? 0) - columns.loadFactor[node];
  };
  return log.turns.map(({ rollInS, endS }) => {
    let nearest = Math.max(
      0,
      timeS.findIndex((time) => time >= rollInS - 1e-6),
    );
    let least = Number.POSITIVE_INFINITY;
    for (let node = nearest; node < log.nodes && timeS[node] <= endS + 1e-6; node++) {
      const spare = spareAt(node);
      if (!(spare < least)) continue;
      least = spare;
      nearest = node;
    }
    bounds.load(columns.fuelKg[nearest]);
    const { latitudeRad, longitudeRad, pressureAltitudeM } = columns;
    bounds.placeIn(pressureAltitudeM[nearest], (air) =>
      day.sample(
        latitudeRad[nearest],
        longitudeRad[nearest],
        pressureAltitudeM[nearest],
        timeS[nearest],
        air,
      ),
    );
    return {
      nearest: {
        timeS: timeS[nearest] - crew.sortie.takeOff.timeS,
        loadFactor: columns.loadFactor[nearest],
        bounds: bounds.at(columns.mach[nearest]),
      },
    };
  });
}
