/**
 * Flies one leg of a sortie, step by step. Every step can be taken up again in its middle, so that the rest of a leg can be
 * flown from any place on it with another mass.
 */
import {
  bledEquivalentAirspeed,
  constantCalibratedAirspeed,
  constantEquivalentAirspeed,
  constantMach,
  type SpeedLaw,
} from '../flight/speed-law.ts';
import { climbToLevel, cruise, pushover } from '../phases/index.ts';
import type { Stop } from '../phases/phase.ts';
import { cruiseEveryS, LegEnd, sameAltitudeM } from './leg-end.ts';
import type { Progress } from './log.ts';
import { climbEveryS, machTolerance, type Stopped } from './route-flight.ts';
import type { ClimbStep, CruiseStep, Leg, PushoverStep } from './sortie.ts';

const manoeuvreEveryS = 4;
/** Between places in a cruise from which the rest is flown again for the fuel required. */
const anchorEveryS = 1500;
/** The best altitude is looked up again this much before the cruise Mach. */
const lateMach = 0.4;
/**
 * At the cruise Mach a climb of less than this is left to the cruise, which closes on its altitude at no more than the rate
 * below: at full power a light aircraft would climb too steeply to level off within it.
 */
const nearTargetM = 2000;
const closingRateMS = 20;

export class LegFlyer extends LegEnd {
  /** Flies from `progress`, which is moved along, to the end of the leg. */
  fly(progress: Progress): Stopped | null {
    const stopped = this.flyToDescent(progress);
    if (stopped) return stopped;
    const last = this.leg.fly[this.leg.fly.length - 1];
    return this.arrive(last?.kind === 'descend' ? last : null);
  }

  /** As `fly`, up to where the slow-down or descent to the end of the leg begins. */
  flyToDescent(progress: Progress): Stopped | null {
    this.at = progress;
    const steps = this.leg.fly;
    if (progress.track === 0 && this.route.corners[0]?.kind === 'disconnect') {
      this.anchor();
      const stopped = this.turn();
      if (stopped) return stopped;
    }
    while (progress.step < steps.length) {
      this.anchor();
      const stopped = this.step(steps[progress.step]);
      if (stopped) return stopped;
      progress.step++;
    }
    return null;
  }

  protected step(step: Leg['fly'][number]): Stopped | null {
    if (step.kind === 'climb') return this.climb(step);
    if (step.kind === 'pushover') return this.pushover(step);
    if (step.kind === 'cruise') return this.cruise(step);
    return null;
  }

  protected climb(step: ClimbStep): Stopped | null {
    const law = climbLaw(step);
    const name = `Climb at ${law.title}`;
    const atMach = constantMach(step.mach);
    if (this.mach < step.mach - machTolerance && this.isBelow(step)) {
      const slow = this.toSpeed(law, climbSpeedStop(step, this.mach), step.power, 'climb speed');
      if (slow) return slow;
      // The best altitude is that of the mass with which it is reached: it is looked up again late in the climb.
      const late = step.mach - lateMach;
      if (step.to === 'optimum' && this.mach < late && this.isBelow(step)) {
        const stopped = this.climbOn(step, law, name, [{ at: 'mach', mach: late }]);
        if (stopped) return stopped;
      }
      const stopped = this.climbOn(step, law, name, [{ at: 'mach', mach: step.mach }]);
      if (stopped) return stopped;
      this.gateHere();
    }
    if (this.mach < step.mach - machTolerance) return this.toMach(step.mach, step.power);
    const left = this.targetOf(step) - this.state.pressureAltitudeM;
    if (left < (step.to === 'optimum' ? nearTargetM : 1)) return null;
    return this.climbOn(step, atMach, `Climb at ${atMach.title}`, []);
  }

  /** Climbs on a law until one of `stops` or level at the step's altitude. */
  protected climbOn(step: ClimbStep, law: SpeedLaw, name: string, stops: Stop[]): Stopped | null {
    const { flight } = this.crew;
    const gates = this.gatesTo(step.mach);
    const goal = { loadFactor: step.levelOffLoadFactor, onsetPerS: flight.setup.aircraft.rates.onsetPerS };
    return this.along(
      (more) =>
        this.phase('climb', name, () => {
          const level = { ...goal, pressureAltitudeM: this.targetOf(step) };
          const end = climbToLevel(
            flight,
            this.state,
            this.track,
            {
              law,
              power: step.power,
              stops: [...stops, ...more],
              limits: this.watched,
              gates: gates.map((mach) => ({ at: 'mach', mach })),
              recorder: this.recorder(climbEveryS, (index, at) => this.gate(gates[index], at, at.fuelKg)),
            },
            level,
          );
          this.noteLevelOff(end, level);
          return end;
        }),
      (end) =>
        end.reason === 'level' ||
        (end.stop >= 0 && end.stop < stops.length) ||
        // Too near and too steep to level off there: the cruise that follows closes on the altitude.
        (end.reason === 'manoeuvre' && step.to === 'optimum'),
      constantMach(step.mach),
    );
  }

  private isBelow(step: ClimbStep): boolean {
    return this.state.pressureAltitudeM < this.targetOf(step) - 1;
  }

  protected targetOf(step: ClimbStep): number {
    if (step.to !== 'optimum') return step.to;
    const held = this.held?.climbToM[this.at.step];
    if (held !== undefined) return held;
    const target = this.optimum(step.mach, this.state.massKg);
    this.decisions.climbToM[this.at.step] = target;
    return target;
  }

  /** The day's best cruise altitude here for a mass; where something stops it the table's nearest. */
  protected optimum(mach: number, massKg: number): number {
    const table = this.crew.altitudes(mach);
    const { temperatureOffsetK } = this.air;
    const nearM = table.altitudeM(massKg, temperatureOffsetK);
    const apparent = this.apparentMass(constantMach(mach), nearM);
    return table.altitudeM(massKg * apparent, temperatureOffsetK);
  }

  /** Of a kilogram that flies level by a law on this track, at an altitude above this place: see Flight. */
  private apparentMass(law: SpeedLaw, pressureAltitudeM: number): number {
    const { flight } = this.crew;
    const { distanceM, massKg, timeS } = this.state;
    flight.placeOnTrack(this.track, distanceM, pressureAltitudeM, timeS);
    flight.levelOnLaw(law, massKg);
    return flight.apparentMass;
  }

  protected pushover(step: PushoverStep): Stopped | null {
    const slow = this.toMach(step.mach, step.power);
    if (slow) return slow;
    const end = this.phase('pushover', 'Pushover', () =>
      pushover(this.crew.flight, this.state, this.track, {
        power: step.power,
        pushLoadFactor: step.loadFactor,
        pathAngleRad: step.angleRad,
        pullLoadFactor: step.pullLoadFactor,
        bottomPressureAltitudeM: step.bottomM,
        rule: 'onsetRelease',
        held: this.held?.pushover ?? undefined,
        near: this.near?.pushover ?? undefined,
        recorder: this.recorder(manoeuvreEveryS),
      }),
    );
    if (end.reason !== 'bottom') return this.stopped(end);
    if (!this.held) this.decisions.pushover = end.solution;
    const corner = this.at.track < this.route.corners.length ? this.turnPointM() : null;
    if (corner === null || this.state.distanceM < corner) return null;
    const name = this.route.corners[this.at.track].name;
    return { reason: 'route', text: `the pushover runs into the turn at ${name}`, phase: 'Pushover' };
  }

  protected cruise(step: CruiseStep): Stopped | null {
    const law = constantMach(step.mach);
    const slow = this.toMach(step.mach, 'full');
    if (slow) return slow;
    const offM = step.altitude === 'optimum' ? 0 : this.state.pressureAltitudeM - step.altitude;
    if (Math.abs(offM) > sameAltitudeM) {
      const text = `the cruise begins ${Math.abs(offM).toFixed(0)} m ${offM > 0 ? 'above' : 'below'} its altitude: nothing flown before it ends there`;
      return { reason: 'route', text, phase: `Cruise at ${law.title}` };
    }
    this.log?.event('cruise', `cruise at ${law.title}`, this.state.timeS, this.fuelKg);
    const { flight } = this.crew;
    const table = step.altitude === 'optimum' ? this.crew.altitudes(step.mach) : null;
    const altitude = table
      ? {
          target: (mass: number, offset: number) => table.altitudeM(mass * flight.apparentMass, offset),
          greatestRateMS: closingRateMS,
        }
      : ('hold' as const);
    const name = step.altitude === 'optimum' ? `Cruise climb at ${law.title}` : `Cruise at ${law.title}`;
    for (;;) {
      const startDown = this.at.track === this.inbound ? this.startDownM() : null;
      if (startDown !== null && this.state.distanceM >= startDown - 1) return null;
      const until = this.state.timeS + anchorEveryS;
      const stops: Stop[] = [{ at: 'time', timeS: this.log ? until : Infinity }];
      if (startDown !== null) stops.push({ at: 'distance', distanceM: startDown });
      const onTrack = this.at.track;
      const stopped = this.along(
        (more) =>
          this.at.track !== onTrack
            ? { reason: 'nextTrack', stop: -1, text: '' }
            : this.phase('cruise', name, () =>
                cruise(this.crew.flight, this.state, this.track, {
                  law,
                  altitude,
                  stops: [...stops, ...more],
                  limits: this.watched,
                  recorder: this.recorder(cruiseEveryS),
                }),
              ),
        (end) => end.reason === 'nextTrack' || (end.stop >= 0 && end.stop < stops.length),
      );
      if (stopped) return stopped;
      this.anchor();
    }
  }
}

/** What ends a level acceleration to the speed of a climb that begins at a Mach. */
export function climbSpeedStop(step: ClimbStep, mach: number): Stop {
  const { kind, valueMS } = step.speed;
  if (kind === 'CAS') return { at: 'calibratedAirspeed', speedMS: valueMS };
  const { bleed } = step;
  if (!bleed || mach <= bleed.breakMach) return { at: 'equivalentAirspeed', speedMS: valueMS };
  return { at: 'equivalentAirspeed', speedMS: valueMS - bleed.slopeMS * (mach - bleed.breakMach) };
}

export function climbLaw(step: ClimbStep): SpeedLaw {
  if (step.speed.kind === 'CAS') return constantCalibratedAirspeed(step.speed.valueMS);
  if (step.bleed) return bledEquivalentAirspeed(step.speed.valueMS, step.bleed.breakMach, step.bleed.slopeMS);
  return constantEquivalentAirspeed(step.speed.valueMS);
}
