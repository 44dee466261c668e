/** When a stop or a limit is met, and how its end is told. */
import type { Flight } from '../flight/flight.ts';
import { OUTSIDE_AERODYNAMICS } from '../flight/forces.ts';
import { OUTSIDE_TRACK } from '../flight/frame.ts';
import type { Moment } from '../flight/moment.ts';
import type { PhaseEnd, Stop, WatchedLimit } from './phase.ts';

export function nameOf(stop: Stop): string {
  return stop.at === 'custom' || stop.at === 'state' ? stop.name : stop.at;
}

/** Near enough to be there, in the stop's own unit; distance, time and fuel also count when passed. */
export function isMet(stop: Stop, value: number): boolean {
  switch (stop.at) {
    case 'distance':
    case 'time':
      return value >= -1e-6;
    case 'fuel':
      return value <= 1e-6;
    case 'mach':
      return Math.abs(value) <= 1e-9;
    case 'custom':
    case 'state':
      return value === 0;
    default:
      return Math.abs(value) <= 1e-6;
  }
}

/** What is left of a limit less its pad; a billionth of the bound is let pass, so that a flight may go on along its limit. */
export function margin(watched: WatchedLimit, moment: Moment): number {
  const { limit, pad } = watched;
  const value = limit.value(moment.limitInputs);
  const bound = limit.bound(moment.limitInputs);
  return (limit.side === 'upper' ? bound - value : value - bound) - pad + 1e-9 * Math.abs(bound);
}

export function limitEnd({ limit, pad }: WatchedLimit, moment: Moment, what: string): PhaseEnd {
  const value = limit.value(moment.limitInputs).toPrecision(6);
  const bound = limit.bound(moment.limitInputs).toPrecision(6);
  const padded = pad === 0 ? '' : ` with a pad of ${pad}`;
  return {
    reason: `limit:${limit.key}`,
    stop: -1,
    text: `${limit.name} ${what}: ${value} against ${bound}${padded} (${limit.source})`,
  };
}

export function outOfFuel(unusableKg: number): string {
  return `fuel is down to the ${unusableKg} kg that cannot be used`;
}

/** Why the flight cannot go on from the instant that it holds. */
export function unable(flight: Flight): PhaseEnd {
  const end = (reason: string, text: string): PhaseEnd => ({ reason, stop: -1, text });
  if (flight.frame.outside & OUTSIDE_TRACK) return end('outside:track', 'the track ends here');
  if (flight.frame.outside !== 0) return end('outside:day', `the day covers ${flight.setup.day.covers}`);
  if (flight.forces.outside !== 0) {
    const what = flight.forces.outside & OUTSIDE_AERODYNAMICS ? 'aerodynamics' : 'propulsion';
    const { mach } = flight.forces;
    const height = flight.frame.pressureAltitudeM.toFixed(0);
    return end(
      `outside:${what}`,
      `Mach ${mach.toFixed(3)} at ${height} m pressure altitude is outside the table of ${what}`,
    );
  }
  return end('thrust', 'the thrust does not suffice');
}
