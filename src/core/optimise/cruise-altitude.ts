/**
 * The best altitude for a supersonic cruise: the most air distance for each kilogram of fuel at a Mach, for weight, temperature
 * and power, with what the limits leave of it.
 *
 * The air is the standard atmosphere with an offset at the same pressure altitude, without wind; weight may be reduced by
 * curvature and rotation by giving the mass that would weigh as much at 9.80665 m/s2.
 */

import { geometricFromGeopotential } from '../air/standard.ts';
import type { Aircraft, EnginePoint, Limit, LimitInputs } from '../aircraft/aircraft.ts';
import { minimise } from '../numerics/optimum.ts';
import { brent } from '../numerics/roots.ts';
import { standardGravity } from '../quantities/constants.ts';
import { levelFlight, newLevelPoint } from './level-flight.ts';

/** What the search answers for one weight and temperature. */
export interface BestAltitude {
  /** null where no altitude can be held at all. */
  readonly pressureAltitudeM: number | null;
  /** Key of what stops it there or holds it below the free optimum: a limit's, or 'thrust'; null where nothing does. */
  readonly heldBy: string | null;
  /** Key of a limit that is broken even there, so that the altitude cannot be used; null where none is. */
  readonly brokenBy: string | null;
  readonly specificRangeMKg: number;
  readonly indicatedInletTemperatureK: number;
  readonly power: number;
}

export interface CruiseQuestion {
  readonly aircraft: Aircraft;
  readonly mach: number;
  readonly zeroFuelMassKg: number;
  /** Margins to be kept inside limits, by their keys, in SI. */
  readonly pads: Readonly<Record<string, number>>;
}

/** Altitudes searched: the stratosphere that a supersonic cruise can use. */
const lowestM = 11_000;
const highestM = 27_500;
const stepM = 750;
/** Right to this in altitude; the optimum is flat: 30 m cost less than 1e-5 of range. */
const toleranceM = 10;

/** Limits that altitude can do something about at a fixed Mach; the others only say that a cell cannot be used. */
const answeredByAltitude = (limit: Limit): boolean =>
  limit.quantity !== 'mach' && !limit.quantity.includes('emperature');

export class CruiseAltitudes {
  /** Points of level flight worked out so far. */
  evaluations = 0;
  private readonly question: CruiseQuestion;
  private readonly point = newLevelPoint();
  private readonly engine: EnginePoint = { thrustN: 0.5, fuelFlowKgS: 0.5, power: 0.5, outside: 0 };
  private heldBy: string | null = null;
  /** The limits that altitude can do something about. */
  private readonly answered: readonly Limit[];

  constructor(question: CruiseQuestion) {
    this.question = question;
    this.answered = question.aircraft.limits.filter(answeredByAltitude);
  }

  /** Least fuel for the distance, power as required. `nearM` is a guess that saves time. */
  best(massKg: number, temperatureOffsetK: number, nearM = 21_000): BestAltitude {
    const cost = (altitude: number): number => this.cost(massKg, temperatureOffsetK, altitude);
    const near = Math.min(Math.max(nearM, lowestM + stepM), highestM - stepM);
    let middle = near;
    let here = cost(near);
    // Where the guess cannot be flown, the nearest altitude that can be, on either side.
    for (let away = stepM; here === Infinity && away < highestM - lowestM; away += stepM) {
      for (const altitude of [near - away, near + away]) {
        if (here !== Infinity || altitude < lowestM || altitude > highestM) continue;
        middle = altitude;
        here = cost(altitude);
      }
    }
    if (here === Infinity) {
      cost(near);
      return this.answer(massKg, temperatureOffsetK, null);
    }
    for (let moved = true; moved; ) {
      moved = false;
      const below = middle - stepM >= lowestM ? cost(middle - stepM) : Infinity;
      const above = middle + stepM <= highestM ? cost(middle + stepM) : Infinity;
      if (below < here || above < here) {
        middle += below < above ? -stepM : stepM;
        here = Math.min(below, above);
        moved = true;
      }
    }
    const found = minimise(
      cost,
      Math.max(lowestM, middle - stepM),
      Math.min(highestM, middle + stepM),
      toleranceM,
    );
    const altitude = found.value < here ? found.x : middle;
    if (cost(altitude + 4 * toleranceM) !== Infinity) cost(altitude - 4 * toleranceM);
    return this.answer(massKg, temperatureOffsetK, altitude);
  }

  /** The highest altitude at which a power just holds level flight. */
  atPower(massKg: number, temperatureOffsetK: number, power: number): BestAltitude {
    const surplus = (altitude: number): number => this.surplus(massKg, temperatureOffsetK, altitude, power);
    let above = highestM;
    while (above > lowestM && !(surplus(above) >= 0)) above -= stepM;
    this.heldBy = 'thrust';
    if (!(surplus(above) >= 0)) return this.answer(massKg, temperatureOffsetK, null);
    if (above >= highestM) return this.answer(massKg, temperatureOffsetK, highestM);
    const root = brent(surplus, above, above + stepM, 1);
    this.heldBy = null;
    return this.answer(massKg, temperatureOffsetK, root.x, power);
  }

  /** Fuel for a metre; Infinity where thrust or a limit forbids the altitude. */
  private cost(massKg: number, offsetK: number, altitudeM: number): number {
    this.level(massKg, offsetK, altitudeM);
    const { point } = this;
    this.heldBy = null;
    if (Number.isNaN(point.power) || point.outside !== 0) this.heldBy = 'thrust';
    else this.heldBy = this.broken(this.answered);
    return this.heldBy === null ? point.fuelFlowKgS / point.trueAirspeedMS : Infinity;
  }

  private surplus(massKg: number, offsetK: number, altitudeM: number, power: number): number {
    this.level(massKg, offsetK, altitudeM);
    const { propulsion } = this.question.aircraft;
    const height = geometricFromGeopotential(altitudeM);
    propulsion.at(power, this.question.mach, altitudeM, height, offsetK, this.engine);
    if (this.engine.outside !== 0 || this.point.outside !== 0) return -Infinity;
    return this.engine.thrustN * propulsion.engines.length - this.point.thrustN;
  }

  private level(massKg: number, offsetK: number, altitudeM: number): void {
    const { aircraft, mach, zeroFuelMassKg } = this.question;
    const fuel = Math.min(Math.max(massKg - zeroFuelMassKg, 0), aircraft.balance.fuelCapacityKg);
    this.evaluations++;
    levelFlight(aircraft, mach, altitudeM, offsetK, massKg * standardGravity, fuel, this.point);
  }

  /** Key of the first of some limits whose margin, less its pad, is used up at the point. */
  private broken(limits: readonly Limit[]): string | null {
    const { inputs } = this.point;
    for (const limit of limits) {
      if (marginOf(limit, inputs) < (this.question.pads[limit.key] ?? 0)) return limit.key;
    }
    return null;
  }

  private answer(massKg: number, offsetK: number, altitudeM: number | null, power?: number): BestAltitude {
    const heldBy = this.heldBy;
    if (altitudeM === null) {
      return {
        pressureAltitudeM: null,
        heldBy,
        brokenBy: heldBy,
        specificRangeMKg: 0,
        indicatedInletTemperatureK: Number.NaN,
        power: Number.NaN,
      };
    }
    this.level(massKg, offsetK, altitudeM);
    return {
      pressureAltitudeM: altitudeM,
      heldBy,
      brokenBy: this.broken(this.question.aircraft.limits),
      specificRangeMKg: this.point.trueAirspeedMS / this.point.fuelFlowKgS,
      indicatedInletTemperatureK: this.point.inputs.indicatedInletTemperatureK,
      power: power ?? this.point.power,
    };
  }
}

function marginOf(limit: Limit, at: LimitInputs): number {
  const margin = limit.bound(at) - limit.value(at);
  return limit.side === 'upper' ? margin : -margin;
}

/** Best altitudes on a grid of mass and offset, for a cruise to follow; a cell is worked out when it is first asked for. */
export class AltitudeTable {
  private readonly search: CruiseAltitudes;
  private readonly masses: readonly number[];
  private readonly offsets: readonly number[];
  private readonly cells: Float64Array;

  constructor(question: CruiseQuestion, masses: readonly number[], offsets: readonly number[]) {
    this.search = new CruiseAltitudes(question);
    this.masses = masses;
    this.offsets = offsets;
    this.cells = new Float64Array(masses.length * offsets.length).fill(Number.NaN);
  }

  /** Points of level flight worked out so far. */
  get evaluations(): number {
    return this.search.evaluations;
  }

  /** Pressure altitude [m], bilinear; beyond the grid that of its edge, since it is an aim and not a property. */
  altitudeM(massKg: number, temperatureOffsetK: number): number {
    const { masses, offsets } = this;
    const i = cellOf(masses, massKg);
    const j = cellOf(offsets, temperatureOffsetK);
    const u = Math.min(Math.max((massKg - masses[i]) / (masses[i + 1] - masses[i]), 0), 1);
    const v = Math.min(Math.max((temperatureOffsetK - offsets[j]) / (offsets[j + 1] - offsets[j]), 0), 1);
    const below = this.cell(i, j);
    const low = below + v * (this.cell(i, j + 1) - below);
    const above = this.cell(i + 1, j);
    const high = above + v * (this.cell(i + 1, j + 1) - above);
    return low + u * (high - low);
  }

  /** The altitude of a cell; where nothing can be held the lowest searched. */
  private cell(i: number, j: number): number {
    const index = i * this.offsets.length + j;
    if (Number.isNaN(this.cells[index])) {
      this.cells[index] = this.search.best(this.masses[i], this.offsets[j]).pressureAltitudeM ?? lowestM;
    }
    return this.cells[index];
  }
}

function cellOf(axis: readonly number[], value: number): number {
  let i = 0;
  while (i < axis.length - 2 && value >= axis[i + 1]) i++;
  return i;
}
