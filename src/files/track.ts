/** The track of a plan, to be written for other programs: nodes, named points, cut where it crosses 180 degrees. */
import { angleBetween, between, type Vertical, verticalOf } from '../core/earth/flown.ts';
import type { Place } from '../core/earth/line.ts';
import type { Plan } from '../core/plan/plan.ts';
import { readTime } from '../core/quantities/time.ts';

const degree = Math.PI / 180;

/** A place over which the aircraft is at a moment: degrees, metres above the sea, seconds since 1970. */
export interface TrackPoint {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly heightM: number;
  readonly timeS: number;
}

export interface NamedPoint extends TrackPoint {
  readonly name: string;
  /** 'waypoint', 'contact', 'landing' ... */
  readonly kind: string;
}

export interface WrittenTrack {
  readonly name: string;
  /** What everyone who opens the file must know. */
  readonly note: string;
  readonly points: readonly TrackPoint[];
  readonly named: readonly NamedPoint[];
}

/** The track of a plan as flown, its events as named points. */
export function trackOfPlan(
  plan: Pick<Plan, 'title' | 'caution' | 'fingerprint' | 'takeOff' | 'events'> & {
    readonly trace: {
      readonly columns: Pick<
        Plan['trace']['columns'],
        'timeS' | 'latitudeDeg' | 'longitudeDeg' | 'geometricHeightM'
      >;
    };
  },
): WrittenTrack {
  const { timeS, latitudeDeg, longitudeDeg, geometricHeightM } = plan.trace.columns;
  const takeOffS = readTime(plan.takeOff);
  const points = timeS.map((time, i) => ({
    latitudeDeg: latitudeDeg[i],
    longitudeDeg: longitudeDeg[i],
    heightM: geometricHeightM[i],
    timeS: takeOffS + time,
  }));
  const named = plan.events.map((event) => ({
    ...pointAt(points, takeOffS + event.timeS),
    name: event.name,
    kind: event.kind,
  }));
  return { name: plan.title, note: `${plan.fingerprint}. ${plan.caution}`, points, named };
}

/** The point of a track at a moment, on the great circle between two nodes; the first or last one beyond its ends. */
function pointAt(points: readonly TrackPoint[], timeS: number): TrackPoint {
  const after = points.findIndex((point) => point.timeS >= timeS);
  if (after <= 0) return after < 0 ? points[points.length - 1] : points[0];
  const [from, to] = [points[after - 1], points[after]];
  return pointBetween(from, to, (timeS - from.timeS) / (to.timeS - from.timeS));
}

function placeOfPoint({ latitudeDeg, longitudeDeg }: TrackPoint): Place {
  return { latitudeRad: latitudeDeg * degree, longitudeRad: longitudeDeg * degree };
}

function pointBetween(from: TrackPoint, to: TrackPoint, part: number): TrackPoint {
  const place = between(placeOfPoint(from), placeOfPoint(to), part);
  return {
    latitudeDeg: place.latitudeRad / degree,
    longitudeDeg: place.longitudeRad / degree,
    heightM: from.heightM + part * (to.heightM - from.heightM),
    timeS: from.timeS + part * (to.timeS - from.timeS),
  };
}

/** A track in parts that do not cross 180 degrees: one ends and the next begins on it, at the same latitude. */
export function partsAt180(points: readonly TrackPoint[]): TrackPoint[][] {
  const parts: TrackPoint[][] = [[]];
  points.forEach((point, i) => {
    const before = points[i - 1];
    const part = parts[parts.length - 1];
    if (before && Math.abs(point.longitudeDeg - before.longitudeDeg) > 180) {
      const meeting = crossing180(before, point);
      const side = Math.sign(before.longitudeDeg) * 180;
      add(part, { ...meeting, longitudeDeg: side });
      parts.push([{ ...meeting, longitudeDeg: -side }]);
    }
    add(parts[parts.length - 1], point);
  });
  return parts.filter((part) => part.length > 1);
}

function add(part: TrackPoint[], point: TrackPoint): void {
  const last = part[part.length - 1];
  if (last?.latitudeDeg !== point.latitudeDeg || last.longitudeDeg !== point.longitudeDeg) part.push(point);
}

/** Where the great circle between two points crosses the meridian of 180 degrees. */
function crossing180(from: TrackPoint, to: TrackPoint): TrackPoint {
  const [a, b] = [verticalOf(placeOfPoint(from)), verticalOf(placeOfPoint(to))];
  const share = a[1] / (a[1] - b[1]);
  const meeting: Vertical = [a[0] + share * (b[0] - a[0]), 0, a[2] + share * (b[2] - a[2])];
  return pointBetween(from, to, angleBetween(a, meeting) / angleBetween(a, b));
}

/** A moment as XML Schema and GeoJSON readers take it: "2026-03-04T16:00:00.000Z". */
export function isoTime(timeS: number): string {
  return new Date(Math.round(timeS * 1000)).toISOString();
}
