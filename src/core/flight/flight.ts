/**
 * One aircraft on one day: the balance of forces for each way of flying, at one instant.
 *
 * A motion calls `placeOnTrack` (or `placeAt`), then one of the ways of flying below; the answer stands in `frame`, `forces`
 * and the fields here, until the next call. Nothing is allocated.
 *
 * In balance: m V' = T cos(alpha) - D + m A.along;  m V gamma' = (L + T sin(alpha)) cos(bank) + m A.normal; sideways
 * (L + T sin(alpha)) sin(bank) = -m A.side on a track, = m (V cos(gamma) heading' - A.side) in a turn. A: see `Frame`.
 */
import { calibratedAirspeed } from '../air/airdata.ts';
import { TEMPERATURE } from '../air/day.ts';
import { quickTotalTemperature } from '../air/quick-total.ts';
import { Stepper } from '../numerics/stepper.ts';
import { seaLevelDensity, standardGravity } from '../quantities/constants.ts';
import { Forces } from './forces.ts';
import { Frame } from './frame.ts';
import { type Moment, newMoment } from './moment.ts';
import type { FlightSetup, Variation } from './setup.ts';
import type { LawSpeed, SpeedLaw } from './speed-law.ts';
import { newState } from './state.ts';
import type { Track } from './track.ts';

export * from './setup.ts';

const AS_THE_DECK: Variation = {
  dragFactor: 1,
  fuelFlowFactor: 1,
  thrustFactor: 1,
  dragIncrement: 0,
  headwindMS: 0,
  runningEngines: Number.POSITIVE_INFINITY,
  leakKgS: 0,
};

/** How the engines share the thrust: alike, or one in afterburner (at its minimum or more) and the others what is left. */
export type Sharing = 'alike' | 'oneAfterburner';

/**
 * A level-off out of a full-power climb begins in balance at all the thrust there is; for the second in which the load
 * factor builds up, so much more than that is let pass (less than 0.1 m/s of speed).
 */
const BEND_SLACK = 0.03;

/** Of any motion. */
const MOST_COMPONENTS = 8;

/** A motion's components, their rates, two states near it, and the state that it stands for: one motion at a time. */
function newRoom() {
  const vector = () => new Float64Array(MOST_COMPONENTS);
  return { y: vector(), rates: vector(), ahead: vector(), dense: vector(), state: newState() };
}

export class Flight {
  readonly setup: FlightSetup;
  readonly frame: Frame;
  readonly forces: Forces;
  /** Evaluations of a derivative so far, and of these the ones made only to describe a moment. */
  evaluations = 0;
  descriptions = 0;
  /** The instant last balanced. */
  speedMS = 0.5;
  accelerationMS2 = 0.5;
  pathRateRadS = 0.5;
  bankRad = 0.5;
  headingRateRadS = 0.5;
  /** The thrust asked for was not there; what there is was used. */
  short = false;
  /** Integrates every motion of this flight, one after the other. */
  readonly stepper = new Stepper(MOST_COMPONENTS);
  /** The one record in which the phases describe their moments, and room for what they integrate. */
  readonly moment: Moment;
  readonly room = newRoom();
  private readonly lawSpeed: LawSpeed = { trueAirspeedMS: 0.5, perLogPressure: 0.5, perLogTemperature: 0.5 };
  /** Sine of the path angle last found, where the next search starts. */
  private lastSinPath = 0.5;
  /** How near the sine of the balanced path angle is found. */
  private readonly nearSine: number;

  constructor(setup: FlightSetup) {
    this.setup = setup;
    const engines = setup.aircraft.propulsion.engines.length;
    const vary = { ...AS_THE_DECK, ...setup.variation };
    this.frame = new Frame(setup.day, setup.earth, vary.headwindMS);
    this.forces = new Forces(setup, { ...vary, runningEngines: Math.min(vary.runningEngines, engines) });
    this.moment = newMoment(engines);
    this.lastSinPath = 0;
    this.nearSine = Math.max(1e-14, 0.01 * setup.tolerance.angleRad);
  }

  placeOnTrack(track: Track, distanceM: number, pressureAltitudeM: number, timeS: number): void {
    this.evaluations++;
    this.short = false;
    this.frame.placeOnTrack(track, distanceM, pressureAltitudeM, timeS);
  }

  placeAt(latitudeRad: number, longitudeRad: number, pressureAltitudeM: number, timeS: number): void {
    this.evaluations++;
    this.short = false;
    this.frame.placeAt(latitudeRad, longitudeRad, pressureAltitudeM, timeS);
  }

  /** True airspeed of a law in the present air, for a mass. */
  speedOf(law: SpeedLaw, massKg: number): number {
    law.at(this.frame.air, this.lawSpeed, massKg);
    return this.lawSpeed.trueAirspeedMS;
  }

  /** Level at a power. */
  levelAtPower(speedMS: number, massKg: number, power: number): void {
    this.frame.moveOnTrackAtRate(speedMS, 0);
    this.lookUp(speedMS, massKg);
    this.forces.usePower(power);
    this.forces.useNormalForce(this.normalForce());
    this.accelerationMS2 = this.forces.alongN / massKg + this.frame.alongPull;
    this.pathRateRadS = 0;
  }

  /** Level with a given change of true airspeed, thrust as required, never less than that of power 0. */
  levelAtAcceleration(speedMS: number, massKg: number, accelerationMS2: number): void {
    this.frame.moveOnTrackAtRate(speedMS, 0);
    this.lookUp(speedMS, massKg);
    this.requireThrust(accelerationMS2, this.normalForce(), 'alike');
    if (this.forces.isBelowIdle()) this.levelAtPower(speedMS, massKg, 0);
  }

  /** Level on a speed law, thrust as required. */
  levelOnLaw(law: SpeedLaw, massKg: number, sharing: Sharing = 'alike'): void {
    this.onLawAtRate(law, massKg, 0, sharing);
  }

  /** On a speed law with a given rate of pressure altitude, thrust as required. */
  onLawAtRate(law: SpeedLaw, massKg: number, altitudeRateMS: number, sharing: Sharing = 'alike'): void {
    const speed = this.speedOf(law, massKg);
    this.frame.moveOnTrackAtRate(speed, altitudeRateMS);
    this.lookUp(speed, massKg);
    this.requireThrust(this.lawAcceleration(), this.normalForce(), sharing);
  }

  /** On a speed law at a power, the path angle in balance at each instant (its change neglected). */
  climbInBalance(law: SpeedLaw, massKg: number, power: number): void {
    const speed = this.speedOf(law, massKg);
    this.lookUp(speed, massKg);
    this.forces.usePower(power);
    this.findBalancedPath(speed, massKg);
    this.pathRateRadS = 0;
  }

  /** On a speed law at a power and a path angle, the law held by angle of attack; the change of path angle follows. */
  climbOnPath(law: SpeedLaw, massKg: number, power: number, pathAngleRad: number): void {
    const speed = this.speedOf(law, massKg);
    this.lookUp(speed, massKg);
    this.forces.usePower(power);
    this.frame.moveOnTrack(speed, Math.sin(pathAngleRad));
    this.accelerationMS2 = this.lawAcceleration();
    if (!this.forces.useAlongForce(massKg * (this.accelerationMS2 - this.frame.alongPull))) this.short = true;
    this.bendPath(massKg);
  }

  /** At a load factor and a power: path angle and speed follow. */
  atLoadFactor(
    speedMS: number,
    massKg: number,
    power: number,
    pathAngleRad: number,
    loadFactor: number,
  ): void {
    this.frame.moveOnTrack(speedMS, Math.sin(pathAngleRad));
    this.lookUp(speedMS, massKg);
    this.forces.usePower(power);
    this.forces.useLift(loadFactor * massKg * standardGravity);
    this.accelerationMS2 = this.forces.alongN / massKg + this.frame.alongPull;
    this.bendPath(massKg);
  }

  /** The same with the angle of attack given. */
  atAngle(speedMS: number, massKg: number, power: number, pathAngleRad: number, angleRad: number): void {
    this.frame.moveOnTrack(speedMS, Math.sin(pathAngleRad));
    this.lookUp(speedMS, massKg);
    this.forces.usePower(power);
    this.forces.useAngle(angleRad);
    this.accelerationMS2 = this.forces.alongN / massKg + this.frame.alongPull;
    this.bendPath(massKg);
  }

  /** At a power along a path of constant angle: speed follows. */
  onStraightPath(speedMS: number, massKg: number, power: number, pathAngleRad: number): void {
    this.frame.moveOnTrack(speedMS, Math.sin(pathAngleRad));
    this.lookUp(speedMS, massKg);
    this.forces.usePower(power);
    this.forces.useNormalForce(this.normalForce());
    this.accelerationMS2 = this.forces.alongN / massKg + this.frame.alongPull;
    this.pathRateRadS = 0;
  }

  /** At a power and a pitch attitude, the path angle in balance at each instant (its change neglected): speed follows. */
  atPitch(speedMS: number, massKg: number, power: number, pitchRad: number): void {
    const { frame, forces } = this;
    this.lookUp(speedMS, massKg);
    forces.usePower(power);
    // What is carried hardly changes with the path angle: two rounds as a rule.
    for (let round = 0; round < 8; round++) {
      frame.moveOnTrack(speedMS, this.lastSinPath);
      forces.useNormalForce(massKg * this.normalPull());
      const sine = Math.sin(pitchRad - forces.angleRad);
      const change = sine - this.lastSinPath;
      this.lastSinPath = sine;
      if (Math.abs(change) < this.nearSine) break;
    }
    this.holdSideways();
    this.accelerationMS2 = forces.alongN / massKg + frame.alongPull;
    this.pathRateRadS = 0;
  }

  /** On a speed law at a load factor, thrust as required: the capture of an altitude. */
  bendOnLaw(law: SpeedLaw, massKg: number, pathAngleRad: number, loadFactor: number): void {
    const speed = this.speedOf(law, massKg);
    const { forces, frame } = this;
    frame.moveOnTrack(speed, Math.sin(pathAngleRad));
    this.lookUp(speed, massKg);
    this.accelerationMS2 = this.lawAcceleration();
    forces.useLift(loadFactor * massKg * standardGravity);
    const along = massKg * (this.accelerationMS2 - frame.alongPull);
    forces.thrustN = (along + forces.dragN) / Math.cos(forces.angleRad);
    const required = forces.thrustN;
    const enough = forces.useRequiredThrust();
    if (forces.isBelowIdle()) forces.usePower(0);
    else if (!enough && required > forces.thrustN * (1 + BEND_SLACK)) this.short = true;
    this.bendPath(massKg);
  }

  /** Level turn on a speed law at a heading and bank, thrust as required; place given by `placeAt`. */
  turnOnLaw(law: SpeedLaw, massKg: number, headingRad: number, bankRad: number): void {
    const { frame, forces } = this;
    const speed = this.speedOf(law, massKg);
    frame.moveLevelOnHeading(speed, headingRad);
    this.lookUp(speed, massKg);
    const normal = (-massKg * frame.normalPull) / Math.cos(bankRad);
    this.requireThrust(this.lawAcceleration(), normal, 'alike');
    this.bankRad = bankRad;
    const side = forces.liftN + forces.thrustN * Math.sin(forces.angleRad);
    this.headingRateRadS = ((side * Math.sin(bankRad)) / massKg + frame.sidePull) / (speed * frame.cosPath);
  }

  private lookUp(speedMS: number, massKg: number): void {
    this.speedMS = speedMS;
    this.forces.atSpeed(speedMS, massKg, this.frame.air, this.frame.pressureAltitudeM);
  }

  /** Sets thrust, angle of attack and engines for an acceleration and a normal force. */
  private requireThrust(accelerationMS2: number, normalN: number, sharing: Sharing): void {
    const { forces } = this;
    this.accelerationMS2 = accelerationMS2;
    this.pathRateRadS = 0;
    forces.useBoth(forces.massKg * (accelerationMS2 - this.frame.alongPull), normalN);
    const enough = sharing === 'alike' ? forces.useRequiredThrust() : forces.useOneAfterburner();
    if (!enough) this.short = true;
  }

  /** V' that the law last asked asks for along the present motion. */
  private lawAcceleration(): number {
    const { frame, lawSpeed } = this;
    const pressure = lawSpeed.perLogPressure * frame.logPressureUp * frame.altitudeRate;
    const temperature = (lawSpeed.perLogTemperature * frame.temperatureRate) / frame.air.temperatureK;
    return lawSpeed.trueAirspeedMS * (pressure + temperature);
  }

  /** L + T sin(alpha) that keeps the path angle on a track; sets the bank that holds the sideways pull. */
  private normalForce(): number {
    this.holdSideways();
    return this.forces.massKg * this.normalPull();
  }

  /** Pull at right angles to the motion that lift and thrust have to balance, up and to the side [m/s2]. */
  private normalPull(): number {
    const { normalPull, sidePull } = this.frame;
    return Math.sqrt(normalPull * normalPull + sidePull * sidePull);
  }

  /** What would weigh as much at 9.80665 m/s2, of a kilogram in the motion that stands: curvature, rotation and height take some off. */
  get apparentMass(): number {
    return this.normalPull() / standardGravity;
  }

  private holdSideways(): void {
    this.bankRad = Math.atan2(-this.frame.sidePull, -this.frame.normalPull);
  }

  /** Change of path angle from the forces that stand; the bank holds the sideways pull. */
  private bendPath(massKg: number): void {
    const { forces, frame } = this;
    const force = (forces.liftN + forces.thrustN * Math.sin(forces.angleRad)) / massKg;
    const sideways = -frame.sidePull;
    const spare = force * force - sideways * sideways;
    const upward = spare > 0 ? Math.sign(force) * Math.sqrt(spare) : 0;
    this.bankRad = Math.atan2(sideways, Math.abs(upward));
    this.pathRateRadS = (upward + frame.normalPull) / this.speedMS;
  }

  /**
   * The sine of path angle at which the law is held without a change of path angle: a step of Newton's rule, then of the
   * secant's, until the next would be shorter than `nearSine`.
   */
  private findBalancedPath(speedMS: number, massKg: number): void {
    let sine = this.lastSinPath;
    let error = this.balanceError(speedMS, massKg, sine);
    let slope = this.balanceSlope(speedMS);
    for (let round = 0; round < 30; round++) {
      let next = sine - error / slope;
      if (!(next > -0.99 && next < 0.99)) next = Math.max(-0.9, Math.min(0.9, next)) || 0;
      const step = next - sine;
      if (Math.abs(step) < this.nearSine) break;
      const before = error;
      sine = next;
      error = this.balanceError(speedMS, massKg, sine);
      const secant = (error - before) / step;
      if (secant < 0) slope = secant;
    }
    this.lastSinPath = sine;
    this.holdSideways();
    this.accelerationMS2 = this.forces.alongN / massKg + this.frame.alongPull;
  }

  /** Acceleration that the forces give, less that of the law, at a sine of path angle without change. */
  private balanceError(speedMS: number, massKg: number, sinPath: number): number {
    this.frame.moveOnTrack(speedMS, sinPath);
    this.forces.useNormalForce(massKg * this.normalPull());
    return this.forces.alongN / massKg + this.frame.alongPull - this.lawAcceleration();
  }

  /** Change of that with the sine, but for the turning of the crab angle. */
  private balanceSlope(speedMS: number): number {
    const { frame, forces, lawSpeed } = this;
    const { air } = frame;
    const pressure = lawSpeed.perLogPressure * frame.logPressureUp;
    const temperature = (lawSpeed.perLogTemperature * air.upward[TEMPERATURE]) / air.temperatureK;
    const climb = speedMS * frame.altitudePerHeight;
    const law = speedMS * (pressure + temperature);
    const tangent = frame.sinPath / frame.cosPath;
    return (
      frame.normalPull / frame.cosPath -
      climb * (law + frame.shear()) +
      tangent * forces.alongPerNormal() * standardGravity
    );
  }

  get equivalentAirspeedMS(): number {
    return this.speedMS * Math.sqrt(this.frame.air.densityKgM3 / seaLevelDensity);
  }

  get calibratedAirspeedMS(): number {
    return calibratedAirspeed(this.forces.mach, this.frame.air.pressurePa);
  }

  /** Fills in everything but what the state itself says (time, distance, place of the turn): the instant last balanced. */
  describe(moment: Moment): void {
    const { frame, forces, setup } = this;
    const { air, point } = frame;
    const weight = forces.massKg * standardGravity;
    const along = forces.alongN;
    const total = quickTotalTemperature(air.temperatureK, this.speedMS);
    moment.pressureAltitudeM = frame.pressureAltitudeM;
    moment.trueAirspeedMS = this.speedMS;
    moment.pathAngleRad = Math.asin(frame.sinPath);
    moment.massKg = forces.massKg;
    moment.latitudeRad = point.latitudeRad;
    moment.longitudeRad = point.longitudeRad;
    moment.headingRad = Math.atan2(frame.sinHeading, frame.cosHeading);
    moment.bankRad = this.bankRad;
    moment.courseRad = Math.atan2(point.sinCourse, point.cosCourse);
    moment.mach = forces.mach;
    moment.equivalentAirspeedMS = this.equivalentAirspeedMS;
    moment.calibratedAirspeedMS = this.calibratedAirspeedMS;
    moment.groundSpeedMS = frame.groundSpeedMS;
    moment.dynamicPressurePa = forces.dynamicPressurePa;
    moment.staticTemperatureK = air.temperatureK;
    moment.temperatureOffsetK = air.temperatureOffsetK;
    moment.totalTemperatureK = total;
    moment.indicatedInletTemperatureK =
      air.temperatureK + setup.aircraft.gauges.inletTemperatureRecovery * (total - air.temperatureK);
    moment.windEastMS = air.windEastMS;
    moment.windNorthMS = air.windNorthMS;
    moment.tailwindMS = frame.tailwindMS;
    moment.windFromLeftMS = frame.windFromLeftMS;
    moment.geometricHeightM = air.geometricHeightM;
    moment.energyHeightM = air.geometricHeightM + (this.speedMS * this.speedMS) / (2 * standardGravity);
    moment.climbRateMS = this.speedMS * frame.sinPath;
    moment.accelerationMS2 = this.accelerationMS2;
    moment.pathAngleRateRadS = this.pathRateRadS;
    moment.angleOfAttackRad = forces.angleRad;
    moment.ledAngleOfAttackRad = forces.angleRad;
    moment.loadFactor = forces.liftN / weight;
    moment.liftN = forces.liftN;
    moment.dragN = forces.dragN;
    moment.thrustN = forces.thrustN;
    moment.power = forces.power;
    moment.enginePowers.set(forces.powers);
    moment.fuelFlowKgS = forces.fuelFlowKgS;
    moment.excessThrustRatio = along / weight;
    moment.specificExcessPowerMS = (along * this.speedMS) / weight;
    moment.fuelKg = forces.fuelKg;
    moment.cgFraction = forces.cgFraction;
    moment.availableThrustN = forces.thrustAt(setup.aircraft.propulsion.maximum);
  }
}

/** Copies into `moment.limitInputs` what the limits read. */
export function fillLimitInputs(moment: Moment): void {
  const inputs = moment.limitInputs;
  inputs.mach = moment.mach;
  inputs.pressureAltitudeM = moment.pressureAltitudeM;
  inputs.equivalentAirspeedMS = moment.equivalentAirspeedMS;
  inputs.calibratedAirspeedMS = moment.calibratedAirspeedMS;
  inputs.staticTemperatureK = moment.staticTemperatureK;
  inputs.indicatedInletTemperatureK = moment.indicatedInletTemperatureK;
  inputs.angleOfAttackRad = moment.angleOfAttackRad;
  inputs.ledAngleOfAttackRad = moment.ledAngleOfAttackRad;
  inputs.loadFactor = moment.loadFactor;
  inputs.bankRad = moment.bankRad;
  inputs.fuelKg = moment.fuelKg;
  inputs.massKg = moment.massKg;
  inputs.cgFraction = moment.cgFraction;
  inputs.time = moment.timeS;
}
