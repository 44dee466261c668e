/**
 * The few unknown factors beside a plan, how they act on fuel and readings, and what the readings scatter by.
 *
 * State, each as a difference from the plan: fuel on board at equal energy [kg], bias of the fuel gauge [kg], its error that lasts
 * [kg], fuel flow of the left and of the right engine for the same thrust [share], drag [share], temperature of the air [K],
 * headwind [m/s], distance lost [m], leak [kg/s], fuel that the flow meters have added up [kg]. Changes are linear about the plan;
 * what a changed weight does to drag is left out: a tenth of a percent of flow for each 100 kg.
 */
import { type Expected, energyWorth, inletSlopes } from './expectation.ts';
import type { ReadKey } from './reading.ts';

export const STATE = {
  fuel: 0,
  gaugeBias: 1,
  gaugeSlow: 2,
  left: 3,
  right: 4,
  drag: 5,
  temperature: 6,
  headwind: 7,
  lag: 8,
  leak: 9,
  metered: 10,
} as const;

export const ORDER = 11;

/** Standard deviations of the readings; of flow and of what is added up as shares of the value. */
export interface Scatter {
  readonly fuelKg: number;
  readonly flowShare: number;
  readonly usedShare: number;
  readonly inletTemperatureK: number;
  readonly mach: number;
  readonly groundSpeedMS: number;
  readonly distanceM: number;
}

/** Common practice for gauges of a large jet; where a deck or a crew knows better, their own. */
export const usualScatter: Scatter = {
  fuelKg: 50,
  flowShare: 0.01,
  usedShare: 0.003,
  inletTemperatureK: 2,
  mach: 0.004,
  groundSpeedMS: 2,
  distanceM: 2000,
};

/** How a fuel gauge may err about its mean: what is new with each reading and what lasts, in parts of `Scatter.fuelKg`. */
export interface GaugeNoise {
  readonly key: 'white' | 'loud' | 'slow';
  readonly white: number;
  readonly slow: number;
  /** Probability before any reading. */
  readonly prior: number;
}

export const gaugeNoises: readonly GaugeNoise[] = [
  { key: 'white', white: 1, slow: 0, prior: 0.9 },
  { key: 'loud', white: 1.5, slow: 0, prior: 0.05 },
  { key: 'slow', white: 0.4, slow: 1, prior: 0.05 },
];

/** An error of the gauge that lasts is forgotten with this time constant [s]. */
const slowS = 180;

/**
 * Standard deviations at take-off, in the order of the state; that of `gaugeSlow` is the gauge's. The plan is taken at its word:
 * what it is off by more than this is a change that began with the flight.
 */
const initial = [20, 20, 0, 0.001, 0.001, 0.0005, 0.3, 3, 1000, 0, 20];

/** Variance that each state gains in a second while nothing happens: forecasts drift, the rest hardly does. */
const drift = [0.005, 0, 0, 2.5e-7 / 3600, 2.5e-7 / 3600, 0, 0.1 / 600, 2 / 600, 0, 0, 0];

export function initialVariance(scatter: Scatter, noise: GaugeNoise): number[] {
  return initial.map((sd, i) => (i === STATE.gaugeSlow ? noise.slow * scatter.fuelKg : sd) ** 2);
}

/** The state from one moment to a later one: an identity with a few entries, and the variance that it gains. */
export class Transition {
  readonly matrix = new Float64Array(ORDER * ORDER);
  readonly noise = new Float64Array(ORDER);
  /** What a known difference of Mach does to the state. */
  readonly shift = new Float64Array(ORDER);
  private readonly entries: number[] = [];

  /** `machMore` is how much faster than planned was flown meanwhile, as read. */
  between(from: Expected, to: Expected, machMore: number): void {
    const { matrix, noise, shift, entries } = this;
    matrix.fill(0);
    shift.fill(0);
    entries.length = 0;
    for (let i = 0; i < ORDER; i++) matrix[i * ORDER + i] = 1;
    const seconds = to.timeS - from.timeS;
    const burnt = to.burntKg - from.burntKg;
    const warm = to.temperatureKgK - from.temperatureKgK;
    const dragFlow = 0.5 * (from.dragFlowKgS + to.dragFlowKgS) * seconds;
    const { fuel, left, right, drag, temperature, headwind, lag, leak, metered, gaugeSlow } = STATE;
    this.set(fuel, left, -0.5 * burnt);
    this.set(fuel, right, -0.5 * burnt);
    this.set(fuel, drag, from.dragKg - to.dragKg);
    this.set(fuel, temperature, -warm);
    this.set(fuel, leak, -seconds);
    this.set(metered, left, 0.5 * burnt);
    this.set(metered, right, 0.5 * burnt);
    this.set(metered, drag, dragFlow);
    this.set(metered, temperature, warm);
    this.set(lag, headwind, seconds);
    this.set(lag, temperature, from.temperatureM - to.temperatureM);
    matrix[gaugeSlow * ORDER + gaugeSlow] = Math.exp(-seconds / slowS);
    for (let i = 0; i < ORDER; i++) noise[i] = drift[i] * seconds;
    const faster = (to.machKg - from.machKg) * machMore;
    shift[fuel] = -faster;
    shift[metered] = faster;
    shift[lag] = to.mach > 0 ? (-seconds * to.trueAirspeedMS * machMore) / to.mach : 0;
  }

  private set(to: number, from: number, value: number): void {
    if (value === 0) return;
    this.matrix[to * ORDER + from] = value;
    this.entries.push(to, from);
  }

  /** The same for many vectors in place, one every `stride` numbers. */
  apply(vectors: Float64Array, stride: number, count: number): void {
    const { matrix, entries } = this;
    const end = stride * count;
    const kept = matrix[STATE.gaugeSlow * ORDER + STATE.gaugeSlow];
    for (let at = STATE.gaugeSlow; at < end; at += stride) vectors[at] *= kept;
    // What is added to never stands among what is added from, so the order of the entries does not matter.
    for (let i = 0; i < entries.length; i += 2) {
      const [to, from] = [entries[i], entries[i + 1]];
      const value = matrix[to * ORDER + from];
      for (let at = 0; at < end; at += stride) vectors[at + to] += value * vectors[at + from];
    }
  }

  noiseOf(slowVariance: number): Float64Array {
    const at = STATE.gaugeSlow;
    const kept = this.matrix[at * ORDER + at];
    this.noise[at] = slowVariance * (1 - kept * kept);
    return this.noise;
  }
}

/** What was last read of the speed and height flown; null where it is too old to count. */
export interface Flown {
  readonly mach: number | null;
  readonly pressureAltitudeM: number | null;
}

/** One measurement: what it should read with no deviation, how each state moves it, and its scatter. */
export interface Measurement {
  expected: number;
  variance: number;
  readonly row: Float64Array;
}

export function newMeasurement(): Measurement {
  return { expected: 0.5, variance: 0.5, row: new Float64Array(ORDER) };
}

/** Worth of height and speed that were not read: 500 ft and 0.005 Mach. */
const energyNotReadKg = 5;
/** Mach is flown to this where it is not read. */
const machNotRead = 0.005;

/** Fills a measurement of one key; false where the key is none that the state moves. */
export function measure(
  key: ReadKey,
  at: Expected,
  flown: Flown,
  scatter: Scatter,
  out: Measurement,
): boolean {
  out.row.fill(0);
  const more = flown.mach === null ? 0 : flown.mach - at.mach;
  switch (key) {
    case 'fuelKg':
      out.expected = at.fuelKg - energyWorth(at, flown.pressureAltitudeM, flown.mach);
      for (const state of [STATE.fuel, STATE.gaugeBias, STATE.gaugeSlow]) out.row[state] = 1;
      out.variance = scatter.fuelKg ** 2;
      if (flown.pressureAltitudeM === null || flown.mach === null) out.variance += energyNotReadKg ** 2;
      return true;
    case 'fuelUsedKg':
      out.expected = at.burntKg;
      out.row[STATE.metered] = 1;
      out.variance = (scatter.usedShare * at.burntKg) ** 2 + 10 ** 2;
      return true;
    case 'fuelFlowKgS':
      flowOf(at, more, 0.5, 0.5, out);
      out.variance = 0.5 * (scatter.flowShare * at.fuelFlowKgS) ** 2;
      return true;
    case 'fuelFlowLeftKgS':
    case 'fuelFlowRightKgS': {
      const isLeft = key === 'fuelFlowLeftKgS';
      flowOf(at, more, isLeft ? 0.5 : 0, isLeft ? 0 : 0.5, out);
      out.variance = (0.5 * scatter.flowShare * at.fuelFlowKgS) ** 2;
      return true;
    }
    case 'inletTemperatureK': {
      const { perKelvin, perMach } = inletSlopes(at);
      out.expected = at.inletTemperatureK + perMach * more;
      out.row[STATE.temperature] = perKelvin;
      const unsure = perMach * (flown.mach === null ? machNotRead : scatter.mach);
      out.variance = scatter.inletTemperatureK ** 2 + unsure ** 2;
      return true;
    }
    case 'groundSpeedMS':
      out.expected = at.groundSpeedMS + (at.mach > 0 ? (at.trueAirspeedMS * more) / at.mach : 0);
      out.row[STATE.headwind] = -1;
      out.row[STATE.temperature] = (0.5 * at.trueAirspeedMS) / at.temperatureK;
      out.variance =
        scatter.groundSpeedMS ** 2 +
        ((flown.mach === null ? machNotRead : scatter.mach) * (at.trueAirspeedMS / Math.max(at.mach, 0.1))) **
          2;
      return true;
    case 'distanceM':
      out.expected = at.distanceM;
      out.row[STATE.lag] = -1;
      out.variance = scatter.distanceM ** 2;
      return true;
    default:
      return false;
  }
}

function flowOf(at: Expected, machMore: number, left: number, right: number, out: Measurement): void {
  const part = left + right;
  out.expected = part * (at.fuelFlowKgS + at.machFlowKgS * machMore);
  out.row[STATE.left] = left * at.fuelFlowKgS;
  out.row[STATE.right] = right * at.fuelFlowKgS;
  out.row[STATE.drag] = part * at.dragFlowKgS;
  out.row[STATE.temperature] = part * at.temperatureFlowKgSK;
}
