/** What the crews of receiver and tanker have to agree on at each contact. */
import { calibratedAirspeed, equivalentAirspeed } from '../air/airdata.ts';
import { speedOfSound, standardPressure, standardTemperature } from '../air/standard.ts';
import type { Draft } from './draft.ts';
import type { FourSpeeds, Rendezvous } from './plan.ts';

/** One for each refuelling that was flown, from the node of the contact. */
export function rendezvousOf({ log, crew, flown }: Draft): Rendezvous[] {
  const { columns } = log;
  const degrees = 180 / Math.PI;
  return flown.refuellings.flatMap((refuelling, leg) => {
    const { end } = crew.sortie.legs[leg];
    if (end.kind !== 'contact') return [];
    const { tanker } = end;
    const { contactS, disconnectS } = refuelling;
    const temperatureK = log.at(columns.staticTemperatureK, contactS);
    const speeds = (mach: number) => fourSpeeds(mach, tanker.pressureAltitudeM, temperatureK);
    return [
      {
        tanker: tanker.name,
        latitudeDeg: tanker.latitudeRad * degrees,
        longitudeDeg: tanker.longitudeRad * degrees,
        pressureAltitudeM: tanker.pressureAltitudeM,
        temperatureK,
        temperatureOffsetK: log.at(columns.temperatureOffsetK, contactS),
        contact: speeds(refuelling.mach),
        trueAirspeedOnStandardDayMS:
          refuelling.mach * speedOfSound(standardTemperature(tanker.pressureAltitudeM)),
        greatest: speeds(tanker.maximumMach),
        groundSpeedMS: log.footSpeedAt(contactS),
        trackM: log.at(log.distanceM, disconnectS) - log.at(log.distanceM, contactS),
        massAtDisconnectKg: log.at(columns.massKg, disconnectS),
      },
    ];
  });
}

/** A Mach at a pressure altitude [m] and temperature [K] as calibrated, equivalent and true airspeed. */
export function fourSpeeds(mach: number, pressureAltitudeM: number, temperatureK: number): FourSpeeds {
  const pressure = standardPressure(pressureAltitudeM);
  return {
    calibratedAirspeedMS: calibratedAirspeed(mach, pressure),
    equivalentAirspeedMS: equivalentAirspeed(mach, pressure),
    mach,
    trueAirspeedMS: mach * speedOfSound(temperatureK),
  };
}
