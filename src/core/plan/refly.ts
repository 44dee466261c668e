/**
 * A planned sortie flown again as it was decided, on another day or with another aircraft: for risk, for what a driver costs, for
 * what was flown. Turns begin where they were planned to, the descent where it was planned to, the contact gives what was
 * planned; only what physics makes of it differs.
 */
import type { Day } from '../air/day.ts';
import type { Variation } from '../flight/setup.ts';
import { crewOf, type PlanRequest } from './draft.ts';
import { Log } from './log.ts';
import type { LegDecisions, Plan } from './plan.ts';
import type { Crew } from './route-flight.ts';
import { flySortie } from './sortie-flyer.ts';

/** What differs from the plan; all of it may be left out. */
export interface Draw extends Partial<Variation> {
  /** Added to the temperature of the day at every pressure altitude [K]. */
  readonly temperatureK?: number;
  /** Added to the wind of the day [m/s]. */
  readonly windEastMS?: number;
  readonly windNorthMS?: number;
}

export interface Reflown {
  /** Fuel at the end of each leg: at each contact before fuel comes, and after the approach on landing. */
  readonly fuelKg: number[];
  /** Seconds since take-off at the same places. */
  readonly timeS: number[];
  /** Least margin of each limit by its key; empty unless asked for. */
  readonly leastMargins: Readonly<Record<string, number>>;
  /** Where it could not be flown on: the reason and the phase; null where it was flown to the end. */
  readonly stopped: { readonly reason: string; readonly phase: string } | null;
  readonly evaluations: number;
}

/** Prepared once for many draws. */
export class Refly {
  private readonly request: PlanRequest;
  private readonly decisions: readonly LegDecisions[];
  private readonly altitudes: Crew['altitudes'];

  constructor(request: PlanRequest, plan: Pick<Plan, 'decisions'>) {
    this.request = request;
    this.decisions = plan.decisions;
    this.altitudes = crewOf(request).altitudes;
  }

  /** Flies one draw; `withMargins` records the flight and tells how near each limit came. */
  fly(draw: Draw, withMargins = false): Reflown {
    const { request } = this;
    const day = changedDay(request.day, draw);
    const fresh = crewOf({ ...request, day }, draw);
    const crew: Crew = { ...fresh, altitudes: this.altitudes };
    const log = withMargins ? new Log(request.aircraft.limits) : null;
    const flown = flySortie(crew, this.decisions, log);
    const takeOffS = request.sortie.takeOff.timeS;
    const fuelKg = flown.legs.map((leg) => leg.endFuelKg);
    const timeS = flown.legs.map((leg) => leg.end.state.timeS - takeOffS);
    if (!Number.isNaN(flown.landingFuelKg)) {
      fuelKg[fuelKg.length - 1] = flown.landingFuelKg;
      timeS[timeS.length - 1] = flown.landingTimeS - takeOffS;
    }
    const least = (margins: readonly number[]): number =>
      margins.reduce((a, b) => Math.min(b, a), Number.POSITIVE_INFINITY);
    return {
      fuelKg,
      timeS,
      leastMargins: log
        ? Object.fromEntries(Object.entries(log.margins).map(([key, margins]) => [key, least(margins)]))
        : {},
      stopped: flown.stopped && { reason: flown.stopped.reason, phase: flown.stopped.phase },
      evaluations: crew.flight.evaluations,
    };
  }
}

/** The day with a constant change of temperature and wind. Heights of pressure levels are left as they were. */
function changedDay(day: Day, { temperatureK = 0, windEastMS = 0, windNorthMS = 0 }: Draw): Day {
  if (temperatureK === 0 && windEastMS === 0 && windNorthMS === 0) return day;
  return {
    description: day.description,
    covers: day.covers,
    levelsM: day.levelsM,
    steady: day.steady,
    timesS: day.timesS,
    sample(latitudeRad, longitudeRad, pressureAltitudeM, timeS, air) {
      day.sample(latitudeRad, longitudeRad, pressureAltitudeM, timeS, air);
      const ratio = (air.temperatureK + temperatureK) / air.temperatureK;
      air.temperatureK += temperatureK;
      air.temperatureOffsetK += temperatureK;
      air.densityKgM3 /= ratio;
      air.speedOfSoundMS *= Math.sqrt(ratio);
      air.windEastMS += windEastMS;
      air.windNorthMS += windNorthMS;
    },
  };
}
