/** Turns, level-offs, start-downs and rendezvous of the plan of the tests, read off its columns. */
import { calibratedAirspeed, equivalentAirspeed } from '../../src/core/air/airdata.ts';
import { speedOfSound, standardPressure, standardTemperature } from '../../src/core/air/standard.ts';
import type {
  JudgedTurn,
  LevelOff,
  PlanPhase,
  Refuelling,
  Rendezvous,
  StartDownTable,
  TraceColumn,
  TurnFlown,
} from '../../src/core/plan/plan.ts';

type Columns = Record<TraceColumn, number[]>;

function at(columns: Columns, timeS: number): number {
  return columns.timeS.findIndex((t) => t >= timeS - 1e-6);
}

/** One turn each for the phases of that kind: 30 degrees of bank, to the right. */
export function turnsOf(phases: readonly PlanPhase[], columns: Columns): (TurnFlown & JudgedTurn)[] {
  return phases
    .filter(({ kind }) => kind === 'turn')
    .map((phase) => {
      const node = at(columns, phase.startS);
      return {
        name: phase.name.replace('Turn at ', ''),
        leg: phase.leg,
        startS: phase.startS,
        rollInS: phase.startS,
        endS: phase.endS,
        mach: columns.mach[node],
        bankDeg: 30,
        radiusM: 123_600,
        leadM: 176_500,
        courseFromDeg: 40,
        courseToDeg: 150,
        magneticFromDeg: 46,
        magneticToDeg: 156,
        compass: 'good',
        fuelKg: phase.fuelKg,
        rollOutM: 177_900,
        bankLimitedBy: 'thrust',
        leadS: 176_500 / 840,
        groundSpeedMS: 840,
        pressureAltitudeM: columns.pressureAltitudeM[node],
        loadFactor: 1.1547,
        machChange: 0,
        pressureAltitudeChangeM: 0,
        nearest: {
          timeS: phase.startS + 30,
          loadFactor: 1.1547,
          bounds: { warning: 1.5, push: 1.9, symmetric: 1.9, rolling: 1.6, held: null, sustained: 1.2 },
        },
      };
    });
}

export function levelOffsOf(phases: readonly PlanPhase[], columns: Columns): LevelOff[] {
  return phases
    .filter(({ kind }) => kind === 'level-off')
    .map(({ leg, endS, startS }) => ({
      leg,
      timeS: endS,
      pressureAltitudeM: columns.pressureAltitudeM[at(columns, endS)],
      leadM: 55.9,
      loadFactor: 0.9,
      phase: 'Climb at 430 KEAS',
      climbRateMS: 8.8,
      fromS: startS,
      machFrom: columns.mach[at(columns, startS)],
      mach: columns.mach[at(columns, endS)],
      equivalentAirspeedMS: columns.equivalentAirspeedMS[at(columns, endS)],
    }));
}

/** From the start of each deceleration to the end of the descent after it, at a mean (D - T) / W of 0.1. */
export function startDownsOf(phases: readonly PlanPhase[], columns: Columns): StartDownTable[] {
  return phases.flatMap((phase, i) => {
    if (phase.kind !== 'deceleration') return [];
    const [start, end] = [at(columns, phase.startS), at(columns, phases[i + 1].endS)];
    const row = (node: number) => ({
      timeS: columns.timeS[node],
      mach: columns.mach[node],
      equivalentAirspeedMS: columns.equivalentAirspeedMS[node],
      pressureAltitudeM: columns.pressureAltitudeM[node],
      distanceToGoM: columns.distanceM[end] - columns.distanceM[node] + 28_000,
      fuelKg: columns.fuelKg[node],
      fuelRequiredKg: columns.fuelRequiredKg[node],
    });
    const lostM = columns.energyHeightM[start] - columns.energyHeightM[end];
    return [
      {
        leg: phase.leg,
        to: phase.leg === 1 ? 'Ewer Two' : 'Larkmoor',
        timeS: phase.startS,
        latitudeDeg: columns.latitudeDeg[start],
        longitudeDeg: columns.longitudeDeg[start],
        distanceToGoM: row(start).distanceToGoM,
        after: phase.leg === 1 ? { name: 'Harrow Bay', distanceM: 800_000 } : null,
        groundSpeedMS: 945,
        perKgM: -1.01,
        levelM: 28_000,
        energy: {
          fromM: columns.energyHeightM[start],
          toM: columns.energyHeightM[end],
          fromWindM: 0,
          meanSlope: 0.1,
          airDistanceM: lostM / 0.1,
          distanceM: columns.distanceM[end] - columns.distanceM[start],
        },
        held: { rules: [], cabin: null },
        rows: [row(start), row(Math.round((start + end) / 2)), row(end)],
      },
    ];
  });
}

export function rendezvousOf(refuellings: readonly Refuelling[], columns: Columns): Rendezvous[] {
  return refuellings.map((refuelling) => {
    const node = at(columns, refuelling.contactS);
    const { pressureAltitudeM } = refuelling;
    const temperatureK = columns.temperatureK[node];
    const speeds = (mach: number) => ({
      calibratedAirspeedMS: calibratedAirspeed(mach, standardPressure(pressureAltitudeM)),
      equivalentAirspeedMS: equivalentAirspeed(mach, standardPressure(pressureAltitudeM)),
      mach,
      trueAirspeedMS: mach * speedOfSound(temperatureK),
    });
    return {
      tanker: refuelling.tanker,
      latitudeDeg: columns.latitudeDeg[node],
      longitudeDeg: columns.longitudeDeg[node],
      pressureAltitudeM,
      temperatureK,
      temperatureOffsetK: columns.temperatureOffsetK[node],
      contact: speeds(refuelling.mach),
      trueAirspeedOnStandardDayMS: refuelling.mach * speedOfSound(standardTemperature(pressureAltitudeM)),
      greatest: speeds(0.8),
      groundSpeedMS: columns.groundSpeedMS[node],
      trackM: 150_000,
      massAtDisconnectKg: columns.massKg[at(columns, refuelling.disconnectS)],
    };
  });
}
