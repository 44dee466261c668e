/** Load factors against speed at one height and fuel: from where the pusher acts in level flight to the limit of speed that comes first. */
import type { Limit } from '../aircraft/aircraft.ts';
import { brent } from '../numerics/roots.ts';
import { levelTurn, type ManoeuvreBounds } from './manoeuvre-bounds.ts';
import type { LoadFactorBounds, ManoeuvreEnvelope, WarnedUpTo } from './plan.ts';

const POINTS = 32;
const FASTEST_MACH = 4;
const MACH_STEP = 0.02;
/** About 0.1 kt. */
const MACH_TOLERANCE = 1e-4;

const OF_SPEED: readonly string[] = [
  'mach',
  'equivalentAirspeedMS',
  'calibratedAirspeedMS',
  'indicatedInletTemperatureK',
];

/** With the present air and fuel of `bounds`; null where the deck has no stall table, or no speed is between stall and limits. */
export function envelopeOf(bounds: ManoeuvreBounds): ManoeuvreEnvelope | null {
  const from = bounds.slowest('push', levelTurn(0).loadFactor);
  if (from === null) return null;
  const { mach: to, endedBy } = fastest(bounds, from);
  if (!(to > from)) return null;
  const points = Array.from({ length: POINTS }, (_, i) => {
    const mach = from + ((to - from) * i) / (POINTS - 1);
    return { at: bounds.speeds(mach), bounds: bounds.at(mach) };
  });
  const warnedUpTo = WARNED_OF.flatMap((bound) => warnedTo(bounds, bound, points) ?? []);
  return { fuelKg: bounds.inputs.fuelKg, endedBy, points, warnedUpTo };
}

const WARNED_OF: readonly WarnedUpTo['bound'][] = ['symmetric', 'rolling', 'held'];

/** Where the load factor of the warning first rises through a bound. */
function warnedTo(
  bounds: ManoeuvreBounds,
  bound: WarnedUpTo['bound'],
  points: ManoeuvreEnvelope['points'],
): WarnedUpTo | null {
  const spare = (there: LoadFactorBounds): number =>
    (there[bound] ?? Number.NaN) - (there.warning ?? Number.NaN);
  const after = points.findIndex((point) => spare(point.bounds) < 0);
  if (after <= 0) return null;
  const [low, high] = [points[after - 1].at.mach, points[after].at.mach];
  const root = brent((mach) => spare(bounds.at(mach)), low, high, MACH_TOLERANCE);
  const loadFactor = root.found ? bounds.at(root.x)[bound] : null;
  return loadFactor === null ? null : { bound, at: bounds.speeds(root.x), loadFactor };
}

/** The first Mach from `from` on beyond which a limit of speed is passed, or the tables of lift end. */
function fastest(bounds: ManoeuvreBounds, from: number): { mach: number; endedBy: string | null } {
  const limits = bounds.aircraft.limits.filter(
    ({ quantity, side }) => side === 'upper' && OF_SPEED.includes(quantity),
  );
  const passed = (mach: number): Limit | undefined => {
    bounds.fill(mach);
    return limits.find((limit) => !(limit.value(bounds.inputs) <= limit.bound(bounds.inputs)));
  };
  const flown = (mach: number) =>
    passed(mach) === undefined && Number.isFinite(bounds.stall('push', mach) ?? Number.NaN);
  let [good, bad] = [from, from];
  while (bad < FASTEST_MACH && flown(bad)) {
    good = bad;
    bad += MACH_STEP;
  }
  while (bad - good > MACH_TOLERANCE) {
    const middle = 0.5 * (good + bad);
    if (flown(middle)) good = middle;
    else bad = middle;
  }
  return { mach: good, endedBy: passed(bad)?.name ?? null };
}
