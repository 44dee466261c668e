/**
 * A small plan for tests of what is shown: an invented aircraft flown by hand through the standard atmosphere. Heights, speeds,
 * temperatures and airspeeds belong together; fuel flows are invented.
 */
import {
  calibratedAirspeed,
  equivalentAirspeed,
  machFromCalibrated,
  machFromEquivalent,
} from '../../src/core/air/airdata.ts';
import { speedOfSound, standardPressure, standardTemperature } from '../../src/core/air/standard.ts';
import {
  type AltitudeGrid,
  CAUTION,
  type CheckMoment,
  type CheckReading,
  type ClimbTable,
  type Failure,
  type LadderRow,
  type LimitSummary,
  PLAN_FORMAT,
  PLAN_VERSION,
  type Plan,
  type PlanEvent,
  type PlanPhase,
  type Recovery,
  type Refuelling,
  type Section,
  TRACE_COLUMNS,
  type TraceColumn,
} from '../../src/core/plan/plan.ts';
import { testBalance, testDump, testInlet, testTankers } from './balance.ts';
import { levelOffsOf, rendezvousOf, startDownsOf, turnsOf } from './manoeuvres.ts';
import { testLanding, testTakeOff } from './take-off.ts';

const FOOT = 0.3048;
const KNOT = 1852 / 3600;
const STEP_S = 20;
const OFFSET_K = 4;
const EMPTY_KG = 27_000;
const CAPACITY_KG = 36_000;
/** What a recovery from each contact needs, and the reserve on landing. */
const NEED_KG = [4_200, 9_100, 2_400];

interface Segment {
  readonly kind: string;
  readonly name: string;
  readonly leg: number;
  readonly minutes: number;
  /** At the end of it. */
  readonly ft: number;
  readonly mach: number;
  /** Positive burns. */
  readonly kgPerMin: number;
  readonly keas?: number;
  readonly kcas?: number;
  readonly bankDeg?: number;
  readonly turnDeg?: number;
}

const SEGMENTS: readonly Segment[] = [
  {
    kind: 'take-off',
    name: 'Take-off from Larkmoor',
    leg: 0,
    minutes: 1,
    ft: 1500,
    mach: 0.45,
    kgPerMin: 900,
  },
  {
    kind: 'climb',
    name: 'Climb at 340 KCAS',
    leg: 0,
    minutes: 12,
    ft: 24_000,
    mach: 0.75,
    kgPerMin: 420,
    kcas: 320,
  },
  { kind: 'cruise', name: 'Cruise to Ewer One', leg: 0, minutes: 18, ft: 24_000, mach: 0.75, kgPerMin: 190 },
  {
    kind: 'contact',
    name: 'Contact with Ewer One',
    leg: 0,
    minutes: 11,
    ft: 24_000,
    mach: 0.75,
    kgPerMin: -2600,
  },
  { kind: 'climb', name: 'Climb to the push', leg: 1, minutes: 5, ft: 33_000, mach: 0.92, kgPerMin: 520 },
  { kind: 'pushover', name: 'Pushover', leg: 1, minutes: 2, ft: 29_000, mach: 1.15, kgPerMin: 800 },
  {
    kind: 'climb',
    name: 'Climb at 430 KEAS',
    leg: 1,
    minutes: 15,
    ft: 66_000,
    mach: 2.75,
    kgPerMin: 560,
    keas: 430,
  },
  { kind: 'level-off', name: 'Level-off', leg: 1, minutes: 1, ft: 67_500, mach: 2.85, kgPerMin: 400 },
  { kind: 'cruise', name: 'Cruise at M 2.85', leg: 1, minutes: 22, ft: 70_000, mach: 2.85, kgPerMin: 235 },
  {
    kind: 'turn',
    name: 'Turn at Harrow Bay',
    leg: 1,
    minutes: 6,
    ft: 70_000,
    mach: 2.85,
    kgPerMin: 290,
    bankDeg: 30,
    turnDeg: 110,
  },
  { kind: 'cruise', name: 'Cruise at M 2.85', leg: 1, minutes: 19, ft: 73_000, mach: 2.85, kgPerMin: 225 },
  { kind: 'deceleration', name: 'Slow-down', leg: 1, minutes: 5, ft: 68_000, mach: 1.9, kgPerMin: 60 },
  { kind: 'descent', name: 'Descent at 350 KEAS', leg: 1, minutes: 9, ft: 24_000, mach: 0.75, kgPerMin: 55 },
  {
    kind: 'contact',
    name: 'Contact with Ewer Two',
    leg: 1,
    minutes: 10,
    ft: 24_000,
    mach: 0.75,
    kgPerMin: -1600,
  },
  { kind: 'climb', name: 'Climb to the push', leg: 2, minutes: 5, ft: 33_000, mach: 0.92, kgPerMin: 520 },
  { kind: 'pushover', name: 'Pushover', leg: 2, minutes: 2, ft: 29_000, mach: 1.15, kgPerMin: 800 },
  {
    kind: 'climb',
    name: 'Climb at 430 KEAS',
    leg: 2,
    minutes: 14,
    ft: 66_000,
    mach: 2.75,
    kgPerMin: 560,
    keas: 430,
  },
  { kind: 'level-off', name: 'Level-off', leg: 2, minutes: 1, ft: 67_500, mach: 2.85, kgPerMin: 400 },
  { kind: 'cruise', name: 'Cruise at M 2.85', leg: 2, minutes: 41, ft: 73_000, mach: 2.85, kgPerMin: 228 },
  { kind: 'deceleration', name: 'Slow-down', leg: 2, minutes: 5, ft: 68_000, mach: 1.9, kgPerMin: 60 },
  { kind: 'descent', name: 'Descent at 350 KEAS', leg: 2, minutes: 11, ft: 3_000, mach: 0.5, kgPerMin: 60 },
  { kind: 'landing', name: 'Landing at Larkmoor', leg: 2, minutes: 4, ft: 600, mach: 0.25, kgPerMin: 140 },
];

export interface PlanChanges {
  readonly gaugeUnits?: Readonly<Record<string, string>>;
  /** Fuel on board at take-off; less makes the sortie short of fuel. */
  readonly fuelKg?: number;
  readonly failure?: Failure;
  readonly standsFor?: string;
}

/** The plan, flyable unless a failure is given. */
export function testPlan(changes: PlanChanges = {}): Plan {
  const { columns, phase, phases } = fly(changes.fuelKg ?? 16_000);
  const { margins, bounds, closeness, next } = limitsAlong(columns);
  const trace = { columns, margins, bounds, closeness, phase, next };
  const refuellings = refuellingsOf(phases, columns);
  return {
    format: PLAN_FORMAT,
    version: PLAN_VERSION,
    program: 'ramrise 0.1.0',
    fingerprint: 'K4WT7M',
    inputs: [{ role: 'sortie', name: 'north-loop.yaml', sha256: '0'.repeat(64) }],
    caution: CAUTION,
    crew: null,
    tankerOwn: [],
    title: 'North loop over the lakes',
    invented: true,
    aircraft: {
      name: 'Sandmartin',
      edition: '3',
      basis: 'notional',
      tail: 'SM-02',
      emptyMassKg: EMPTY_KG,
      fuelCapacityKg: CAPACITY_KG,
      settings: ['idle', 'part', 'military', 'minimumAfterburner', 'maximumAfterburner'],
      gaugeUnits: changes.gaugeUnits ?? { fuelKg: 'kg', inletTemperatureK: 'degC', pressureAltitudeM: 'ft' },
    },
    takeOff: '2026-02-23T15:40:00Z',
    validity: { from: '2026-02-23T15:10:00Z', to: '2026-02-23T16:40:00Z' },
    weather: {
      title: 'ERA5 analysis',
      run: '2020-02-23T16:00:00Z',
      standsFor: changes.standsFor ?? '2026-02-23',
      continuedBy: ['time held'],
      gaps: [],
      attribution: [
        'Contains modified Copernicus Climate Change Service information 2020 (ERA5 hourly data on pressure levels, Hersbach et al., DOI 10.24381/cds.bd0915c6). Neither the European Commission nor ECMWF is responsible for any use of it.',
      ],
    },
    magnetic: { edition: 'WMM2025', takeOff: { courseDeg: 40, magneticDeg: 42, compass: 'good' } },
    light: { start: 'day', changes: [], horizon: { timeS: 4800, geometricHeightM: 22_300, dipDeg: 4.6 } },
    body: { boilingPressurePa: 6266, boilingAltitudeM: 19_145, aboveS: 4260, leastPressurePa: 3680 },
    fuelToday: null,
    flyable: changes.failure === undefined,
    failure: changes.failure ?? null,
    takeOffData: testTakeOff,
    landings: [testLanding, { ...testLanding, base: 'Stonemoor', worstCase: 'No contact with Ewer Two' }],
    trace,
    section: sectionAlong(columns),
    phases,
    events: eventsOf(phases, columns).map((event) => ({
      ...event,
      light: 'day' as const,
      sunElevationDeg: 30,
      sunBearingDeg: 200,
    })),
    contacts: [],
    refuellings: refuellings.map((refuelling) => ({
      ...refuelling,
      track: { courseDeg: 60, magneticDeg: 62, compass: 'good' as const },
      askedKg: null,
    })),
    climbs: climbsOf(phases, columns),
    pushovers: [],
    pitches: [],
    checks: checksAlong(columns, phases),
    altitudeGrids: [grid('Cruise: power as required', 0), grid('Minimum afterburner', 1500)],
    ladder: ladderOf(columns, phases),
    limits: summaries(trace.margins, trace.bounds, columns, phases, phase),
    recoveries: recoveriesOf(refuellings, phases),
    rendezvous: rendezvousOf(refuellings, columns),
    turns: turnsOf(phases, columns),
    manoeuvres: [],
    lowPushes: null,
    manoeuvreRules: { clearanceM: 0, heldTo: [] },
    levelOffs: levelOffsOf(phases, columns),
    startDowns: startDownsOf(phases, columns),
    timings: [],
    tankerOrders: [],
    balance: testBalance,
    tankers: testTankers,
    dump: testDump,
    rules: null,
    tankerMatrix: null,
    reach: null,
    inlet: testInlet,
    places: [],
    areas: [],
    decisions: [],
    notComputed: ['Rudder in contact: not computed: the deck has no rudder table'],
    evaluations: 21_404,
  };
}

/** A failure of the second climb, freed by less cruise Mach. */
export const FAILURE: Failure = {
  limit: 'inletTemperature',
  name: 'Inlet temperature',
  text: null,
  timeS: 4260,
  phase: 'Cruise at M 2.85',
  latitudeDeg: 47.214,
  longitudeDeg: -81.052,
  excess: 14.2,
  quantity: 'inletTemperatureK',
  pad: 10,
  freedBy: {
    lever: 'legs.1.fly.2.cruise.mach',
    name: 'cruise Mach of leg 2',
    quantity: 'mach',
    from: 2.85,
    to: 2.784,
    also: [],
    place: null,
    marginAfter: 10.3,
    fuelInHandKg: 612,
  },
};

type Columns = Record<TraceColumn, number[]>;

function fly(startFuelKg: number): { columns: Columns; phase: number[]; phases: PlanPhase[] } {
  const columns = Object.fromEntries(TRACE_COLUMNS.map((name) => [name, [] as number[]])) as Columns;
  const phase: number[] = [];
  const phases: PlanPhase[] = [];
  const state = { timeS: 0, distanceM: 0, ft: 600, mach: 0, fuelKg: startFuelKg, courseDeg: 40 };
  SEGMENTS.forEach((segment, index) => {
    const before = { ...state };
    const nodes = Math.round((segment.minutes * 60) / STEP_S);
    for (let i = index === 0 ? 0 : 1; i <= nodes; i++) {
      const part = i / nodes;
      const ft = before.ft + (segment.ft - before.ft) * (segment.kind === 'climb' ? Math.sqrt(part) : part);
      const mach = machIn(segment, before.mach, ft, part);
      const timeS = before.timeS + part * segment.minutes * 60;
      state.distanceM +=
        i === 0 ? 0 : mach * speedOfSound(standardTemperature(ft * FOOT) + OFFSET_K) * STEP_S;
      Object.assign(state, { timeS, ft, mach });
      state.fuelKg = before.fuelKg - segment.kgPerMin * segment.minutes * part;
      state.courseDeg = before.courseDeg + (segment.turnDeg ?? 0) * part;
      push(columns, state, segment);
      phase.push(index);
    }
    phases.push({
      kind: segment.kind,
      name: segment.name,
      leg: segment.leg,
      startS: before.timeS,
      endS: state.timeS,
      distanceM: state.distanceM - before.distanceM,
      fuelKg: before.fuelKg - state.fuelKg,
    });
  });
  require(columns, phases);
  return { columns, phase, phases };
}

function machIn(segment: Segment, from: number, ft: number, part: number): number {
  const pressure = standardPressure(ft * FOOT);
  if (segment.keas !== undefined) return Math.min(2.75, machFromEquivalent(segment.keas * KNOT, pressure));
  if (segment.kcas !== undefined) return machFromCalibrated(segment.kcas * KNOT, pressure);
  return from + (segment.mach - from) * part;
}

interface State {
  timeS: number;
  distanceM: number;
  ft: number;
  mach: number;
  fuelKg: number;
  courseDeg: number;
}

function push(columns: Columns, state: State, segment: Segment): void {
  const heightM = state.ft * FOOT;
  const pressure = standardPressure(heightM);
  const temperatureK = standardTemperature(heightM) + OFFSET_K;
  const trueAirspeedMS = state.mach * speedOfSound(temperatureK);
  const bankDeg = segment.bankDeg ?? 0;
  const values: Record<TraceColumn, number> = {
    timeS: state.timeS,
    distanceM: state.distanceM,
    latitudeDeg: 45.5 + state.distanceM / 1.2e6,
    longitudeDeg: -85 + state.distanceM / 9e5,
    courseDeg: state.courseDeg,
    pressureAltitudeM: heightM,
    geometricHeightM: heightM,
    energyHeightM: heightM + trueAirspeedMS ** 2 / 19.6133,
    mach: state.mach,
    trueAirspeedMS,
    equivalentAirspeedMS: equivalentAirspeed(state.mach, pressure),
    calibratedAirspeedMS: calibratedAirspeed(state.mach, pressure),
    groundSpeedMS: trueAirspeedMS + 12,
    temperatureK,
    temperatureOffsetK: OFFSET_K,
    inletTemperatureK: temperatureK * (1 + 0.195 * state.mach ** 2),
    windAlongMS: 12,
    windAcrossMS: 3,
    massKg: EMPTY_KG + state.fuelKg,
    fuelKg: state.fuelKg,
    fuelRequiredKg: Number.NaN,
    fuelAtEqualEnergyKg: state.fuelKg,
    fuelFlowKgS: Math.abs(segment.kgPerMin) / 60,
    power: 2,
    thrustN: 180_000,
    dragN: 175_000,
    angleOfAttackDeg: 3 + 4 * (1 - Math.min(1, state.mach / 2)),
    loadFactor: 1 / Math.cos((bankDeg * Math.PI) / 180),
    bankDeg,
    cgFraction: 0.19 + state.fuelKg / 1e6,
    climbRateMS: 0,
  };
  for (const name of TRACE_COLUMNS) columns[name].push(values[name]);
}

/** Required: the recovery at the next contact or the reserve on landing, and 97 % of what is burnt to there. */
function require(columns: Columns, phases: readonly PlanPhase[]): void {
  const ends = phases.filter((p) => p.kind === 'contact').map((p) => p.startS);
  const last = columns.timeS.length - 1;
  columns.timeS.forEach((timeS, i) => {
    const leg = ends.filter((end) => end < timeS).length;
    const node = leg < ends.length ? columns.timeS.indexOf(ends[leg]) : last;
    const contact = phases.find((p) => p.kind === 'contact' && timeS > p.startS && timeS < p.endS);
    const from = contact === undefined ? i : columns.timeS.indexOf(contact.endS);
    const burn = columns.fuelKg[from] - columns.fuelKg[node];
    columns.fuelRequiredKg[i] = contact === undefined ? NEED_KG[leg] + 0.97 * burn : NEED_KG[leg - 1];
  });
}

/** A column each ten minutes, a row each 3000 ft; from behind 10 m/s and 1 m/s more for each row; no data above the 25th. */
function sectionAlong(columns: Columns): Section {
  const times = columns.timeS.filter((timeS) => timeS % 600 === 0);
  const rows = Array.from({ length: 28 }, (_, row) => row);
  const cells = (value: (row: number) => number) =>
    times.map(() => rows.map((row) => (row > 24 ? Number.NaN : value(row))));
  return {
    timeS: times,
    pressureAltitudeM: rows.map((row) => row * 3000 * FOOT),
    temperatureOffsetK: cells((row) => OFFSET_K - row),
    windAlongMS: cells((row) => 10 + row),
    windAcrossMS: cells(() => -3),
    tropopauseM: times.map(() => 36_000 * FOOT),
    covers: 'up to 72 000 ft',
  };
}

interface TestLimit {
  readonly key: string;
  readonly name: string;
  readonly quantity: string;
  readonly column: TraceColumn;
  readonly side: 'upper' | 'lower';
  readonly bound: (mach: number) => number;
  readonly spread: number;
  readonly pad: number;
  readonly scale: number;
}

const LIMITS: readonly TestLimit[] = [
  limit('inletTemperature', 'Inlet temperature', 'inletTemperatureK', 'upper', () => 620, 5, 10, 620),
  limit('mach', 'Mach', 'mach', 'upper', () => 3, 0, 0.05, 3),
  limit(
    'maximumEas',
    'Greatest equivalent airspeed',
    'equivalentAirspeedMS',
    'upper',
    (m) => (m < 1.5 ? 470 : 450) * KNOT,
    2,
    5,
    231,
  ),
  limit(
    'minimumEas',
    'Least equivalent airspeed',
    'equivalentAirspeedMS',
    'lower',
    (m) => (m < 0.7 ? 60 : 200) * KNOT,
    2,
    0,
    100,
  ),
  limit('angleOfAttack', 'Angle of attack', 'angleOfAttackDeg', 'upper', () => 12, 0.5, 0, 12),
  limit('loadFactor', 'Load factor', 'loadFactor', 'upper', () => 2.5, 0, 0, 1.5),
  limit('altitude', 'Altitude', 'pressureAltitudeM', 'upper', () => 80_000 * FOOT, 0, 0, 24_384),
  limit('cgAft', 'Centre of gravity, aft', 'cgFraction', 'upper', () => 0.25, 0.002, 0, 0.2),
];

function limit(
  key: string,
  name: string,
  column: TraceColumn,
  side: 'upper' | 'lower',
  bound: (mach: number) => number,
  spread: number,
  pad: number,
  scale: number,
): TestLimit {
  return { key, name, quantity: column, column, side, bound, spread, pad, scale };
}

function limitsAlong(columns: Columns) {
  const margins: Record<string, number[]> = {};
  const bounds: Record<string, number[]> = {};
  for (const { key, column, side, bound } of LIMITS) {
    bounds[key] = columns.mach.map(bound);
    margins[key] = columns[column].map((_, i) => {
      const above = bounds[key][i] - columns[column][i];
      return side === 'upper' ? above : -above;
    });
  }
  const next = columns.timeS.map((_, i) => {
    const parts = LIMITS.map(({ key, scale }) => ({ key, part: margins[key][i] / scale }));
    return parts.reduce((a, b) => (b.part < a.part ? b : a)).key;
  });
  const closeness = Object.fromEntries(
    LIMITS.map(({ key, scale }) => [key, margins[key].map((margin) => margin / scale)]),
  );
  return { margins, bounds, closeness, next };
}

function summaries(
  margins: Record<string, number[]>,
  bounds: Record<string, number[]>,
  columns: Columns,
  phases: readonly PlanPhase[],
  phase: readonly number[],
): LimitSummary[] {
  const made = LIMITS.map(({ key, name, quantity, column, side, spread, pad, scale }): LimitSummary => {
    const flown = margins[key].map((m, i) => (columns.timeS[i] < 60 && key === 'minimumEas' ? 99 : m));
    const least = flown.indexOf(Math.min(...flown));
    return {
      key,
      name,
      quantity,
      side,
      leastMargin: flown[least],
      spread,
      weatherSpread: 0,
      pad,
      timeS: columns.timeS[least],
      phase: phases[phase[least]].name,
      value: columns[column][least],
      bound: bounds[key][least],
      closeness: flown[least] / scale,
      countsAsOne: scale,
      source: 'deck.yaml:40',
    };
  });
  return made.sort((a, b) => a.closeness - b.closeness);
}

function at(columns: Columns, timeS: number): number {
  return columns.timeS.findIndex((t) => t >= timeS - 1e-6);
}

function refuellingsOf(phases: readonly PlanPhase[], columns: Columns): Refuelling[] {
  return phases
    .filter((p) => p.kind === 'contact')
    .map((p) => {
      const start = at(columns, p.startS);
      const end = at(columns, p.endS);
      const burntKg = 2_000;
      return {
        tanker: p.name.replace('Contact with ', ''),
        contactS: p.startS,
        disconnectS: p.endS,
        pressureAltitudeM: columns.pressureAltitudeM[end],
        calibratedAirspeedMS: columns.calibratedAirspeedMS[end],
        equivalentAirspeedMS: columns.equivalentAirspeedMS[end],
        trueAirspeedMS: columns.trueAirspeedMS[end],
        mach: columns.mach[end],
        fuelOnContactKg: columns.fuelKg[start],
        takenKg: columns.fuelKg[end] - columns.fuelKg[start] + burntKg,
        burntKg,
        rateKgS: 28,
        cgAtContact: columns.cgFraction[start],
        cgAtDisconnect: columns.cgFraction[end],
        endedBy: 'asked' as const,
        waivers: [],
        leastThrustMargin: 0.04,
        enginesAtDisconnect: [
          { name: 'left', power: 3 },
          { name: 'right', power: 2 },
        ],
        afterburnerFromKg: 9_500,
        offloadLeftKg: 11_000,
      };
    });
}

function recoveriesOf(refuellings: readonly Refuelling[], phases: readonly PlanPhase[]): Recovery[] {
  return refuellings.map((refuelling, i) => ({
    name: `No contact with ${refuelling.tanker}`,
    leg: phases.find((p) => p.startS === refuelling.contactS)?.leg ?? 0,
    base: 'Gannet Point',
    fuelRequiredKg: NEED_KG[i],
    fuelOnLandingKg: 2_400 + refuelling.fuelOnContactKg - NEED_KG[i],
    distanceM: 410_000,
    timeS: 2_200,
  }));
}

function eventsOf(phases: readonly PlanPhase[], columns: Columns): PlanEvent[] {
  const event = (timeS: number, kind: string, name: string): PlanEvent => ({
    timeS,
    kind,
    name,
    fuelKg: columns.fuelKg[at(columns, timeS)],
  });
  return phases.flatMap((p) => {
    if (p.kind === 'contact')
      return [event(p.startS, 'contact', p.name), event(p.endS, 'disconnect', 'Disconnect')];
    if (p.kind === 'deceleration') return [event(p.startS, 'start-down', 'Start down')];
    if (p.kind === 'turn') return [event((p.startS + p.endS) / 2, 'waypoint', 'Harrow Bay')];
    if (p.kind === 'landing') return [event(p.endS, 'landing', 'Larkmoor')];
    return [];
  });
}

function climbsOf(phases: readonly PlanPhase[], columns: Columns): ClimbTable[] {
  return [1, 2].map((leg) => {
    const flown = phases.filter((p) => p.leg === leg && ['climb', 'pushover', 'level-off'].includes(p.kind));
    const startS = flown[0].startS;
    const rows = [0.9, 1.2, 1.5, 1.8, 2.1, 2.4, 2.7, 2.85].map((mach) => {
      const node = columns.mach.findIndex((m, i) => columns.timeS[i] >= startS && m >= mach - 1e-9);
      return {
        mach,
        equivalentAirspeedMS: columns.equivalentAirspeedMS[node],
        pressureAltitudeM: columns.pressureAltitudeM[node],
        fuelKg: columns.fuelKg[node],
        fuelRequiredKg: columns.fuelRequiredKg[node],
        timeS: columns.timeS[node],
        sinceStartS: columns.timeS[node] - startS,
        distanceM: columns.distanceM[node] - columns.distanceM[at(columns, startS)],
        inletTemperatureK: columns.inletTemperatureK[node],
      };
    });
    return { leg, name: `from Ewer ${leg === 1 ? 'One' : 'Two'}`, rows };
  });
}

/** A disconnect with its engines apart, gates of which one has a step, and an inlet that its table does not reach. */
function checksAlong(columns: Columns, phases: readonly PlanPhase[]): CheckMoment[] {
  const start = phases.find((p) => p.leg === 1 && p.kind !== 'contact')?.startS ?? 0;
  const climb = climbsOf(phases, columns)[0].rows.filter(({ mach }) => mach > 1 && mach < 2.8);
  const moment = (
    kind: CheckMoment['kind'],
    timeS: number,
    powers: readonly [number, number],
    steps: readonly string[],
  ): CheckMoment => {
    const node = at(columns, timeS);
    return {
      leg: 1,
      kind,
      timeS,
      mach: columns.mach[node],
      pressureAltitudeM: columns.pressureAltitudeM[node],
      temperatureOffsetK: OFFSET_K,
      engines: [
        { name: 'left', power: powers[0] },
        { name: 'right', power: powers[1] },
      ],
      readings: readingsAt(columns, node, powers),
      stepsBefore: steps.slice(0, 1),
      stepsAfter: steps.slice(1),
    };
  };
  const gates = climb.map((row, i) => ({
    ...moment('gate', row.timeS, [4, 4], i === 2 ? ['Heaters on.', 'Doors shut.'] : []),
    mach: row.mach,
  }));
  return [moment('disconnect', start, [3.2, 2], ['Tanker clear.', 'Tanks as planned.', 'Lights.']), ...gates];
}

function readingsAt(columns: Columns, node: number, powers: readonly [number, number]): CheckReading[] {
  const reading = (
    of: string,
    name: string,
    quantity: string,
    expected: number | null,
    more: Partial<CheckReading> = {},
  ): CheckReading => ({
    of,
    name,
    side: null,
    quantity,
    expected,
    standard: null,
    tolerance: null,
    action: null,
    reason: null,
    ...more,
  });
  const action = 'Compare left and right; stay below the next gate; manual.';
  const sides = ['left', 'right'];
  return [
    ...sides.map((side, i) => {
      const flow = 1.1 * powers[i];
      const more = { side, standard: flow * 0.95, tolerance: flow * 0.04, action };
      return reading('fuelFlow', 'Fuel flow', 'fuelFlowKgS', flow, more);
    }),
    ...sides.map((side, i) =>
      reading('nozzle', 'Nozzle', 'fraction', 0.2 * powers[i], {
        side,
        standard: 0.2 * powers[i],
        tolerance: 0.05,
      }),
    ),
    ...sides.map((side) =>
      reading('spike', 'Inlet spike', 'angleDeg', null, {
        side,
        reason: "outside the deck's table of the inlet",
      }),
    ),
    reading('centreOfGravity', 'Centre of gravity', 'cgFraction', columns.cgFraction[node], {
      tolerance: 0.004,
    }),
    reading('fuel', 'Fuel on board', 'fuelKg', columns.fuelKg[node], { action }),
    reading('inletTemperature', 'Inlet temperature', 'inletTemperatureK', columns.inletTemperatureK[node], {
      standard: columns.inletTemperatureK[node] - 9,
      tolerance: 5,
      action,
    }),
    reading('staticTemperature', 'Static temperature', 'temperatureK', columns.temperatureK[node], {
      standard: columns.temperatureK[node] - OFFSET_K,
      tolerance: 3,
    }),
  ];
}

/** Constant W/delta at a fixed Mach, lower where it is warm; held by the inlet limit in the warm columns, without thrust heavy. */
function grid(power: string, lowerM: number): AltitudeGrid {
  const fuelKg = [34_000, 30_000, 26_000, 22_000, 18_000, 14_000, 10_000, 6_000];
  const temperatureOffsetK = [-10, -5, 0, 5, 10];
  const cells = fuelKg.map((fuel) =>
    temperatureOffsetK.map((offset) => {
      const logarithm = Math.log((EMPTY_KG + 34_000) / (EMPTY_KG + fuel));
      const freeM = 19_800 + 6_340 * logarithm - 24 * offset - lowerM;
      if (fuel > 32_000 && offset > 6) {
        return { pressureAltitudeM: null, reason: 'thrust', specificRangeMKg: null, inletTemperatureK: null };
      }
      const held = offset > 6 && fuel < 12_000;
      return {
        pressureAltitudeM: held ? 22_200 : freeM,
        reason: held ? 'inletTemperature' : null,
        specificRangeMKg: 190 + 40 * logarithm - 0.4 * offset,
        inletTemperatureK: 560 + 2.6 * offset,
      };
    }),
  );
  return { power, mach: 2.85, massKg: fuelKg.map((f) => f + EMPTY_KG), fuelKg, temperatureOffsetK, cells };
}

function ladderOf(columns: Columns, phases: readonly PlanPhase[]): LadderRow[] {
  const rows: LadderRow[] = [];
  const end = columns.distanceM.length - 1;
  for (let timeS = 600; timeS < columns.timeS[end]; timeS += 600) {
    const i = at(columns, timeS);
    const contact = phases.find((p) => p.kind === 'contact' && p.startS > timeS);
    const to = contact === undefined ? end : at(columns, contact.startS);
    rows.push({
      timeS,
      name: phases.find((p) => timeS >= p.startS && timeS < p.endS)?.name ?? '',
      distanceM: columns.distanceM[i],
      distanceToGoM: columns.distanceM[to] - columns.distanceM[i],
      pressureAltitudeM: columns.pressureAltitudeM[i],
      mach: columns.mach[i],
      fuelKg: columns.fuelKg[i],
      fuelRequiredKg: columns.fuelRequiredKg[i],
      differenceKg: columns.fuelKg[i] - columns.fuelRequiredKg[i],
    });
  }
  return rows;
}
