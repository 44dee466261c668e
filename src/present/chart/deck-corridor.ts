/** Where an aircraft may fly level: its limits over Mach and pressure altitude, drawn as shores. */
import type { Corridor } from '../../core/aircraft/corridor.ts';
import type { Curves } from '../../core/aircraft/curves.ts';
import type { Labels } from '../map/labels.ts';
import { element, hundredth } from '../svg.ts';
import { figures, type Gauges, read, shown } from '../units.ts';
import { type Field, isoline } from './isolines.ts';
import { type Figure, nameAt, number, type PlotBox, type PlotLook, plot } from './plot.ts';

/** A flight to be shown in the corridor, node by node. */
export interface Flown {
  readonly mach: readonly number[];
  readonly pressureAltitudeM: readonly number[];
}

export function corridorFigure(
  { corridor, at }: Curves,
  flown: Flown | null,
  gauges: Gauges,
  look: PlotLook,
): Figure {
  const { mach, pressureAltitudeM, limits } = corridor;
  const altitude = gauges('pressureAltitudeM');
  const metres = pressureAltitudeM.map((m) => altitude.fromSi(m));
  const fields = (box: PlotBox): readonly Field[] =>
    limits.map(({ margins }) => ({ x: mach.map(box.x), y: metres.map(box.y), values: margins }));
  const offset = gauges('temperatureOffsetK');
  const note = `Level flight with ${shown(gauges('fuelKg'), at.fuelKg)} of fuel, ${figures(offset, at.temperatureOffsetK)}\u00a0K off standard. Hatched: beyond a limit.${flown ? ' Strong: the sortie as flown, with its own fuel and temperatures.' : ''}`;
  const svg = plot(
    {
      title: 'Limits over Mach and altitude',
      description: `Limits of level flight over Mach and pressure altitude. ${note}`,
      x: { name: 'Mach', least: 0, greatest: mach[mach.length - 1] },
      y: {
        name: `Limits: height [${altitude.unit}] over Mach`,
        least: 0,
        greatest: metres[metres.length - 1],
      },
      curves: flown
        ? [
            {
              name: '',
              x: flown.mach,
              y: flown.pressureAltitudeM.map((m) => altitude.fromSi(m)),
              weight: 2.4,
            },
          ]
        : [],
      height: 420,
      under: (box) => hatched(fields(box).map(beyond).join('')),
      over: (box, labels) =>
        fields(box)
          .map((field, k) => shore(box, field) + named(box, labels, limits[k].name, fields(box), k))
          .join(''),
    },
    look,
  );
  return { svg, note, table: roomTable(corridor, gauges) };
}

/** The line on which a limit is met. */
function shore({ theme }: PlotBox, field: Field): string {
  const d = isoline(field, 0);
  return d === '' ? '' : element('path', { d, fill: 'none', stroke: theme.ink, 'stroke-width': 1.4 });
}

/** Outline of what lies beyond a limit: whole runs of cells of a column as one box, cells that the limit crosses cut along it. */
function beyond({ x, y, values }: Field): string {
  let d = '';
  for (let i = 1; i < x.length; i++) {
    let from = -1;
    for (let j = 1; j <= y.length; j++) {
      const corners = j < y.length ? cornersOf(values, i, j) : null;
      const whole = corners?.every((margin) => margin < 0) ?? false;
      if (whole && from < 0) from = j - 1;
      if (whole) continue;
      if (from >= 0)
        d += outline([
          [x[i - 1], y[from]],
          [x[i], y[from]],
          [x[i], y[j - 1]],
          [x[i - 1], y[j - 1]],
        ]);
      from = -1;
      if (corners?.some((margin) => margin < 0)) d += outline(cut(x, y, i, j, corners));
    }
  }
  return d;
}

function hatched(d: string): string {
  return d === '' ? '' : element('path', { d, fill: 'url(#land)', 'fill-opacity': 0.4 });
}

/** Margins at the corners of a cell, around it; null where one is not known. */
function cornersOf(values: Field['values'], i: number, j: number): readonly number[] | null {
  const corners = [values[i - 1][j - 1], values[i][j - 1], values[i][j], values[i - 1][j]];
  return corners.every((margin): margin is number => margin !== null && Number.isFinite(margin))
    ? corners
    : null;
}

/** The part of a cell in which the margin is negative. */
function cut(x: readonly number[], y: readonly number[], i: number, j: number, corners: readonly number[]) {
  const px = [x[i - 1], x[i], x[i], x[i - 1]];
  const py = [y[j - 1], y[j - 1], y[j], y[j]];
  const points: [number, number][] = [];
  for (let k = 0; k < 4; k++) {
    const next = (k + 1) % 4;
    if (corners[k] < 0) points.push([px[k], py[k]]);
    if (corners[k] < 0 === corners[next] < 0) continue;
    const part = corners[k] / (corners[k] - corners[next]);
    points.push([px[k] + part * (px[next] - px[k]), py[k] + part * (py[next] - py[k])]);
  }
  return points;
}

function outline(points: readonly (readonly [number, number])[]): string {
  return `M${points.map(([x, y]) => `${hundredth(x)} ${hundredth(y)}`).join('L')}Z`;
}

/** The name of a limit in the middle of the part of its line where no other limit is passed, or else of the whole line. */
function named(box: PlotBox, labels: Labels, name: string, fields: readonly Field[], k: number): string {
  const { x, y, values } = fields[k];
  const met: { at: [number, number]; first: boolean }[] = [];
  const cross = (i: number, j: number, fromI: number, fromJ: number) => {
    const [here, before] = [values[i][j], values[fromI]?.[fromJ] ?? null];
    if (here === null || before === null || !(here < 0 !== before < 0)) return;
    const first = fields.every((other, o) => o === k || (other.values[i][j] ?? -1) >= 0);
    met.push({ at: [(x[i] + x[fromI]) / 2, (y[j] + y[fromJ]) / 2], first });
  };
  for (let i = 0; i < x.length; i++) {
    for (let j = 0; j < y.length; j++) {
      cross(i, j, i, j - 1);
      cross(i, j, i - 1, j);
    }
  }
  const firsts = met.filter(({ first }) => first);
  const line = firsts.length > 0 ? firsts : met;
  if (line.length === 0) return '';
  return nameAt(box, labels, name, line[Math.floor(line.length / 2)].at);
}

/** The range of altitude at every tenth of a Mach, to the safe side. */
function roomTable({ room }: Corridor, gauges: Gauges): Figure['table'] {
  const altitude = gauges('pressureAltitudeM');
  const tenths = room.filter(({ mach }) => Math.abs(mach * 10 - Math.round(mach * 10)) < 1e-6);
  const rows = tenths.map(({ mach, lowestM, lowestBy, highestM, highestBy }) => [
    figures(gauges('mach'), mach),
    read(altitude, lowestM, 'required'),
    lowestBy ?? '',
    read(altitude, highestM, 'available'),
    highestBy ?? '',
  ]);
  return {
    title: 'Room between the limits',
    columns: [
      number('Mach', ''),
      number('lowest', altitude.unit),
      { name: 'by', unit: '', align: 'left' },
      number('highest', altitude.unit),
      { name: 'by', unit: '', align: 'left' },
    ],
    rows,
  };
}
