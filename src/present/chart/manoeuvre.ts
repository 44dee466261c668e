/** Load factor against speed: stall warning, pusher, structure with and without roll, what is held to and what thrust sustains. */
import type { LoadFactorBounds, ManoeuvreEnvelope, ManoeuvreTable } from '../../core/plan/plan.ts';
import { bankText, endWords, limitText } from '../manoeuvre.ts';
import type { Labels } from '../map/labels.ts';
import type { Table } from '../table.ts';
import { SIZE } from '../theme.ts';
import { type Gauges, read, shown } from '../units.ts';
import { line, rule } from './frame.ts';
import {
  type Curve,
  DASHES,
  type Figure,
  nameAt,
  number,
  type PlotBox,
  type PlotLook,
  plot,
} from './plot.ts';

/** Above the greatest bound of the structure. */
const HEADROOM = 0.4;
/** Without a bound of the structure. */
const MOST = 3;
/** Level turns with these banks are marked at the left edge. */
const BANKS_DEG = [30, 45, 60];
/** Room for them beside the curves. */
const BANKS = 46;
/** Of the points of an envelope every so many are in the table beside it. */
const EVERY = 2;

const BOUNDS: readonly {
  readonly key: keyof LoadFactorBounds;
  readonly name: string;
  readonly dash?: string;
  readonly weight: number;
}[] = [
  { key: 'warning', name: 'warning', weight: 2.4 },
  { key: 'push', name: 'push', dash: DASHES[1], weight: 1.6 },
  { key: 'symmetric', name: 'structure', weight: 1.6 },
  { key: 'rolling', name: 'structure, rolling', dash: DASHES[5], weight: 1.6 },
  { key: 'held', name: 'held to', dash: DASHES[3], weight: 1.2 },
  { key: 'sustained', name: 'thrust', dash: DASHES[2], weight: 1.2 },
];

/** What is marked on the envelope. */
export interface AskedOf {
  readonly at: { readonly calibratedAirspeedMS: number };
  readonly loadFactor: number;
}

/** null where there is no envelope; `asked` is marked where it lies inside the drawing. */
export function envelopeFigure(
  table: ManoeuvreTable,
  gauges: Gauges,
  look: PlotLook,
  asked: AskedOf | null = null,
): Figure | null {
  const { envelope } = table;
  if (envelope === null) return null;
  const airspeed = gauges('calibratedAirspeedMS');
  const x = envelope.points.map(({ at }) => airspeed.fromSi(at.calibratedAirspeedMS));
  const most = mostOf(envelope);
  const height = shown(gauges('pressureAltitudeM'), table.pressureAltitudeM);
  const fuel = shown(gauges('fuelKg'), envelope.fuelKg);
  const note = `With ${fuel} at ${height}, from where the pusher acts in level flight to ${endWords(envelope)}. Each bound by itself; left: the bank of a level turn.`;
  const curves = BOUNDS.map(({ key, ...drawn }) => ({
    ...drawn,
    x,
    y: envelope.points.map(({ bounds }) => bounds[key] ?? Number.NaN),
  }));
  const above = curves.flatMap(({ name, weight, y }) => {
    const at = leaves(x, y, most);
    return at === null ? [] : [{ name, at, weight: weight >= 2 ? ('bold' as const) : ('normal' as const) }];
  });
  const svg = plot(
    {
      title: `Load factor against speed, ${fuel}`,
      description: `Bounds of load factor against calibrated airspeed. ${note}`,
      x: {
        name: `Calibrated airspeed [${airspeed.unit}]`,
        least: x[0],
        greatest: x[x.length - 1],
        before: BANKS,
      },
      y: { name: 'Load factor [g]', least: 0, greatest: most },
      curves: curves.map((curve) =>
        above.some(({ name }) => name === curve.name) ? { ...curve, name: '' } : curve,
      ),
      above,
      under: banks,
      over: (box, labels) =>
        asked === null
          ? ''
          : cross(box, labels, airspeed.fromSi(asked.at.calibratedAirspeedMS), asked.loadFactor),
    },
    look,
  );
  return { svg, note, table: envelopeTable(envelope, gauges, EVERY) };
}

/** Top of the drawing. */
export function mostOf({ points }: ManoeuvreEnvelope): number {
  const structure = points.flatMap(({ bounds: { symmetric } }) => symmetric ?? []);
  return structure.length === 0 ? MOST : Math.max(...structure) + HEADROOM;
}

/** The part of a curve up to where it rises through the top. */
export function cutAt(x: readonly number[], y: readonly number[], most: number): Pick<Curve, 'x' | 'y'> {
  const at = leaves(x, y, most);
  if (at === null) return { x, y };
  const inside = y.findIndex((value) => value > most);
  return { x: [...x.slice(0, inside), at], y: [...y.slice(0, inside), most] };
}

/** Where a curve rises through the top; null where it stays below. */
function leaves(x: readonly number[], y: readonly number[], most: number): number | null {
  const after = y.findIndex((value) => value > most);
  if (after < 0) return null;
  if (after === 0) return x[0];
  return x[after - 1] + ((most - y[after - 1]) / (y[after] - y[after - 1])) * (x[after] - x[after - 1]);
}

/** Half the size of the cross [px]. */
const ARM = 6;

function cross(box: PlotBox, labels: Labels, speed: number, loadFactor: number): string {
  const [x, y] = [box.x(speed), box.y(loadFactor)];
  if (x < box.left || x > box.right || y < 0 || y > box.height) return '';
  return (
    rule(x - ARM, y - ARM, x + ARM, y + ARM, box.theme.ink, 2) +
    rule(x - ARM, y + ARM, x + ARM, y - ARM, box.theme.ink, 2) +
    nameAt(box, labels, 'asked', [x, y], 'bold')
  );
}

function banks(box: PlotBox): string {
  return BANKS_DEG.map((bank) => {
    const y = box.y(1 / Math.cos((bank * Math.PI) / 180));
    return (
      rule(box.left, y, box.left + 12, y, box.theme.ink, 1.2) +
      line(box, box.left + 16, y + 4, `${bank}°`, SIZE.small)
    );
  }).join('');
}

/** Bounds at every so many of the points of an envelope. */
export function envelopeTable({ points }: ManoeuvreEnvelope, gauges: Gauges, every = 1): Table {
  const airspeed = gauges('calibratedAirspeedMS');
  return {
    title: 'Load factor against speed',
    columns: [
      number('speed', airspeed.unit),
      number('Mach', ''),
      number('warning', 'g'),
      number('at a bank of', 'deg'),
      ...['push', 'structure', 'rolling', 'held to', 'thrust'].map((name) => number(name, 'g')),
    ],
    rows: points
      .filter((_, i) => i % every === 0 || i === points.length - 1)
      .map(({ at, bounds }) => [
        read(airspeed, at.calibratedAirspeedMS),
        read(gauges('mach'), at.mach),
        limitText(gauges, bounds.warning),
        bankText(gauges, bounds.warning).replace('°', ''),
        ...(['push', 'symmetric', 'rolling', 'held', 'sustained'] as const).map((key) =>
          limitText(gauges, bounds[key]),
        ),
      ]),
  };
}
