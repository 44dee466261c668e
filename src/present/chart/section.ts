/** The weather along the track as flown: temperature against standard and wind, time by height, with the flight in it. */
import type { Plan, Section } from '../../core/plan/plan.ts';
import { element, translate } from '../svg.ts';
import type { Column, Table } from '../table.ts';
import { SIZE } from '../theme.ts';
import { clock, hoursMinutesSeconds } from '../time.ts';
import { figures, type Gauge, gaugesOf, plainSpaces, read } from '../units.ts';
import { type Frame, LEFT, line, type Panel, RIGHT } from './frame.ts';
import { crossings, type Field, isoline, isolineLevels, isolineStep } from './isolines.ts';
import { HEAD, heading, marks } from './panel.ts';
import { linePath, series, upright } from './series.ts';
import { type ChartOptions, chart } from './sheet.ts';

const PLOT = 270;
const MOST_LINES = 12;
/** Between columns of names on the lines. */
const NAMES_EVERY = 96;

/** The chart of a plan that was flown some of the way; null for one without a section. */
export function sectionChart(plan: Plan, options: ChartOptions): string | null {
  const { section } = plan;
  if (section === null) return null;
  const title = `Weather along the track: ${plan.title}`;
  return chart(plan, title, [], description(plan), (frame) => panelsOf(frame, section), options);
}

function description(plan: Plan): string {
  const text = `Temperature less standard and wind along the track against time and pressure altitude, with the height flown; ${plan.weather.title}; the same numbers stand in the table of the section.`;
  return plainSpaces(text);
}

function panelsOf(frame: Frame, section: Section): readonly Panel[] {
  return [
    reading(frame, section),
    fieldPanel(frame, section, 'Temperature less standard', 'temperatureOffsetK', section.temperatureOffsetK),
    fieldPanel(frame, section, 'Wind along the track, + from behind', 'windSpeedMS', section.windAlongMS),
  ];
}

/** How the panels are read, in words; only what is there. */
function reading(frame: Frame, section: Section): Panel {
  const texts = [
    'Strong: height flown. Numbered lines: equal values at the place and time of the flight, that of 0 heavier. Dots: tropopause (WMO).',
  ];
  const held = heldBands(frame.plan, section);
  if (held.length > 0)
    texts.push(
      `Wide hatch: beyond the levels of the weather; the offset and the wind of the last level are held there.`,
    );
  if (section.windAlongMS.some((column) => column.some((value) => !isKnown(value)))) {
    texts.push(`Close hatch: no data. The weather covers ${section.covers}.`);
  }
  return {
    height: 12 + 15 * texts.length,
    draw: () => texts.map((text, i) => line(frame, 8, 18 + 15 * i, text, SIZE.small)).join(''),
  };
}

function isKnown(value: number | null): value is number {
  return value !== null && Number.isFinite(value);
}

function fieldPanel(
  frame: Frame,
  section: Section,
  name: string,
  key: string,
  columns: Section['windAlongMS'],
): Panel {
  const gauge = frame.gauges(key);
  const altitude = frame.gauges('pressureAltitudeM');
  const rows = section.pressureAltitudeM.map((height) => altitude.fromSi(height));
  const { y, ticks } = upright(0, rows[rows.length - 1], PLOT, PLOT / 34);
  const field: Field = {
    x: section.timeS.map(frame.x),
    y: rows.map(y),
    values: columns.map((column) => column.map((value) => gauge.differenceFromSi(value))),
  };
  const draw = () =>
    heading(frame, `${name} [${gauge.differenceUnit}] over height [${altitude.unit}]`) +
    element(
      'g',
      { transform: translate(0, HEAD) },
      marks(frame, ticks, y, (value) => figures(altitude, value)),
      beyond(frame, section, field, (metres) => y(altitude.fromSi(metres))),
      ...isolines(frame, field),
      everywhere(frame, field, gauge),
      tropopauseDots(frame, section, (metres) => y(altitude.fromSi(metres))),
      flown(frame, altitude, y),
      ...names(frame, field, gauge, flownAt(frame, altitude, y)),
    );
  return { height: HEAD + PLOT + 14, draw };
}

function isolines(frame: Frame, field: Field): readonly string[] {
  const step = isolineStep(field, MOST_LINES);
  const drawn = (levels: readonly number[], width: number): string => {
    const d = levels.map((level) => isoline(field, level)).join('');
    if (d === '') return '';
    return element('path', {
      d,
      fill: 'none',
      stroke: frame.theme.quiet,
      'stroke-width': width,
      'stroke-linecap': 'round',
    });
  };
  const levels = isolineLevels(field, step);
  return [
    drawn(
      levels.filter((level) => level !== 0),
      0.8,
    ),
    drawn(
      levels.filter((level) => level === 0),
      1.8,
    ),
  ];
}

/** The one value of a field without lines, in words. */
function everywhere(frame: Frame, field: Field, gauge: Gauge): string {
  const known = field.values.flat().filter(isKnown);
  if (known.length === 0 || known.some((value) => value !== known[0])) return '';
  const text = `${signed(gauge, known[0], 0.1)} ${gauge.differenceUnit} everywhere`;
  return line(frame, LEFT + 14, 18, text, SIZE.medium, 'bold');
}

function signed(gauge: Gauge, value: number, step: number): string {
  return `${value > 0 ? '+' : ''}${figures(gauge, value, 'nearest', step)}`;
}

/** Names on the lines, in columns across the panel; none on the height flown or on another name. */
function names(
  frame: Frame,
  field: Field,
  gauge: Gauge,
  flownY: (timeS: number) => number,
): readonly string[] {
  const levels = isolineLevels(field, isolineStep(field, MOST_LINES));
  const parts: string[] = [];
  let lastX = Number.NEGATIVE_INFINITY;
  field.x.forEach((x, column) => {
    if (x - lastX < NAMES_EVERY || x < LEFT + 20 || x > frame.width - RIGHT - 20) return;
    lastX = x;
    const avoid = flownY(frame.timeAt(x));
    let lastY = Number.POSITIVE_INFINITY;
    for (const crossing of crossings(field, column, levels)) {
      if (lastY - crossing.y < 13 || Math.abs(crossing.y - avoid) < 11) continue;
      lastY = crossing.y;
      const text = signed(gauge, crossing.level, 1);
      parts.push(line(frame, x, crossing.y + 4, text, SIZE.small, 'normal', frame.theme.ink, 'middle'));
    }
  });
  return parts;
}

function flown(frame: Frame, altitude: Gauge, y: (value: number) => number): string {
  const points = series(frame, frame.plan.trace.columns.pressureAltitudeM, altitude);
  return element('path', {
    d: linePath(frame, points, y),
    fill: 'none',
    stroke: frame.theme.ink,
    'stroke-width': 2.8,
    'stroke-linejoin': 'round',
  });
}

function flownAt(frame: Frame, altitude: Gauge, y: (value: number) => number): (timeS: number) => number {
  const { timeS: times, pressureAltitudeM } = frame.plan.trace.columns;
  return (timeS) => {
    const node = Math.max(
      0,
      times.findIndex((time) => time >= timeS),
    );
    return y(altitude.fromSi(pressureAltitudeM[node]));
  };
}

function tropopauseDots(
  frame: Frame,
  { timeS, tropopauseM }: Section,
  y: (metres: number) => number,
): string {
  return timeS
    .map((time, i) =>
      isKnown(tropopauseM[i])
        ? element('circle', { cx: frame.x(time), cy: y(tropopauseM[i]), r: 1.5, fill: frame.theme.ink })
        : '',
    )
    .join('');
}

/** Heights between which the weather is held, lower and upper end. */
function heldBands(plan: Plan, { pressureAltitudeM: rows }: Section): readonly (readonly [number, number])[] {
  const top = rows[rows.length - 1];
  return plan.weather.gaps
    .map(({ side, edgeM }) => (side === 'above' ? ([edgeM, top] as const) : ([0, edgeM] as const)))
    .filter(([low, high]) => high > low);
}

/** Wide hatch where the weather is held, close hatch over the cells for which there is none. */
function beyond(frame: Frame, section: Section, field: Field, y: (metres: number) => number): string {
  const right = frame.width - RIGHT;
  const held = heldBands(frame.plan, section).map(([low, high]) =>
    element('rect', {
      x: LEFT,
      width: right - LEFT,
      y: y(high),
      height: y(low) - y(high),
      fill: 'url(#inHand)',
    }),
  );
  const half = (at: readonly number[], i: number, step: number): number =>
    (at[i] + at[Math.min(at.length - 1, Math.max(0, i + step))]) / 2;
  const cells = field.values.map((rows, i) => {
    const missing = rows.flatMap((value, j) => (isKnown(value) ? [] : [j]));
    const [left, end] = [half(field.x, i, -1), half(field.x, i, 1)];
    return missing
      .map((j) => `M${left} ${half(field.y, j, 1)}H${end}V${half(field.y, j, -1)}H${left}Z`)
      .join('');
  });
  const d = cells.join('');
  return held.join('') + (d === '' ? '' : element('path', { d, fill: 'url(#land)', 'fill-opacity': 0.55 }));
}

/** Every sample of the section: a row for each time and height. */
export function sectionTable(plan: Plan): Table {
  const gauges = gaugesOf(plan);
  const [altitude, offset, wind] = ['pressureAltitudeM', 'temperatureOffsetK', 'windSpeedMS'].map(gauges);
  const columns: readonly Column[] = [
    { name: 'since take-off', unit: 'h:min:s', align: 'right' },
    { name: 'time', unit: 'UTC', align: 'right' },
    { name: 'height', unit: altitude.unit, align: 'right' },
    { name: 'temperature less standard', unit: offset.differenceUnit, align: 'right' },
    { name: 'wind from behind', unit: wind.differenceUnit, align: 'right' },
    { name: 'wind from the left', unit: wind.differenceUnit, align: 'right' },
    { name: 'weather', unit: '', align: 'left' },
  ];
  const { section } = plan;
  if (section === null) return { title: 'Weather along the track', columns, rows: [] };
  const held = heldBands(plan, section);
  const basis = (metres: number, value: number): string => {
    if (!isKnown(value)) return 'no data';
    return held.some(([low, high]) => metres >= low && metres <= high) ? 'held' : 'data';
  };
  const difference = (gauge: Gauge, value: number): string =>
    figures(gauge, gauge.differenceFromSi(value), 'nearest', 0.1);
  const rows = section.timeS.flatMap((timeS, i) =>
    section.pressureAltitudeM.map((metres, j) => [
      hoursMinutesSeconds(timeS),
      clock(plan.takeOff, timeS),
      read(altitude, metres),
      difference(offset, section.temperatureOffsetK[i][j]),
      difference(wind, section.windAlongMS[i][j]),
      difference(wind, section.windAcrossMS[i][j]),
      basis(metres, section.temperatureOffsetK[i][j]),
    ]),
  );
  return { title: 'Weather along the track', columns, rows };
}
