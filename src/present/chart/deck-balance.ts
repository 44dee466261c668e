/** The travel of the centre of gravity as fuel is burnt, between its limits. */
import type { BalanceCurve } from '../../core/aircraft/curves.ts';
import { figures, type Gauges, shown } from '../units.ts';
import { DASHES, type Figure, number, type PlotLook, plot, rangeOf } from './plot.ts';

export function balanceFigure(balance: BalanceCurve, gauges: Gauges, look: PlotLook): Figure {
  const [fuel, cg, mach] = ['fuelKg', 'cgFraction', 'mach'].map(gauges);
  const kilograms = balance.fuelKg.map((kg) => fuel.fromSi(kg));
  const travel = balance.cgFraction.map((fraction) => cg.fromSi(fraction));
  const bounds = balance.bounds.map(({ name, mach: at, values }) => ({
    name: `${name}, ${shown(mach, at)}`,
    values: values.map((value) => cg.fromSi(value)),
  }));
  const [least, greatest] = rangeOf([travel, ...bounds.map(({ values }) => values)].flat());
  const note = 'Strong: the tanks filled and emptied in the order of the deck. Dashed: limits by Mach.';
  const svg = plot(
    {
      title: 'Centre of gravity over fuel',
      description: `Centre of gravity against fuel on board, with its limits. ${note}`,
      x: { name: `Fuel on board [${fuel.unit}]`, least: 0, greatest: kilograms[kilograms.length - 1] },
      y: {
        name: `Centre of gravity [${cg.unit} of the mean chord]`,
        least: least - 1,
        greatest: greatest + 1,
      },
      curves: [
        { name: 'of the loading', x: kilograms, y: travel, weight: 2.4 },
        ...bounds.map(({ name, values }, i) => ({
          name,
          x: kilograms,
          y: values,
          dash: DASHES[(i % (DASHES.length - 1)) + 1],
        })),
      ],
    },
    look,
  );
  const columns = [
    number('fuel', fuel.unit),
    number('centre of gravity', cg.unit),
    ...bounds.map(({ name }) => number(name, cg.unit)),
  ];
  const rows = kilograms.map((kg, i) => [
    figures(fuel, kg),
    figures(cg, travel[i]),
    ...bounds.map(({ values }) => figures(cg, values[i])),
  ]);
  return { svg, note, table: { title: 'Centre of gravity over fuel', columns, rows } };
}
