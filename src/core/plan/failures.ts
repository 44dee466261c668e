/** The aircraft after a failure, made ready to fly. */
import type { Day } from '../air/day.ts';
import type { Aircraft, Balance, Propulsion } from '../aircraft/aircraft.ts';
import type { FailureCase } from '../aircraft/failures.ts';
import { ROTATING_EARTH } from '../flight/earth-model.ts';
import { Flight, type Tolerance, type Variation } from '../flight/flight.ts';

/** Steps of a flight that is integrated: as long as its air allows. */
const COARSE: Tolerance = {
  relative: 2e-5,
  distanceM: 200,
  altitudeM: 10,
  speedMS: 0.3,
  angleRad: 2e-3,
  massKg: 3,
  eventTimeS: 0.05,
};
/** Of the empty mass, what more than there is may be burnt: less than nothing on arrival is what was missing. */
const OWED_PART = 0.25;

/** The aircraft of a failure on a day; `tolerance` is of the integration. */
export function flightAfter(
  failure: FailureCase,
  aircraft: Aircraft,
  day: Day,
  tolerance: Tolerance = COARSE,
): Flight {
  const variation: Partial<Variation> = {
    dragIncrement: failure.dragIncrement,
    thrustFactor: failure.thrustFactor,
    fuelFlowFactor: failure.fuelFlowFactor,
    runningEngines: failure.enginesLeft,
  };
  return new Flight({
    aircraft: {
      ...aircraft,
      propulsion: upTo(aircraft.propulsion, failure.greatestPower),
      balance: owing(aircraft.balance),
    },
    day: withoutLevels(day),
    earth: ROTATING_EARTH,
    tolerance,
    zeroFuelMassKg: aircraft.balance.emptyMassKg,
    variation,
  });
}

/** Tanks that may go on below nothing, with the centre of gravity of empty ones. */
function owing(balance: Balance): Balance {
  return {
    ...balance,
    unusableFuelKg: -OWED_PART * balance.emptyMassKg,
    cgFraction: (fuelKg, mach) => balance.cgFraction(Math.max(fuelKg, 0), mach),
  };
}

/** Engines that go no further than a setting. */
function upTo(propulsion: Propulsion, greatest: number): Propulsion {
  if (greatest >= propulsion.maximum) return propulsion;
  const { minimumAfterburner, military, descent } = propulsion;
  return {
    ...propulsion,
    maximum: greatest,
    military: Math.min(military, greatest),
    descent: Math.min(descent, greatest),
    minimumAfterburner:
      minimumAfterburner !== null && minimumAfterburner <= greatest ? minimumAfterburner : null,
    powerFor(thrustN, mach, pressureAltitudeM, geometricHeightM, temperatureOffsetK, out) {
      propulsion.powerFor(thrustN, mach, pressureAltitudeM, geometricHeightM, temperatureOffsetK, out);
      if (out.power > greatest) out.power = Number.NaN;
    },
  };
}

/** A line flown once is not worth preparing its air: the day is read where the aircraft is, and its levels stop no step. */
function withoutLevels(day: Day): Day {
  return {
    description: day.description,
    covers: day.covers,
    levelsM: [],
    steady: day.steady,
    timesS: day.timesS,
    sample: (latitudeRad, longitudeRad, pressureAltitudeM, timeS, air) =>
      day.sample(latitudeRad, longitudeRad, pressureAltitudeM, timeS, air),
  };
}
