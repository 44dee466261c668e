/** The air above one place as charts over pressure altitude: temperature, wind, and how far heights are from pressure altitude. */
import type { AirColumn } from '../../core/plan/air-column.ts';
import { element, translate } from '../svg.ts';
import { NO_DATA } from '../table.ts';
import { SIZE } from '../theme.ts';
import { figures, type Gauge, type Gauges, read, shown } from '../units.ts';
import { windFrom } from '../weather-file.ts';
import { line, rule } from './frame.ts';
import { DASHES, type Figure, inTable, number, type PlotBox, type PlotLook, plot, rangeOf } from './plot.ts';

const HEIGHT = 440;
/** Between winds written beside their line. */
const WIND_EVERY = 26;

/** `flownM`: the height of the flight at that moment; null where there is none. */
export function columnFigures(
  column: AirColumn,
  flownM: number | null,
  gauges: Gauges,
  look: PlotLook,
): readonly Figure[] {
  const known: Known = { column, flownM, gauges, look };
  return [temperatureFigure(known), windFigure(known), heightFigure(known)];
}

interface Known {
  readonly column: AirColumn;
  readonly flownM: number | null;
  readonly gauges: Gauges;
  readonly look: PlotLook;
}

function temperatureFigure(known: Known): Figure {
  const { column, gauges } = known;
  const gauge = gauges('temperatureK');
  const [day, standard] = [column.temperatureK, column.standardTemperatureK].map((values) =>
    values.map((value) => gauge.fromSi(value)),
  );
  const [least, greatest] = rangeOf([...day, ...standard]);
  const svg = plot(
    {
      title: 'Temperature over pressure altitude',
      description:
        'Temperature of the day and of the standard atmosphere against pressure altitude; the numbers stand in the table.',
      x: { name: `Temperature [${gauge.unit}]`, least: least - 12, greatest: greatest + 6 },
      curves: [
        { name: 'standard', x: standard, y: heights(known), dash: DASHES[1] },
        { name: 'the day', x: day, y: heights(known), weight: 2.4 },
      ],
      ...upright(known, `Temperature over height [${gauges('pressureAltitudeM').unit}]`, 'end'),
    },
    known.look,
  );
  const altitude = gauges('pressureAltitudeM');
  const offset = gauges('temperatureOffsetK');
  const rows = column.pressureAltitudeM.map((metres, i) => [
    read(altitude, metres),
    inTable(gauge, day[i], 0.1),
    signed(offset, column.temperatureOffsetK[i]),
    basisWords[column.basis[i]],
  ]);
  const columns = [
    number('height', altitude.unit),
    number('temperature', gauge.unit),
    number('less standard', offset.differenceUnit),
    weatherColumn,
  ];
  return { svg, note: reading(known), table: { title: 'Temperature', columns, rows } };
}

function windFigure(known: Known): Figure {
  const { column, gauges } = known;
  const gauge = gauges('windSpeedMS');
  const speeds = column.windEastMS.map((east, i) => Math.hypot(east, column.windNorthMS[i]));
  const values = speeds.map((speed) => gauge.fromSi(speed));
  const greatest = Math.max(10, rangeOf(values)[1]);
  const body = upright(known, `Wind over height [${gauges('pressureAltitudeM').unit}]`);
  const svg = plot(
    {
      title: 'Wind over pressure altitude',
      description: 'Wind speed and direction against pressure altitude; the numbers stand in the table.',
      x: { name: `Wind speed [${gauge.unit}]`, least: 0, greatest: greatest * 1.6 },
      curves: [{ name: '', x: values, y: heights(known), weight: 2.4 }],
      ...body,
      over: (box) => body.over(box) + directions(known, box),
    },
    known.look,
  );
  const altitude = gauges('pressureAltitudeM');
  const rows = column.pressureAltitudeM.map((metres, i) => [
    read(altitude, metres),
    Number.isFinite(speeds[i]) ? windFrom(column.windEastMS[i], column.windNorthMS[i]) : NO_DATA,
    inTable(gauge, values[i], 1),
    basisWords[column.basis[i]],
  ]);
  const columns = [
    number('height', altitude.unit),
    number('from', '° true'),
    number('speed', gauge.unit),
    weatherColumn,
  ];
  const note = 'Arrows: the way the air goes, north up; beside them where it comes from, degrees true.';
  return { svg, note, table: { title: 'Wind', columns, rows } };
}

/** True height less pressure altitude: what an altimeter set to standard does not show. */
function heightFigure(known: Known): Figure {
  const { column, gauges } = known;
  const gauge = gauges('geometricHeightM');
  const altitude = gauges('pressureAltitudeM');
  const over = column.geometricHeightM.map((height, i) => height - column.pressureAltitudeM[i]);
  const values = over.map((metres) => gauge.differenceFromSi(metres));
  const [least, greatest] = rangeOf([...values, 0]);
  const room = Math.max(50, (greatest - least) * 0.08);
  const svg = plot(
    {
      title: 'True height less pressure altitude',
      description:
        'True height above mean sea level less pressure altitude, against pressure altitude; the numbers stand in the table.',
      x: {
        name: `Height above mean sea level less pressure altitude [${gauge.differenceUnit}]`,
        least: least - room,
        greatest: greatest + room,
      },
      curves: [{ name: '', x: values, y: heights(known), weight: 2.4 }],
      ...upright(known, `Height difference over height [${altitude.unit}]`),
    },
    known.look,
  );
  const rows = column.pressureAltitudeM.map((metres, i) => [
    read(altitude, metres),
    Number.isFinite(over[i]) ? read(gauge, column.geometricHeightM[i]) : NO_DATA,
    inTable(gauge, values[i], 10),
    basisWords[column.basis[i]],
  ]);
  const columns = [
    number('height', altitude.unit),
    number('true height', gauge.unit),
    number('difference', gauge.differenceUnit),
    weatherColumn,
  ];
  const note =
    'Above mean sea level or the ellipsoid, up to 100 m apart; from the temperatures of the column.';
  return { svg, note, table: { title: 'True height', columns, rows } };
}

/** What all three have in common: the axis of height, what is hatched, the lines of the flight and the tropopause, named at one side. */
function upright(known: Known, name: string, side: 'start' | 'end' = 'start') {
  const { column, flownM, gauges } = known;
  const all = heights(known);
  const marks: readonly [number | null, string, string | undefined][] = [
    [flownM, 'flown', undefined],
    [column.tropopauseM, 'tropopause', DASHES[2]],
  ];
  const altitude = gauges('pressureAltitudeM');
  return {
    y: { name, least: 0, greatest: all[all.length - 1] },
    height: HEIGHT,
    under: (box: PlotBox) => hatches(known, box),
    over: (box: PlotBox) => {
      let last = Number.NEGATIVE_INFINITY;
      return marks
        .filter((mark): mark is [number, string, string | undefined] =>
          Number.isFinite(mark[0] ?? Number.NaN),
        )
        .sort(([a], [b]) => b - a)
        .map(([metres, text, dash]) => {
          const y = box.y(altitude.fromSi(metres));
          // The lower of two that lie close stands below its line.
          const at = y - last < 18 ? y + 13 : y - 5;
          last = y;
          const x = side === 'end' ? box.right - 6 : box.left + 6;
          const named = `${text}, ${shown(altitude, metres)}`;
          const words = line(box, x, at, named, SIZE.small, 'normal', box.theme.ink, side);
          return rule(box.left, y, box.right, y, box.theme.ink, 1.2, dash) + words;
        })
        .join('');
    },
  };
}

function heights({ column, gauges }: Known): readonly number[] {
  const altitude = gauges('pressureAltitudeM');
  return column.pressureAltitudeM.map((metres) => altitude.fromSi(metres));
}

/** Wide hatch where the weather is held, close hatch where there is none; from row to row. */
function hatches(known: Known, box: PlotBox): string {
  const rows = heights(known);
  const { basis } = known.column;
  return rows
    .slice(1)
    .map((high, i) => {
      const what = [basis[i], basis[i + 1]];
      const fill = what.includes('none') ? 'url(#land)' : what.includes('held') ? 'url(#inHand)' : null;
      if (fill === null) return '';
      const [top, foot] = [box.y(high), box.y(rows[i])];
      return element('rect', { x: box.left, y: top, width: box.right - box.left, height: foot - top, fill });
    })
    .join('');
}

function reading({ column }: Known): string {
  const texts = ['Dashed: the standard atmosphere.'];
  if (column.basis.includes('held')) {
    texts.push(
      'Wide hatch: beyond the levels of the weather; the offset and the wind of the last level are held there.',
    );
  }
  if (column.basis.includes('none')) texts.push('Close hatch: no data.');
  return texts.join(' ');
}

/** Arrows and figures at the right of the wind, as far apart as can be read. */
function directions({ column, flownM, gauges }: Known, box: PlotBox): string {
  const altitude = gauges('pressureAltitudeM');
  const flownY = box.y(altitude.fromSi(flownM));
  let last = Number.POSITIVE_INFINITY;
  return column.pressureAltitudeM
    .map((metres, i) => {
      const [east, north] = [column.windEastMS[i], column.windNorthMS[i]];
      const y = box.y(altitude.fromSi(metres));
      if (!Number.isFinite(east + north) || last - y < WIND_EVERY || y < 8 || y > box.height - 8) return '';
      if (Math.abs(y - flownY) < 9) return '';
      last = y;
      const from = windFrom(east, north);
      const named = from === '---' ? 'calm' : from;
      const text = line(box, box.right - 6, y + 4, named, SIZE.small, 'normal', box.theme.ink, 'end');
      return (
        text +
        (from === '---' ? '' : arrow(box, box.right - 46, y, (Math.atan2(east, north) * 180) / Math.PI))
      );
    })
    .join('');
}

function arrow({ theme }: PlotBox, x: number, y: number, towardDeg: number): string {
  return element(
    'g',
    { transform: `${translate(x, y)} rotate(${Math.round(towardDeg)})` },
    element('path', {
      d: 'M0 9V-9M-3.5 -3.5L0 -9L3.5 -3.5',
      fill: 'none',
      stroke: theme.ink,
      'stroke-width': 1.4,
    }),
  );
}

const basisWords: Readonly<Record<AirColumn['basis'][number], string>> = {
  level: 'a level',
  between: 'between levels',
  held: 'held',
  none: NO_DATA,
  rule: 'by its rule',
};

const weatherColumn = { name: 'weather', unit: '', align: 'left' } as const;

function signed(offset: Gauge, kelvin: number): string {
  if (!Number.isFinite(kelvin)) return NO_DATA;
  return `${kelvin > 0 ? '+' : ''}${figures(offset, offset.differenceFromSi(kelvin), 'nearest', 0.1)}`;
}

/** The air at the height flown and the tropopause, in one sentence. */
export function columnSentence(column: AirColumn, flownM: number | null, gauges: Gauges): string {
  const altitude = gauges('pressureAltitudeM');
  const tropopause = Number.isFinite(column.tropopauseM)
    ? `The tropopause is at ${shown(altitude, column.tropopauseM)}.`
    : 'There is no tropopause between 500 and 50 hPa.';
  const i = flownM === null ? -1 : column.pressureAltitudeM.indexOf(flownM);
  if (i < 0) return tropopause;
  if (column.basis[i] === 'none')
    return `There is no weather at the height flown, ${shown(altitude, flownM)}. ${tropopause}`;
  const wind = gauges('windSpeedMS');
  const [east, north] = [column.windEastMS[i], column.windNorthMS[i]];
  const speed = Math.hypot(east, north);
  const blowing = speed === 0 ? 'no wind' : `wind from ${windFrom(east, north)}° at ${shown(wind, speed)}`;
  const offset = `${signed(gauges('temperatureOffsetK'), column.temperatureOffsetK[i])}\u00a0K off standard`;
  return `At the height flown, ${shown(altitude, flownM)}: ${shown(gauges('temperatureK'), column.temperatureK[i])}, ${offset}, ${blowing}. ${tropopause}`;
}
