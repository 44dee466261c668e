/**
 * What a plan leads one to read at any moment, and what a change of each factor would do to it: from the plan's trace alone.
 *
 * Slopes. Fuel flow: in proportion. Drag: where the power follows the drag, fuel flow in proportion to drag; at a fixed power the
 * flow stays, and of the fuel the part D/T that works against drag buys less energy. Temperature, at the same Mach and pressure
 * altitude: drag stays, and fuel flow goes with the square root of temperature (corrected fuel flow; common practice). Mach: drag
 * goes with the square of it at a pressure altitude. Where a deck is at hand its own slopes take the place of the last two.
 */
import { quickTotalTemperature } from '../air/quick-total.ts';
import { fuelAtEqualEnergy } from '../plan/energy.ts';
import { marksOf } from '../plan/outcome.ts';
import type { Plan } from '../plan/plan.ts';
import { gammaAir, gasConstant, standardGravity } from '../quantities/constants.ts';

/** One moment; filled in place. SI. */
export interface Expected {
  timeS: number;
  fuelKg: number;
  fuelFlowKgS: number;
  mach: number;
  pressureAltitudeM: number;
  geometricHeightM: number;
  energyHeightM: number;
  massKg: number;
  trueAirspeedMS: number;
  groundSpeedMS: number;
  distanceM: number;
  temperatureK: number;
  inletTemperatureK: number;
  power: number;
  /** Fuel by which a whole share more of drag changes the flow [kg/s]; 0 at a fixed power. */
  dragFlowKgS: number;
  /** Of the fuel flow for each kelvin, at the same Mach and pressure altitude [kg/(s K)]. */
  temperatureFlowKgSK: number;
  /** Of the fuel flow for each unit of Mach [kg/s]. */
  machFlowKgS: number;
  /** Sums from the start: fuel burnt, and what each factor would have taken more of it, at equal energy. */
  burntKg: number;
  dragKg: number;
  temperatureKgK: number;
  machKg: number;
  /** Distance gained for each kelvin by a faster speed of sound [m/K]. */
  temperatureM: number;
}

/** A moment of the plan by which fuel is watched. */
export interface Gate {
  readonly timeS: number;
  readonly kind: string;
  readonly name: string;
  /** null where the plan does not know. */
  readonly requiredKg: number | null;
}

/** Logarithmic slopes of the fuel flow at a node where power follows drag. */
export interface FlowSlopes {
  readonly perKelvin: number;
  readonly perMach: number;
}

export type TraceOf = Pick<Plan, 'trace' | 'phases' | 'events'>;

const columnsUsed = [
  'timeS',
  'fuelKg',
  'fuelFlowKgS',
  'mach',
  'pressureAltitudeM',
  'geometricHeightM',
  'energyHeightM',
  'massKg',
  'trueAirspeedMS',
  'groundSpeedMS',
  'distanceM',
  'temperatureK',
  'inletTemperatureK',
  'power',
] as const;

const derived = [
  'dragFlowKgS',
  'temperatureFlowKgSK',
  'machFlowKgS',
  'burntKg',
  'dragKg',
  'temperatureKgK',
  'machKg',
  'temperatureM',
] as const;

type Key = (typeof columnsUsed)[number] | (typeof derived)[number];

/** Thrust beyond this part of drag means that power is held and the speed or height changes. */
const heldPower = 1.03;

export class Expectation {
  readonly startS: number;
  readonly endS: number;
  /** Moments at which fuel of a tanker is in, and how much of it [kg]. */
  readonly contacts: readonly { readonly startS: number; readonly endS: number; readonly takenKg: number }[];
  /** In order of time. */
  readonly gates: readonly Gate[];
  private readonly columns: Readonly<Record<Key, Float64Array>>;
  private cursor = 0;

  /** `slopes` of a node, null where the trace's own stand; throws where the plan has no trace. */
  constructor({ trace, phases, events }: TraceOf, slopes: (node: number) => FlowSlopes | null = () => null) {
    const nodes = trace.columns.timeS.length;
    if (nodes < 2) throw new Error('the plan holds no trace to compare readings with');
    const own = columnsUsed.map((key) => [key, Float64Array.from(trace.columns[key])]);
    const more = derived.map((key) => [key, new Float64Array(nodes)]);
    this.columns = Object.fromEntries([...own, ...more]) as Record<Key, Float64Array>;
    const { dragN, thrustN } = trace.columns;
    for (let node = 0; node < nodes; node++) this.slopesAt(node, thrustN[node], dragN[node], slopes(node));
    this.sums(thrustN, dragN);
    this.startS = this.columns.timeS[0];
    this.endS = this.columns.timeS[nodes - 1];
    this.contacts = phases
      .filter(({ kind }) => kind === 'contact')
      .map(({ startS, endS, fuelKg }) => ({ startS, endS, takenKg: -fuelKg }));
    const { timeS, fuelKg, fuelRequiredKg } = trace.columns;
    this.gates = marksOf(events, timeS, fuelKg, fuelRequiredKg)
      .filter(({ kind }) => kind !== 'take-off' && kind !== 'disconnect')
      .map(({ kind, name, timeS: at, fuelKg: on, inHandKg }) => ({
        kind,
        name,
        timeS: at,
        requiredKg: inHandKg === null ? null : on - inHandKg,
      }));
  }

  private slopesAt(node: number, thrustN: number, dragN: number, of: FlowSlopes | null): void {
    const { fuelFlowKgS, temperatureK, mach, dragFlowKgS, temperatureFlowKgSK, machFlowKgS } = this.columns;
    const flow = fuelFlowKgS[node];
    const follows = thrustN < heldPower * dragN;
    dragFlowKgS[node] = follows ? flow : 0;
    temperatureFlowKgSK[node] = flow * ((follows ? of?.perKelvin : null) ?? 0.5 / temperatureK[node]);
    machFlowKgS[node] = follows ? flow * (of?.perMach ?? 2 / Math.max(mach[node], 0.1)) : 0;
  }

  private sums(thrustN: readonly number[], dragN: readonly number[]): void {
    const c = this.columns;
    const share = (node: number): number =>
      Math.min(1, Math.max(0, dragN[node] / Math.max(thrustN[node], 1)));
    for (let node = 1; node < c.timeS.length; node++) {
      const step = 0.5 * (c.timeS[node] - c.timeS[node - 1]);
      const add = (to: Float64Array, of: (node: number) => number): void => {
        to[node] = to[node - 1] + step * (of(node - 1) + of(node));
      };
      add(c.burntKg, (n) => c.fuelFlowKgS[n]);
      add(c.dragKg, (n) => c.fuelFlowKgS[n] * share(n));
      add(c.temperatureKgK, (n) => c.temperatureFlowKgSK[n]);
      add(c.machKg, (n) => c.machFlowKgS[n]);
      add(c.temperatureM, (n) => (0.5 * c.trueAirspeedMS[n]) / c.temperatureK[n]);
    }
  }

  /** Planned fuel on board at a time [kg]. */
  fuelAt(timeS: number): number {
    this.at(timeS, moment);
    return moment.fuelKg;
  }

  /** The plan at a time [s], held at its first and last moment beyond them. */
  at(timeS: number, out: Expected): void {
    const times = this.columns.timeS;
    const last = times.length - 2;
    let low = Math.min(this.cursor, last);
    while (low > 0 && times[low] > timeS) low--;
    while (low < last && times[low + 1] <= timeS) low++;
    this.cursor = low;
    const span = times[low + 1] - times[low];
    const part = span > 0 ? Math.min(1, Math.max(0, (timeS - times[low]) / span)) : 1;
    for (const key of allKeys) {
      const column = this.columns[key];
      out[key] = column[low] + part * (column[low + 1] - column[low]);
    }
    out.timeS = timeS;
  }
}

const allKeys: readonly Key[] = [...columnsUsed, ...derived];

export function newExpected(): Expected {
  return Object.fromEntries(allKeys.map((key) => [key, 0.5])) as unknown as Expected;
}

const moment = newExpected();

/** Indicated inlet temperature as it moves with the air and with Mach: from thermally perfect air and the recovery that the plan shows. */
export function inletSlopes({ temperatureK, mach, inletTemperatureK }: Expected): {
  readonly perKelvin: number;
  readonly perMach: number;
} {
  const total = (t: number, m: number): number =>
    quickTotalTemperature(t, m * Math.sqrt(gammaAir * gasConstant * t));
  const rise = total(temperatureK, mach) - temperatureK;
  const recovery = rise > 1 ? (inletTemperatureK - temperatureK) / rise : 1;
  const read = (t: number, m: number): number => t + recovery * (total(t, m) - t);
  return {
    perKelvin: read(temperatureK + 0.5, mach) - read(temperatureK - 0.5, mach),
    perMach: (read(temperatureK, mach + 0.005) - read(temperatureK, mach - 0.005)) / 0.01,
  };
}

/** Fuel that height and speed differing from the plan are worth [kg]; null stands for a value that was not read. */
export function energyWorth(at: Expected, pressureAltitudeM: number | null, mach: number | null): number {
  const heightM = pressureAltitudeM === null ? 0 : pressureAltitudeM - at.pressureAltitudeM;
  const speed = at.trueAirspeedMS;
  const flown = mach === null || at.mach <= 0 ? speed : (speed * mach) / at.mach;
  const energyM = heightM + (flown * flown - speed * speed) / (2 * standardGravity);
  return fuelAtEqualEnergy(0, at.massKg, energyM);
}
