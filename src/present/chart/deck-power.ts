/** Engines and inlets of a deck as charts: thrust over drag, fuel flow, recovery, scheduled positions. */
import type { Curves, ScheduleCurve } from '../../core/aircraft/curves.ts';
import { keyWords, upperFirst } from '../names.ts';
import { figures, type Gauges, shown } from '../units.ts';
import { machAxis } from './deck-air.ts';
import { type Curve, DASHES, type Figure, inTable, number, type PlotLook, plot, rangeOf } from './plot.ts';

/** Thrust of all engines by setting, with the drag of level flight. */
export function thrustFigure(curves: Curves, gauges: Gauges, look: PlotLook): Figure {
  const { mach, settings, dragN, at } = curves;
  const gauge = gauges('thrustN');
  const thrusts = settings.map(({ thrustN }) => thrustN.map(gauge.fromSi));
  const drag = dragN.map(gauge.fromSi);
  const hasDrag = drag.some(Number.isFinite);
  const level = `Drag of level flight with ${shown(gauges('fuelKg'), at.fuelKg)} of fuel`;
  const note = `${where(curves, gauges)} ${hasDrag ? `Doubled line: ${level.toLowerCase()}, up to the pusher or else the warning.` : 'The deck has no masses, so no drag of level flight.'}`;
  const svg = plot(
    {
      title: 'Thrust of all engines',
      description: `Thrust of all engines by setting against Mach. ${note}`,
      x: machAxis(mach),
      y: {
        name: `Thrust of all engines [${gauge.unit}]`,
        least: Math.min(0, rangeOf(thrusts.flat())[0]),
        greatest: 1.05 * rangeOf(thrusts.flat())[1],
      },
      curves: [...bySetting(curves, thrusts), ...(hasDrag ? doubled('drag, level', mach, drag) : [])],
      height: 300,
    },
    look,
  );
  const columns = [
    number('Mach', ''),
    ...settings.map(({ name }) => number(keyWords(name), gauge.unit)),
    number('drag in level flight', gauge.unit),
  ];
  const rows = mach.map((m, i) => [
    figures(gauges('mach'), m),
    ...[...thrusts, drag].map((values) => inTable(gauge, values[i], 0.1)),
  ]);
  return { svg, note, table: { title: 'Thrust of all engines', columns, rows } };
}

/** Fuel flow of all engines by setting. */
export function fuelFlowFigure(curves: Curves, gauges: Gauges, look: PlotLook): Figure {
  const { mach, settings } = curves;
  const gauge = gauges('fuelFlowKgS');
  const flows = settings.map(({ fuelFlowKgS }) => fuelFlowKgS.map(gauge.fromSi));
  const note = where(curves, gauges);
  const svg = plot(
    {
      title: 'Fuel flow of all engines',
      description: `Fuel flow of all engines by setting against Mach. ${note}`,
      x: machAxis(mach),
      y: {
        name: `Fuel flow of all engines [${gauge.unit}]`,
        least: 0,
        greatest: 1.05 * rangeOf(flows.flat())[1],
      },
      curves: bySetting(curves, flows),
      height: 300,
    },
    look,
  );
  const columns = [number('Mach', ''), ...settings.map(({ name }) => number(keyWords(name), gauge.unit))];
  const rows = mach.map((m, i) => [
    figures(gauges('mach'), m),
    ...flows.map((values) => inTable(gauge, values[i], gauge.step)),
  ]);
  return { svg, note, table: { title: 'Fuel flow of all engines', columns, rows } };
}

/** Pressure recovery of the inlet with the line of MIL-E-5007; null where the deck has none. */
export function recoveryFigure({ mach, inlet }: Curves, gauges: Gauges, look: PlotLook): Figure | null {
  if (inlet === null) return null;
  const { recovery, standard } = inlet;
  const note =
    'Total pressure behind the inlet over that ahead. Dashed: MIL-E-5007, beyond Mach 1 less by 0.075 (M − 1) to the power 1.35.';
  const [least] = rangeOf([...recovery, ...standard]);
  const svg = plot(
    {
      title: 'Pressure recovery of the inlet',
      description: `Pressure recovery against Mach. ${note}`,
      x: machAxis(mach),
      y: { name: 'Pressure recovery', least: Math.floor(least * 10) / 10, greatest: 1.02 },
      curves: [
        { name: 'of the deck', x: mach, y: recovery, weight: 2.4 },
        { name: 'MIL-E-5007', x: mach, y: standard, dash: DASHES[1] },
      ],
    },
    look,
  );
  const gauge = gauges('recovery');
  const rows = mach.map((m, i) => [
    figures(gauges('mach'), m),
    inTable(gauge, recovery[i], 0.001),
    inTable(gauge, standard[i], 0.001),
  ]);
  const columns = [number('Mach', ''), number('of the deck', ''), number('MIL-E-5007', '')];
  return { svg, note, table: { title: 'Pressure recovery', columns, rows } };
}

/** A position that the aircraft sets by itself, against Mach. */
export function scheduleFigure(
  curves: Curves,
  { name, quantity, of, values }: ScheduleCurve,
  gauges: Gauges,
  look: PlotLook,
): Figure {
  const { mach, settings, at } = curves;
  const gauge = gauges(quantity);
  const shownValues = values.map(gauge.fromSi);
  const [least, greatest] = rangeOf(shownValues);
  const room = Math.max((greatest - least) * 0.08, gauge.step);
  const note =
    of === 'engine'
      ? `Of each engine at ${keyWords(settings[at.power].name)}. ${where(curves, gauges)}`
      : 'Of the inlet on each side, by Mach alone.';
  const svg = plot(
    {
      title: name,
      description: `${name} against Mach. ${note}`,
      x: machAxis(mach),
      y: { name: `${name} [${gauge.unit}]`, least: Math.min(0, least), greatest: greatest + room },
      curves: [{ name: '', x: mach, y: shownValues, weight: 2.4 }],
    },
    look,
  );
  const columns = [number('Mach', ''), number(name, gauge.unit)];
  const rows = mach.map((m, i) => [figures(gauges('mach'), m), inTable(gauge, shownValues[i], 0.1)]);
  return { svg, note, table: { title: name, columns, rows } };
}

/** The chosen setting strong, the others by dash. */
function bySetting({ mach, settings, at }: Curves, values: readonly (readonly number[])[]): Curve[] {
  return settings.map(({ name }, i) => ({
    name: keyWords(name),
    x: mach,
    y: values[i],
    weight: i === at.power ? 2.4 : 1.2,
    dash: i === at.power ? undefined : DASHES[(i % (DASHES.length - 1)) + 1],
  }));
}

/** A line that stands out of others without a colour: strong, with its own ground along its middle. */
function doubled(name: string, x: readonly number[], y: readonly number[]): Curve[] {
  return [
    { name, x, y, weight: 4.5 },
    { name: '', x, y, weight: 2, onGround: true },
  ];
}

function where({ at }: Curves, gauges: Gauges): string {
  const offset = gauges('temperatureOffsetK');
  const kelvin = figures(offset, offset.differenceFromSi(at.temperatureOffsetK));
  const sign = at.temperatureOffsetK > 0 ? '+' : '';
  const day =
    at.temperatureOffsetK === 0
      ? 'on the standard day'
      : `${sign}${kelvin}\u00a0${offset.differenceUnit} off standard`;
  return upperFirst(`at ${shown(gauges('pressureAltitudeM'), at.pressureAltitudeM)} ${day}.`);
}
