/**
 * How a time on target can be met: by speed and by path, and what each is worth. Closed forms over a straight stretch in steady air;
 * ground speed in, seconds out.
 */
import { totalTemperature } from '../air/thermally-perfect.ts';
import type { Draft } from './draft.ts';
import type { Timing } from './plan.ts';

/** Seconds won over a distance [m] by going faster from one ground speed to another [m/s]; negative where slower. */
export function secondsBySpeed(distanceM: number, fromMS: number, toMS: number): number {
  return distanceM / fromMS - distanceM / toMS;
}

/**
 * How much longer a stretch is with a dogleg of an angle to each side [rad] instead of straight on: 1 / cos - 1 of it. Turns at its
 * corners are left out.
 */
export function doglegExtra(angleRad: number): number {
  return 1 / Math.cos(angleRad) - 1;
}

const degree = Math.PI / 180;
const tenth = 0.1;
const doglegDeg = 20;
/** Shorter stretches give no time. */
const leastM = 20_000;

/** One for each descent from a supersonic cruise with a straight stretch before it. */
export function timingsOf(drafted: Draft): Timing[] {
  const { log } = drafted;
  return log.events.flatMap(({ kind, timeS: toS }): Timing[] => {
    if (kind !== 'start-down' || !(log.at(log.columns.mach, toS) > 1)) return [];
    const cruise = log.phases.findLast((phase) => phase.kind === 'cruise' && phase.startS < toS);
    if (!cruise) return [];
    const rolledOutS = log.turns.findLast(({ endS }) => endS < toS)?.endS ?? cruise.startS;
    const fromS = Math.max(cruise.startS, rolledOutS);
    const distanceM = log.at(log.distanceM, toS) - log.at(log.distanceM, fromS);
    return distanceM < leastM ? [] : [timingOf(drafted, cruise.leg, fromS, toS)];
  });
}

function timingOf({ log, crew }: Draft, leg: number, fromS: number, toS: number): Timing {
  const { columns } = log;
  const takeOffS = crew.sortie.takeOff.timeS;
  const distanceM = log.at(log.distanceM, toS) - log.at(log.distanceM, fromS);
  const mach = log.at(columns.mach, toS);
  const soundMS = log.at(columns.trueAirspeedMS, toS) / mach;
  const groundSpeedMS = distanceM / (toS - fromS);
  const { fasterMach, heldBy } = roomAbove(log, crew, fromS, toS);
  const { end } = crew.sortie.legs[leg];
  return {
    leg,
    to: end.kind === 'contact' ? end.tanker.name : end.base.name,
    fromS: fromS - takeOffS,
    toS: toS - takeOffS,
    distanceM,
    groundSpeedMS,
    mach,
    fasterMach,
    heldBy,
    earlierS: secondsBySpeed(distanceM, groundSpeedMS, groundSpeedMS + fasterMach * soundMS),
    slowerMach: tenth,
    laterBySpeedS: -secondsBySpeed(distanceM, groundSpeedMS, groundSpeedMS - tenth * soundMS),
    doglegDeg,
    laterByPathS: (doglegExtra(doglegDeg * degree) * distanceM) / groundSpeedMS,
    fuelFlowKgS: (log.at(columns.fuelKg, fromS) - log.at(columns.fuelKg, toS)) / (toS - fromS),
  };
}

/** What the limits of Mach and of the inlet leave above the cruise everywhere on a stretch, their pads kept. */
function roomAbove(
  log: Draft['log'],
  { flight, sortie }: Draft['crew'],
  fromS: number,
  toS: number,
): Pick<Timing, 'fasterMach' | 'heldBy'> {
  const { timeS } = log.columns;
  let room: Pick<Timing, 'fasterMach' | 'heldBy'> = { fasterMach: tenth, heldBy: null };
  for (const { key, quantity, side } of flight.setup.aircraft.limits) {
    if (side !== 'upper' || (quantity !== 'mach' && quantity !== 'inletTemperatureK')) continue;
    for (let node = 0; node < log.nodes; node++) {
      if (timeS[node] < fromS - 1e-6 || timeS[node] > toS + 1e-6) continue;
      const left = log.margins[key][node] - (sortie.pads[key] ?? 0);
      const faster = Math.max(left / (quantity === 'mach' ? 1 : heatPerMach(log, node)), 0);
      if (faster < room.fasterMach) room = { fasterMach: faster, heldBy: key };
    }
  }
  return room;
}

/** Rise of the total temperature over a tenth of Mach, for one of Mach [K]. */
function heatPerMach({ columns }: Draft['log'], node: number): number {
  const [mach, speedMS, airK] = [columns.mach, columns.trueAirspeedMS, columns.staticTemperatureK].map(
    (column) => column[node],
  );
  const faster = totalTemperature(airK, (speedMS * (mach + tenth)) / mach);
  return (faster - totalTemperature(airK, speedMS)) / tenth;
}
