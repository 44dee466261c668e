/** How low over the base of the take-off: what a push costs by bank and fuel, begun where the costliest of them just ends clear. */
import type { Draft } from './draft.ts';
import { pressureAltitudeAt } from './ground.ts';
import { ManoeuvreBounds } from './manoeuvre-bounds.ts';
import { pushAt, pushBanks } from './manoeuvre-table.ts';
import type { LowPushes } from './plan.ts';

const MOST_ROWS = 9;
/** Fuel of the rows is a multiple of this, but for the first. */
const FUEL_STEP_KG = 1000;
/** Above the base, where the height of the costliest push is looked for first. */
const FIRST_TRY_M = 1500;

/** null where neither deck nor sortie says what the pusher does, or the deck has no stall table. */
export function lowPushesOf({ crew }: Draft): LowPushes | null {
  const { setup } = crew.flight;
  const { takeOff, manoeuvres } = crew.sortie;
  const bounds = new ManoeuvreBounds(setup, manoeuvres);
  const { base } = takeOff;
  const placeAbove = (heightM: number): void =>
    bounds.placeIn(pressureAltitudeAt(setup.day, base, base.elevationM + heightM, takeOff.timeS), (air) =>
      setup.day.sample(base.latitudeRad, base.longitudeRad, bounds.pressureAltitudeM, takeOff.timeS, air),
    );
  const { fuelCapacityKg: fuelKg, unusableFuelKg } = setup.aircraft.balance;
  const banks = pushBanks(manoeuvres);
  const costliest = (): number => {
    bounds.load(fuelKg);
    return Math.max(...banks.map((bank) => pushAt(bounds, bank)?.leastHeightM ?? 0));
  };
  placeAbove(FIRST_TRY_M);
  const heightM = costliest();
  if (!(heightM > 0)) return null;
  placeAbove(heightM);
  return {
    base: base.name,
    groundM: base.elevationM,
    pressureAltitudeM: bounds.pressureAltitudeM,
    temperatureOffsetK: bounds.air.temperatureOffsetK,
    rows: fuelsDown(fuelKg, unusableFuelKg).map((fuel) => {
      bounds.load(fuel);
      return {
        fuelKg: fuel,
        massKg: bounds.inputs.massKg,
        pushes: banks.flatMap((bank) => pushAt(bounds, bank) ?? []),
      };
    }),
  };
}

/** From full tanks down to what cannot be used, in equal steps that fill a card. */
function fuelsDown(fromKg: number, leastKg: number): number[] {
  const stepKg = FUEL_STEP_KG * Math.ceil((fromKg - leastKg) / (MOST_ROWS - 1) / FUEL_STEP_KG);
  const below = Array.from(
    { length: MOST_ROWS - 1 },
    (_, i) => (Math.ceil(fromKg / stepKg) - 1 - i) * stepKg,
  );
  return [fromKg, ...below.filter((fuel) => fuel > leastKg)];
}
