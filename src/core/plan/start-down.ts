/** Where to start down: the point, what it does to be late or heavy, the energy to lose, and the gates on the way. */

import { standardGravity } from '../quantities/constants.ts';
import { type Descent, descentHeld, descentsOf } from './descent-held.ts';
import type { Draft } from './draft.ts';
import type { Log } from './log.ts';
import type { EnergyLost, StartDownRow, StartDownTable } from './plan.ts';

const gateEveryMach = 0.5;
/** A gate this near to the start would repeat its row. */
const nearMach = 0.05;

/** One table for each descent that was flown to its level-off. */
export function startDownsOf(drafted: Draft, requiredKg: readonly number[]): StartDownTable[] {
  return descentsOf(drafted.log).map((descent) => tableOf(drafted, requiredKg, descent));
}

function tableOf(
  drafted: Draft,
  requiredKg: readonly number[],
  { startS, levelS, leg }: Descent,
): StartDownTable {
  const { log, crew, flown } = drafted;
  const { columns } = log;
  const { end } = crew.sortie.legs[leg];
  const degrees = 180 / Math.PI;
  const startM = log.at(log.distanceM, startS);
  const endM = log.endOfLegM(startS);
  const takeOffS = crew.sortie.takeOff.timeS;
  const level = log.phases.filter((phase) => phase.leg === leg && phase.kind === 'level');
  const turn = log.turns.findLast((made) => made.leg === leg && made.endS <= startS + 1e-6);
  const row = (timeS: number, mach = log.at(columns.mach, timeS)): StartDownRow => ({
    timeS: timeS - takeOffS,
    mach,
    equivalentAirspeedMS: log.at(columns.equivalentAirspeedMS, timeS),
    pressureAltitudeM: log.at(columns.pressureAltitudeM, timeS),
    distanceToGoM: endM - log.at(log.distanceM, timeS),
    fuelKg: log.at(columns.fuelKg, timeS),
    fuelRequiredKg: log.at(requiredKg, timeS),
  });
  const gates = gatesDown(log, startS, levelS).map(({ timeS, mach }) => row(timeS, mach));
  return {
    leg,
    to: end.kind === 'contact' ? end.tanker.name : end.base.name,
    timeS: startS - takeOffS,
    latitudeDeg: log.at(columns.latitudeRad, startS) * degrees,
    longitudeDeg: log.at(columns.longitudeRad, startS) * degrees,
    distanceToGoM: endM - startM,
    after: turn
      ? { name: turn.name, distanceM: turn.rollOutM + startM - log.at(log.distanceM, turn.endS) }
      : null,
    groundSpeedMS: log.footSpeedAt(startS),
    perKgM: flown.legs[leg]?.decisions.startDown?.perKgM ?? null,
    levelM: level.reduce((sum, phase) => sum + phase.distanceM, 0),
    energy: energyLost(log, startS, levelS),
    held: descentHeld(drafted, { startS, levelS, leg }),
    rows: [row(startS), ...gates, row(levelS)],
  };
}

/** Whole halves of Mach below that of the start, down to the one above that of the end, with the moment each is passed. */
function gatesDown(log: Log, startS: number, levelS: number): { timeS: number; mach: number }[] {
  const { timeS, mach } = log.columns;
  const gates: { timeS: number; mach: number }[] = [];
  let next = Math.ceil((log.at(mach, startS) - nearMach) / gateEveryMach - 1) * gateEveryMach;
  for (let node = 1; node < log.nodes && next > 0; node++) {
    if (timeS[node] <= startS || timeS[node] > levelS + 1e-6) continue;
    const [from, to] = [mach[node - 1], mach[node]];
    while (from > to && from >= next && to < next) {
      gates.push({
        mach: next,
        timeS: timeS[node - 1] + ((from - next) / (from - to)) * (timeS[node] - timeS[node - 1]),
      });
      next -= gateEveryMach;
    }
  }
  return gates;
}

/**
 * Energy height lost from one moment to another, what the change of the wind gives to it, -V dw / g, and the mean slope (D - T) / W over
 * the way through the air, all by the trapezoid of the kept nodes. What is lost and given, divided by the slope, is that way but for
 * what the Earth's curvature and rotation and the fall of gravity add, below 1 %.
 */
export function energyLost(
  log: Pick<Log, 'columns' | 'distanceM' | 'at'>,
  startS: number,
  endS: number,
): EnergyLost {
  const { timeS, energyHeightM, dragN, thrustN, massKg, trueAirspeedMS, tailwindMS } = log.columns;
  const slope = (at: number) => (dragN[at] - thrustN[at]) / (massKg[at] * standardGravity);
  let airDistanceM = 0;
  let lostM = 0;
  let fromWindM = 0;
  for (let b = 1; b < timeS.length; b++) {
    const a = b - 1;
    const seconds = Math.min(timeS[b], endS) - Math.max(timeS[a], startS);
    if (seconds <= 0) continue;
    airDistanceM += 0.5 * seconds * (trueAirspeedMS[a] + trueAirspeedMS[b]);
    lostM += 0.5 * seconds * (slope(a) * trueAirspeedMS[a] + slope(b) * trueAirspeedMS[b]);
    const part = seconds / (timeS[b] - timeS[a]);
    const speed = 0.5 * (trueAirspeedMS[a] + trueAirspeedMS[b]);
    fromWindM -= (part * speed * (tailwindMS[b] - tailwindMS[a])) / standardGravity;
  }
  return {
    fromM: log.at(energyHeightM, startS),
    toM: log.at(energyHeightM, endS),
    fromWindM,
    meanSlope: lostM / airDistanceM,
    airDistanceM,
    distanceM: log.at(log.distanceM, endS) - log.at(log.distanceM, startS),
  };
}
