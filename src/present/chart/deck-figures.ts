/** The charts of a deck but that of its limits, in the order in which they are read, each with its numbers. */
import type { Curves } from '../../core/aircraft/curves.ts';
import type { Gauges } from '../units.ts';
import { dragRiseFigure, liftToDragFigure, polarFigure } from './deck-air.ts';
import { balanceFigure } from './deck-balance.ts';
import { fuelFlowFigure, recoveryFigure, scheduleFigure, thrustFigure } from './deck-power.ts';
import type { Figure, PlotLook } from './plot.ts';

export function deckFigures(curves: Curves, gauges: Gauges, look: PlotLook): readonly Figure[] {
  const figures = [
    thrustFigure(curves, gauges, look),
    fuelFlowFigure(curves, gauges, look),
    polarFigure(curves, gauges, look),
    dragRiseFigure(curves, gauges, look),
    liftToDragFigure(curves, gauges, look),
    recoveryFigure(curves, gauges, look),
    ...curves.schedules.map((schedule) => scheduleFigure(curves, schedule, gauges, look)),
    curves.balance && balanceFigure(curves.balance, gauges, look),
  ];
  return figures.filter((figure) => figure !== null);
}
