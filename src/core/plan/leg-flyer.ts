/**
 * Flies one leg of a sortie: its steps along its route, turns where the route has corners, the slow-down and descent where the
 * end of the leg asks for them. Every step can be taken up again in its middle, so that the rest of a leg can be flown from any
 * place on it with another mass.
 */
import type { Air } from '../air/day.ts';
import { type Line, newLinePoint } from '../earth/line.ts';
import type { Flight } from '../flight/flight.ts';
import type { Moment } from '../flight/moment.ts';
import {
  bledEquivalentAirspeed,
  constantCalibratedAirspeed,
  constantEquivalentAirspeed,
  constantMach,
  type SpeedLaw,
} from '../flight/speed-law.ts';
import type { FlightState } from '../flight/state.ts';
import type { AltitudeTable } from '../optimise/cruise-altitude.ts';
import { accelerate, climb, climbToLevel, cruise, pushover, turn, turnLead } from '../phases/index.ts';
import type { PhaseEnd, Power, Recorder, Stop, WatchedLimit } from '../phases/phase.ts';
import { pressureAltitudeAt } from './ground.ts';
import { copyProgress, type Log, newProgress, type Progress } from './log.ts';
import type { LegDecisions } from './plan.ts';
import { courseChange, leadEstimate, type Route } from './route.ts';
import type { Base, ClimbStep, CruiseStep, DescendStep, Leg, PushoverStep, Sortie } from './sortie.ts';

/** What every leg of a sortie is flown with. */
export interface Crew {
  readonly flight: Flight;
  readonly sortie: Sortie;
  /** Best cruise altitude at a Mach, prepared once for each. */
  altitudes(mach: number): AltitudeTable;
}

/** null: the leg was flown to its end. */
export interface Stopped {
  /** 'thrust', 'fuel', 'route' or 'outside:...', as phases end. */
  readonly reason: string;
  readonly text: string;
  readonly phase: string;
}

/** Spacing of recorded nodes. */
const climbEveryS = 20;
const cruiseEveryS = 120;
const manoeuvreEveryS = 4;
const turnEveryS = 30;
const descentEveryS = 30;
/** Between places in a cruise from which the rest is flown again for the fuel required. */
const anchorEveryS = 1500;
/** Below this change of course no turn is flown. */
const leastTurnRad = 0.01;
/** Above this change a fly-by turn needs an unreasonable lead. */
const greatestTurnRad = 2.7;
/** Mach rows of the climb. */
const machGates = [0.9, 1.2, 1.5, 1.8, 2.1, 2.4, 2.7, 3.0, 3.3];
const descentPullLoadFactor = 1.1;
const lateMach = 0.4;
/** A contact without a descent before it is joined at its altitude to this. */
const sameAltitudeM = 30;
/** A descent may end this far beyond the end of its leg. */
const overshootM = 3000;
/** A climb that is this near its Mach has reached it. */
const machTolerance = 1e-4;
/**
 * At the cruise Mach a climb of less than this is left to the cruise, which closes on its altitude at no more than the rate
 * below: at full power a light aircraft would climb too steeply to level off within it.
 */
const nearTargetM = 2000;
const closingRateMS = 20;
/** Level stretch kept before a contact that is reached without a descent. */
const defaultLevelM = 10_000;
/** Height of the pattern above a base (common practice, 1500 ft). */
const patternHeightM = 457.2;

export function newDecisions(): LegDecisions {
  return { startDownM: null, turns: [], pushover: null, takenKg: 0 };
}

export class LegFlyer {
  readonly decisions: LegDecisions;
  private readonly crew: Crew;
  private readonly leg: Leg;
  private readonly route: Route;
  private readonly held: LegDecisions | null;
  private readonly log: Log | null;
  private readonly lawSpeed = { trueAirspeedMS: 0.5, perLogPressure: 0.5, perLogTemperature: 0.5 };
  private at: Progress = newProgress();
  private phaseName = '';
  /** Limits not yet met on this leg; only a recorded flight watches them. */
  private watched: WatchedLimit[];

  /** `held` are decisions to be kept instead of solved for; `log` records the flight. */
  constructor(crew: Crew, leg: Leg, route: Route, held: LegDecisions | null, log: Log | null) {
    this.crew = crew;
    this.leg = leg;
    this.route = route;
    this.held = held;
    this.log = log;
    this.decisions = held ?? newDecisions();
    const { pads } = crew.sortie;
    const { limits } = crew.flight.setup.aircraft;
    this.watched = log ? limits.map((limit) => ({ limit, pad: pads[limit.key] ?? 0 })) : [];
  }

  /** Flies from `progress`, which is moved along, to the end of the leg. */
  fly(progress: Progress): Stopped | null {
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
    const last = steps[steps.length - 1];
    return this.arrive(last?.kind === 'descend' ? last : null);
  }

  private step(step: Leg['fly'][number]): Stopped | null {
    if (step.kind === 'climb') return this.climb(step);
    if (step.kind === 'pushover') return this.pushover(step);
    if (step.kind === 'cruise') return this.cruise(step);
    return null;
  }

  private get state(): FlightState {
    return this.at.state;
  }

  private get track() {
    return this.route.tracks[this.at.track];
  }

  private get fuelKg(): number {
    return this.state.massKg - this.crew.flight.setup.zeroFuelMassKg;
  }

  /** Index of the track on which the descent lies. */
  private get inbound(): number {
    return this.route.tracks.length - (this.leg.end.kind === 'contact' ? 2 : 1);
  }

  /** The air here, as the flight along the track has it. */
  private get air(): Air {
    const { flight } = this.crew;
    const { distanceM, pressureAltitudeM, timeS } = this.state;
    flight.placeOnTrack(this.track, distanceM, pressureAltitudeM, timeS);
    return flight.frame.air;
  }

  private get mach(): number {
    return this.state.trueAirspeedMS / this.air.speedOfSoundMS;
  }

  /** Speed that a law asks for here. */
  private speedOf(law: SpeedLaw): number {
    law.at(this.air, this.lawSpeed, this.state.massKg);
    return this.lawSpeed.trueAirspeedMS;
  }

  private anchor(): void {
    this.log?.anchor(this.at);
  }

  private recorder(everyS: number, gates?: (index: number, at: Moment) => void): Recorder | undefined {
    return this.log?.recorder(everyS, gates);
  }

  /** Runs one phase under a name, so that the log knows it. */
  private phase<E extends PhaseEnd>(kind: string, name: string, run: () => E): E {
    this.phaseName = name;
    this.log?.beginPhase(kind, name, this.at.leg, this.state, this.fuelKg);
    const end = run();
    this.log?.endPhase(this.state, this.fuelKg);
    return end;
  }

  private stopped(end: PhaseEnd): Stopped {
    return { reason: end.reason, text: end.text, phase: this.phaseName };
  }

  /**
   * Runs a phase again and again until it ends by one of its own stops: where a corner comes first, the turn is flown and the
   * phase taken up after it. `run` gets the stops to add. Null when the phase ended by its own stop.
   */
  private along(run: (more: Stop[]) => PhaseEnd, own: (end: PhaseEnd) => boolean): Stopped | null {
    for (;;) {
      const corner = this.at.track < this.route.corners.length ? this.turnPointM() : null;
      if (corner !== null && this.state.distanceM >= corner - 1) {
        const stopped = this.turn();
        if (stopped) return stopped;
        continue;
      }
      const end = run(corner === null ? [] : [{ at: 'distance', distanceM: corner }]);
      if (end.reason === 'distance' && corner !== null && this.state.distanceM >= corner - 1) continue;
      if (end.reason.startsWith('limit:')) {
        this.noteLimit(end);
        continue;
      }
      return own(end) ? null : this.stopped(end);
    }
  }

  /** A limit that was met is written down, and the flight goes on without watching it. */
  private noteLimit(end: PhaseEnd): void {
    const key = end.reason.slice('limit:'.length);
    this.watched = this.watched.filter((watched) => watched.limit.key !== key);
    this.log?.event('limit', key, this.state.timeS, this.fuelKg);
  }

  /** Where the present track has to be left for the next turn, a little early; the turn flies on to its own lead point. */
  private turnPointM(): number {
    const corner = this.route.cornersM[this.at.track];
    const held = this.held?.turns[this.at.track];
    if (held) return corner - held.leadM;
    const { bankRad } = this.route.corners[this.at.track];
    const next = this.route.tracks[this.at.track + 1];
    const options = { law: this.turnLaw(), bankRad, cornerM: corner };
    return corner - turnLead(this.crew.flight, this.state, this.track, next, options) - 1000;
  }

  private turn(): Stopped | null {
    const index = this.at.track;
    const corner = this.route.corners[index];
    const cornerM = this.route.cornersM[index];
    const from = this.track;
    const to = this.route.tracks[index + 1];
    const change = courseChange(from, cornerM, to);
    if (Math.abs(change) > greatestTurnRad) {
      const degrees = Math.round((Math.abs(change) * 180) / Math.PI);
      return {
        reason: 'route',
        text: `the turn at ${corner.name} is ${degrees} deg; more than 155 needs a further waypoint`,
        phase: 'turn',
      };
    }
    if (Math.abs(change) < leastTurnRad) {
      this.state.distanceM -= cornerM;
      this.at.track++;
      return null;
    }
    const { flight } = this.crew;
    const law = this.turnLaw();
    const startS = this.state.timeS;
    const mach = this.mach;
    const fuel = this.fuelKg;
    const result = this.phase('turn', `Turn at ${corner.name}`, () =>
      turn(flight, this.state, from, to, {
        law,
        bankRad: corner.bankRad,
        cornerM,
        held: this.held?.turns[index] ?? undefined,
        recorder: this.recorder(turnEveryS),
      }),
    );
    if (result.reason !== 'rolledOut') return this.stopped(result);
    this.at.track++;
    if (!this.held) this.decisions.turns[index] = result.solution;
    if (corner.kind === 'waypoint') this.log?.event('waypoint', corner.name, startS, fuel);
    this.log?.turns.push({
      name: corner.name,
      leg: this.at.leg,
      startS,
      endS: this.state.timeS,
      mach,
      bankDeg: (result.bankRad * 180) / Math.PI,
      radiusM: result.radiusM,
      leadM: result.leadM,
      courseFromDeg: courseDeg(from, cornerM),
      courseToDeg: courseDeg(to, 0),
      fuelKg: fuel - this.fuelKg,
      rollOutM: result.rollOutM,
      bankLimitedBy: result.bankLimitedBy,
    });
    return null;
  }

  /** A turn is flown at the Mach (or, subsonic, the calibrated airspeed) that it is begun with. */
  private turnLaw(): SpeedLaw {
    const mach = this.mach;
    return constantMach(mach);
  }

  /** Level, to the speed that a law asks for, which `met` says is reached. */
  private toSpeed(law: SpeedLaw, met: Stop, power: Power, name: string): Stopped | null {
    const difference = this.speedOf(law) - this.state.trueAirspeedMS;
    if (Math.abs(difference) < 0.5) return null;
    const kind = difference > 0 ? 'acceleration' : 'deceleration';
    return this.along(
      (more) =>
        this.phase(kind, name, () =>
          accelerate(this.crew.flight, this.state, this.track, {
            power: difference > 0 ? power : 'idle',
            stops: [met, ...more],
            limits: this.watched,
            gates: this.log ? machGates.map((mach) => ({ at: 'mach', mach })) : [],
            recorder: this.recorder(climbEveryS, (index, at) => this.gate(machGates[index], at)),
          }),
        ),
      (end) => end.stop === 0,
    );
  }

  private toMach(mach: number, power: Power): Stopped | null {
    const law = constantMach(mach);
    return this.toSpeed(law, { at: 'mach', mach }, power, `Acceleration to ${law.title}`);
  }

  private climb(step: ClimbStep): Stopped | null {
    const law = climbLaw(step);
    const name = `Climb at ${law.title}`;
    const atMach = constantMach(step.mach);
    if (this.mach < step.mach - machTolerance) {
      const slow = this.toSpeed(
        law,
        climbSpeedStop(step, this.mach),
        step.power,
        'Acceleration to climb speed',
      );
      if (slow) return slow;
      // The best altitude is that of the mass with which it is reached: it is looked up again late in the climb.
      const late = step.mach - lateMach;
      if (step.to === 'optimum' && this.mach < late) {
        const stopped = this.climbOn(step, law, name, [{ at: 'mach', mach: late }]);
        if (stopped) return stopped;
      }
      const stopped = this.climbOn(step, law, name, [{ at: 'mach', mach: step.mach }]);
      if (stopped) return stopped;
    }
    if (this.mach < step.mach - machTolerance) return this.toMach(step.mach, step.power);
    const left = this.targetOf(step) - this.state.pressureAltitudeM;
    if (left < (step.to === 'optimum' ? nearTargetM : 1)) return null;
    return this.climbOn(step, atMach, `Climb at ${atMach.title}`, []);
  }

  /** Climbs on a law until one of `stops` or level at the step's altitude. */
  private climbOn(step: ClimbStep, law: SpeedLaw, name: string, stops: Stop[]): Stopped | null {
    const { flight } = this.crew;
    const gates = machGates.filter((mach) => mach > this.mach - 1e-3 && mach <= step.mach + 1e-6);
    return this.along(
      (more) =>
        this.phase('climb', name, () =>
          climbToLevel(
            flight,
            this.state,
            this.track,
            {
              law,
              power: step.power,
              stops: [...stops, ...more],
              limits: this.watched,
              gates: this.log ? gates.map((mach) => ({ at: 'mach', mach })) : [],
              recorder: this.recorder(climbEveryS, (index, at) => this.gate(gates[index], at)),
            },
            {
              pressureAltitudeM: this.targetOf(step),
              loadFactor: step.levelOffLoadFactor,
              onsetPerS: flight.setup.aircraft.rates.onsetPerS,
            },
          ),
        ),
      (end) => end.reason === 'level' || (end.stop >= 0 && end.stop < stops.length),
    );
  }

  private gate(mach: number, at: Moment): void {
    const log = this.log;
    if (!log) return;
    log.event('gate', `M ${mach.toFixed(1)}`, at.timeS, at.fuelKg);
    if (mach !== 1.5 && mach !== 2.1 && mach !== 2.7) return;
    const anchor = newProgress();
    copyProgress({ ...this.at, state: at }, anchor);
    log.anchor(anchor);
  }

  private targetOf(step: ClimbStep): number {
    if (step.to !== 'optimum') return step.to;
    return this.optimum(step.mach, this.state.massKg);
  }

  /** The day's best cruise altitude here for a mass; where something stops it the table's nearest. */
  private optimum(mach: number, massKg: number): number {
    const weight = this.crew.altitudes(mach);
    return weight.altitudeM(massKg, this.air.temperatureOffsetK);
  }

  private pushover(step: PushoverStep): Stopped | null {
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

  private cruise(step: CruiseStep): Stopped | null {
    const law = constantMach(step.mach);
    const slow = this.toMach(step.mach, 'full');
    if (slow) return slow;
    this.log?.event('cruise', `cruise at ${law.title}`, this.state.timeS, this.fuelKg);
    const table = this.crew.altitudes(step.mach);
    const altitude =
      step.altitude === 'optimum'
        ? { target: (mass: number, offset: number) => table.altitudeM(mass, offset), greatestRateMS: closingRateMS }
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

  /** Where on the inbound track the slow-down or descent to the end of the leg begins; solved for once, or held. */
  private startDownM(): number {
    if (this.decisions.startDownM !== null) return this.decisions.startDownM;
    const last = this.leg.fly[this.leg.fly.length - 1];
    const step = last?.kind === 'descend' ? last : null;
    const endM = this.levelFromM(step);
    const first = endM - this.descentLengthM(step);
    const short = first - 0.2 * (endM - first);
    if (this.state.distanceM < short - 1000) return short;
    this.decisions.startDownM = first;
    return first;
  }

  /** Where on the inbound track the aircraft has to be level at the speed of the leg's end. */
  private levelFromM(step: DescendStep | null): number {
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

  /** Ground distance of the slow-down and descent from here, by flying it on a copy. */
  private descentLengthM(step: DescendStep | null): number {
    const copy = newProgress();
    copyProgress(this.at, copy);
    copy.step = this.leg.fly.length;
    const trial = new LegFlyer(this.crew, this.leg, this.route, { ...newDecisions(), startDownM: 0 }, null);
    trial.at = copy;
    const from = copy.state.distanceM;
    trial.comeDown(step);
    return copy.state.distanceM - from;
  }

  /** The slow-down, the descent, the level stretch, and the turn onto the refuelling track. */
  private arrive(step: DescendStep | null): Stopped | null {
    while (this.at.track < this.inbound) {
      const stopped = this.turn();
      if (stopped) return stopped;
    }
    if (this.at.track === this.inbound) {
      const stopped = this.comeDown(step) ?? this.levelToEnd();
      if (stopped) return stopped;
    }
    this.anchor();
    return null;
  }

  private comeDown(step: DescendStep | null): Stopped | null {
    const end = this.leg.end;
    if (end.kind === 'contact' && !step) {
      const off = this.state.pressureAltitudeM - end.tanker.pressureAltitudeM;
      if (Math.abs(off) > sameAltitudeM) {
        const text = `the leg ends ${Math.abs(off).toFixed(0)} m ${off > 0 ? 'above' : 'below'} ${end.tanker.name} without a descent`;
        return { reason: 'route', text, phase: this.phaseName };
      }
    }
    this.log?.event('start-down', 'start down', this.state.timeS, this.fuelKg);
    if (step) {
      const bottomM = end.kind === 'contact' ? end.tanker.pressureAltitudeM : this.patternM(end.base);
      const stopped = this.state.pressureAltitudeM > bottomM + 1 ? this.descend(step, bottomM) : null;
      if (stopped) return stopped;
    }
    if (end.kind === 'landing') return null;
    const law = constantCalibratedAirspeed(end.tanker.calibratedAirspeedMS);
    if (this.state.trueAirspeedMS <= this.speedOf(law) + 0.5) return null;
    const slow = this.phase('deceleration', 'Deceleration to contact speed', () =>
      accelerate(this.crew.flight, this.state, this.track, {
        power: 'idle',
        stops: [{ at: 'calibratedAirspeed', speedMS: end.tanker.calibratedAirspeedMS }],
        recorder: this.recorder(descentEveryS),
      }),
    );
    return slow.stop === 0 ? null : this.stopped(slow);
  }

  /** Level, or down at constant Mach, to the EAS of the descent; then at that EAS to the bottom, at idle below Mach 1. */
  private descend(step: DescendStep, bottomM: number): Stopped | null {
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
      this.phase('descent', `Descent at ${law.title}`, () =>
        climbToLevel(flight, this.state, this.track, { law, power, stops, recorder }, level),
      );
    let end = this.mach > 1 ? down(step.power, [{ at: 'mach', mach: 1 }]) : down('idle', []);
    if (end.reason === 'mach') end = down('idle', []);
    return end.reason === 'level' ? null : this.stopped(end);
  }

  /** The lowest setting that a supersonic descent allows; below Mach 1 there is no such floor. */
  private descentPower(step: DescendStep): Power {
    return this.mach > 1 ? step.power : 'idle';
  }

  /** Level at the speed of the leg's end up to the base, or round the last corner onto the refuelling track. */
  private levelToEnd(): Stopped | null {
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

  /** Pressure altitude, in the air over a base, at which the descent to it ends and the approach begins. */
  private patternM(base: Base): number {
    const { day } = this.crew.flight.setup;
    return pressureAltitudeAt(day, base, base.elevationM + patternHeightM, this.state.timeS);
  }
}

/** What ends a level acceleration to the speed of a climb that begins at a Mach. */
function climbSpeedStop(step: ClimbStep, mach: number): Stop {
  const { kind, valueMS } = step.speed;
  if (kind === 'CAS') return { at: 'calibratedAirspeed', speedMS: valueMS };
  const { bleed } = step;
  if (!bleed || mach <= bleed.breakMach) return { at: 'equivalentAirspeed', speedMS: valueMS };
  return { at: 'equivalentAirspeed', speedMS: valueMS - bleed.slopeMS * (mach - bleed.breakMach) };
}

function courseDeg(track: Line, distanceM: number): number {
  const point = newLinePoint();
  track.at(distanceM, point);
  return ((point.courseRad * 180) / Math.PI + 360) % 360;
}

function climbLaw(step: ClimbStep): SpeedLaw {
  if (step.speed.kind === 'CAS') return constantCalibratedAirspeed(step.speed.valueMS);
  if (step.bleed) return bledEquivalentAirspeed(step.speed.valueMS, step.bleed.breakMach, step.bleed.slopeMS);
  return constantEquivalentAirspeed(step.speed.valueMS);
}
