/** Load factor against speed: stall warning, pusher, structure with and without roll, what is held to and what thrust sustains. */
import type { LoadFactorBounds, ManoeuvreEnvelope, ManoeuvreTable } from '../../core/plan/plan.ts';
import { bankText, limitText } from '../manoeuvre.ts';
import type { Table } from '../table.ts';
import { SIZE } from '../theme.ts';
import { type Gauges, read, shown } from '../units.ts';
import { line, rule } from './frame.ts';
import { type Curve, DASHES, type Figure, number, type PlotBox, type PlotLook, plot } from './plot.ts';

/** Above the greatest bound of the structure. */
const HEADROOM = 0.4;
/** Without a bound of the structure. */
const MOST = 3;
/** Level turns with these banks are marked at the left edge. */
const BANKS_DEG = [30, 45, 60];
/** Room for them beside the curves, as a part of the range of speed. */
const BANKS = 0.08;
/** Of the points of an envelope every so many are in its table. */
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
  { key: 'rolling', name: 'structure, rolling', dash: DASHES[1], weight: 1.6 },
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
  const last = x[x.length - 1];
  const most = mostOf(envelope);
  const ends = envelope.endedBy === null ? 'the tables of the deck' : envelope.endedBy;
  const height = shown(gauges('pressureAltitudeM'), table.pressureAltitudeM);
  const fuel = shown(gauges('fuelKg'), envelope.fuelKg);
  const note = `With ${fuel} at ${height}, from where the pusher acts in level flight to ${ends}. Each bound by itself; left: the bank of a level turn.`;
  const curves = BOUNDS.map(({ key, ...drawn }) => {
    const y = envelope.points.map(({ bounds }) => bounds[key] ?? Number.NaN);
    return { ...drawn, x, y, leaves: y.some((value) => value > most) };
  });
  const svg = plot(
    {
      title: `Load factor against speed, ${fuel}`,
      description: `Bounds of load factor against calibrated airspeed. ${note}`,
      x: {
        name: `Calibrated airspeed [${airspeed.unit}]`,
        least: x[0] - BANKS * (last - x[0]),
        greatest: last,
      },
      y: { name: 'Load factor [g]', least: 0, greatest: most },
      curves: curves.map(({ leaves, ...curve }) => (leaves ? { ...curve, name: '' } : curve)),
      under: banks,
      over: (box) =>
        curves
          .filter(({ leaves }) => leaves)
          .map((curve, i) => nameBeside(box, curve, most * (0.95 - i * APART)))
          .join('') +
        (asked === null ? '' : cross(box, airspeed.fromSi(asked.at.calibratedAirspeedMS), asked.loadFactor)),
    },
    look,
  );
  return { svg, note, table: envelopeTable(envelope, gauges) };
}

function mostOf({ points }: ManoeuvreEnvelope): number {
  const structure = points.flatMap(({ bounds: { symmetric } }) => symmetric ?? []);
  return structure.length === 0 ? MOST : Math.max(...structure) + HEADROOM;
}

/** Names of curves that leave the top stand right of them, so far below each other, as a part of the height. */
const APART = 0.09;

function nameBeside(box: PlotBox, { name, weight, x, y }: Curve, level: number): string {
  const after = y.findIndex((value) => value >= level);
  const part = after > 0 ? (level - y[after - 1]) / (y[after] - y[after - 1]) : 0;
  const at = after > 0 ? x[after - 1] + part * (x[after] - x[after - 1]) : x[0];
  return line(box, box.x(at) + 8, box.y(level) + 5, name, SIZE.small, (weight ?? 0) >= 2 ? 'bold' : 'normal');
}

/** Half the size of the cross [px]. */
const ARM = 6;

function cross(box: PlotBox, speed: number, loadFactor: number): string {
  const [x, y] = [box.x(speed), box.y(loadFactor)];
  if (x < box.left || x > box.right || y < 0 || y > box.height) return '';
  return (
    rule(x - ARM, y - ARM, x + ARM, y + ARM, box.theme.ink, 2) +
    rule(x - ARM, y + ARM, x + ARM, y - ARM, box.theme.ink, 2) +
    line(box, x + ARM + 3, y - 3, 'asked', SIZE.small, 'bold')
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

function envelopeTable({ points }: ManoeuvreEnvelope, gauges: Gauges): Table {
  const airspeed = gauges('calibratedAirspeedMS');
  return {
    title: 'Load factor against speed, in g',
    columns: [
      number('speed', airspeed.unit),
      number('Mach', ''),
      ...['warning', 'at a bank of', 'push', 'structure', 'rolling', 'held to', 'thrust'].map((name) =>
        number(name, ''),
      ),
    ],
    rows: points
      .filter((_, i) => i % EVERY === 0 || i === points.length - 1)
      .map(({ at, bounds }) => [
        read(airspeed, at.calibratedAirspeedMS),
        read(gauges('mach'), at.mach),
        limitText(gauges, bounds.warning),
        bankText(gauges, bounds.warning),
        ...(['push', 'symmetric', 'rolling', 'held', 'sustained'] as const).map((key) =>
          limitText(gauges, bounds[key]),
        ),
      ]),
  };
}
