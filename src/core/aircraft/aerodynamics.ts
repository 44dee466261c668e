/** Lift and drag from a deck's tables, piecewise linear in Mach, altitude and CG. */

import { Table1, Table2 } from '../numerics/tables.ts';
import type { Aerodynamics, AeroPoint } from './aircraft.ts';
import { columnOf, type Grid, gridValue } from './grid.ts';

/** Marks in `AeroPoint.outside`. */
export const OUTSIDE_MACH = 1;
export const OUTSIDE_ALTITUDE = 2;
export const OUTSIDE_CG = 4;

export interface AerodynamicsGrids {
  readonly wingAreaM2: number;
  readonly lift: Grid;
  readonly drag: Grid;
  readonly trim: Grid | null;
  readonly stall: Grid | null;
  readonly wash: { readonly increment: number; readonly spread: number } | null;
}

export function aerodynamicsOf(grids: AerodynamicsGrids): Aerodynamics {
  const { lift, drag, trim, stall } = grids;
  const liftMach = lift.axes[0];
  const slopes = new Table1(liftMach, columnOf(lift, 'liftSlope'));
  const etas = new Table1(liftMach, columnOf(lift, 'dragDueToLift'));
  const zeroAngles = lift.columns.has('zeroLiftAngle')
    ? new Table1(liftMach, columnOf(lift, 'zeroLiftAngle'))
    : null;

  const dragMach = drag.axes[0];
  const zeroLiftDrag = columnOf(drag, 'zeroLiftDrag');
  const byMach = drag.axes.length === 1 ? new Table1(dragMach, zeroLiftDrag) : null;
  const byAltitude = drag.axes.length === 2 ? new Table2(dragMach, drag.axes[1], zeroLiftDrag) : null;
  const geometric = drag.names.includes('geometricAltitude');
  const trimFactor =
    trim === null ? null : new Table2(trim.axes[0], trim.axes[1], columnOf(trim, 'trimFactor'));

  function at(
    mach: number,
    pressureAltitudeM: number,
    geometricHeightM: number,
    cgFraction: number,
    out: AeroPoint,
  ): void {
    let outside = liftMach.find(mach) === 0 ? 0 : OUTSIDE_MACH;
    const slope = slopes.value();
    let induced = etas.value() / slope;
    if (dragMach.find(mach) !== 0) outside |= OUTSIDE_MACH;
    if (byAltitude === null) {
      out.zeroLiftDrag = (byMach as Table1).value();
    } else {
      if (byAltitude.b.find(geometric ? geometricHeightM : pressureAltitudeM) !== 0)
        outside |= OUTSIDE_ALTITUDE;
      out.zeroLiftDrag = byAltitude.value();
    }
    if (trimFactor !== null) {
      if (trimFactor.a.find(mach) !== 0) outside |= OUTSIDE_MACH;
      if (trimFactor.b.find(cgFraction) !== 0) outside |= OUTSIDE_CG;
      induced += trimFactor.value();
    }
    out.liftSlope = slope;
    out.zeroLiftAngleRad = zeroAngles === null ? 0 : zeroAngles.value();
    out.inducedFactor = induced;
    out.outside = outside;
  }

  const warning = stall?.columns.get('warningAngle') ?? null;
  const push = stall?.columns.get('pushAngle') ?? null;
  function angle(values: Float64Array | null, mach: number): number | null {
    if (stall === null || values === null) return null;
    stall.axes[0].find(mach);
    return gridValue(stall, values);
  }

  return {
    wingAreaM2: grids.wingAreaM2,
    at,
    washDrag: grids.wash,
    warningAngleRad: (mach) => angle(warning, mach),
    pushAngleRad: (mach) => angle(push, mach),
  };
}
