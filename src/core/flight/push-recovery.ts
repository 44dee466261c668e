/**
 * A push of the stick pusher out of level flight, and the recovery until level again.
 *
 * m V' = T cos(alpha) - D - m g sin(gamma);  m V gamma' = (L + T sin(alpha)) cos(bank) - m g cos(gamma): a point mass in still
 * air over the flat Earth with standard gravity, Etkin, Dynamics of Atmospheric Flight (1972), chapter 5 (from memory). The air has
 * one offset from the standard temperature. The load factor falls to the pusher's at the onset of the deck and stays there for the
 * pusher's time; then the wings are levelled at the rate of roll, and the crew pulls to the stall warning and not into it: with n'
 * no more than (n of the warning - n) / lead, alpha + lead alpha' stays on the angle of the warning. The power is that of the
 * level flight before, but no more than military: no afterburner is counted on. Below sea level, where tables end, the air is that of sea level. The load factor is held by the angle of attack without lag.
 *
 * Speeds, distances and angles are good to about a thousandth of themselves for steps of half a second.
 */
import { type Air, HEIGHT, newAir } from '../air/day.ts';
import { offsetDay } from '../air/offset-day.ts';
import type { Aircraft, Pusher } from '../aircraft/aircraft.ts';
import { standardGravity } from '../quantities/constants.ts';
import type { Forces } from './forces.ts';

export interface PushFrom {
  readonly trueAirspeedMS: number;
  readonly pressureAltitudeM: number;
  readonly temperatureOffsetK: number;
  readonly massKg: number;
  readonly bankRad: number;
  /** Angle of attack at which the push comes. */
  readonly angleOfAttackRad: number;
  /** The greatest load factors of the pull, but for the warning: wings level, and while they are rolled level. */
  readonly most: { readonly symmetric: number; readonly rolling: number };
}

export interface Recovered {
  /** Of geometric height; NaN where the aircraft is not level after two minutes, or a table ends. */
  readonly lostM: number;
  readonly timeS: number;
  readonly steepestRad: number;
  readonly trueAirspeedMS: number;
}

const STEP_S = 0.5;
const LONGEST_S = 120;

/** A lead shorter than this is flown as this, which such steps can follow. */
const LEAST_LEAD_S = 0.5 * STEP_S;

const SPEED = 0;
const PATH = 1;
const HEIGHT_GAINED = 2;
const LOAD = 3;

type Vector = [number, number, number, number];

export class PushRecovery {
  private readonly aircraft: Aircraft;
  private readonly forces: Forces;
  private readonly pusher: Pusher;
  private readonly air: Air = newAir();
  private readonly y: Vector = [0, 0, 0, 0];
  private readonly trial: Vector = [0, 0, 0, 0];
  private readonly slopes: readonly Vector[] = [0, 1, 2, 3].map((): Vector => [0, 0, 0, 0]);
  private power = 0;
  private most: PushFrom['most'] = { symmetric: 0, rolling: 0 };
  private massKg = 0;
  private bankRad = 0;
  private pressureAltitudeM = 0;
  private altitudePerHeight = 1;
  private sample: (pressureAltitudeM: number) => void = () => {};
  /** When the load factor is the pusher's, and when the crew pulls and rolls. */
  private pushedS = 0;
  private pullS = 0;

  constructor(forces: Forces, pusher: Pusher) {
    this.aircraft = forces.aircraft;
    this.forces = forces;
    this.pusher = pusher;
  }

  fly(from: PushFrom): Recovered {
    this.begin(from);
    const { y } = this;
    let [timeS, steepest] = [0, 0];
    while (timeS < LONGEST_S) {
      const [path, height, speed] = [y[PATH], y[HEIGHT_GAINED], y[SPEED]];
      const step = this.stepFrom(timeS);
      this.advance(timeS, step);
      timeS += step;
      steepest = Math.min(steepest, y[PATH]);
      if (!(this.forces.outside === 0 && y[SPEED] > 0)) break;
      if (timeS <= this.pullS || y[PATH] < 0) continue;
      const part = path / (path - y[PATH]);
      // The path angle is straight over the last step: what is left of it is a triangle.
      const lostM = -(height + 0.5 * path * part * step * speed);
      return { lostM, timeS: timeS - (1 - part) * step, steepestRad: steepest, trueAirspeedMS: y[SPEED] };
    }
    return { lostM: Number.NaN, timeS, steepestRad: steepest, trueAirspeedMS: y[SPEED] };
  }

  private begin(from: PushFrom): void {
    const { forces, y, pusher, air } = this;
    const day = offsetDay(from.temperatureOffsetK);
    this.sample = (altitudeM) => day.sample(0, 0, altitudeM, 0, air);
    this.sample(from.pressureAltitudeM);
    this.altitudePerHeight = 1 / air.upward[HEIGHT];
    this.pressureAltitudeM = from.pressureAltitudeM;
    this.massKg = from.massKg;
    this.most = from.most;
    this.bankRad = from.bankRad;
    forces.atSpeed(from.trueAirspeedMS, from.massKg, air, from.pressureAltitudeM);
    forces.useAngle(from.angleOfAttackRad);
    forces.thrustN = forces.dragN / Math.cos(from.angleOfAttackRad);
    forces.useRequiredThrust();
    this.power = Math.min(forces.power, this.aircraft.propulsion.military);
    const loadFactor = forces.liftN / (from.massKg * standardGravity);
    const { onsetPerS } = this.aircraft.rates;
    this.pushedS = Math.max(0, loadFactor - pusher.loadFactor) / onsetPerS;
    this.pullS = this.pushedS + pusher.holdS;
    y[SPEED] = from.trueAirspeedMS;
    y[PATH] = 0;
    y[HEIGHT_GAINED] = 0;
    y[LOAD] = onsetPerS < Number.POSITIVE_INFINITY ? loadFactor : pusher.loadFactor;
  }

  /** A step that ends no later than the moment at which something begins. */
  private stepFrom(timeS: number): number {
    const levelS = this.pullS + this.bankRad / this.aircraft.rates.rollRadPerS;
    for (const corner of [this.pushedS, this.pullS, levelS]) {
      if (timeS < corner - 1e-9) return Math.min(STEP_S, corner - timeS);
    }
    return STEP_S;
  }

  /** One step of the classical Runge-Kutta method of fourth order. */
  private advance(timeS: number, step: number): void {
    const { y, trial, slopes } = this;
    // Rates belong to the stretch that the step lies in, also at its ends.
    const middleS = timeS + 0.5 * step;
    const parts = [0.5, 0.5, 1];
    this.rates(y, timeS, middleS, slopes[0]);
    for (let stage = 1; stage < 4; stage++) {
      const part = parts[stage - 1] * step;
      for (let i = 0; i < 4; i++) trial[i] = y[i] + part * slopes[stage - 1][i];
      this.rates(trial, timeS + part, middleS, slopes[stage]);
    }
    const [a, b, c, d] = slopes;
    for (let i = 0; i < 4; i++) y[i] += (step / 6) * (a[i] + 2 * b[i] + 2 * c[i] + d[i]);
    this.settleLoad(middleS);
  }

  private rates(at: Vector, timeS: number, middleS: number, out: Vector): void {
    const { forces, massKg } = this;
    const [speed, path, gained] = at;
    const start = this.pressureAltitudeM;
    const altitudeM = Math.max(start + gained * this.altitudePerHeight, Math.min(0, start));
    this.sample(altitudeM);
    forces.atSpeed(speed, massKg, this.air, altitudeM);
    const rolled = Math.max(0, timeS - this.pullS) * this.aircraft.rates.rollRadPerS;
    const bank = middleS < this.pullS ? this.bankRad : Math.max(0, this.bankRad - (rolled || 0));
    const goal = middleS < this.pullS ? this.pusher.loadFactor : this.pullTo(bank > 0);
    const instant = this.aircraft.rates.onsetPerS === Number.POSITIVE_INFINITY;
    forces.usePower(this.power);
    forces.useLift((instant ? goal : at[LOAD]) * massKg * standardGravity);
    const upward = (forces.liftN + forces.thrustN * Math.sin(forces.angleRad)) * Math.cos(bank);
    out[SPEED] = forces.alongN / massKg - standardGravity * Math.sin(path);
    out[PATH] = (upward / massKg - standardGravity * Math.cos(path)) / speed;
    out[HEIGHT_GAINED] = speed * Math.sin(path);
    out[LOAD] = instant ? 0 : this.onset(at[LOAD], goal, middleS);
  }

  /** Change of load factor toward a goal: with the lead of the warning in the pull, at the deck's onset in the push. */
  private onset(loadFactor: number, goal: number, middleS: number): number {
    const { onsetPerS, warningLeadS } = this.aircraft.rates;
    if (middleS < this.pushedS) return -onsetPerS;
    if (middleS < this.pullS) return 0;
    const asked = (goal - loadFactor) / Math.max(warningLeadS, LEAST_LEAD_S);
    return Math.max(-onsetPerS, Math.min(onsetPerS, asked));
  }

  /** Where the push is over the load factor is the pusher's to the last bit. */
  private settleLoad(middleS: number): void {
    if (middleS > this.pushedS && middleS < this.pullS) this.y[LOAD] = this.pusher.loadFactor;
  }

  /** The load factor to which the crew pulls at the present Mach. */
  private pullTo(rolling: boolean): number {
    const { forces, aircraft, massKg } = this;
    const most = rolling ? this.most.rolling : this.most.symmetric;
    const warning = aircraft.aerodynamics.warningAngleRad(forces.mach);
    if (warning === null) return most;
    forces.useAngle(warning);
    return Math.min(most, forces.liftN / (massKg * standardGravity));
  }
}
