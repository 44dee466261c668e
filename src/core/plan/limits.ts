/** Which limit is next, and how near each one comes over the sortie. */
import type { Limit } from '../aircraft/aircraft.ts';
import type { Log } from './log.ts';
import type { LimitSummary } from './plan.ts';

/**
 * What a limit's margin is measured in when limits of different quantities are put in order: a margin of one of these is
 * as near as a margin of one of any other. Common practice of what a crew calls close, not a published scale.
 */
const closeBy: Readonly<Record<string, number>> = {
  mach: 0.05,
  inletTemperatureK: 10,
  equivalentAirspeedMS: 10,
  calibratedAirspeedMS: 10,
  // Held in radians: one degree.
  angleOfAttackDeg: Math.PI / 180,
  loadFactor: 0.2,
  pressureAltitudeM: 600,
  cgFraction: 0.005,
  fuelKg: 500,
  massKg: 500,
};

/** The scale of a limit's quantity; a tenth of the bound where the quantity is not in the table. */
function scaleOf(limit: Limit, bound: number): number {
  return closeBy[limit.quantity] ?? Math.max(Math.abs(bound) * 0.1, 1e-9);
}

/** What a value in memory is multiplied by for a file: angles are degrees at every boundary. */
export function fileUnit(quantity: string): number {
  return quantity.endsWith('Deg') ? 180 / Math.PI : 1;
}

/** Kept of a closeness: finer than any margin is known. */
const thousand = 1000;

/** For each limit its margin less its pad at every node, in what counts as one for its quantity; to a thousandth. */
export function closenessOf(
  limits: readonly Limit[],
  pads: Readonly<Record<string, number>>,
  log: Log,
): Record<string, number[]> {
  const closeness = (limit: Limit): number[] => {
    const bounds = log.bounds[limit.key];
    const pad = pads[limit.key] ?? 0;
    return log.margins[limit.key].map(
      (margin, node) => Math.round(((margin - pad) / scaleOf(limit, bounds[node])) * thousand) / thousand,
    );
  };
  return Object.fromEntries(limits.map((limit) => [limit.key, closeness(limit)]));
}

/** For each node the key of the limit that is closest; of two as close the one that the deck names first. */
export function nextLimits(closeness: Readonly<Record<string, readonly number[]>>, nodes: number): string[] {
  return Array.from({ length: nodes }, (_, node) => {
    let least = Number.POSITIVE_INFINITY;
    let next = '';
    for (const key of Object.keys(closeness)) {
      if (!(closeness[key][node] < least)) continue;
      least = closeness[key][node];
      next = key;
    }
    return next;
  });
}

/** Margins that differ by less of what counts as one are the same: of a margin that is held the first moment counts. */
const asNear = 1e-9;

/** Least margin of every limit over the sortie, the nearest first. */
export function summariseLimits(
  limits: readonly Limit[],
  pads: Readonly<Record<string, number>>,
  log: Log,
  takeOffS: number,
): LimitSummary[] {
  const rows: LimitSummary[] = [];
  for (const limit of limits) {
    const margins = log.margins[limit.key];
    const bounds = log.bounds[limit.key];
    let worst = -1;
    for (let node = 0; node < log.nodes; node++) {
      if (!Number.isFinite(margins[node])) continue;
      if (worst < 0 || margins[node] < margins[worst] - asNear * scaleOf(limit, bounds[worst])) worst = node;
    }
    if (worst < 0) continue;
    const pad = pads[limit.key] ?? 0;
    const bound = bounds[worst];
    const unit = fileUnit(limit.quantity);
    rows.push({
      key: limit.key,
      name: limit.name,
      quantity: limit.quantity,
      side: limit.side,
      leastMargin: margins[worst] * unit,
      spread: limit.spread * unit,
      weatherSpread: 0,
      pad: pad * unit,
      timeS: log.columns.timeS[worst] - takeOffS,
      phase: log.phases[log.phaseOf[worst]]?.name ?? '',
      value: (limit.side === 'upper' ? bound - margins[worst] : bound + margins[worst]) * unit,
      bound: bound * unit,
      closeness: (margins[worst] - pad) / scaleOf(limit, bound),
      countsAsOne: scaleOf(limit, bound) * unit,
      source: limit.source,
    });
  }
  return rows.sort((a, b) => a.closeness - b.closeness);
}
