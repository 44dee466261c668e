/** Altitude grids for the card: weight by temperature, one for each power. */
import { type BestAltitude, CruiseAltitudes, type CruiseQuestion } from '../optimise/cruise-altitude.ts';
import type { AltitudeCell, AltitudeGrid } from './plan.ts';

/** Null where the engine has no such setting. */
export interface GridPower {
  readonly name: string;
  /** null: power as required, least fuel. */
  readonly power: number | null;
}

/**
 * One grid for each power. A cell whose altitude a limit or the thrust forbids has no altitude and the reason instead; one
 * that a limit holds below the free optimum has both.
 */
export function altitudeGrids(
  question: CruiseQuestion,
  powers: readonly GridPower[],
  fuelKg: readonly number[],
  temperatureOffsetK: readonly number[],
): { readonly grids: AltitudeGrid[]; readonly evaluations: number } {
  const search = new CruiseAltitudes(question);
  const massKg = fuelKg.map((fuel) => question.zeroFuelMassKg + fuel);
  const grids = powers.map(({ name, power }) => {
    const cells = massKg.map((mass) => {
      let near = 21_000;
      return temperatureOffsetK.map((offset) => {
        const best = power === null ? search.best(mass, offset, near) : search.atPower(mass, offset, power);
        near = best.pressureAltitudeM ?? near;
        return cellOf(best);
      });
    });
    return { power: name, mach: question.mach, massKg, fuelKg, temperatureOffsetK, cells };
  });
  return { grids, evaluations: search.evaluations };
}

function cellOf(best: BestAltitude): AltitudeCell {
  const usable = best.pressureAltitudeM !== null && best.brokenBy === null;
  return {
    pressureAltitudeM: usable ? best.pressureAltitudeM : null,
    reason: best.brokenBy ?? best.heldBy,
    specificRangeMKg: usable ? best.specificRangeMKg : null,
    inletTemperatureK: Number.isNaN(best.indicatedInletTemperatureK) ? null : best.indicatedInletTemperatureK,
  };
}
