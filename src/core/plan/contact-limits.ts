/** What a tanker allows in contact, with the waivers that hold then: each limit is moved by its own waiver alone. */
import { machFromCalibrated } from '../air/airdata.ts';
import { standardPressure } from '../air/standard.ts';
import type { WaiverUsed } from './plan-contact.ts';
import type { Stopped } from './route-flight.ts';
import type { Tanker, Waiver } from './sortie.ts';

type Key = Waiver['of'];

/** What is asked for, what the limit is, and what it is with a waiver. */
interface Limited {
  readonly of: Key;
  readonly asked: number;
  readonly limit: number;
  readonly waiver: Waiver | null;
}

function limitsOf(tanker: Tanker, timeS: number): Limited[] {
  const { pressureAltitudeM, calibratedAirspeedMS, maximumMach, maximumCalibratedAirspeedMS } = tanker;
  const waiver = (of: Key) => tanker.waivers.find((one) => one.of === of && timeS <= one.untilS) ?? null;
  const mach = machFromCalibrated(calibratedAirspeedMS, standardPressure(pressureAltitudeM));
  const limited = (of: Key, asked: number, limit: number) => ({ of, asked, limit, waiver: waiver(of) });
  return [
    limited('maximumMach', mach, maximumMach),
    ...(maximumCalibratedAirspeedMS === null
      ? []
      : [limited('maximumCalibratedAirspeedMS', calibratedAirspeedMS, maximumCalibratedAirspeedMS)]),
  ];
}

/** A contact that a limit of the tanker forbids at a time [s since 1970]; null where all allow it. */
export function refusedBy(tanker: Tanker, timeS: number): Stopped | null {
  const over = limitsOf(tanker, timeS).find(({ asked, limit, waiver }) => asked > (waiver?.value ?? limit));
  if (!over) return null;
  const bound = over.waiver?.value ?? over.limit;
  const mach = over.of === 'maximumMach';
  const show = (value: number) => (mach ? `Mach ${value.toFixed(3)}` : `CAS ${value.toFixed(1)} m/s`);
  const waived = over.waiver ? 'the waiver of the limit' : 'the limit';
  return {
    reason: mach ? 'tankerMach' : 'tankerSpeed',
    text: `contact at ${show(over.asked)} is above ${show(bound)}, ${waived} of ${tanker.name}`,
    phase: `Contact with ${tanker.name}`,
  };
}

/** The waivers without which a contact would be refused. */
export function waiversUsed(tanker: Tanker, timeS: number): WaiverUsed[] {
  return limitsOf(tanker, timeS).flatMap(({ asked, limit, waiver }) =>
    waiver !== null && asked > limit ? [{ ...waiver, limit }] : [],
  );
}
