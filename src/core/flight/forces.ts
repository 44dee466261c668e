/**
 * Lift, drag, thrust and fuel flow of the aircraft at one speed in one air, and the angle of attack that balances them.
 *
 * Conventions: SI, radians; angle of attack is that of the body axis, along which thrust acts; drag along and lift normal to
 * the motion through the air; the forces of all running engines together unless a name says engine.
 */
import type { Air } from '../air/day.ts';
import type { AeroPoint, Aircraft, EnginePoint } from '../aircraft/aircraft.ts';
import type { FlightSetup, Variation } from './setup.ts';

/** Marks of tables that end before the flight does. */
export const OUTSIDE_AERODYNAMICS = 1;
const OUTSIDE_PROPULSION = 2;

/** A thrust is there if it lacks no more than this: the search for an angle of attack leaves as much. */
const ROUNDING = 1e-8;

export class Forces {
  readonly aircraft: Aircraft;
  /** Added to the drag coefficient for the moment, in a tanker's wash. */
  washDrag = 0.5;
  massKg = 0.5;
  fuelKg = 0.5;
  cgFraction = 0.5;
  mach = 0.5;
  speedMS = 0.5;
  dynamicPressurePa = 0.5;
  angleRad = 0.5;
  liftN = 0.5;
  dragN = 0.5;
  thrustN = 0.5;
  fuelFlowKgS = 0.5;
  /** The highest power of the running engines; each by itself in `powers`, NaN where not running. */
  power = 0.5;
  readonly powers: Float64Array;
  /** 0, or marks of the tables that were left. */
  outside = 0;
  private readonly aero: AeroPoint = {
    liftSlope: 0.5,
    zeroLiftAngleRad: 0.5,
    zeroLiftDrag: 0.5,
    inducedFactor: 0.5,
    outside: 0,
  };
  private readonly engine: EnginePoint = { thrustN: 0.5, fuelFlowKgS: 0.5, power: 0.5, outside: 0 };
  /** Lost beside what the engines burn. */
  readonly leakKgS: number;
  private readonly vary: Variation;
  private readonly zeroFuelMassKg: number;
  private readonly wingAreaM2: number;
  private readonly running: number;
  private pressureAltitudeM = 0.5;
  private geometricHeightM = 0.5;
  private temperatureOffsetK = 0.5;
  /** q S, q S dCL/dalpha, q S CD0 with its increments, q S k, all with the drag factor where they are drag. */
  private pressureAreaN = 0.5;
  private liftPerRad = 0.5;
  private zeroLiftDragN = 0.5;
  private inducedN = 0.5;

  constructor(setup: FlightSetup, vary: Variation) {
    this.aircraft = setup.aircraft;
    this.vary = vary;
    this.leakKgS = vary.leakKgS;
    this.zeroFuelMassKg = setup.zeroFuelMassKg;
    this.wingAreaM2 = setup.aircraft.aerodynamics.wingAreaM2;
    this.running = vary.runningEngines;
    this.powers = new Float64Array(setup.aircraft.propulsion.engines.length).fill(Number.NaN);
    this.washDrag = 0;
  }

  /** Looks up the aerodynamics at a true airspeed in the air, for a mass. */
  atSpeed(speedMS: number, massKg: number, air: Air, pressureAltitudeM: number): void {
    const aero = this.aero;
    this.speedMS = speedMS;
    this.massKg = massKg;
    this.fuelKg = massKg - this.zeroFuelMassKg;
    this.mach = speedMS / air.speedOfSoundMS;
    this.cgFraction = this.aircraft.balance.cgFraction(this.fuelKg, this.mach);
    this.pressureAltitudeM = pressureAltitudeM;
    this.geometricHeightM = air.geometricHeightM;
    this.temperatureOffsetK = air.temperatureOffsetK;
    this.dynamicPressurePa = 0.5 * air.densityKgM3 * speedMS * speedMS;
    this.aircraft.aerodynamics.at(this.mach, pressureAltitudeM, air.geometricHeightM, this.cgFraction, aero);
    this.outside = aero.outside === 0 ? 0 : OUTSIDE_AERODYNAMICS;
    const area = this.dynamicPressurePa * this.wingAreaM2;
    const factor = area * this.vary.dragFactor;
    this.pressureAreaN = area;
    this.liftPerRad = area * aero.liftSlope;
    this.zeroLiftDragN = factor * (aero.zeroLiftDrag + this.vary.dragIncrement + this.washDrag);
    this.inducedN = factor * aero.inducedFactor;
  }

  /** Sets angle of attack, lift and drag. */
  useAngle(angleRad: number): void {
    const coefficient = this.aero.liftSlope * (angleRad - this.aero.zeroLiftAngleRad);
    this.angleRad = angleRad;
    this.liftN = this.pressureAreaN * coefficient;
    this.dragN = this.zeroLiftDragN + this.inducedN * coefficient * coefficient;
  }

  /** The same from a lift. */
  useLift(liftN: number): void {
    this.useAngle(this.aero.zeroLiftAngleRad + liftN / this.liftPerRad);
  }

  /** Angle of attack at which lift + T sin(alpha) is a force: Newton from the solution for small angles. */
  useNormalForce(forceN: number): void {
    const { liftPerRad, thrustN } = this;
    const zero = this.aero.zeroLiftAngleRad;
    let angle = (forceN + liftPerRad * zero) / (liftPerRad + thrustN);
    if (thrustN !== 0) {
      // What sin(alpha) lacks of alpha.
      angle += (thrustN * angle * angle * angle) / (6 * (liftPerRad + thrustN));
      for (let iteration = 0; iteration < 8; iteration++) {
        const error = liftPerRad * (angle - zero) + thrustN * Math.sin(angle) - forceN;
        // The slope, L' + T cos(alpha), to a part in ten thousand: each round leaves as much of the error.
        const change = error / (liftPerRad + thrustN * (1 - 0.5 * angle * angle));
        angle -= change;
        if (Math.abs(change) < 1e-6) break;
      }
    }
    this.useAngle(angle);
  }

  /**
   * Angle of attack, above that of no lift, at which T cos(alpha) - D is a force at the present thrust. False, with the angle of no
   * lift left, where even there the force is less.
   */
  useAlongForce(forceN: number): boolean {
    const { thrustN } = this;
    const zero = this.aero.zeroLiftAngleRad;
    const slope = this.aero.liftSlope;
    const bend = this.inducedN * slope * slope;
    const spare = thrustN - this.zeroLiftDragN - forceN;
    // With cos(alpha) = 1 - alpha^2/2: bend x^2 + T (x + zero)^2 / 2 = spare, x = alpha - zero.
    const a = bend + 0.5 * thrustN;
    const b = 0.5 * thrustN * zero;
    const root = b * b - a * (b * zero - spare);
    if (!(root > 0)) {
      this.useAngle(zero);
      return false;
    }
    let x = (Math.sqrt(root) - b) / a;
    for (let iteration = 0; iteration < 8; iteration++) {
      const angle = x + zero;
      const error = thrustN * Math.cos(angle) - this.zeroLiftDragN - bend * x * x - forceN;
      const change = error / (thrustN * Math.sin(angle) + 2 * bend * x);
      x += change;
      if (!(Math.abs(change) > 1e-10)) break;
    }
    if (!(x > 0)) {
      this.useAngle(zero);
      return false;
    }
    this.useAngle(x + zero);
    return true;
  }

  /**
   * Thrust and angle of attack together, for T cos(alpha) - D = F and lift + T sin(alpha) = N given: with T = (F + D) / cos(alpha),
   * lift + (F + D) tan(alpha) = N, by Newton's rule. The engines are not set.
   */
  useBoth(alongN: number, normalN: number): void {
    const { liftPerRad, inducedN } = this;
    const { zeroLiftAngleRad: zero, liftSlope } = this.aero;
    const base = alongN + this.zeroLiftDragN;
    let angle = (normalN + liftPerRad * zero) / (liftPerRad + base);
    const first = liftSlope * (angle - zero);
    angle = (normalN + liftPerRad * zero) / (liftPerRad + base + inducedN * first * first);
    let tangent = 0;
    for (let round = 0; round < 12; round++) {
      const coefficient = liftSlope * (angle - zero);
      const push = base + inducedN * coefficient * coefficient;
      tangent = Math.tan(angle);
      const error = liftPerRad * (angle - zero) + push * tangent - normalN;
      const slope = liftPerRad + push + 2 * inducedN * coefficient * liftSlope * tangent;
      const change = error / slope;
      angle -= change;
      if (!(Math.abs(change) > 1e-7)) break;
    }
    this.useAngle(angle);
    this.thrustN = (alongN + this.dragN) / Math.cos(angle);
  }

  /** How much of T cos(alpha) - D is lost for each newton more of lift + T sin(alpha). */
  alongPerNormal(): number {
    const { angleRad, thrustN, aero } = this;
    const lift = angleRad - aero.zeroLiftAngleRad;
    const drag = 2 * this.inducedN * aero.liftSlope * aero.liftSlope * lift;
    return (thrustN * angleRad + drag) / (this.liftPerRad + thrustN);
  }

  /** T cos(alpha) - D. */
  get alongN(): number {
    return this.thrustN * Math.cos(this.angleRad) - this.dragN;
  }

  /** Sets all running engines to a power on the deck's ladder; thrust and fuel flow follow. */
  usePower(power: number): void {
    this.readEngine(power);
    this.thrustN = this.running * this.vary.thrustFactor * this.engine.thrustN;
    this.fuelFlowKgS = this.running * this.vary.fuelFlowFactor * this.engine.fuelFlowKgS;
    this.setPowers(power);
  }

  /** Thrust at a power, nothing else touched. */
  thrustAt(power: number): number {
    this.readEngine(power);
    return this.running * this.vary.thrustFactor * this.engine.thrustN;
  }

  /** The most thrust in contact: one running engine at its most and the others at military power; nothing else is touched. */
  contactThrustN(): number {
    const { minimumAfterburner, military, maximum } = this.aircraft.propulsion;
    if (minimumAfterburner === null || this.running < 2) return this.thrustAt(maximum);
    const others = (this.thrustAt(military) * (this.running - 1)) / this.running;
    return others + this.thrustAt(maximum) / this.running;
  }

  /** Sets the running engines alike so that they give `thrustN`; false where they cannot, and then they give what they can. */
  useRequiredThrust(): boolean {
    const { engine } = this;
    this.findPower(this.thrustN / (this.running * this.vary.thrustFactor));
    if (Number.isNaN(engine.power)) {
      const required = this.thrustN;
      this.usePower(this.aircraft.propulsion.maximum);
      return this.thrustN * (1 + ROUNDING) >= required;
    }
    this.fuelFlowKgS = this.running * this.vary.fuelFlowFactor * engine.fuelFlowKgS;
    this.setPowers(engine.power);
    return true;
  }

  /**
   * Shares `thrustN` out: the first running engine in afterburner, at its minimum or, where the others then do not suffice
   * at military power, at what is left to it. False where that is not enough either.
   */
  useOneAfterburner(): boolean {
    const { engine, running } = this;
    const { minimumAfterburner, military } = this.aircraft.propulsion;
    const { thrustFactor, fuelFlowFactor } = this.vary;
    if (minimumAfterburner === null || running < 2) return this.useRequiredThrust();
    const others = running - 1;
    const each = this.thrustN / thrustFactor;
    this.readEngine(minimumAfterburner);
    let burner = minimumAfterburner;
    let flow = engine.fuelFlowKgS;
    this.findPower((each - engine.thrustN) / others);
    let rest = engine.power;
    if (!(rest <= military)) {
      rest = military;
      this.readEngine(military);
      flow = others * engine.fuelFlowKgS;
      this.findPower(each - others * engine.thrustN);
      burner = engine.power;
      flow += engine.fuelFlowKgS;
    } else {
      flow += others * engine.fuelFlowKgS;
    }
    const possible = !Number.isNaN(burner);
    if (!possible) {
      burner = this.aircraft.propulsion.maximum;
      this.readEngine(burner);
      flow = engine.fuelFlowKgS;
      this.thrustN = engine.thrustN;
      this.readEngine(military);
      flow += others * engine.fuelFlowKgS;
      this.thrustN = (this.thrustN + others * engine.thrustN) * thrustFactor;
    }
    this.fuelFlowKgS = fuelFlowFactor * flow;
    this.power = burner;
    for (let i = 0; i < this.powers.length; i++) {
      this.powers[i] = i === 0 ? burner : i < running ? rest : Number.NaN;
    }
    return possible;
  }

  /** Whether the thrust that was required, and is kept, is less than that of power 0. */
  isBelowIdle(): boolean {
    return this.power === 0 && this.thrustN < this.running * this.vary.thrustFactor * this.engine.thrustN;
  }

  private readEngine(power: number): void {
    this.aircraft.propulsion.at(
      power,
      this.mach,
      this.pressureAltitudeM,
      this.geometricHeightM,
      this.temperatureOffsetK,
      this.engine,
    );
    if (this.engine.outside !== 0) this.outside |= OUTSIDE_PROPULSION;
  }

  private findPower(thrustN: number): void {
    this.aircraft.propulsion.powerFor(
      thrustN,
      this.mach,
      this.pressureAltitudeM,
      this.geometricHeightM,
      this.temperatureOffsetK,
      this.engine,
    );
    if (this.engine.outside !== 0) this.outside |= OUTSIDE_PROPULSION;
  }

  private setPowers(power: number): void {
    this.power = power;
    for (let i = 0; i < this.powers.length; i++) this.powers[i] = i < this.running ? power : Number.NaN;
  }
}
