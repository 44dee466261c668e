/**
 * What weather that ends short of the flight leaves open: where its temperature offset was held, how far the flight went
 * beyond, and the spread of the margins there. The crew holds Mach or equivalent airspeed by its gauges, so that an error of
 * the air's temperature moves the temperatures that it meets and not those two.
 */
import type { DayGap } from '../air/day.ts';
import { spreadBeyond } from '../air/gap-spread.ts';
import { standardPressure } from '../air/standard.ts';
import { totalTemperature, totalTemperatureSlope } from '../air/thermally-perfect.ts';
import type { Draft } from './draft.ts';
import type { Log } from './log.ts';
import type { LimitSummary, WeatherGap } from './plan.ts';

/** The edges that the day holds, with what of the flight lies beyond each. */
export function gapsOf({ crew, log }: Draft): WeatherGap[] {
  const { gaps = [] } = crew.flight.setup.day.description;
  return gaps.map((gap) => {
    const flownBeyondM = Math.max(
      0,
      ...log.columns.pressureAltitudeM.map((altitude) => beyond(gap, altitude)),
    );
    const spreadK = spreadBeyond(gap, flownBeyondM);
    return {
      ...gap,
      edgePa: standardPressure(gap.edgeM),
      flownBeyondM,
      spreadK: Number.isNaN(spreadK) ? null : spreadK,
    };
  });
}

/** Below this spread [K] a gap is no matter: an analysis is no better within its data (common practice). */
const noMatterK = 0.5;

/** What the plan does not know because of a gap, as sentences of `notComputed`. */
export function openAt(gaps: readonly WeatherGap[]): string[] {
  const open = gaps.filter(
    ({ flownBeyondM, spreadK }) => flownBeyondM > 0 && (spreadK === null || spreadK >= noMatterK),
  );
  if (open.length === 0) return [];
  return ['what held weather does to thrust, fuel and time: only margins of temperature carry its spread'];
}

/** Limits of temperature with the spread of weather held where their margin is least. */
export function withWeatherSpread(limits: readonly LimitSummary[], drafted: Draft): LimitSummary[] {
  return limits.map((limit) => {
    const weatherSpread = weatherSpreadOf(limit, drafted);
    if (weatherSpread === 0) return limit;
    return { ...limit, spread: Math.sqrt(limit.spread ** 2 + weatherSpread ** 2), weatherSpread };
  });
}

function weatherSpreadOf({ quantity, timeS }: LimitSummary, { crew, log }: Draft): number {
  const { aircraft, day } = crew.flight.setup;
  const node = log.columns.timeS.findIndex((at) => at - crew.sortie.takeOff.timeS >= timeS);
  const altitude = log.columns.pressureAltitudeM[node];
  const gap = day.description.gaps?.find((candidate) => beyond(candidate, altitude) > 0);
  if (gap === undefined) return 0;
  const spreadK = spreadBeyond(gap, beyond(gap, altitude));
  if (quantity === 'temperatureK') return spreadK;
  if (quantity !== 'inletTemperatureK') return 0;
  return spreadK * inletSlope(log, node, aircraft.gauges.inletTemperatureRecovery);
}

/** Change of the indicated inlet temperature for each kelvin of the air at constant Mach. */
function inletSlope({ columns }: Log, node: number, recovery: number): number {
  const temperatureK = columns.staticTemperatureK[node];
  const totalK = totalTemperature(temperatureK, columns.trueAirspeedMS[node]);
  return 1 + recovery * (totalTemperatureSlope(temperatureK, totalK, columns.mach[node]) - 1);
}

function beyond({ side, edgeM }: DayGap, altitudeM: number): number {
  return side === 'above' ? altitudeM - edgeM : edgeM - altitudeM;
}
