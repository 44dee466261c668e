/** Phases of flight of the benchmark interceptor, each row by its own rule and within its own tolerance. */
import { geometricFromGeopotential } from '../../../src/core/air/standard.ts';
import { primeVerticalRadius } from '../../../src/core/earth/ellipsoid.ts';
import { gravityDown } from '../../../src/core/earth/gravity.ts';
import { PublishedTable, type Row } from './csv.ts';
import {
  type FlownPhase,
  flyCase,
  type Given,
  liftSlope,
  type Sample,
  turnFuelWithoutAngle,
} from './phase-flight.ts';
import { type CheckResult, Tally, type Tolerance } from './tally.ts';

const gravity = 9.80665;
const wingAreaM2 = 530 * 0.3048 ** 2;
const knot = 1852 / 3600;
const degree = Math.PI / 180;
const angleTolerance = 1e-3 * degree;
const extremeTolerance = 1e-4;

/** "a=1; b=2" as numbers; words become NaN. */
function pairs(text: string): Record<string, number> {
  const parts = text.split(';').map((part) => part.trim());
  return Object.fromEntries(
    parts.filter((part) => part !== '').map((part) => [part.split('=')[0], Number(part.split('=')[1])]),
  );
}

interface Flown {
  readonly phase: FlownPhase;
  readonly samples: readonly Sample[];
  readonly start: Sample;
  readonly end: Sample;
}

class Cases {
  private readonly done = new Map<string, FlownPhase>();
  private readonly table: PublishedTable;

  constructor(table: PublishedTable) {
    this.table = table;
  }

  row(name: string): Row {
    const row = this.table.rows.find((candidate) => candidate.text('case') === name);
    if (!row) throw new Error(`there is no row ${name}`);
    return row;
  }

  /** The pieces of a pushover are parts of one flight. */
  flown(name: string): Flown {
    const part = /^pushover.*-(push|hold|pull|all)$/.exec(name)?.[1];
    const whole = part === undefined ? name : name.slice(0, -part.length - 1);
    const row = this.row(name);
    let phase = this.done.get(whole);
    if (!phase) {
      phase = flyCase(whole, pairs(row.text('given')), row.text('earth'));
      this.done.set(whole, phase);
    }
    const samples = part === undefined ? phase.samples : phase.parts[part];
    return { phase, samples, start: samples[0], end: samples[samples.length - 1] };
  }
}

export function checkPhases(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'phases');
  const tally = new Tally(table.name);
  const cases = new Cases(table);
  for (const row of table.rows) {
    checkColumns(tally, cases, row);
    const given = pairs(row.text('given'));
    const extra = pairs(row.text('extra'));
    for (const [key, value] of Object.entries(extra)) checkExtra(tally, cases, row, given, key, value);
    for (const text of ['description', 'wind', 'agreement', 'basis']) row.text(text);
  }
  return tally.results(tolerances(), table);
}

type Read = (flown: Flown) => number;

const isAngle = (name: string): boolean => /(Gamma|Alpha)$/.test(name);

/** What a column reads; angles as the row has them, radians here. */
const columns: Readonly<Record<string, Read>> = {
  startAltitude: ({ start }) => heightOf(start),
  startMach: ({ start }) => start.mach,
  startTas: ({ start }) => start.trueAirspeedMS,
  startGamma: ({ phase, start }) => pathOf(phase, start),
  startAlpha: ({ phase, start }) => alphaOf(phase, start),
  startMass: ({ start }) => start.massKg,
  time: ({ start, end }) => end.timeS - start.timeS,
  distance: distanceOf,
  fuel: ({ start, end }) => start.massKg - end.massKg,
  endAltitude: ({ end }) => heightOf(end),
  endMach: ({ end }) => end.mach,
  endTas: ({ end }) => end.trueAirspeedMS,
  endGamma: ({ phase, end }) => pathOf(phase, end),
  endAlpha: ({ phase, end }) => alphaOf(phase, end),
  minLoadFactor: ({ samples }) => least(samples, (at) => at.loadFactor),
  maxLoadFactor: ({ samples }) => -least(samples, (at) => -at.loadFactor),
  minAlpha: ({ phase, samples }) => least(samples, (at) => alphaOf(phase, at)),
  maxAlpha: ({ phase, samples }) => -least(samples, (at) => -alphaOf(phase, at)),
  minGamma: ({ phase, samples }) => least(samples, (at) => pathOf(phase, at)),
  maxGamma: ({ phase, samples }) => -least(samples, (at) => -pathOf(phase, at)),
};

function checkColumns(tally: Tally, cases: Cases, row: Row): void {
  const name = row.text('case');
  const tolerance = toleranceOf(row);
  for (const [column, read] of Object.entries(columns)) {
    const published = row.si(column);
    const allowed = allowance(column, published, tolerance);
    tally.add(column, 'allowance', published, () => read(cases.flown(name)), allowed, name);
  }
}

/** The lift of a cruise-climb carries the weight times cos(gamma) here, the weight in the file: 1.5e-6 at 0.1 deg. */
function toleranceOf(row: Row): number {
  return row.need('tolerance') + (row.text('case').startsWith('cruise') ? 2e-6 : 0);
}

/** The error that the file's header allows: of the row, of an angle, of a least or greatest value. */
function allowance(name: string, value: number | null, tolerance: number): number {
  if (/^(min|max)/.test(name)) {
    return extremeTolerance * Math.max(Math.abs(value ?? 0), isAngle(name) ? degree : 0);
  }
  return isAngle(name) ? angleTolerance : Math.max(tolerance * Math.abs(value ?? 0), 1e-9);
}

/** Geometric height by the standard atmosphere's own relation: the air of every row is standard. */
function heightOf(at: Sample): number {
  return geometricFromGeopotential(at.pressureAltitudeM);
}

/** The rows that neglect T sin(alpha) are flown at hardly any angle; theirs is CL/CLalpha. */
function alphaOf(phase: FlownPhase, at: Sample): number {
  return phase.withoutAngle ? liftCoefficient(at) / liftSlope(at.mach) : at.angleOfAttackRad;
}

function liftCoefficient(at: Sample): number {
  return at.liftN / (at.dynamicPressurePa * wingAreaM2);
}

/** The path angle; of the climb that costs nothing, that by which mass over pressure stays. */
function pathOf(phase: FlownPhase, at: Sample): number {
  if (!phase.climbsFree) return at.pathAngleRad;
  const stretch = 6356766 / (6356766 + heightOf(at));
  const perHeight = (gravity / (287.05287 * at.staticTemperatureK)) * stretch * stretch;
  return at.fuelFlowKgS / at.massKg / perHeight / at.trueAirspeedMS;
}

function distanceOf({ phase, samples, start, end }: Flown): number {
  if (phase.climbsFree) return integral(samples, (at) => at.trueAirspeedMS * Math.cos(pathOf(phase, at)));
  return phase.stretch * (end.distanceM - start.distanceM);
}

function least(samples: readonly Sample[], read: (at: Sample) => number): number {
  return samples.reduce((low, at) => Math.min(low, read(at)), Number.POSITIVE_INFINITY);
}

/** Integral over time by the trapezium rule on the fine samples. */
function integral(samples: readonly Sample[], read: (at: Sample) => number): number {
  let sum = 0;
  for (let i = 1; i < samples.length; i++) {
    sum += 0.5 * (read(samples[i]) + read(samples[i - 1])) * (samples[i].timeS - samples[i - 1].timeS);
  }
  return sum;
}

const energy = ({ samples }: Flown): number => integral(samples, (at) => at.specificExcessPowerMS);

function easOf(at: Sample): number {
  return at.equivalentAirspeedMS / knot;
}

/** Apparent loss of gravity by curvature and rotation, as the equations of motion have it. */
function relief({ phase }: Flown, given: Given, at: Sample): number {
  const { frame } = phase.flight;
  const sine = Math.sin(given.latitudeDeg * degree);
  frame.moveOnTrack(at.trueAirspeedMS, 0);
  const curved = phase.stretch !== 1;
  return curved ? gravityDown(sine * sine, heightOf(at)) + frame.normalPull : 0;
}

/** Durations of the pieces within a part, told by the samples that stand twice. */
function pieces(samples: readonly Sample[]): number[] {
  const times = [samples[0].timeS];
  for (let i = 1; i < samples.length; i++) {
    if (samples[i].timeS === samples[i - 1].timeS) times.push(samples[i].timeS);
  }
  times.push(samples[samples.length - 1].timeS);
  return times.slice(1).map((time, i) => time - times[i]);
}

type ReadExtra = (flown: Flown, given: Given, cases: Cases, name: string) => number;

/** The same case with another word in its name, less this one or this less that. */
const twin = (name: string, from: string, to: string): string => name.replace(from, to);

const extras: Readonly<Record<string, ReadExtra>> = {
  startAccel: ({ start }) => start.accelerationMS2,
  endAccel: ({ end }) => end.accelerationMS2,
  minAccel: ({ samples }) => least(samples, (at) => at.accelerationMS2),
  maxAccel: ({ samples }) => -least(samples, (at) => -at.accelerationMS2),
  energyHeight: (flown) => energy(flown),
  startRateOfClimb: ({ start }) => start.climbRateMS,
  endRateOfClimb: ({ end }) => end.climbRateMS,
  endEasKt: ({ end }) => easOf(end),
  endAltitudeFt: ({ end }) => heightOf(end) / 0.3048,
  part1: ({ samples }) => pieces(samples)[0],
  part2: ({ samples }) => pieces(samples)[1],
  part3: ({ samples }) => pieces(samples)[2],
  altitudeAtGammaFt: ({ phase }) => heightOf(phase.parts.hold[0]) / 0.3048,
  pullStartAltitudeFt: ({ phase }) => geometricFromGeopotential(phase.pullStartM) / 0.3048,
  pullStartTime: ({ phase }) => phase.parts.pull[0].timeS,
  radius: ({ start }, given) =>
    (start.trueAirspeedMS ** 2 / gravity) * (1 / Math.tan(given.bankDeg * degree)),
  groundAlong: ({ end }) => end.latitudeRad * 6_371_000,
  groundAcross: ({ end }) => end.longitudeRad * 6_371_000,
  thrustStart: ({ start }) => start.thrustN,
  thrustEnd: ({ end }) => end.thrustN,
  fullThrust: ({ start }) => start.availableThrustN,
  fuelNeglectingTSinAlpha: (_flown, given) => turnFuelWithoutAngle(given),
  gravityDown: ({ start }, given) => gravityDown(Math.sin(given.latitudeDeg * degree) ** 2, heightOf(start)),
  N: (_flown, given) => primeVerticalRadius(Math.sin(given.latitudeDeg * degree) ** 2),
  startRelief: (flown, given) => relief(flown, given, flown.start),
  endRelief: (flown, given) => relief(flown, given, flown.end),
  groundDistance: ({ start, end, phase }, given) => {
    const prime = primeVerticalRadius(Math.sin(given.latitudeDeg * degree) ** 2);
    const ratio = phase.stretch === 1 ? prime / (prime + heightOf(start)) : 1;
    return ratio * (end.distanceM - start.distanceM);
  },
  timeEastMinusWest: (_flown, _given, cases, name) => difference(cases, name, columns.time),
  fuelEastMinusWest: (_flown, _given, cases, name) => difference(cases, name, columns.fuel),
  distanceEastMinusWest: (_flown, _given, cases, name) => difference(cases, name, columns.distance),
  airDistance: ({ samples }) => integral(samples, (at) => at.trueAirspeedMS * Math.cos(at.pathAngleRad)),
  energyHeightHeadMinusTail: (flown, _given, cases, name) =>
    energy(flown) - energy(cases.flown(twin(name, 'head', 'tail'))),
  twoVdWOverG: ({ start }, given) =>
    (2 * start.trueAirspeedMS * Math.abs(given.windEnd - given.windStart)) / gravity,
  liftCoefficient: ({ start }) => liftCoefficient(start),
  dragCoefficient: ({ start }) => start.dragN / (start.dynamicPressurePa * wingAreaM2),
  liftToDrag: ({ start }) => start.liftN / start.dragN,
  altitudeGained: ({ start, end }) => heightOf(end) - heightOf(start),
};

function difference(cases: Cases, name: string, read: Read): number {
  return read(cases.flown(twin(name, 'west', 'east'))) - read(cases.flown(name));
}

function checkExtra(
  tally: Tally,
  cases: Cases,
  row: Row,
  given: Given,
  key: string,
  published: number,
): void {
  const name = row.text('case');
  const compute = (): number => {
    const read = extras[key];
    if (read === undefined) throw new Error(`the extra ${key} is not known`);
    return read(cases.flown(name), given, cases, name);
  };
  const allowed = Math.max(extraAllowance(key, published, row), 1e-9);
  tally.add(`extra ${key}`, 'allowance', published, compute, allowed, name);
}

/**
 * Extremes as the columns'; differences of two rows carry the tolerance of what they are differences of, a displacement
 * over the ground that of the way flown. Rates, forces at an instant and durations of parts: 1e-4.
 */
function extraAllowance(key: string, value: number, row: Row): number {
  const tolerance = toleranceOf(row);
  if (key === 'timeEastMinusWest') return tolerance * row.need('time');
  if (key === 'fuelEastMinusWest') return tolerance * row.need('fuel');
  if (key === 'distanceEastMinusWest') return tolerance * row.need('distance');
  if (/^ground(Along|Across)/.test(key)) return tolerance * row.need('distance');
  if (key === 'energyHeightHeadMinusTail') return 3 * tolerance * Math.abs(value);
  if (/(Accel|Rate|Relief|part\d)/.test(key)) return extremeTolerance * Math.max(Math.abs(value), 0.01);
  return tolerance * Math.abs(value);
}

function tolerances(): Record<string, Tolerance> {
  const own = { mean: 0.5, max: 1, reason: "in parts of the row's own tolerance" };
  const names = [...Object.keys(columns), ...Object.keys(extras).map((key) => `extra ${key}`)];
  return Object.fromEntries(names.map((name) => [name, own]));
}
