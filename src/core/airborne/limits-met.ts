/** Limits as they were read: how near each reading came, and for how long a limit was passed. */
import { calibratedAirspeed, equivalentAirspeed } from '../air/airdata.ts';
import { standardPressure } from '../air/standard.ts';
import type { Limit, LimitInputs } from '../aircraft/aircraft.ts';
import { newLimitInputs } from '../aircraft/limits.ts';
import { fileUnit } from '../plan/limits.ts';
import type { Plan } from '../plan/plan.ts';
import { type Expected, newExpected } from './expectation.ts';
import type { Entry } from './reading.ts';
import { beyondFor } from './refly.ts';

/** A limit by what was read of it; values in the SI unit of its quantity. */
export interface LimitRead {
  readonly key: string;
  readonly name: string;
  readonly quantity: string;
  readonly side: 'upper' | 'lower';
  readonly pad: number;
  /** Of the last reading. */
  readonly timeS: number;
  readonly value: number;
  readonly bound: number;
  readonly margin: number;
  /** The least margin that was read. */
  readonly least: { readonly timeS: number; readonly margin: number };
  /** Passed for so long, on straight lines between readings; of a single one 0. */
  readonly beyondS: number;
  /** What should be read now, with its spread, where the estimate tells; else null. */
  readonly expected: { readonly value: number; readonly sd: number } | null;
  /** Read beyond the limit though that is far from what is expected: look at another gauge. */
  readonly checkGauge: boolean;
}

/** Readings of one moment that are so far apart in time belong together [s]. */
const togetherS = 120;
/** Readings further apart than this are no line [s]. */
const apartS = 900;
/** A reading so many standard deviations off is none of the air's. */
const strangeSd = 4;

/** What the estimate expects a gauge to read, by the quantity that a limit bounds. */
export type ExpectedRead = Readonly<Record<string, { readonly value: number; readonly sd: number }>>;

/** Where bounds come from: the deck's limits with what was read, or the plan's own at the moment. */
export interface Bounds {
  /** null: the plan's. */
  readonly limits: readonly Limit[] | null;
  readonly plan: Plan;
  planTime(timeS: number): number;
  expectedAt(planTimeS: number, out: Expected): void;
}

type Sample = { readonly timeS: number; readonly value: number; readonly bound: number };

/** In the order of the plan's limits; those of which nothing was read are left out. */
export function limitsRead(
  entries: readonly Entry[],
  bounds: Bounds,
  expected: ExpectedRead,
): readonly LimitRead[] {
  const moments = momentsOf(entries.filter(({ status }) => status !== 'withdrawn'));
  return bounds.plan.limits.flatMap((limit): LimitRead[] => {
    const samples = moments.flatMap((moment) => sampleOf(moment, limit.key, limit.quantity, bounds));
    const last = samples.at(-1);
    if (last === undefined) return [];
    const margin = ({ value, bound }: Sample): number =>
      limit.side === 'upper' ? bound - value : value - bound;
    const least = samples.reduce((most, each) => (margin(each) < margin(most) ? each : most));
    const now = expected[limit.quantity] ?? null;
    const strange = now !== null && Math.abs(last.value - now.value) > strangeSd * now.sd;
    return [
      {
        key: limit.key,
        name: limit.name,
        quantity: limit.quantity,
        side: limit.side,
        pad: limit.pad,
        timeS: last.timeS,
        value: last.value,
        bound: last.bound,
        margin: margin(last),
        least: { timeS: least.timeS, margin: margin(least) },
        beyondS: runs(samples)
          .map((run) =>
            beyondFor(
              run.map(({ timeS }) => timeS),
              run.map(margin),
            ),
          )
          .reduce((sum, each) => sum + each, 0),
        expected: now,
        checkGauge: margin(last) < 0 && strange,
      },
    ];
  });
}

/** The newest of each that was read by a moment, and which were read at it. */
interface ReadMoment {
  readonly timeS: number;
  readonly now: ReadonlySet<Entry['key']>;
  readonly values: Partial<Record<Entry['key'], number>>;
}

function momentsOf(entries: readonly Entry[]): ReadMoment[] {
  const newest = new Map<Entry['key'], Entry>();
  const moments: ReadMoment[] = [];
  for (let i = 0; i < entries.length; i++) {
    newest.set(entries[i].key, entries[i]);
    const { timeS } = entries[i];
    if (entries[i + 1]?.timeS === timeS) continue;
    const fresh = [...newest.values()].filter((entry) => timeS - entry.timeS <= togetherS);
    moments.push({
      timeS,
      now: new Set(fresh.filter((entry) => entry.timeS === timeS).map(({ key }) => key)),
      values: Object.fromEntries(fresh.map(({ key, value }) => [key, value])),
    });
  }
  return moments;
}

/** What is needed to read a quantity that limits bound. */
const needs: Readonly<Record<string, readonly Entry['key'][]>> = {
  mach: ['mach'],
  inletTemperatureK: ['inletTemperatureK'],
  pressureAltitudeM: ['pressureAltitudeM'],
  equivalentAirspeedMS: ['mach', 'pressureAltitudeM'],
  calibratedAirspeedMS: ['mach', 'pressureAltitudeM'],
  fuelKg: ['fuelKg'],
};

function sampleOf(
  { timeS, now, values }: ReadMoment,
  key: string,
  quantity: string,
  { limits, plan, planTime, expectedAt }: Bounds,
): Sample[] {
  const needed = needs[quantity];
  const there = needed?.every((each) => values[each] !== undefined) && needed.some((each) => now.has(each));
  if (!there) return [];
  const planTimeS = planTime(timeS);
  expectedAt(planTimeS, expected);
  const mach = values.mach ?? expected.mach;
  const altitudeM = values.pressureAltitudeM ?? expected.pressureAltitudeM;
  const pressure = standardPressure(altitudeM);
  inputs.mach = mach;
  inputs.pressureAltitudeM = altitudeM;
  inputs.equivalentAirspeedMS = equivalentAirspeed(mach, pressure);
  inputs.calibratedAirspeedMS = calibratedAirspeed(mach, pressure);
  inputs.staticTemperatureK = expected.temperatureK;
  inputs.indicatedInletTemperatureK = values.inletTemperatureK ?? expected.inletTemperatureK;
  inputs.fuelKg = values.fuelKg ?? expected.fuelKg;
  inputs.massKg = plan.aircraft.emptyMassKg + inputs.fuelKg;
  const limit = limits?.find((each) => each.key === key);
  const read: Readonly<Record<string, number>> = {
    mach,
    inletTemperatureK: inputs.indicatedInletTemperatureK,
    pressureAltitudeM: altitudeM,
    equivalentAirspeedMS: inputs.equivalentAirspeedMS,
    calibratedAirspeedMS: inputs.calibratedAirspeedMS,
    fuelKg: inputs.fuelKg,
  };
  const bound = limit?.bound(inputs) ?? plannedBound(plan, key, planTimeS);
  return Number.isFinite(bound) ? [{ timeS, value: read[quantity], bound: bound * fileUnit(quantity) }] : [];
}

const inputs: LimitInputs = newLimitInputs();
const expected: Expected = newExpected();

/** Of the node before: a bound may jump where a phase ends. */
function plannedBound({ trace }: Plan, key: string, planTimeS: number): number {
  const node = Math.max(
    0,
    trace.columns.timeS.findLastIndex((timeS) => timeS <= planTimeS),
  );
  return trace.bounds[key]?.[node] ?? Number.NaN;
}

/** Readings near enough to each other for a line between them. */
function runs(samples: readonly Sample[]): Sample[][] {
  const all: Sample[][] = [];
  for (const sample of samples) {
    const run = all.at(-1);
    const before = run?.at(-1);
    if (run === undefined || before === undefined || sample.timeS - before.timeS > apartS) all.push([sample]);
    else run.push(sample);
  }
  return all;
}
