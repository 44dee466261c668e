/**
 * How to go through the drag rise of a sortie: the pushover of least fuel beside the planned one and the best level acceleration, and
 * the same acceleration on every heading. Worked out on demand: it flies each leg some hundreds of times.
 */
import { inverse, type Line, newLinePoint } from '../earth/line.ts';
import type { FlightState } from '../flight/state.ts';
import { accelerateOn, type HeadingFlown, type WindEnergy } from '../optimise/acceleration-heading.ts';
import {
  type AccelerationQuestion,
  type LevelFlown,
  levelPath,
  type PushoverFlown,
  type PushoverShape,
  pushoverPath,
  toReference,
} from '../optimise/acceleration-path.ts';
import { bestLevel, bestPushover, LAST_STEPS, type Neighbour } from '../optimise/pushover-best.ts';
import {
  type AccelerationSteps,
  accelerationSteps,
  questionOfLeg,
  referenceOf,
} from './acceleration-start.ts';
import { northAt } from './courses.ts';
import { type Draft, draftOf, type PlanRequest } from './draft.ts';
import { LegFlyer } from './leg-flyer.ts';
import { Log, newProgress } from './log.ts';
import type { CourseAt } from './plan.ts';
import type { Leg } from './sortie.ts';

const degrees = 180 / Math.PI;
const EVERY_DEG = 15;
/** Nodes of an acceleration on a heading, for the wind on its way. */
const HEADING_EVERY_S = 10;

/** One for each leg with a supersonic climb that was flown that far. */
export interface LegAcceleration {
  readonly leg: number;
  readonly name: string;
  /** The Mach on the climb's schedule to which every way is flown. */
  readonly toMach: number;
  readonly from: {
    readonly timeS: number;
    readonly pressureAltitudeM: number;
    readonly mach: number;
    readonly fuelKg: number;
  };
  readonly pushLoadFactor: number;
  readonly pullLoadFactor: number;
  readonly planned: AccelerationWay;
  readonly bestLevel: AccelerationWay | null;
  readonly bestPushover: AccelerationWay | null;
  readonly search: PushoverSearch;
  /** Every 15 degrees from north, flown straight from where the leg begins. */
  readonly headings: readonly HeadingRow[];
  /** The course on which the plan goes through the drag rise, flown in the same way. */
  readonly plannedHeading: HeadingRow;
  /** Index of the heading of least fuel to the Mach; null where none can be flown. */
  readonly bestHeading: number | null;
  /** The same with the way that is then left, at what the leg's cruise burns; null also without a cruise. */
  readonly bestHeadingWithWay: number | null;
  readonly cruiseFuelKgM: number | null;
  /** Where the leg goes first. */
  readonly next: string;
}

export interface AccelerationWay {
  readonly kind: 'pushover' | 'level';
  /** null where it was refused, as time and distance are. */
  readonly fuelKg: number | null;
  readonly durationS: number | null;
  readonly distanceM: number | null;
  /** Of a pushover: reached before the push. */
  readonly mach: number | null;
  readonly pathAngleDeg: number | null;
  /** Of the bottom, or of the level acceleration. */
  readonly pressureAltitudeM: number;
  readonly pullPressureAltitudeM: number | null;
  readonly pullMach: number | null;
  readonly bottomMach: number | null;
  /** Key and sentence of what refused it; null where it can be flown. */
  readonly refused: Refused | null;
}

interface Refused {
  readonly reason: string;
  readonly text: string;
}

export interface PushoverSearch {
  readonly flights: number;
  /** The search ends where no step of these, in any combination of the three, burns less. */
  readonly stepMach: number;
  readonly stepDeg: number;
  readonly stepM: number;
  /** One step of each by itself. */
  readonly neighbours: readonly {
    readonly variable: 'mach' | 'pathAngleDeg' | 'bottomPressureAltitudeM';
    readonly by: number;
    readonly moreKg: number | null;
    readonly heldBy: string | null;
  }[];
  /** Where nothing can be flown: what refused the ways that were tried, most often first. */
  readonly refusals: readonly string[];
}

export interface HeadingRow extends CourseAt {
  /** From the start of the leg to the Mach; null where it was refused, as the other numbers are. */
  readonly fuelKg: number | null;
  readonly durationS: number | null;
  readonly distanceM: number | null;
  readonly windEnergyM: number | null;
  /** From the end to where the leg goes first. */
  readonly toNextM: number | null;
  /** Fuel to the Mach and over that distance as the leg's cruise burns it. */
  readonly fuelWithWayKg: number | null;
  readonly refused: Refused | null;
}

/** Throws `CannotPlan` as a plan does. */
export function accelerationOf(request: PlanRequest): LegAcceleration[] {
  const drafted = draftOf(request);
  return request.sortie.legs.flatMap((_, leg) => {
    const steps = accelerationSteps(drafted, leg);
    const question = steps && questionOfLeg(drafted, leg, steps);
    return steps && question ? [legOf(drafted, leg, steps, question)] : [];
  });
}

function legOf(
  drafted: Draft,
  index: number,
  steps: AccelerationSteps,
  question: AccelerationQuestion,
): LegAcceleration {
  const { crew } = drafted;
  const { flight, sortie } = crew;
  const { from, track } = question;
  const leg = sortie.legs[index];
  flight.placeOnTrack(track, from.distanceM, from.pressureAltitudeM, from.timeS);
  const mach = from.trueAirspeedMS / flight.frame.air.speedOfSoundMS;
  const shape = steps.pushover && shapeOf(steps.pushover);
  const level = bestLevel(question);
  const found = bestPushover(question, shape ? [shape] : []);
  const point = newLinePoint();
  track.at(from.distanceM, point);
  const headings = new Headings(drafted, index, steps);
  const rows = Array.from({ length: 360 / EVERY_DEG }, (_, i) => headings.fly((i * EVERY_DEG) / degrees));
  return {
    leg: index,
    name: leg.name,
    toMach: question.reference.mach,
    from: {
      timeS: from.timeS - sortie.takeOff.timeS,
      pressureAltitudeM: from.pressureAltitudeM,
      mach,
      fuelKg: from.massKg - flight.setup.zeroFuelMassKg,
    },
    pushLoadFactor: question.pushLoadFactor,
    pullLoadFactor: question.pullLoadFactor,
    planned: shape
      ? pushoverWay(pushoverPath(question, shape))
      : levelWay(levelPath(question, from.pressureAltitudeM)),
    bestLevel: level && levelWay(level),
    bestPushover: found.best && pushoverWay(found.best),
    search: {
      flights: found.flights,
      stepMach: LAST_STEPS.mach,
      stepDeg: LAST_STEPS.pathAngleRad * degrees,
      stepM: LAST_STEPS.bottomPressureAltitudeM,
      neighbours: found.neighbours.map(neighbourOf),
      refusals: found.refusals,
    },
    headings: rows,
    plannedHeading: headings.fly(point.courseRad),
    bestHeading: leastOf(rows, 'fuelKg'),
    bestHeadingWithWay: leastOf(rows, 'fuelWithWayKg'),
    cruiseFuelKgM: orNull(headings.cruiseFuelKgM),
    next: firstPlace(leg).name,
  };
}

function shapeOf(step: NonNullable<AccelerationSteps['pushover']>): PushoverShape {
  return { mach: step.mach, pathAngleRad: step.angleRad, bottomPressureAltitudeM: step.bottomM };
}

function pushoverWay({ shape, solution, pullMach, bottomMach, ...path }: PushoverFlown): AccelerationWay {
  return {
    kind: 'pushover',
    ...numbersOf(path),
    mach: shape.mach,
    pathAngleDeg: shape.pathAngleRad * degrees,
    pressureAltitudeM: shape.bottomPressureAltitudeM,
    pullPressureAltitudeM: solution?.pullStartPressureAltitudeM ?? null,
    pullMach: orNull(pullMach),
    bottomMach: orNull(bottomMach),
  };
}

function levelWay({ pressureAltitudeM, ...path }: LevelFlown): AccelerationWay {
  return {
    kind: 'level',
    ...numbersOf(path),
    mach: null,
    pathAngleDeg: null,
    pressureAltitudeM,
    pullPressureAltitudeM: null,
    pullMach: null,
    bottomMach: null,
  };
}

function numbersOf({
  fuelKg,
  timeS,
  distanceM,
  refused,
}: Pick<LevelFlown, 'fuelKg' | 'timeS' | 'distanceM' | 'refused'>) {
  return {
    fuelKg: orNull(fuelKg),
    durationS: orNull(timeS),
    distanceM: orNull(distanceM),
    refused: refused && { reason: refused.reason, text: refused.text },
  };
}

function neighbourOf({ variable, by, moreKg, heldBy }: Neighbour): PushoverSearch['neighbours'][number] {
  const angle = variable === 'pathAngleRad';
  return {
    variable: angle ? 'pathAngleDeg' : variable,
    by: angle ? by * degrees : by,
    moreKg: orNull(moreKg),
    heldBy,
  };
}

function orNull(value: number): number | null {
  return Number.isNaN(value) ? null : value;
}

function firstPlace({ through, end }: Leg) {
  if (through.length > 0) return through[0];
  return end.kind === 'contact' ? end.tanker : end.base;
}

function leastOf(rows: readonly HeadingRow[], of: 'fuelKg' | 'fuelWithWayKg'): number | null {
  let best: number | null = null;
  rows.forEach((row, i) => {
    const [fuel, least] = [row[of], best === null ? null : rows[best][of]];
    if (fuel !== null && (least === null || fuel < least)) best = i;
  });
  return best;
}

/** The climb, the pushover and the acceleration of a leg, straight ahead from where the leg begins. */
class Headings {
  private readonly drafted: Draft;
  private readonly leg: Leg;
  private readonly question: Pick<AccelerationQuestion, 'flight' | 'reference'>;
  private readonly from: Readonly<FlightState>;
  private readonly north: ReturnType<typeof northAt>;
  /** Of the leg's cruise as planned; NaN without one. */
  readonly cruiseFuelKgM: number;

  constructor(drafted: Draft, index: number, steps: AccelerationSteps) {
    const { crew, log } = drafted;
    const leg = crew.sortie.legs[index];
    const start = log.anchors.find(({ progress }) => progress.leg === index);
    const before = steps.first + (steps.pushover ? 1 : 0);
    if (!start) throw new Error('a leg that was flown has a start');
    this.drafted = drafted;
    this.leg = { ...leg, fly: leg.fly.slice(0, before) };
    this.question = { flight: crew.flight, reference: referenceOf(steps) };
    this.from = start.progress.state;
    const cruises = log.phases.filter(({ leg: of, kind }) => of === index && kind === 'cruise');
    const sum = (key: 'fuelKg' | 'distanceM') => cruises.reduce((all, phase) => all + phase[key], 0);
    this.cruiseFuelKgM = cruises.length === 0 ? Number.NaN : sum('fuelKg') / sum('distanceM');
    this.north = northAt(crew.sortie.takeOff.timeS);
  }

  fly(courseRad: number): HeadingRow {
    const { from, leg } = this;
    const flown = accelerateOn(from, from, courseRad, (state, track, wind) => this.along(state, track, wind));
    const place = { ...from, geometricHeightM: from.pressureAltitudeM };
    const course = this.north.read((courseRad * degrees + 360) % 360, place);
    const toNextM = flown.end && inverse(flown.end, firstPlace(leg)).distanceM;
    return {
      ...course,
      fuelKg: orNull(flown.fuelKg),
      durationS: orNull(flown.timeS),
      distanceM: orNull(flown.distanceM),
      windEnergyM: orNull(flown.windEnergyM),
      toNextM,
      fuelWithWayKg: orNull(flown.fuelKg + (toNextM ?? Number.NaN) * this.cruiseFuelKgM),
      refused: flown.refused && { reason: flown.refused.reason, text: flown.refused.text },
    };
  }

  private along(state: FlightState, track: Line, wind: WindEnergy): HeadingFlown['refused'] {
    const { crew } = this.drafted;
    const log = new Log([]);
    const progress = { ...newProgress(), state };
    const route = { tracks: [track], corners: [], cornersM: [] };
    const stopped = new LegFlyer(crew, this.leg, route, null, log).flyToDescent(progress);
    if (stopped) return stopped;
    const end = toReference({ ...this.question, track }, state, [], log.recorder(HEADING_EVERY_S));
    const { trueAirspeedMS, climbRateMS, tailwindMS } = log.columns;
    for (let i = 0; i < log.nodes; i++) {
      wind.add(Math.sqrt(trueAirspeedMS[i] ** 2 - climbRateMS[i] ** 2), tailwindMS[i]);
    }
    return end;
  }
}
