/** Courses by magnetic north: of the turns, of the refuelling tracks and of the first line from the runway. */
import {
  type Compass,
  magneticCourse,
  magneticEdition,
  magneticFieldAt,
  NoMagneticModel,
} from '../earth/magnetic.ts';
import type { Draft } from './draft.ts';
import { type PlaceAt, placeAt } from './place-at.ts';
import type { CourseAt, MagneticTurn, PlanMagnetic, Refuelling, RefuellingAsked, TurnFlown } from './plan.ts';

const degrees = 180 / Math.PI;
/** From the best to the worst. */
const compasses: readonly Compass[] = ['good', 'caution', 'blackout'];

/** Magnetic north at one time. */
export interface North {
  /** null outside the years of the models. */
  readonly edition: string | null;
  /** Why there is none, as a sentence of `notComputed`. */
  readonly missing: readonly string[];
  /** A true course [deg] at a place, by both norths. */
  read(courseDeg: number, at: PlaceAt): CourseAt;
}

/** Magnetic north at a time; that of the take-off stands for a sortie, since it moves by less than 0.01 degrees a day. */
export function northAt(timeS: number): North {
  try {
    const fieldAt = magneticFieldAt(timeS);
    return {
      edition: magneticEdition(timeS),
      missing: [],
      read: (courseDeg, at) => {
        const { declinationRad, compass } = fieldAt(at, at.geometricHeightM);
        const magneticDeg = magneticCourse(courseDeg / degrees, declinationRad) * degrees;
        return { courseDeg, magneticDeg, compass };
      },
    };
  } catch (error) {
    if (!(error instanceof NoMagneticModel)) throw error;
    return {
      edition: null,
      missing: [`magnetic courses: ${error.message}`],
      read: (courseDeg) => ({ courseDeg, magneticDeg: null, compass: null }),
    };
  }
}

/** The edition, and the course of the first line at the runway; null where there is no edition. */
export function magneticOf({ log, crew }: Draft, { edition, read }: North): PlanMagnetic | null {
  if (edition === null || log.nodes === 0) return null;
  const { base } = crew.sortie.takeOff;
  const at = { ...base, geometricHeightM: base.elevationM };
  return { edition, takeOff: read(inCircle(log.columns.courseRad[0]), at) };
}

/** A turn with its courses by magnetic north, where the bank begins and where the wings are level; times since take-off. */
export function withMagnetic(
  turn: Omit<TurnFlown, keyof MagneticTurn>,
  { log, crew }: Draft,
  { read }: North,
): TurnFlown {
  const takeOffS = crew.sortie.takeOff.timeS;
  const from = read(turn.courseFromDeg, placeAt(log, takeOffS + turn.rollInS));
  const to = read(turn.courseToDeg, placeAt(log, takeOffS + turn.endS));
  const ranks = [from, to].map(({ compass }) => compasses.indexOf(compass ?? 'good'));
  return {
    ...turn,
    magneticFromDeg: from.magneticDeg,
    magneticToDeg: to.magneticDeg,
    compass: from.compass && compasses[Math.max(...ranks)],
  };
}

/** The refuellings as flown with what the sortie asks of each; they stand in the order of its contacts. */
export function withAsked({ flown, crew }: Draft, { read }: North): (Refuelling & RefuellingAsked)[] {
  const contacts = crew.sortie.legs.flatMap(({ end }) => (end.kind === 'contact' ? [end] : []));
  return flown.refuellings.map((refuelling, i) => {
    const { tanker, takeKg } = contacts[i];
    const at = { ...tanker, geometricHeightM: tanker.pressureAltitudeM };
    const track = read(inCircle(tanker.courseRad), at);
    return { ...refuelling, track, askedKg: takeKg === 'full' ? null : takeKg };
  });
}

/** Degrees from 0 to 360. */
function inCircle(courseRad: number): number {
  return (courseRad * degrees + 360) % 360;
}
