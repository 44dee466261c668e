/**
 * The fuel at its temperature of the day: its density, and what the tanks hold of it. All fuel, on board and in the tankers,
 * is taken to be of one grade, one density and one temperature.
 */
import type { Aircraft, FuelGrade } from '../aircraft/aircraft.ts';
import { density15Of, fuelDensity } from '../aircraft/fuel.ts';
import { OutsideRange } from '../quantities/errors.ts';
import type { FuelToday } from './plan.ts';
import type { Sortie } from './sortie.ts';

type Loaded = Pick<Sortie['aircraft'], 'fuelTemperatureK' | 'fuelDensityKgM3'>;

interface Densities {
  readonly todayKgM3: number;
  readonly at15KgM3: number;
}

/** Density as measured, or that of the deck's grade at the temperature; throws `OutsideRange` beyond ASTM D1250 or the grade. */
function densitiesOf(grade: FuelGrade, temperatureK: number, measuredKgM3: number | null): Densities {
  if (measuredKgM3 === null) {
    return { todayKgM3: fuelDensity(grade.densityKgM3, temperatureK), at15KgM3: grade.densityKgM3 };
  }
  const least = fuelDensity(grade.lightestKgM3, temperatureK);
  const most = fuelDensity(grade.heaviestKgM3, temperatureK);
  if (!(measuredKgM3 >= least && measuredKgM3 <= most)) {
    const where = `${grade.name} at ${Number((temperatureK - 273.15).toFixed(2))} degC`;
    throw new OutsideRange(
      'fuel density',
      measuredKgM3,
      'kg/m3',
      Number(least.toFixed(1)),
      Number(most.toFixed(1)),
      where,
    );
  }
  return { todayKgM3: measuredKgM3, at15KgM3: density15Of(measuredKgM3, temperatureK) };
}

/** The aircraft with tanks that hold what they do of today's fuel; as it is where deck or sortie do not tell. Throws `OutsideRange`. */
export function fuelled(aircraft: Aircraft, { fuelTemperatureK, fuelDensityKgM3 }: Loaded): Aircraft {
  const { fuel, balance } = aircraft;
  if (fuel === null || balance.volumeM3 === null || fuelTemperatureK === null) return aircraft;
  const { todayKgM3 } = densitiesOf(fuel, fuelTemperatureK, fuelDensityKgM3);
  return { ...aircraft, balance: balance.heldAt(todayKgM3) };
}

/** Numbers of today's fuel for an aircraft as its deck describes it; null where deck or sortie do not tell. */
export function fuelToday(aircraft: Aircraft, loaded: Sortie['aircraft']): FuelToday | null {
  const { fuel, balance } = aircraft;
  const { fuelTemperatureK, fuelDensityKgM3, fuelKg } = loaded;
  if (fuel === null || balance.volumeM3 === null || fuelTemperatureK === null) return null;
  const { todayKgM3, at15KgM3 } = densitiesOf(fuel, fuelTemperatureK, fuelDensityKgM3);
  const capacityKg = balance.fuelCapacityKg;
  const fullAt = (densityKgM3: number) => balance.heldAt(densityKgM3).fuelCapacityKg;
  const fullOf = (density15: number) =>
    fullAt(fuelDensityKgM3 === null ? fuelDensity(density15, fuelTemperatureK) : fuelDensityKgM3);
  const fullKg = fullAt(todayKgM3);
  return {
    grade: fuel.name,
    temperatureK: fuelTemperatureK,
    densityKgM3: todayKgM3,
    density15KgM3: at15KgM3,
    measured: fuelDensityKgM3 !== null,
    fullKg,
    fullFromKg: fullOf(fuel.lightestKgM3),
    fullToKg: fullOf(fuel.heaviestKgM3),
    capacityKg,
    shortFraction: 1 - fullKg / capacityKg,
    tankVolumeM3: balance.volumeM3,
    fullVolumeM3: fullKg / todayKgM3,
    takeOffKg: fuelKg,
    takeOffVolumeM3: fuelKg / todayKgM3,
  };
}

/** Why there is no fuel of today, as sentences of `notComputed`. */
export function fuelMissing({ fuel, balance }: Aircraft, { fuelTemperatureK }: Loaded): string[] {
  const what = 'full tanks today';
  if (fuel === null) return [`${what}: the deck has no grade of fuel`];
  if (balance.volumeM3 === null) return [`${what}: the deck has no volumes of its tanks`];
  return fuelTemperatureK === null ? [`${what}: the sortie has no temperature of the fuel`] : [];
}
