/** A question about manoeuvres in the air of a sortie: one judged, or a table by fuel on board. */
import { machFromSpeed, type SpeedKey } from '../air/airdata-record.ts';
import { OutsideRange } from '../quantities/errors.ts';
import type { Position } from '../quantities/place.ts';
import { crewOf, type PlanRequest } from './draft.ts';
import { ManoeuvreBounds } from './manoeuvre-bounds.ts';
import { envelopeOf } from './manoeuvre-envelope.ts';
import { type JudgedManoeuvre, judgeManoeuvre } from './manoeuvre-judge.ts';
import { FUEL_STEP_KG, fuelsFrom, leadOf, pushBanks, rowAt } from './manoeuvre-table.ts';
import type { ManoeuvreTable } from './plan.ts';
import { CannotPlan } from './sortie-flyer.ts';

export interface ManoeuvreQuestion {
  readonly pressureAltitudeM: number;
  /** In SI, of its kind. */
  readonly speed: { readonly key: SpeedKey; readonly si: number };
  /** Full tanks where it is left out. */
  readonly fuelKg: number | null;
  /** Both left out ask for the table. */
  readonly bankRad: number | null;
  readonly loadFactor: number | null;
  /** Those of the take-off where they are left out. */
  readonly place: Position | null;
  readonly timeS: number | null;
  /** Height of the ground above sea level. */
  readonly groundM: number | null;
}

export type ManoeuvreAnswer = { readonly judged: JudgedManoeuvre } | { readonly table: ManoeuvreTable };

/** Throws `OutsideRange` for more fuel than the tanks hold or a bank of 85 degrees or more, `CannotPlan` where the day has no air there. */
export function answerManoeuvre(
  request: Pick<PlanRequest, 'sortie' | 'aircraft' | 'day'>,
  question: ManoeuvreQuestion,
): ManoeuvreAnswer {
  const { setup } = crewOf(request).flight;
  const { takeOff, manoeuvres } = request.sortie;
  const { balance } = setup.aircraft;
  const { pressureAltitudeM, loadFactor, bankRad } = question;
  const fuelKg = inside('fuel', question.fuelKg ?? balance.fuelCapacityKg, 'kg', 0, balance.fuelCapacityKg);
  const bounds = new ManoeuvreBounds(setup, manoeuvres);
  placeIn(bounds, request, question);
  const mach = machFromSpeed(question.speed.key, question.speed.si, bounds.air);
  if (bankRad !== null || loadFactor !== null) {
    if (bankRad !== null) inside('bank', Math.abs(bankRad) / degree, 'deg', 0, STEEPEST_DEG);
    const groundM = question.groundM ?? (question.place === null ? takeOff.base.elevationM : null);
    return { judged: judgeManoeuvre(bounds, { mach, fuelKg, bankRad: bankRad ?? 0, loadFactor, groundM }) };
  }
  const most = Math.ceil(balance.fuelCapacityKg / FUEL_STEP_KG) + 1;
  const rows = fuelsFrom(fuelKg, balance.unusableFuelKg, most).map((fuel) =>
    rowAt(bounds, mach, fuel, pushBanks(manoeuvres)),
  );
  const { temperatureOffsetK } = bounds.air;
  const at = bounds.speeds(mach);
  const leadLoadFactor = leadOf(bounds);
  bounds.load(fuelKg);
  const envelope = envelopeOf(bounds);
  const table = {
    leg: 0,
    name: '',
    pressureAltitudeM,
    temperatureOffsetK,
    at,
    leadLoadFactor,
    envelope,
    rows,
  };
  return { table };
}

const degree = Math.PI / 180;
const STEEPEST_DEG = 85;

function inside(quantity: string, value: number, unit: string, low: number, high: number): number {
  if (value >= low && value <= high) return value;
  throw new OutsideRange(quantity, value, unit, low, high, 'a manoeuvre');
}

function placeIn(
  bounds: ManoeuvreBounds,
  { sortie: { takeOff }, day }: Pick<PlanRequest, 'sortie' | 'day'>,
  { pressureAltitudeM, place, timeS }: ManoeuvreQuestion,
): void {
  const { latitudeRad, longitudeRad } = place ?? takeOff.base;
  bounds.placeIn(pressureAltitudeM, (air) =>
    day.sample(latitudeRad, longitudeRad, pressureAltitudeM, timeS ?? takeOff.timeS, air),
  );
  if (bounds.air.outside === 0) return;
  throw new CannotPlan(
    `${day.description.title}: no air at that height, place and time; it covers ${day.covers}`,
  );
}
