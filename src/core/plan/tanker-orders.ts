/** What each tanker's crew has to know of its contacts; the rendezvous is point-parallel, both at the speed of the contact. */
import type { Refuelling, RefuellingAsked, Rendezvous, TankerOrder } from './plan.ts';
import type { Sortie } from './sortie.ts';
import { pointParallel } from './tanker-rendezvous.ts';

/** One for each refuelling, in order; times since take-off. */
export function tankerOrdersOf(
  sortie: Sortie,
  refuellings: readonly (Refuelling & RefuellingAsked)[],
  rendezvous: readonly Rendezvous[],
): TankerOrder[] {
  return refuellings.flatMap((refuelling, leg): TankerOrder[] => {
    const { end } = sortie.legs[leg];
    const meeting = rendezvous[leg];
    if (end.kind !== 'contact' || meeting === undefined) return [];
    const { bankRad, maximumMach } = end.tanker;
    const { contactS, disconnectS, trueAirspeedMS } = refuelling;
    const turn = pointParallel({ tankerMS: trueAirspeedMS, receiverMS: trueAirspeedMS, bankRad, aheadM: 0 });
    return [
      {
        tanker: refuelling.tanker,
        leg,
        timeS: contactS,
        latitudeDeg: meeting.latitudeDeg,
        longitudeDeg: meeting.longitudeDeg,
        pressureAltitudeM: refuelling.pressureAltitudeM,
        track: refuelling.track,
        calibratedAirspeedMS: refuelling.calibratedAirspeedMS,
        trueAirspeedMS,
        maximumMach,
        givesKg: refuelling.takenKg,
        durationS: disconnectS - contactS,
        trackM: meeting.trackM,
        leftKg: refuelling.offloadLeftKg,
        bankDeg: (bankRad * 180) / Math.PI,
        offsetM: turn.offsetM,
        turnS: contactS - turn.turnTimeS,
        turnTimeS: turn.turnTimeS,
        turnRangeM: turn.turnRangeM,
        closureMS: turn.closureMS,
      },
    ];
  });
}
