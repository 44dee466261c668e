/** Why a sortie cannot be flown: the first thing that goes wrong, where, and by how much at the worst. */

import type { AreaFinding, Incursion } from '../earth/areas.ts';
import { cabinTooFast, descentsOf } from './descent-held.ts';
import type { Draft } from './draft.ts';
import { fileUnit } from './limits.ts';
import type { LimitSummary } from './plan.ts';
import { takeOffMargins } from './take-off.ts';

/** What fails, before it is put beside what frees it. Times are seconds since 1970. */
export interface Fault {
  /** Key of the limit, 'area', 'fuelRequired', or why the flight stopped: 'thrust', 'fuel', 'route', 'tankerMach' ... */
  readonly key: string;
  /** Quantity and side of the limit; null where it is none. */
  readonly limit: Pick<LimitSummary, 'quantity' | 'side'> | null;
  readonly node: number;
  readonly leg: number;
  readonly phase: string;
  readonly phaseKind: string;
  readonly text: string | null;
  /** Beyond the limit (or its pad), in the quantity's SI unit; null where there is no measure. */
  readonly excess: number | null;
  /** The way through an area, and its name; null where it is none. */
  readonly through: (Incursion & { readonly name: string }) | null;
}

/** What a drafted sortie is judged by. `requiredKg` is NaN where it was not worked out. */
export interface Judged {
  readonly limits: readonly LimitSummary[];
  readonly requiredKg: readonly number[];
  readonly findings: readonly AreaFinding[];
}

/** The fault that comes first; null where the sortie can be flown. */
export function firstFault(draft: Draft, { limits, requiredKg, findings }: Judged): Fault | null {
  const faults = [
    ...runwayFaults(draft),
    ...limitFaults(draft, limits),
    ...fuelFaults(draft, requiredKg),
    ...areaFaults(draft, findings),
    ...cabinFaults(draft),
    ...stopFaults(draft),
  ];
  return faults.reduce<Fault | null>(
    (first, fault) => (first === null || fault.node < first.node ? fault : first),
    null,
  );
}

function faultAt(draft: Draft, key: string, node: number, more: Partial<Fault>): Fault {
  const { log } = draft;
  const last = log.phases.length - 1;
  const phase = log.phases[Math.min(log.phaseOf[node] ?? last, last)];
  const place = { key, node, leg: phase.leg, phase: phase.name, phaseKind: phase.kind };
  return { ...place, limit: null, text: null, excess: null, through: null, ...more };
}

/** A runway that the aircraft cannot leave, or not on its tyres; before all else. */
function runwayFaults(draft: Draft): Fault[] {
  const [{ leg, name, kind }] = draft.log.phases;
  const margins = takeOffMargins(draft.crew);
  return (['runway', 'tyreSpeed'] as const).flatMap((key) => {
    const left = margins[key] ?? 0;
    return left < 0 ? [faultAt(draft, key, 0, { leg, phase: name, phaseKind: kind, excess: -left })] : [];
  });
}

function limitFaults(draft: Draft, limits: readonly LimitSummary[]): Fault[] {
  const { log } = draft;
  return limits
    .filter((limit) => limit.leastMargin < limit.pad)
    .map((limit) => {
      const unit = fileUnit(limit.quantity);
      const node = log.margins[limit.key].findIndex((margin) => margin * unit < limit.pad);
      return faultAt(draft, limit.key, node, { limit, excess: limit.pad - limit.leastMargin });
    });
}

function fuelFaults(draft: Draft, requiredKg: readonly number[]): Fault[] {
  const { log } = draft;
  const { fuelKg } = log.columns;
  const first = requiredKg.findIndex((required, i) => required > fuelKg[i]);
  if (first < 0) return [];
  const short = requiredKg.map((required, i) => required - fuelKg[i]).filter((kg) => !Number.isNaN(kg));
  const worst = short.reduce((most, kg) => Math.max(kg, most), 0);
  // What a leg requires is required from the disconnect on, the last node of the contact before it.
  const disconnect = log.phases[log.phaseOf[first]].kind === 'contact' && first + 1 < log.nodes;
  return [faultAt(draft, 'fuelRequired', disconnect ? first + 1 : first, { excess: worst })];
}

/** Each way through an area, at the last node before it. */
function areaFaults(draft: Draft, findings: readonly AreaFinding[]): Fault[] {
  const { timeS } = draft.log.columns;
  return findings.flatMap(({ area, incursions }) =>
    incursions.map((incursion) => {
      const after = timeS.findIndex((time) => time > incursion.entry.timeS);
      const node = after < 0 ? timeS.length - 1 : Math.max(after - 1, 0);
      const through = { ...incursion, name: area.name };
      return faultAt(draft, 'area', node, { excess: incursion.depthM, through });
    }),
  );
}

/** Each descent in which the cabin comes down faster than the deck allows. */
function cabinFaults(draft: Draft): Fault[] {
  return descentsOf(draft.log).flatMap((descent) => {
    const found = cabinTooFast(draft, descent);
    return found ? [faultAt(draft, 'cabinRate', found.node, { excess: found.excessMS })] : [];
  });
}

/** The phase that could not be begun or flown on; its leg is the one after the last that had its fuel. */
function stopFaults(draft: Draft): Fault[] {
  const { log, flown } = draft;
  const { stopped, refuellings } = flown;
  if (!stopped) return [];
  const { reason, text } = stopped;
  const leg = refuellings.length;
  const phase = stopped.phase || draft.crew.sortie.legs[leg].name;
  const last = log.phases[log.phases.length - 1];
  const phaseKind = last.name === phase ? last.kind : '';
  return [faultAt(draft, reason, Math.max(0, log.nodes - 1), { leg, phase, phaseKind, text })];
}
