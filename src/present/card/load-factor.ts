/** The cards of load factor against speed: what is met first, each bound by its own curve. */
import type { LoadFactorBounds, ManoeuvreEnvelope, ManoeuvreTable, Plan } from '../../core/plan/plan.ts';
import { cutAt, mostOf } from '../chart/manoeuvre.ts';
import { endWords, limitText } from '../manoeuvre.ts';
import { type Gauges, gaugesOf, read, shown } from '../units.ts';
import { type Card, cell, words } from './card.ts';
import { type PlottedCurve, plotted } from './plotted.ts';

/** No drawing is made in less than this [mm]. */
const LEAST = 55;

const CURVES: readonly (Pick<PlottedCurve, 'name' | 'weight' | 'dash'> & {
  readonly key: keyof LoadFactorBounds;
})[] = [
  { key: 'warning', name: 'warning', weight: 0.6, dash: [] },
  { key: 'push', name: 'push', weight: 0.35, dash: [2.4, 1] },
  { key: 'symmetric', name: 'structure', weight: 0.35, dash: [] },
  { key: 'rolling', name: 'structure, rolling', weight: 0.35, dash: [3, 0.8, 0.6, 0.8] },
  { key: 'held', name: 'held to', weight: 0.25, dash: [4, 1, 1, 1] },
  { key: 'sustained', name: 'thrust', weight: 0.25, dash: [0.6, 0.8] },
];

const BOUND_WORDS = {
  held: 'Held to',
  rolling: 'Structure, rolling',
  symmetric: 'Structure, wings level',
} as const;

/** One for each fuel state of a leg that has an envelope. */
export function loadFactorCards(plan: Plan, leg: number): readonly Card[] {
  const gauges = gaugesOf(plan);
  return plan.manoeuvres.flatMap((table) =>
    table.leg === leg && table.envelope !== null ? [card(table, table.envelope, gauges)] : [],
  );
}

function card(table: ManoeuvreTable, envelope: ManoeuvreEnvelope, gauges: Gauges): Card {
  const airspeed = gauges('calibratedAirspeedMS');
  const { points, warnedUpTo } = envelope;
  const [slowest, fastest] = [points[0], points[points.length - 1]].map(({ at }) => at.calibratedAirspeedMS);
  const fuel = shown(gauges('fuelKg'), envelope.fuelKg, 'required');
  const rows = warnedUpTo.toSorted((a, b) => a.at.mach - b.at.mach);
  return {
    title: `Load factor ${table.name}, ${shown(gauges('pressureAltitudeM'), table.pressureAltitudeM)}`,
    question: 'What do I meet first, at which speed?',
    answer: [
      `With ${fuel}, from ${shown(airspeed, slowest, 'required')}, where the pusher acts in level flight, to ${shown(airspeed, fastest, 'available')}, ${endWords(envelope)}.`,
    ],
    table:
      rows.length === 0
        ? null
        : {
            columns: [
              { name: 'Warned before', unit: '', holds: 'words' },
              { name: 'Up to', unit: airspeed.unit, holds: 'figures' },
              { name: 'Mach', unit: '', holds: 'figures' },
              { name: 'At', unit: 'g', holds: 'figures' },
            ],
            rows: rows.map(({ bound, at, loadFactor }) => [
              words(BOUND_WORDS[bound]),
              cell(read(airspeed, at.calibratedAirspeedMS, 'available')),
              cell(read(gauges('mach'), at.mach, 'available')),
              cell(limitText(gauges, loadFactor)),
            ]),
          },
    drawing: {
      least: LEAST,
      says: `Load factor against calibrated airspeed with ${fuel}: stall warning, push, structure with and without roll, what is held to and what thrust sustains, each by itself.`,
      marks: (room, measure) =>
        plotted(
          {
            across: `Calibrated airspeed [${airspeed.unit}]`,
            up: 'Load factor [g]',
            range: [0, mostOf(envelope)],
            curves: curvesOf(envelope, gauges),
          },
          room,
          measure,
        ),
    },
    notes: [
      'Slower than a speed of the table the warning comes before that bound, faster after it. Each bound by itself, in steady flight; thrust is what all of it sustains.',
      `Pulled at the usual rate the warning sounds ${read(gauges('loadFactor'), table.leadLoadFactor, 'required')}\u00a0g earlier. Rounded down.`,
    ],
  };
}

function curvesOf(envelope: ManoeuvreEnvelope, gauges: Gauges): PlottedCurve[] {
  const airspeed = gauges('calibratedAirspeedMS');
  return CURVES.flatMap(({ key, ...drawn }) => {
    const known = envelope.points.filter(({ bounds }) => bounds[key] !== null);
    const x = known.map(({ at }) => airspeed.fromSi(at.calibratedAirspeedMS));
    const y = known.map(({ bounds }) => bounds[key] ?? Number.NaN);
    const cut = cutAt(x, y, mostOf(envelope));
    return cut.x.length < 2 ? [] : [{ ...drawn, ...cut }];
  });
}
