/** The balance of a receiver in contact at one moment: thrust needed and there, engines, yaw and rudder, descent, turns. */
import { yawOf } from '../aircraft/rudder.ts';
import type { Flight } from '../flight/flight.ts';
import { constantCalibratedAirspeed, type SpeedLaw } from '../flight/speed-law.ts';
import type { Track } from '../flight/track.ts';
import { brent, secant } from '../numerics/roots.ts';
import { standardGravity } from '../quantities/constants.ts';
import type { ContactRow } from './plan-contact.ts';
import type { Tanker } from './sortie.ts';

const degrees = 180 / Math.PI;

/** A moment in contact; time in seconds since 1970. */
export interface ContactMoment {
  readonly takenKg: number;
  readonly timeS: number;
  readonly distanceM: number;
  readonly massKg: number;
}

export type ContactBalanced = Omit<ContactRow, 'mark' | 'takenKg' | 'timeS'> & {
  readonly fuelFlowKgS: number;
  readonly groundSpeedMS: number;
};

/** Thrust of one engine at each setting that counts [N]. */
interface OneEngine {
  readonly idleN: number;
  readonly militaryN: number;
  readonly leastLitN: number;
  readonly mostN: number;
}

/** No aircraft turns in contact at more. */
const greatestLoadFactor = 4;
/** m/s; no tanker goes down faster. */
const fastestDescentMS = 40;

export class ContactStatics {
  readonly flight: Flight;
  /** One afterburner can be lit beside dry engines. */
  readonly canLight: boolean;
  readonly engines: number;
  private readonly law: SpeedLaw;
  private readonly track: Track;
  private readonly tanker: Tanker;

  constructor(flight: Flight, track: Track, tanker: Tanker) {
    const { propulsion } = flight.setup.aircraft;
    this.flight = flight;
    this.track = track;
    this.tanker = tanker;
    this.law = constantCalibratedAirspeed(tanker.calibratedAirspeedMS);
    this.engines = propulsion.engines.length;
    this.canLight = propulsion.minimumAfterburner !== null && this.engines > 1;
  }

  /** `lit`: one engine in afterburner, else all alike. */
  at(moment: ContactMoment, lit: boolean): ContactBalanced {
    const { flight } = this;
    const { forces, frame } = flight;
    const { aircraft } = flight.setup;
    const { massKg } = moment;
    return this.inWash(moment, () => {
      flight.levelOnLaw(this.law, massKg, lit ? 'oneAfterburner' : 'alike');
      const { groundSpeedMS } = frame;
      this.requireAt(1);
      const requiredN = forces.thrustN;
      const one = this.oneEngine();
      const dryN = this.engines * one.militaryN;
      // Dry engines that do not suffice give what they can.
      if (this.canLight && !lit && requiredN > dryN) forces.usePower(aircraft.propulsion.military);
      const { fuelFlowKgS } = forces;
      const powers = [...forces.powers];
      const thrustN = powers.map((power) => this.each(power));
      const { mach, dynamicPressurePa, angleRad, fuelKg } = forces;
      const spread = aircraft.aerodynamics.washDrag?.spread ?? 0;
      const requiredSpreadN =
        (spread * dynamicPressurePa * aircraft.aerodynamics.wingAreaM2) / Math.cos(angleRad);
      const availableN = forces.contactThrustN();
      const yawNm = yawOf(aircraft.propulsion, thrustN);
      const { rudder } = aircraft;
      const turn = this.turns(availableN);
      return {
        massKg,
        fuelKg,
        requiredN,
        requiredSpreadN,
        dryN,
        availableN,
        margin: availableN / requiredN - 1,
        marginSpread: (availableN * requiredSpreadN) / (requiredN * requiredN),
        powers,
        thrustN,
        ...this.free(thrustN, powers, one),
        yawNm,
        rudderDeg: rudder && (-yawNm / rudder.momentPerRad(mach, dynamicPressurePa)) * degrees,
        rudderLimitDeg: rudder && rudder.limitRad(mach) * degrees,
        ...turn,
        descentMS: requiredN > dryN ? this.descent(massKg, requiredN, dryN) : 0,
        fuelFlowKgS,
        groundSpeedMS,
      };
    });
  }

  /** What is burnt [kg/s], as `at` has it. */
  flowAt(moment: ContactMoment, lit: boolean): number {
    const { flight } = this;
    const { forces } = flight;
    const { military } = flight.setup.aircraft.propulsion;
    return this.inWash(moment, () => {
      flight.levelOnLaw(this.law, moment.massKg, lit ? 'oneAfterburner' : 'alike');
      if (this.canLight && !lit && forces.power > military) forces.usePower(military);
      return forces.fuelFlowKgS;
    });
  }

  /** Thrust needed less that of all engines dry, of one at the least it gives when lit beside them, and of all that there is. */
  lacking(moment: ContactMoment): { readonly dryN: number; readonly litN: number; readonly allN: number } {
    const { flight } = this;
    return this.inWash(moment, () => {
      flight.levelOnLaw(this.law, moment.massKg);
      this.requireAt(1);
      const { forces } = flight;
      const requiredN = forces.thrustN;
      const { military, minimumAfterburner } = flight.setup.aircraft.propulsion;
      const dryN = forces.thrustAt(military);
      const stepN = forces.thrustAt(minimumAfterburner ?? military) - dryN;
      return {
        dryN: requiredN - dryN,
        litN: requiredN - dryN - stepN / this.engines,
        allN: requiredN - forces.contactThrustN(),
      };
    });
  }

  /** Of one engine at the moment last balanced. */
  oneEngine(): OneEngine {
    const { military, minimumAfterburner, maximum } = this.flight.setup.aircraft.propulsion;
    return {
      idleN: this.each(0),
      militaryN: this.each(military),
      leastLitN: this.each(minimumAfterburner ?? military),
      mostN: this.each(maximum),
    };
  }

  /** Place on the ladder of settings at which one engine gives a thrust, at the moment last balanced. */
  powerFor(thrustN: number): number {
    const { forces, frame, setup } = this.flight;
    const { air } = frame;
    const out = { thrustN: 0, fuelFlowKgS: 0, power: 0, outside: 0 };
    const { pressureAltitudeM } = frame;
    setup.aircraft.propulsion.powerFor(
      thrustN,
      forces.mach,
      pressureAltitudeM,
      air.geometricHeightM,
      air.temperatureOffsetK,
      out,
    );
    return out.power;
  }

  private inWash<T>({ distanceM, timeS }: ContactMoment, balance: () => T): T {
    const { forces, setup } = this.flight;
    forces.washDrag = setup.aircraft.aerodynamics.washDrag?.increment ?? 0;
    try {
      this.flight.placeOnTrack(this.track, distanceM, this.tanker.pressureAltitudeM, timeS);
      return balance();
    } finally {
      forces.washDrag = 0;
    }
  }

  private each(power: number): number {
    return this.flight.forces.thrustAt(power) / this.engines;
  }

  /** Leaves in `forces` the thrust and the angle of attack of so many times the lift that level flight asks for. */
  private requireAt(loadFactor: number): void {
    const { forces, frame, accelerationMS2 } = this.flight;
    const { normalPull, sidePull, alongPull } = frame;
    const normal = Math.sqrt(normalPull * normalPull + sidePull * sidePull);
    forces.useBoth(forces.massKg * (accelerationMS2 - alongPull), forces.massKg * normal * loadFactor);
  }

  private free(
    thrustN: readonly number[],
    powers: readonly number[],
    one: OneEngine,
  ): Pick<ContactRow, 'free' | 'moreN' | 'lessN'> {
    const { military } = this.flight.setup.aircraft.propulsion;
    if (powers[0] <= military || !this.canLight) {
      const sum = thrustN.reduce((all, thrust) => all + thrust, 0);
      const topN = this.canLight ? one.militaryN : one.mostN;
      const moreN = Math.max(0, this.engines * topN - sum);
      return { free: 'all', moreN, lessN: sum - this.engines * one.idleN };
    }
    const others = this.engines - 1;
    if (powers[1] < military) {
      const moreN = others * (one.militaryN - thrustN[1]);
      return { free: 'dry', moreN, lessN: others * (thrustN[1] - one.idleN) };
    }
    const lessN = thrustN[0] - one.leastLitN + others * (thrustN[1] - one.idleN);
    return { free: 'lit', moreN: one.mostN - thrustN[0], lessN };
  }

  /** Level turns: lift 1/cos(bank) of that of straight flight, at the same speed. */
  private turns(availableN: number): Pick<ContactRow, 'turnMargin' | 'greatestBankDeg' | 'greatestBankBy'> {
    const { forces, setup } = this.flight;
    const { aerodynamics } = setup.aircraft;
    this.requireAt(1);
    const straight = forces.liftN + forces.thrustN * Math.sin(forces.angleRad);
    const warning = aerodynamics.warningAngleRad(forces.mach);
    const spare = (loadFactor: number) => {
      this.requireAt(loadFactor);
      return availableN - forces.thrustN;
    };
    const turnMargin = availableN / (availableN - spare(1 / Math.cos(this.tanker.bankRad))) - 1;
    const byThrust =
      spare(1) <= 0
        ? 1
        : spare(greatestLoadFactor) > 0
          ? greatestLoadFactor
          : brent(spare, 1, greatestLoadFactor, 1e-6).x;
    let byWarning = greatestLoadFactor;
    if (warning !== null) {
      forces.thrustN = availableN;
      forces.useAngle(warning);
      byWarning = Math.max(1, (forces.liftN + availableN * Math.sin(warning)) / straight);
    }
    return {
      turnMargin,
      greatestBankDeg: Math.acos(1 / Math.min(byThrust, byWarning)) * degrees,
      greatestBankBy: byWarning < byThrust ? 'stallWarning' : 'thrust',
    };
  }

  private descent(massKg: number, requiredN: number, dryN: number): number {
    const { flight } = this;
    const { forces } = flight;
    const lacking = (rateMS: number) => {
      flight.onLawAtRate(this.law, massKg, rateMS);
      this.requireAt(1);
      return forces.thrustN - dryN;
    };
    const guess = (-(requiredN - dryN) / (massKg * standardGravity)) * forces.speedMS;
    return secant(lacking, 0, guess, 1e-3, -fastestDescentMS, 0).x;
  }
}
