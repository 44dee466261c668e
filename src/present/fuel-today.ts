/** What full tanks hold today, in words: by mass, or less where warm fuel fills them before. */
import type { FuelToday, Plan } from '../core/plan/plan.ts';
import { gaugesOf, shown } from './units.ts';

/** "38 000 kg, 1.3 % short of 38 500 kg", or "38 500 kg, as by mass". */
export function fullWords(plan: Plan, { fullKg, capacityKg, shortFraction }: FuelToday): string {
  const fuel = gaugesOf(plan)('fuelKg');
  const full = shown(fuel, fullKg, 'available');
  if (shortFraction <= 0) return `${full}, all that the tanks take by mass`;
  // Rounded up: what is missing must not look less.
  const percent = Math.ceil(shortFraction * 1000 - 1e-9) / 10;
  return `${full}, ${percent.toFixed(1)}\u00a0% short of ${shown(fuel, capacityKg)} by mass`;
}

/** "kerosene ... at 12 °C, 802 kg/m3 by the deck". */
export function fuelWords(plan: Plan, today: FuelToday): string {
  const gauges = gaugesOf(plan);
  const temperature = shown(gauges('fuelTemperatureK'), today.temperatureK);
  const density = shown(gauges('fuelDensityKgM3'), today.densityKgM3);
  const from = today.measured
    ? 'as measured'
    : `from ${shown(gauges('fuelDensityKgM3'), today.density15KgM3)} at 15\u00a0°C, usual for it`;
  return `${today.grade} at ${temperature}, ${density} (${from})`;
}

/** The range that the grade allows where its density was not measured. */
export function rangeWords(plan: Plan, { measured, fullFromKg, fullToKg }: FuelToday): string {
  if (measured || fullFromKg === fullToKg) return '';
  const fuel = gaugesOf(plan)('fuelKg');
  return `${shown(fuel, fullFromKg, 'available')} with the lightest fuel of the grade, ${shown(fuel, fullToKg, 'available')} with the heaviest`;
}

export function fuelTodaySentences(plan: Plan): readonly string[] {
  const today = plan.fuelToday;
  if (today === null) return [];
  const range = rangeWords(plan, today);
  const volume = shown(gaugesOf(plan)('volumeM3'), today.takeOffVolumeM3);
  return [
    `Full tanks today: ${fullWords(plan, today)}; ${fuelWords(plan, today)}${range === '' ? '' : `; ${range}`}. At take-off ${volume}.`,
  ];
}
