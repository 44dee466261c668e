/** Where a sortie can go from its plan: the bases that it names and its tankers, as goals of a flight. */
import type { Day } from '../air/day.ts';
import { pressureAltitudeAt } from './ground.ts';
import { patternHeightM } from './leg-end.ts';
import type { ReachEnd, Refuelling } from './plan.ts';
import type { Goal } from './reach-flight.ts';
import type { Sortie, Tanker } from './sortie.ts';

const degrees = 180 / Math.PI;

export interface Choice extends ReachEnd {
  readonly goal: Goal;
  /** Of a tanker: the moments, since take-off, at which it is there to be joined. */
  readonly joinable: { readonly fromS: number; readonly toS: number } | null;
}

/** Bases first, then the tankers of the contacts that were flown, each with the time from which and until when it is there. */
export function choicesOf(sortie: Sortie, refuellings: readonly Refuelling[], day: Day): readonly Choice[] {
  const bases = sortie.bases.map((base): Choice => {
    const pressureAltitudeM = pressureAltitudeAt(
      day,
      base,
      base.elevationM + patternHeightM,
      sortie.takeOff.timeS,
    );
    const { name, latitudeRad, longitudeRad } = base;
    const goal = {
      latitudeRad,
      longitudeRad,
      pressureAltitudeM,
      calibratedAirspeedMS: null,
      approach: sortie.approach,
    };
    return { kind: 'base', ...placed(name, goal), goal, joinable: null };
  });
  const tankers = refuellings.flatMap((refuelling, leg): Choice[] => {
    const end = sortie.legs[leg]?.end;
    if (end?.kind !== 'contact') return [];
    const goal = goalOf(end.tanker);
    const fromS = end.tanker.flight === null ? 0 : end.tanker.flight.fromS - sortie.takeOff.timeS;
    return [
      {
        kind: 'tanker',
        ...placed(end.tanker.name, goal),
        goal,
        joinable: { fromS, toS: refuelling.contactS },
      },
    ];
  });
  return [...bases, ...tankers];
}

function goalOf({ latitudeRad, longitudeRad, pressureAltitudeM, calibratedAirspeedMS }: Tanker): Goal {
  return {
    latitudeRad,
    longitudeRad,
    pressureAltitudeM,
    calibratedAirspeedMS,
    approach: { fuelKg: 0, timeS: 0 },
  };
}

function placed(name: string, { latitudeRad, longitudeRad }: Goal) {
  return { name, latitudeDeg: latitudeRad * degrees, longitudeDeg: longitudeRad * degrees };
}
