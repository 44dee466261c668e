/**
 * What bounds a manoeuvre with so much fuel in one air: at a speed the load factors of warning, push, structure and thrust, each by
 * itself; for a load factor the least speeds.
 *
 * n = q S CL' (alpha - alpha0) / (m g0), with the angles of the deck's stall table at the Mach flown, so that at one Mach and height
 * speed goes with sqrt(n). In an entry with n' the warning, which sounds at alpha + lead alpha', comes lead * n' earlier in n, and
 * in a ramp of constant n' exactly the lead earlier in time. In a level turn n = 1/cos(bank); rolled into with bank', n' =
 * bank' tan(bank) / cos(bank).
 */
import { calibratedAirspeed, dynamicPressure, equivalentAirspeed } from '../air/airdata.ts';
import { type Air, newAir } from '../air/day.ts';
import { quickTotalTemperature } from '../air/quick-total.ts';
import type { AeroPoint, Aircraft, Limit, LimitInputs } from '../aircraft/aircraft.ts';
import { newLimitInputs } from '../aircraft/limits.ts';
import { Flight, type FlightSetup } from '../flight/flight.ts';
import type { Forces } from '../flight/forces.ts';
import { brent } from '../numerics/roots.ts';
import { standardGravity } from '../quantities/constants.ts';
import type { GaugeSpeeds, LeastSpeeds, LoadFactorBounds } from './plan.ts';
import type { ManoeuvreRules } from './sortie.ts';

/** Between these a least speed is looked for, in such steps. */
export const SLOWEST_MACH = 0.05;
const FASTEST_MACH = 1.2;
const MACH_STEP = 0.05;
/** About 0.01 kt. */
const MACH_TOLERANCE = 1e-5;

export type Stall = 'warning' | 'push';

/** How a manoeuvre is named: level flight, a pull to a load factor, a level turn at a bank. */
export interface Named {
  readonly named: LeastSpeeds['named'];
  readonly loadFactor: number;
  readonly bankRad: number;
}

export function levelTurn(bankRad: number): Named {
  return { named: bankRad === 0 ? 'level' : 'bank', loadFactor: 1 / Math.cos(bankRad), bankRad };
}

/** The bank is that of the level turn with the load factor. */
export function pullTo(loadFactor: number): Named {
  return { named: 'loadFactor', loadFactor, bankRad: loadFactor > 1 ? Math.acos(1 / loadFactor) : 0 };
}

/** n' of rolling on at a bank in level flight [1/s]. */
export function onsetOfRoll(bankRad: number, rollRadPerS: number): number {
  return bankRad === 0 ? 0 : (rollRadPerS * Math.tan(bankRad)) / Math.cos(bankRad);
}

/** Whether a limit is one of what the structure takes upward. */
export function boundsStructure({ quantity, side }: Limit): boolean {
  return quantity === 'loadFactor' && side === 'upper';
}

export class ManoeuvreBounds {
  readonly aircraft: Aircraft;
  readonly rules: ManoeuvreRules;
  readonly forces: Forces;
  readonly air: Air = newAir();
  readonly inputs: LimitInputs = newLimitInputs();
  pressureAltitudeM = 0;
  private readonly structure: readonly Limit[];
  private readonly aero: AeroPoint = {
    liftSlope: 0,
    zeroLiftAngleRad: 0,
    zeroLiftDrag: 0,
    inducedFactor: 0,
    outside: 0,
  };

  constructor(setup: FlightSetup, rules: ManoeuvreRules) {
    this.aircraft = setup.aircraft;
    this.rules = rules;
    this.forces = new Flight(setup).forces;
    this.structure = setup.aircraft.limits.filter(boundsStructure);
  }

  /** Sets the air; `sample` fills it at the pressure altitude. */
  placeIn(pressureAltitudeM: number, sample: (air: Air) => void): void {
    this.pressureAltitudeM = pressureAltitudeM;
    sample(this.air);
  }

  load(fuelKg: number): void {
    const { inputs, aircraft } = this;
    inputs.fuelKg = fuelKg;
    inputs.massKg = aircraft.balance.emptyMassKg + fuelKg;
  }

  /** With the present fuel, and what is transferred at a Mach. */
  cgFraction(mach: number): number {
    return this.aircraft.balance.cgFraction(this.inputs.fuelKg, mach);
  }

  /** n = 1. */
  get weightN(): number {
    return this.inputs.massKg * standardGravity;
  }

  /** At which n is reached at a Mach: angle of attack of the wing alone; NaN beyond the tables. */
  angleFor(mach: number, loadFactor: number): number {
    const perRad = this.loadFactorPerRad(mach);
    return this.aero.zeroLiftAngleRad + loadFactor / perRad;
  }

  /** n at which the warning sounds in steady flight, or the pusher acts; null where the deck has no such angle, NaN beyond its tables. */
  stall(of: Stall, mach: number): number | null {
    const { aerodynamics } = this.aircraft;
    const angle = of === 'warning' ? aerodynamics.warningAngleRad(mach) : aerodynamics.pushAngleRad(mach);
    if (angle === null) return null;
    const perRad = this.loadFactorPerRad(mach);
    return perRad * (angle - this.aero.zeroLiftAngleRad);
  }

  /** How much earlier the warning sounds in n with an n' [1/s]; NaN where the deck has no rates. */
  lead(onsetPerS: number): number {
    return onsetPerS < Number.POSITIVE_INFINITY ? this.aircraft.rates.warningLeadS * onsetPerS : Number.NaN;
  }

  /** Least bound of the structure; null where the deck has none. */
  structural(mach: number, rolling: boolean): number | null {
    if (this.structure.length === 0) return null;
    const { inputs } = this;
    this.fill(mach);
    inputs.rollRateRadS = rolling ? 1 : 0;
    const least = Math.min(...this.structure.map((limit) => limit.bound(inputs)));
    inputs.rollRateRadS = 0;
    return least;
  }

  /** Where the bounds of the structure stand in the deck. */
  get structureSource(): string {
    return this.structure.map(({ source }) => source).join(', ');
  }

  /** The rule of the sortie that holds the crew to least with the present fuel; null where it has none. */
  get heldTo(): ManoeuvreRules['heldTo'][number] | null {
    const holding = this.rules.heldTo.filter(({ fromFuelKg }) => this.inputs.fuelKg >= fromFuelKg);
    return holding.length === 0 ? null : holding.reduce((a, b) => (b.loadFactor < a.loadFactor ? b : a));
  }

  at(mach: number): LoadFactorBounds {
    return {
      warning: known(this.stall('warning', mach)),
      push: known(this.stall('push', mach)),
      symmetric: this.structural(mach, false),
      rolling: this.structural(mach, true),
      held: this.heldTo?.loadFactor ?? null,
      sustained: this.sustained(mach),
    };
  }

  /** n of level flight in which all the thrust is drag; 0 where drag is more at no lift, null beyond the tables. */
  sustained(mach: number): number | null {
    const { forces } = this;
    this.balanceAt(mach);
    forces.usePower(this.aircraft.propulsion.maximum);
    if (forces.outside !== 0) return null;
    return forces.useAlongForce(0) ? forces.liftN / this.weightN : 0;
  }

  /** Looks the forces up at a Mach in the present air. */
  balanceAt(mach: number): void {
    const { forces, air, inputs } = this;
    forces.atSpeed(mach * air.speedOfSoundMS, inputs.massKg, air, this.pressureAltitudeM);
  }

  /** The least Mach at which n is reached without warning or push, `lead` of n kept; null where there is none up to Mach 1.2. */
  slowest(of: Stall, loadFactor: number, lead = 0): number | null {
    const spare = (mach: number) => (this.stall(of, mach) ?? Number.NaN) - loadFactor - lead;
    for (let mach = SLOWEST_MACH; mach < FASTEST_MACH - 1e-9; mach += MACH_STEP) {
      const faster = mach + MACH_STEP;
      if (!(spare(faster) >= 0)) continue;
      const root = brent(spare, mach, faster, MACH_TOLERANCE);
      return root.found ? root.x : null;
    }
    return null;
  }

  /** Least speeds for a manoeuvre. */
  speedsFor({ named, loadFactor, bankRad }: Named): LeastSpeeds {
    const { onsetPerS, rollRadPerS } = this.aircraft.rates;
    const onset = named === 'bank' ? onsetOfRoll(bankRad, rollRadPerS) : onsetPerS;
    const lead = named === 'level' ? 0 : this.lead(onset);
    return {
      named,
      loadFactor,
      bankDeg: (bankRad * 180) / Math.PI,
      warning: this.speeds(this.slowest('warning', loadFactor)),
      entered: this.speeds(this.slowest('warning', loadFactor, lead)),
      push: this.speeds(this.slowest('push', loadFactor)),
    };
  }

  speeds(mach: number): GaugeSpeeds;
  speeds(mach: number | null): GaugeSpeeds | null;
  speeds(mach: number | null): GaugeSpeeds | null {
    if (mach === null) return null;
    const { pressurePa } = this.air;
    return {
      mach,
      calibratedAirspeedMS: calibratedAirspeed(mach, pressurePa),
      equivalentAirspeedMS: equivalentAirspeed(mach, pressurePa),
    };
  }

  /** Fills what limits read for steady flight at a Mach, but for load factor, angle of attack and bank. */
  fill(mach: number): void {
    const { inputs, air } = this;
    const total = quickTotalTemperature(air.temperatureK, mach * air.speedOfSoundMS);
    inputs.mach = mach;
    inputs.cgFraction = this.cgFraction(mach);
    inputs.pressureAltitudeM = this.pressureAltitudeM;
    inputs.equivalentAirspeedMS = equivalentAirspeed(mach, air.pressurePa);
    inputs.calibratedAirspeedMS = calibratedAirspeed(mach, air.pressurePa);
    inputs.staticTemperatureK = air.temperatureK;
    inputs.indicatedInletTemperatureK =
      air.temperatureK + this.aircraft.gauges.inletTemperatureRecovery * (total - air.temperatureK);
  }

  private loadFactorPerRad(mach: number): number {
    const { aero, air, aircraft } = this;
    const { aerodynamics } = aircraft;
    aerodynamics.at(mach, this.pressureAltitudeM, air.geometricHeightM, this.cgFraction(mach), aero);
    if (aero.outside !== 0) return Number.NaN;
    const force = dynamicPressure(mach, air.pressurePa) * aerodynamics.wingAreaM2;
    return (force * aero.liftSlope) / this.weightN;
  }
}

function known(value: number | null): number | null {
  return value === null || Number.isNaN(value) ? null : value;
}
