/** Manoeuvres by fuel on board: bounds, least speeds and the height that a push costs, at the heights after each tanker. */
import type { Aircraft } from '../aircraft/aircraft.ts';
import { PushRecovery } from '../flight/push-recovery.ts';
import type { Draft } from './draft.ts';
import {
  boundsStructure,
  levelTurn,
  ManoeuvreBounds,
  type Named,
  pullTo,
  SLOWEST_MACH,
} from './manoeuvre-bounds.ts';
import { envelopeOf } from './manoeuvre-envelope.ts';
import type { ManoeuvreRow, ManoeuvreTable, PushRecovery as Pushed } from './plan.ts';
import type { ManoeuvreRules } from './sortie.ts';

/** Fuel between rows, and how many rows a card holds. */
export const FUEL_STEP_KG = 2000;
const MOST_ROWS = 9;

/** Level flight, then what the sortie names, from the least load factor to the greatest. */
function namedBy({ loadFactors, banksRad }: ManoeuvreRules): Named[] {
  const named = [...loadFactors.map(pullTo), ...banksRad.filter((bank) => bank > 0).map(levelTurn)];
  return [levelTurn(0), ...named.sort((a, b) => a.loadFactor - b.loadFactor)];
}

/** Fuel of the rows: that at the beginning, then whole steps downward to `leastKg`. */
export function fuelsFrom(fromKg: number, leastKg: number, most = MOST_ROWS): number[] {
  const rows = [fromKg];
  for (let step = Math.ceil(fromKg / FUEL_STEP_KG) - 1; rows.length < most; step--) {
    const fuelKg = step * FUEL_STEP_KG;
    if (fuelKg < leastKg) break;
    rows.push(fuelKg);
  }
  return rows;
}

/** One row at a Mach, with the present air of `bounds` and a push at each of some banks. */
export function rowAt(
  bounds: ManoeuvreBounds,
  mach: number,
  fuelKg: number,
  pushBanksRad: readonly number[],
): ManoeuvreRow {
  bounds.load(fuelKg);
  return {
    fuelKg,
    massKg: bounds.inputs.massKg,
    cgFraction: bounds.cgFraction(mach),
    bounds: bounds.at(mach),
    speeds: namedBy(bounds.rules).map((named) => bounds.speedsFor(named)),
    pushes: pushBanksRad.flatMap((bank) => pushAt(bounds, bank) ?? []),
  };
}

/** Wings level, and each bank that the sortie names. */
export function pushBanks({ banksRad }: ManoeuvreRules): number[] {
  return [0, ...banksRad.filter((bank) => bank > 0).sort((a, b) => a - b)];
}

/** A push out of the slowest level turn at a bank; null where neither deck nor sortie says what the pusher does, or it never acts. */
export function pushAt(bounds: ManoeuvreBounds, bankRad: number): Pushed | null {
  const pusher = bounds.rules.push ?? bounds.aircraft.pusher;
  if (pusher === null) return null;
  const mach = bounds.slowest('push', levelTurn(bankRad).loadFactor);
  const angle = mach === null ? null : bounds.aircraft.aerodynamics.pushAngleRad(mach);
  if (mach === null || angle === null) return null;
  const held = bounds.heldTo?.loadFactor ?? Number.POSITIVE_INFINITY;
  const most = (rolling: boolean) =>
    Math.min(held, bounds.structural(mach, rolling) ?? Number.POSITIVE_INFINITY);
  const recovered = new PushRecovery(bounds.forces, pusher).fly({
    trueAirspeedMS: mach * bounds.air.speedOfSoundMS,
    pressureAltitudeM: bounds.pressureAltitudeM,
    temperatureOffsetK: bounds.air.temperatureOffsetK,
    massKg: bounds.inputs.massKg,
    bankRad,
    angleOfAttackRad: angle,
    most: { symmetric: most(false), rolling: most(true) },
  });
  const { lostM, timeS, steepestRad } = recovered;
  return {
    bankDeg: (bankRad * 180) / Math.PI,
    from: bounds.speeds(mach),
    lostM: Number.isNaN(lostM) ? null : lostM,
    leastHeightM: Number.isNaN(lostM) ? null : lostM + bounds.rules.clearanceM,
    timeS,
    steepestDeg: (steepestRad * 180) / Math.PI,
  };
}

/** What the deck does not say of manoeuvres, and the sortie neither. */
export function manoeuvresMissing(aircraft: Aircraft, rules: ManoeuvreRules): string[] {
  const { aerodynamics, limits, pusher } = aircraft;
  const out: string[] = [];
  const stall = aerodynamics.warningAngleRad(SLOWEST_MACH) !== null;
  if (!stall) out.push('load factors and speeds to stall warning and push: the deck has no stall table');
  if (!limits.some(boundsStructure)) out.push('load factor of the structure: the deck has no limit of it');
  if (stall && (rules.push ?? pusher) === null)
    out.push('height lost in a push: neither deck nor sortie says what the pusher does');
  return out;
}

/** Where a table stands: at a moment of the log. */
interface Moment {
  readonly leg: number;
  readonly name: string;
  readonly timeS: number;
  readonly pushBanksRad: readonly number[];
}

/** Tables at each disconnect and at the top of the climb that follows it. */
export function manoeuvresOf(drafted: Draft): ManoeuvreTable[] {
  const { crew } = drafted;
  const bounds = new ManoeuvreBounds(crew.flight.setup, crew.sortie.manoeuvres);
  return momentsOf(drafted).map((moment) => tableAt(drafted, bounds, moment));
}

function momentsOf({ log, flown, crew }: Draft): Moment[] {
  const banks = pushBanks(crew.sortie.manoeuvres);
  const levelAndSteepest = banks.length > 1 ? [0, banks[banks.length - 1]] : banks;
  return flown.refuellings.flatMap(({ tanker, disconnectS }, index) => {
    const leg = index + 1;
    const top = log.captures.find((capture) => capture.leg === leg && capture.timeS > disconnectS);
    return [
      { leg, name: `after ${tanker}`, timeS: disconnectS, pushBanksRad: levelAndSteepest },
      ...(top
        ? [{ leg, name: `at the top of the climb after ${tanker}`, timeS: top.timeS, pushBanksRad: [] }]
        : []),
    ];
  });
}

function tableAt(
  { log, crew }: Draft,
  bounds: ManoeuvreBounds,
  { leg, name, timeS, pushBanksRad }: Moment,
): ManoeuvreTable {
  const { columns } = log;
  const { day, aircraft } = crew.flight.setup;
  const at = (key: keyof typeof columns) => log.at(columns[key], timeS);
  const mach = at('mach');
  const fuelKg = at('fuelKg');
  bounds.placeIn(at('pressureAltitudeM'), (air) =>
    day.sample(at('latitudeRad'), at('longitudeRad'), at('pressureAltitudeM'), timeS, air),
  );
  bounds.load(fuelKg);
  return {
    leg,
    name,
    pressureAltitudeM: bounds.pressureAltitudeM,
    temperatureOffsetK: bounds.air.temperatureOffsetK,
    at: bounds.speeds(mach),
    leadLoadFactor: leadOf(bounds),
    envelope: envelopeOf(bounds),
    rows: fuelsFrom(fuelKg, aircraft.balance.unusableFuelKg).map((fuel) =>
      rowAt(bounds, mach, fuel, pushBanksRad),
    ),
  };
}

/** How much earlier in load factor the warning sounds at the deck's onset; 0 where the deck has no rates. */
export function leadOf(bounds: ManoeuvreBounds): number {
  const lead = bounds.lead(bounds.aircraft.rates.onsetPerS);
  return Number.isNaN(lead) ? 0 : lead;
}
