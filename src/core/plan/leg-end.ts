/** The end of a leg: where its slow-down or descent begins, the descent, the level stretch, the turn onto a refuelling track. */

import { holds, leastDescentPower, roomToEnd } from '../aircraft/descent.ts';
import { constantCalibratedAirspeed, constantEquivalentAirspeed, constantMach } from '../flight/speed-law.ts';
import {
  accelerate,
  climb,
  climbToLevel,
  cruise,
  hold,
  type LevelOffOptions,
  type LevelOffResult,
} from '../phases/index.ts';
import type { Power, Stop } from '../phases/phase.ts';
import { standardGravity } from '../quantities/constants.ts';
import { pressureAltitudeAt } from './ground.ts';
import { copyProgress, newProgress } from './log.ts';
import { courseChange, leadEstimate } from './route.ts';
import { leastTurnRad, newDecisions, RouteFlight, type Stopped } from './route-flight.ts';
import type { Base, DescendStep } from './sortie.ts';

/** Speed within this of Mach 1 has reached it. */
const nearMach = 1e-6;

function isSupersonic(mach: number): boolean {
  return mach > 1 + nearMach;
}

const descentEveryS = 30;
export const cruiseEveryS = 120;
const descentPullLoadFactor = 1.1;
const descentRule = 'rule of the descent';
/** The descent is worked out for an aircraft lighter by this too: light aircraft go down less steeply. */
const lighterKg = 4000;
/** (D - T) / W of a descent (common practice), and how much further out its length is worked out by flying it. */
const idleSlope = 0.1;
const farFactor = 1.6;
/** A contact without a descent before it is joined at its altitude to this. */
export const sameAltitudeM = 30;
/** A descent may end this far beyond the end of its leg. */
const overshootM = 3000;
/** Level stretch kept before a contact that is reached without a descent. */
const defaultLevelM = 10_000;
/** Height of the pattern above a base (common practice, 1500 ft). */
export const patternHeightM = 457.2;

export class LegEnd extends RouteFlight {
  /** Index of the track on which the descent lies. */
  protected get inbound(): number {
    return this.route.tracks.length - (this.leg.end.kind === 'contact' ? 2 : 1);
  }

  /** Fuel with which the slow-down or descent was begun; NaN before. */
  startDownKg = Number.NaN;

  /** Where on the inbound track the slow-down or descent to the end of the leg begins; solved for once, or held. */
  private startDownOnceM: number | null = null;

  protected startDownM(): number {
    const last = this.leg.fly[this.leg.fly.length - 1];
    const step = last?.kind === 'descend' ? last : null;
    const endM = this.levelFromM(step);
    const decided = this.decisions.startDown;
    if (this.startDownOnceM !== null) return this.startDownOnceM;
    const short = endM - farFactor * this.energyLengthM();
    if (this.state.distanceM < short - 1000) return short;
    const { massKg } = this.state;
    if (decided) {
      const part = (this.state.distanceM - decided.fromM) / Math.max(decided.distanceM - decided.fromM, 1);
      const plannedKg = decided.massKg + part * (decided.massThereKg - decided.massKg);
      this.startDownOnceM = decided.distanceM + decided.perKgM * (massKg - plannedKg);
      return this.startDownOnceM;
    }
    const lengthM = this.descentLengthM(step, massKg);
    const startM = endM - lengthM;
    this.decisions.startDown = {
      distanceM: startM,
      perKgM: this.crew.once ? Number.NaN : this.perKgM(step, massKg, lengthM),
      fromM: this.state.distanceM,
      massKg,
      massThereKg: massKg,
    };
    this.startDownOnceM = startM;
    return startM;
  }

  /** How the start of a descent of some length moves on for an aircraft that is heavier, by flying it lighter. */
  private perKgM(step: DescendStep | null, massKg: number, lengthM: number): number {
    return (this.descentLengthM(step, massKg - lighterKg) - lengthM) / lighterKg;
  }

  /** Rough length of the descent: the energy height to lose over the slope of an idle descent. */
  private energyLengthM(): number {
    const { end } = this.leg;
    const { pressureAltitudeM, trueAirspeedMS } = this.state;
    const speed = end.kind === 'contact' ? end.tanker.calibratedAirspeedMS : 0;
    const bottom = end.kind === 'contact' ? end.tanker.pressureAltitudeM : end.base.elevationM;
    const heightM = pressureAltitudeM - bottom + (trueAirspeedMS ** 2 - speed ** 2) / (2 * standardGravity);
    return Math.max(heightM, 0) / idleSlope;
  }

  /** Where on the inbound track the aircraft has to be level at the speed of the leg's end. */
  protected levelFromM(step: DescendStep | null): number {
    const level = step?.levelM ?? defaultLevelM;
    const inbound = this.route.tracks[this.inbound];
    const end = this.leg.end;
    if (end.kind === 'landing') return inbound.lengthM - level;
    const change = courseChange(inbound, inbound.lengthM, this.route.tracks[this.inbound + 1]);
    const roll = this.crew.flight.setup.aircraft.rates.rollRadPerS;
    // True airspeed in contact, to a few per cent: the lead is for placing the level stretch only.
    const speed = end.tanker.calibratedAirspeedMS * 1.42;
    const lead =
      Math.abs(change) < leastTurnRad ? 0 : leadEstimate(speed, 40, end.tanker.bankRad, roll, change);
    return inbound.lengthM - lead - level;
  }

  /** Ground distance of the slow-down and descent from here with some mass, by flying it on a copy. */
  protected descentLengthM(step: DescendStep | null, massKg: number): number {
    const copy = newProgress();
    copyProgress(this.at, copy);
    copy.state.massKg = massKg;
    const trial = new LegEnd(this.crew, this.leg, this.route, newDecisions(), null);
    trial.at = copy;
    const from = copy.state.distanceM;
    trial.comeDown(step);
    return copy.state.distanceM - from;
  }

  /** The slow-down, the descent, the level stretch, and the turn onto the refuelling track. */
  protected arrive(step: DescendStep | null): Stopped | null {
    while (this.at.track < this.inbound) {
      const stopped = this.turn();
      if (stopped) return stopped;
    }
    if (this.at.track === this.inbound) {
      const stopped = this.comeDown(step) ?? this.levelToEnd();
      if (stopped) return stopped;
    }
    const stopped = this.waitForTanker();
    this.anchor();
    return stopped;
  }

  protected comeDown(step: DescendStep | null): Stopped | null {
    const end = this.leg.end;
    this.startDownKg = this.fuelKg;
    if (end.kind === 'contact' && !step) {
      const off = this.state.pressureAltitudeM - end.tanker.pressureAltitudeM;
      if (Math.abs(off) > sameAltitudeM) {
        const text = `the leg ends ${Math.abs(off).toFixed(0)} m ${off > 0 ? 'above' : 'below'} ${end.tanker.name} without a descent`;
        return { reason: 'route', text, phase: this.phaseName };
      }
    }
    if (!this.held && this.decisions.startDown) {
      this.decisions.startDown = { ...this.decisions.startDown, massThereKg: this.state.massKg };
    }
    if (step) {
      this.log?.event('start-down', 'start down', this.state.timeS, this.fuelKg);
      const bottomM = end.kind === 'contact' ? end.tanker.pressureAltitudeM : this.patternM(end.base);
      const stopped = this.state.pressureAltitudeM > bottomM + 1 ? this.descend(step, bottomM) : null;
      if (stopped) return stopped;
    }
    if (end.kind === 'landing') return null;
    const law = constantCalibratedAirspeed(end.tanker.calibratedAirspeedMS);
    if (this.state.trueAirspeedMS <= this.speedOf(law) + 0.5) return null;
    if (!step) this.log?.event('slow-down', 'slow down', this.state.timeS, this.fuelKg);
    const slow = this.phase('deceleration', 'Deceleration to contact speed', () =>
      accelerate(this.crew.flight, this.state, this.track, {
        power: step ? this.descentPower(step) : 'idle',
        stops: [{ at: 'calibratedAirspeed', speedMS: end.tanker.calibratedAirspeedMS }],
        recorder: this.recorder(descentEveryS),
      }),
    );
    return slow.stop === 0 ? null : this.stopped(slow);
  }

  /** Level, or down at constant Mach, to the EAS of the descent; then at that EAS to the bottom, at idle below Mach 1. */
  protected descend(step: DescendStep, bottomM: number): Stopped | null {
    const { flight } = this.crew;
    const law = constantEquivalentAirspeed(step.equivalentAirspeedMS);
    const met: Stop = { at: 'equivalentAirspeed', speedMS: step.equivalentAirspeedMS };
    const recorder = this.recorder(descentEveryS);
    const excess = this.state.trueAirspeedMS - this.speedOf(law);
    if (excess > 0.5) {
      const end = this.phase('deceleration', 'Deceleration', () =>
        accelerate(flight, this.state, this.track, {
          power: this.descentPower(step),
          stops: [met],
          recorder,
        }),
      );
      if (end.stop !== 0) return this.stopped(end);
    } else if (excess < -0.5) {
      const atMach = constantMach(this.mach);
      const stops: Stop[] = [met, { at: 'altitude', pressureAltitudeM: bottomM }];
      const end = this.phase('descent', `Descent at ${atMach.title}`, () =>
        climb(flight, this.state, this.track, {
          law: atMach,
          power: this.descentPower(step),
          stops,
          recorder,
        }),
      );
      if (end.stop !== 0) return this.stopped(end);
    }
    const level = {
      pressureAltitudeM: bottomM,
      loadFactor: descentPullLoadFactor,
      onsetPerS: flight.setup.aircraft.rates.onsetPerS,
    };
    const down = (power: Power, stops: Stop[]) =>
      this.phase('descent', `Descent at ${law.title}`, () => {
        const end = climbToLevel(flight, this.state, this.track, { law, power, stops, recorder }, level);
        this.noteLevelOff(end, level);
        return end;
      });
    let end: LevelOffResult;
    do end = down(this.descentPower(step), this.powerLower(step));
    while (end.reason === 'mach' || end.reason === descentRule);
    return end.reason === 'level' ? null : this.stopped(end);
  }

  /** The step's setting above Mach 1 and idle below, or more where the aircraft asks for it. */
  protected descentPower(step: DescendStep): Power {
    const power = Math.max(this.askedPower(step), this.leastPower());
    return power === 0 ? 'idle' : power;
  }

  private askedPower(step: DescendStep): number {
    return isSupersonic(this.mach) ? step.power : 0;
  }

  private leastPower(): number {
    const { descentRules } = this.crew.flight.setup.aircraft;
    return leastDescentPower(descentRules, this.mach, this.state.pressureAltitudeM);
  }

  /** Where the power of a descent may be lower than here: at Mach 1, or where the last rule that keeps it up lets go. */
  private powerLower(step: DescendStep): Stop[] {
    const { mach } = this;
    const { pressureAltitudeM } = this.state;
    const [asked, least] = [this.askedPower(step), this.leastPower()];
    if (least <= asked) return isSupersonic(mach) ? [{ at: 'mach', mach: 1 }] : [];
    const keeping = this.crew.flight.setup.aircraft.descentRules.filter(
      (rule) => rule.setting === least && holds(rule, mach, pressureAltitudeM),
    );
    return [{ at: 'custom', name: descentRule, value: (moment) => roomToEnd(keeping, moment) }];
  }

  /** Level at the speed of the leg's end up to the base, or round the last corner onto the refuelling track. */
  protected levelToEnd(): Stopped | null {
    const end = this.leg.end;
    const law =
      end.kind === 'contact'
        ? constantCalibratedAirspeed(end.tanker.calibratedAirspeedMS)
        : constantMach(this.mach);
    const last = this.route.tracks.length - 1;
    const beyondM = this.state.distanceM - this.track.lengthM;
    if (beyondM > overshootM) {
      const name = end.kind === 'contact' ? end.tanker.name : end.base.name;
      const text = `the descent ends ${(beyondM / 1000).toFixed(0)} km beyond ${name}: the leg is too short for what is flown on it`;
      return { reason: 'route', text, phase: this.phaseName };
    }
    return this.along(
      (more) => {
        const endM = end.kind === 'landing' ? this.track.lengthM : 0;
        if (this.at.track === last && this.state.distanceM >= endM)
          return { reason: 'arrived', stop: 0, text: '' };
        const stops: Stop[] = this.at.track === last ? [{ at: 'distance', distanceM: endM }] : [];
        return this.phase('level', 'Level to the end of the leg', () =>
          cruise(this.crew.flight, this.state, this.track, {
            law,
            altitude: 'hold',
            stops: [...stops, ...more],
            limits: this.watched,
            recorder: this.recorder(cruiseEveryS),
          }),
        );
      },
      (end) => end.stop === 0,
    );
  }

  /** At the speed of the contact, round its point, while its tanker is late. */
  protected waitForTanker(): Stopped | null {
    const end = this.leg.end;
    if (end.kind === 'landing' || !end.waitS) return null;
    const { waitS } = end;
    const speed = constantCalibratedAirspeed(end.tanker.calibratedAirspeedMS);
    const held = this.phase('hold', `Wait for ${end.tanker.name}`, () =>
      hold(this.crew.flight, this.state, this.track, {
        timeS: waitS,
        speed,
        recorder: this.recorder(cruiseEveryS),
      }),
    );
    return held.reason === 'time' ? null : this.stopped(held);
  }

  protected noteLevelOff(end: LevelOffResult, level: LevelOffOptions): void {
    if (end.reason !== 'level') return;
    this.log?.captures.push({
      leg: this.at.leg,
      timeS: this.state.timeS,
      pressureAltitudeM: level.pressureAltitudeM,
      leadM: end.leadM,
      loadFactor: end.loadFactor,
    });
    this.log?.event('level-off', 'level-off', this.state.timeS, this.fuelKg);
  }

  /** Pressure altitude, in the air over a base, at which the descent to it ends and the approach begins. */
  protected patternM(base: Base): number {
    const { day } = this.crew.flight.setup;
    return pressureAltitudeAt(day, base, base.elevationM + patternHeightM, this.state.timeS);
  }
}
