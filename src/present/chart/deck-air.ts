/** Lift and drag of a deck as charts: polars by Mach, the drag rise, the greatest lift over drag. */
import type { Curves } from '../../core/aircraft/curves.ts';
import type { Column } from '../table.ts';
import { figures, type Gauges, shown } from '../units.ts';
import { DASHES, type Figure, inTable, number, type PlotLook, plot, rangeOf } from './plot.ts';

/** Lift against drag by Mach, as far as the pusher, or else the warning, lets it go. */
export function polarFigure({ polars, at }: Curves, gauges: Gauges, look: PlotLook): Figure {
  const [lift, drag] = ['liftCoefficient', 'dragCoefficient'].map(gauges);
  const known = polars.filter(({ dragCoefficient }) => dragCoefficient.every(Number.isFinite));
  const note = `At ${shown(gauges('pressureAltitudeM'), at.pressureAltitudeM)} with the centre of gravity of ${shown(gauges('fuelKg'), at.fuelKg)} of fuel, up to the pusher or else the warning.`;
  const svg = plot(
    {
      title: 'Lift and drag by Mach',
      description: `Lift coefficient against drag coefficient. ${note}`,
      x: {
        name: 'Drag coefficient',
        least: 0,
        greatest: rangeOf(known.flatMap((p) => p.dragCoefficient))[1],
      },
      y: {
        name: 'Lift coefficient',
        least: 0,
        greatest: rangeOf(known.flatMap((p) => p.liftCoefficient))[1],
      },
      curves: known.map((polar, i) => ({
        name: shown(gauges('mach'), polar.mach),
        x: polar.dragCoefficient,
        y: polar.liftCoefficient,
        dash: DASHES[i % DASHES.length],
      })),
    },
    look,
  );
  const columns: readonly Column[] = [
    number('Mach', ''),
    number('lift coefficient', ''),
    number('drag coefficient', ''),
  ];
  const rows = known.flatMap((polar) =>
    polar.liftCoefficient
      .map((cl, i) => [
        figures(gauges('mach'), polar.mach),
        figures(lift, cl, 'nearest', 0.001),
        figures(drag, polar.dragCoefficient[i], 'nearest', 0.0001),
      ])
      .filter((_, i) => i % 4 === 0),
  );
  return { svg, note, table: { title: 'Lift and drag by Mach', columns, rows } };
}

/** Drag without lift against Mach at several altitudes, that which is looked at strong. */
export function dragRiseFigure({ zeroLiftDrag, mach, at }: Curves, gauges: Gauges, look: PlotLook): Figure {
  const altitude = gauges('pressureAltitudeM');
  const name = (metres: number | null) => (metres === null ? 'all altitudes' : shown(altitude, metres));
  const note = 'Drag coefficient without lift; friction makes it grow with altitude where the table says so.';
  const svg = plot(
    {
      title: 'Drag rise',
      description: `Drag coefficient without lift against Mach, at ${zeroLiftDrag.map((curve) => name(curve.pressureAltitudeM)).join(', ')}.`,
      x: machAxis(mach),
      y: {
        name: 'Drag coefficient without lift',
        least: 0,
        greatest: 1.05 * rangeOf(zeroLiftDrag.flatMap(({ values }) => values))[1],
      },
      curves: zeroLiftDrag.map(({ pressureAltitudeM, values }, i) => {
        const chosen = pressureAltitudeM === null || pressureAltitudeM === at.pressureAltitudeM;
        return {
          name: name(pressureAltitudeM),
          x: mach,
          y: values,
          weight: chosen ? 2.4 : 1.2,
          dash: chosen ? undefined : DASHES[(i % 3) + 1],
        };
      }),
    },
    look,
  );
  const columns = [
    number('Mach', ''),
    ...zeroLiftDrag.map((curve) => number(name(curve.pressureAltitudeM), '')),
  ];
  const drag = gauges('dragCoefficient');
  const rows = mach.map((m, i) => [
    figures(gauges('mach'), m),
    ...zeroLiftDrag.map(({ values }) => inTable(drag, values[i], 0.0001)),
  ]);
  return { svg, note, table: { title: 'Drag coefficient without lift', columns, rows } };
}

/** Greatest lift over drag against Mach, with Kuechemann's ceiling. */
export function liftToDragFigure(
  { mach, liftToDrag, liftToDragCeiling, at }: Curves,
  gauges: Gauges,
  look: PlotLook,
): Figure {
  const note = `At ${shown(gauges('pressureAltitudeM'), at.pressureAltitudeM)}. Dashed: 4(M + 3)/M, what slender aircraft come near at best (Kuechemann 1978).`;
  const ceiling = 'ceiling';
  const svg = plot(
    {
      title: 'Greatest lift over drag',
      description: `Greatest lift over drag against Mach. ${note}`,
      x: machAxis(mach),
      y: {
        name: 'Greatest lift over drag',
        least: 0,
        greatest: 1.05 * rangeOf([...liftToDrag, ...liftToDragCeiling])[1],
      },
      curves: [
        { name: 'of the deck', x: mach, y: liftToDrag, weight: 2.4 },
        { name: ceiling, x: mach, y: liftToDragCeiling, dash: DASHES[1] },
      ],
    },
    look,
  );
  const columns = [number('Mach', ''), number('of the deck', ''), number(ceiling, '')];
  const plain = gauges('liftCoefficient');
  const rows = mach.map((m, i) => [
    figures(gauges('mach'), m),
    inTable(plain, liftToDrag[i], 0.01),
    inTable(plain, liftToDragCeiling[i], 0.01),
  ]);
  return { svg, note, table: { title: 'Greatest lift over drag', columns, rows } };
}

/** The axis that most charts of a deck share. */
export function machAxis(mach: readonly number[]) {
  return { name: 'Mach', least: mach[0], greatest: mach[mach.length - 1] };
}
