/**
 * Geodesics on WGS 84, by the GeographicLib of C. F. F. Karney (Algorithms for geodesics, J. Geodesy 87, 2013).
 *
 * Conventions: latitude geodetic, longitude positive east in (-pi, pi], course true and clockwise from north in
 * (-pi, pi], all in radians; distances in metres on the ellipsoid.
 */
import geographiclib from 'geographiclib-geodesic';
import { OutsideRange } from '../quantities/errors.ts';
import { eccentricitySquare, meridianRadius, primeVerticalRadius, radiusOnCourse } from './ellipsoid.ts';

const { Geodesic } = geographiclib;
const wgs84 = Geodesic.WGS84;
const degree = Math.PI / 180;
const positionAndCourse = Geodesic.LATITUDE | Geodesic.LONGITUDE | Geodesic.AZIMUTH;

export interface Place {
  readonly latitudeRad: number;
  readonly longitudeRad: number;
}

/** The geodesic between two places. */
export interface Inverse {
  distanceM: number;
  /** True course at the start and, in the direction of travel, at the end. */
  initialCourseRad: number;
  finalCourseRad: number;
}

/** The shortest line from one place to another. */
export function inverse(from: Place, to: Place): Inverse {
  const answer = wgs84.Inverse(
    from.latitudeRad / degree,
    from.longitudeRad / degree,
    to.latitudeRad / degree,
    to.longitudeRad / degree,
  );
  return {
    distanceM: answer.s12 as number,
    initialCourseRad: (answer.azi1 as number) * degree,
    finalCourseRad: (answer.azi2 as number) * degree,
  };
}

/** Where a line of a distance ends that leaves a place on a course, and its course there. */
export function direct(
  from: Place,
  courseRad: number,
  distanceM: number,
): Place & { readonly courseRad: number } {
  const answer = wgs84.Direct(
    from.latitudeRad / degree,
    from.longitudeRad / degree,
    courseRad / degree,
    distanceM,
    positionAndCourse,
  );
  return {
    latitudeRad: (answer.lat2 as number) * degree,
    longitudeRad: (answer.lon2 as number) * degree,
    courseRad: (answer.azi2 as number) * degree,
  };
}

/** A point of a line, written in place by `Line.at`. */
export interface LinePoint {
  latitudeRad: number;
  longitudeRad: number;
  courseRad: number;
  sinLatitude: number;
  cosLatitude: number;
  sinCourse: number;
  cosCourse: number;
}

/** An empty `LinePoint` to be filled by `Line.at`. */
export function newLinePoint(): LinePoint {
  return {
    latitudeRad: 0.5,
    longitudeRad: 0.5,
    courseRad: 0.5,
    sinLatitude: 0.5,
    cosLatitude: 0.5,
    sinCourse: 0.5,
    cosCourse: 0.5,
  };
}

/** A place seen from a line: distance along it to the foot of the perpendicular, and to the right of it. */
export interface Offset {
  alongM: number;
  rightM: number;
}

/** Distance between the nodes of a prepared line. */
const spacingM = 50_000;
/** How far a line is prepared before its start and beyond its end. */
const marginM = 400_000;
const nodeSize = 6;

/**
 * A geodesic prepared for quick look-up. Between nodes 50 km apart the unit normal of the ellipsoid is a cubic Hermite
 * polynomial of distance: within 0.1 mm and 1e-8 rad of the geodesic, over the poles and the date line too.
 * It may be read from 400 km before its start to 400 km beyond its end.
 */
export class Line {
  readonly from: Place;
  readonly to: Place;
  readonly lengthM: number;
  readonly initialCourseRad: number;
  readonly finalCourseRad: number;
  private readonly count: number;
  private readonly stepM: number;
  /** Normal (3) and its change per step (3) at each node. */
  private readonly nodes: Float64Array;

  /**
   * `everyM` between nodes: 4 times as far is within 3 cm and 1e-6 rad. Throws `OutsideRange` when the places are less than 1 m apart: a
   * line needs a direction.
   */
  constructor(from: Place, to: Place, everyM = spacingM) {
    const ends = inverse(from, to);
    if (!(ends.distanceM >= 1)) {
      throw new OutsideRange('distance between the ends', ends.distanceM, 'm', 1, 20_003_932, 'a line');
    }
    this.from = from;
    this.to = to;
    this.lengthM = ends.distanceM;
    this.initialCourseRad = ends.initialCourseRad;
    this.finalCourseRad = ends.finalCourseRad;
    const span = this.lengthM + 2 * marginM;
    this.count = Math.ceil(span / everyM);
    this.stepM = span / this.count;
    this.nodes = prepare(from, ends.initialCourseRad, this.count, this.stepM);
  }

  /** Writes the place and true course at a distance [m] from the start; throws `OutsideRange` beyond the margins. */
  at(distanceM: number, out: LinePoint): void {
    const position = (distanceM + marginM) / this.stepM;
    if (!(position >= 0 && position <= this.count)) {
      const end = this.lengthM + marginM;
      throw new OutsideRange('distance along the line', distanceM, 'm', -marginM, end, 'a prepared line');
    }
    const cell = Math.min(Math.floor(position), this.count - 1);
    const t = position - cell;
    const nodes = this.nodes;
    const i = cell * nodeSize;
    const t2 = t * t;
    const rise = t2 * (3 - 2 * t);
    const start = t * (1 - t) * (1 - t);
    const end = t2 * (t - 1);
    const riseSlope = 6 * (t - t2);
    const startSlope = 1 - 4 * t + 3 * t2;
    const endSlope = 3 * t2 - 2 * t;
    const dx = nodes[i + 6] - nodes[i];
    const dy = nodes[i + 7] - nodes[i + 1];
    const dz = nodes[i + 8] - nodes[i + 2];
    const x = nodes[i] + rise * dx + start * nodes[i + 3] + end * nodes[i + 9];
    const y = nodes[i + 1] + rise * dy + start * nodes[i + 4] + end * nodes[i + 10];
    const z = nodes[i + 2] + rise * dz + start * nodes[i + 5] + end * nodes[i + 11];
    const xs = riseSlope * dx + startSlope * nodes[i + 3] + endSlope * nodes[i + 9];
    const ys = riseSlope * dy + startSlope * nodes[i + 4] + endSlope * nodes[i + 10];
    const zs = riseSlope * dz + startSlope * nodes[i + 5] + endSlope * nodes[i + 11];
    resolve(x, y, z, xs, ys, zs, out);
  }

  /**
   * Where a place lies as seen from the line, by geodesics, within 1 mm up to 300 km to the side (`alongM` may lie beyond
   * the ends, within the margin). About 15 us: for the planner, not for the inside of a step.
   */
  offset(place: Place): Offset {
    const point = newLinePoint();
    let along = this.nearest(place, this.lengthM / 2, 100).alongM;
    let rightM = 0;
    for (let iteration = 0; iteration < 20; iteration++) {
      this.at(along, point);
      const seen = inverse(point, place);
      const angle = seen.initialCourseRad - point.courseRad;
      const radius = radiusOnCourse(point.sinLatitude * point.sinLatitude, point.courseRad);
      const arc = seen.distanceM / radius;
      const step = radius * Math.atan(Math.tan(arc) * Math.cos(angle));
      rightM = Math.sin(angle) < 0 ? -seen.distanceM : seen.distanceM;
      if (Math.abs(step) < 1e-4) break;
      along = this.clamp(along + step);
    }
    return { alongM: along, rightM };
  }

  /**
   * The same quickly and without garbage, for the inside of a step: both within 5e-4 of the distance to the side, exact
   * on the line. `guessM` is a distance along the line near the answer; `iterations` 3 suffice from within 500 km.
   */
  nearest(place: Place, guessM: number, iterations = 3, out: Offset = { alongM: 0.5, rightM: 0.5 }): Offset {
    const cos = Math.cos(place.latitudeRad);
    const px = cos * Math.cos(place.longitudeRad);
    const py = cos * Math.sin(place.longitudeRad);
    const pz = Math.sin(place.latitudeRad);
    let along = this.clamp(guessM);
    for (let iteration = 0; iteration < iterations; iteration++) {
      this.at(along, nearestPoint);
      project(px, py, pz, nearestPoint, projection);
      const next = this.clamp(along + projection.alongM);
      const moved = Math.abs(next - along);
      along = next;
      if (moved < 1e-3) break;
    }
    this.at(along, nearestPoint);
    project(px, py, pz, nearestPoint, projection);
    out.alongM = along;
    out.rightM = projection.rightM;
    return out;
  }

  private clamp(distanceM: number): number {
    return Math.min(Math.max(distanceM, -marginM), this.lengthM + marginM);
  }
}

const nearestPoint = newLinePoint();
const projection: Offset = { alongM: 0.5, rightM: 0.5 };

function prepare(from: Place, courseRad: number, count: number, stepM: number): Float64Array {
  const track = wgs84.DirectLine(
    from.latitudeRad / degree,
    from.longitudeRad / degree,
    courseRad / degree,
    stepM,
    positionAndCourse | Geodesic.DISTANCE_IN,
  );
  const nodes = new Float64Array((count + 1) * nodeSize);
  for (let node = 0; node <= count; node++) {
    const point = track.Position(node * stepM - marginM, positionAndCourse);
    const latitude = (point.lat2 as number) * degree;
    const longitude = (point.lon2 as number) * degree;
    const course = (point.azi2 as number) * degree;
    const sl = Math.sin(latitude);
    const cl = Math.cos(latitude);
    const so = Math.sin(longitude);
    const co = Math.cos(longitude);
    const north = (stepM * Math.cos(course)) / meridianRadius(sl * sl);
    const east = (stepM * Math.sin(course)) / primeVerticalRadius(sl * sl);
    const normal = [cl * co, cl * so, sl];
    const slope = [-north * sl * co - east * so, -north * sl * so + east * co, north * cl];
    nodes.set(normal, node * nodeSize);
    nodes.set(slope, node * nodeSize + 3);
  }
  return nodes;
}

/** Latitude, longitude and course from the normal (x, y, z), of any length near 1, and its derivative along the line. */
function resolve(x: number, y: number, z: number, xs: number, ys: number, zs: number, out: LinePoint): void {
  const level = x * x + y * y;
  const length = Math.sqrt(level + z * z);
  const rho = Math.sqrt(level);
  const sinLatitude = z / length;
  const cosLatitude = rho / length;
  const sinLongitude = rho > 0 ? y / rho : 0;
  const cosLongitude = rho > 0 ? x / rho : 1;
  const outward = cosLongitude * xs + sinLongitude * ys;
  // The normal turns by dN/M northward and dE/N eastward for a metre; the ratio N/M restores lengths.
  const n = (1 - eccentricitySquare * sinLatitude * sinLatitude) / (1 - eccentricitySquare);
  const east = (cosLongitude * ys - sinLongitude * xs) * n;
  const north = cosLatitude * zs - sinLatitude * outward;
  const speed = 1 / Math.sqrt(east * east + north * north);
  out.latitudeRad = Math.atan2(z, rho);
  out.longitudeRad = Math.atan2(y, x);
  out.courseRad = Math.atan2(east, north);
  out.sinLatitude = sinLatitude;
  out.cosLatitude = cosLatitude;
  out.sinCourse = east * speed;
  out.cosCourse = north * speed;
}

/** The normal (px, py, pz) seen from a point of a line, on the sphere that fits the ellipsoid there. */
function project(px: number, py: number, pz: number, point: LinePoint, out: Offset): void {
  const co = Math.cos(point.longitudeRad);
  const so = Math.sin(point.longitudeRad);
  const outward = px * co + py * so;
  const square = point.sinLatitude * point.sinLatitude;
  const up = outward * point.cosLatitude + pz * point.sinLatitude;
  const north = (pz * point.cosLatitude - outward * point.sinLatitude) * meridianRadius(square);
  const east = (py * co - px * so) * primeVerticalRadius(square);
  const ahead = north * point.cosCourse + east * point.sinCourse;
  const right = east * point.cosCourse - north * point.sinCourse;
  const radius = Math.sqrt(meridianRadius(square) * primeVerticalRadius(square));
  const planar = Math.sqrt(ahead * ahead + right * right);
  const arc = radius * Math.atan2(planar, radius * up);
  const stretch = planar > 0 ? arc / planar : 1 / up;
  out.alongM = ahead * stretch;
  out.rightM = right * stretch;
}
