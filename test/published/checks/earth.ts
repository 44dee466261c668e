/** Geodesics, gravity, curvature and rotation of the Earth. */
import { gravityDown, gravityNorth, normalGravity, surfaceGravity } from '../../../src/core/earth/gravity.ts';
import { direct, inverse, Line, newLinePoint, type Place } from '../../../src/core/earth/line.ts';
import { coriolisRelief, coriolisToTheRight, curvatureRelief } from '../../../src/core/earth/rotation.ts';
import { PublishedTable } from './csv.ts';
import { type CheckResult, Tally } from './tally.ts';

const degree = Math.PI / 180;

/** The smallest angle between two directions, rad. */
function between(a: number, b: number): number {
  return Math.abs(Math.atan2(Math.sin(a - b), Math.cos(a - b)));
}

/** Straight distance in metres between two places, on the Earth's greatest sphere: an upper bound for small ones. */
function apart(a: Place, b: Place): number {
  const dx =
    Math.cos(a.latitudeRad) * Math.cos(a.longitudeRad) - Math.cos(b.latitudeRad) * Math.cos(b.longitudeRad);
  const dy =
    Math.cos(a.latitudeRad) * Math.sin(a.longitudeRad) - Math.cos(b.latitudeRad) * Math.sin(b.longitudeRad);
  const dz = Math.sin(a.latitudeRad) - Math.sin(b.latitudeRad);
  return 6399594 * Math.sqrt(dx * dx + dy * dy + dz * dz);
}

export function checkGeodesics(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'geodesics');
  const tally = new Tally(table.name);
  for (const row of table.rows) {
    const from = { latitudeRad: row.need('latitude1'), longitudeRad: row.need('longitude1') };
    const to = { latitudeRad: row.need('latitude2'), longitudeRad: row.need('longitude2') };
    const distance = row.need('distance');
    const course = row.need('azimuth1');
    const name = `row ${row.number} (${row.text('class')}, ${row.text('source')})`;
    const kind = row.text('class');
    const line = inverse(from, to);
    const found = direct(from, course, distance);
    tally.absolute('distance', 'm', distance, () => line.distanceM, name);
    tally.absolute('end of direct', 'm', 0, () => apart(found, to), name);
    // Azimuths of short lines are as uncertain as their ends, 1e-7 m over the length; near antipodes they are not defined.
    const azimuths: [number, number][] = [
      [course, line.initialCourseRad],
      [row.need('azimuth2'), line.finalCourseRad],
    ];
    if (kind !== 'nearly-antipodal') {
      for (const [published, computed] of azimuths) {
        tally.absolute(`azimuth, ${kind}`, 'rad', 0, () => between(published, computed), name);
      }
      // Along the equator the arc has no node to count from.
      const equatorial = Math.abs(from.latitudeRad) + Math.abs(to.latitudeRad) < 1e-9;
      if (!equatorial) tally.absolute('arc', 'deg', row.raw('arc'), () => arcOf(from, to), name);
    }
    if (distance >= 1) compareLine(tally, from, to, distance, found, name);
  }
  return tally.results(
    {
      distance: { mean: 5e-8, max: 1.5e-7, reason: 'the library claims 15 nm; the file prints 0.1 um' },
      'end of direct': {
        mean: 5e-8,
        max: 3e-7,
        reason: 'the file prints azimuths to 1e-12 deg, positions to 0.1 um',
      },
      'azimuth, long': { mean: 1e-10, max: 1e-9, reason: 'ends printed to 1e-12 deg, worse near the poles' },
      'azimuth, short': { mean: 2e-9, max: 1e-8, reason: '1e-7 m of the ends over the length' },
      arc: { mean: 1e-9, max: 1e-8, reason: 'printed to 1e-12 deg' },
      'prepared line, end': { mean: 1e-5, max: 1e-4, reason: 'cubic pieces of 50 km' },
      'prepared line, course': { mean: 1e-10, max: 1e-8, reason: 'exact at nodes, 1e-8 rad between' },
    },
    table,
  );
}

/** The prepared line must end where the geodesic ends and arrive on its course. */
function compareLine(
  tally: Tally,
  from: Place,
  to: Place,
  distance: number,
  found: Place,
  name: string,
): void {
  const point = newLinePoint();
  const prepared = new Line(from, to);
  const at = (along: number) => {
    prepared.at(along, point);
    return point;
  };
  tally.absolute('prepared line, end', 'm', 0, () => apart(at(distance), to), name);
  const middle = direct(from, prepared.initialCourseRad, distance / 2);
  prepared.at(distance / 2, point);
  tally.absolute('prepared line, end', 'm', 0, () => apart(point, middle), `${name}, half way`);
  // Near a pole course and longitude turn together; their difference is what is well defined.
  if (Math.abs(found.latitudeRad) < 89 * degree && Math.abs(middle.latitudeRad) < 89 * degree) {
    tally.absolute('prepared line, course', 'rad', 0, () => between(point.courseRad, middle.courseRad), name);
  }
}

/** Arc on the auxiliary sphere [deg] from the reduced latitudes and the great circle's pole: Karney 2013, section 2. */
function arcOf(from: Place, to: Place): number {
  const line = inverse(from, to);
  const sigma = (place: Place, course: number) => {
    const reduced = Math.atan((1 - 1 / 298.257223563) * Math.tan(place.latitudeRad));
    return Math.atan2(Math.sin(reduced), Math.cos(course) * Math.cos(reduced));
  };
  const arc = (sigma(to, line.finalCourseRad) - sigma(from, line.initialCourseRad)) / degree;
  return arc < 0 ? arc + 360 : arc;
}

export function checkGravity(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'wgs84-gravity');
  const tally = new Tally(table.name);
  for (const row of table.rows) {
    const latitude = row.need('latitude');
    const height = row.need('height');
    const name = `${row.text('latitude')} deg, ${row.text('height')} m`;
    const sinSquare = Math.sin(latitude) ** 2;
    const published = row.si('gravityDown');
    const north = row.si('gravityNorth');
    tally.absolute('surface', 'm/s2', row.si('surface'), () => surfaceGravity(sinSquare), name);
    tally.absolute(
      'gravityDown, closed',
      'm/s2',
      published,
      () => normalGravity(latitude, height).down,
      name,
    );
    tally.absolute('gravityDown, quick', 'm/s2', published, () => gravityDown(sinSquare, height), name);
    tally.absolute('gravityNorth, closed', 'm/s2', north, () => normalGravity(latitude, height).north, name);
    tally.absolute('gravityNorth, quick', 'm/s2', north, () => gravityNorth(latitude, height), name);
    const quick = () => gravityDown(sinSquare, height);
    // The published series stops before (h/a)^3, and its coefficients before f^2 (three of them).
    const x = height / 6378137;
    const cut = 9.8 * (4 * x ** 3 + (3 * x) / 298.257 ** 2) + 1e-9;
    tally.add('taylor', 'of its cut', row.si('taylor'), quick, cut, name);
  }
  return tally.results(
    {
      surface: { mean: 5e-11, max: 1.1e-10, reason: 'the file prints 1e-10 m/s2' },
      'gravityDown, closed': { mean: 1e-10, max: 3e-10, reason: 'the file prints 1e-10 m/s2' },
      'gravityDown, quick': { mean: 5e-9, max: 2e-8, reason: 'series in height set from the closed form' },
      'gravityNorth, closed': { mean: 1e-9, max: 1e-9, reason: 'the file prints 1e-10 or 1e-9 m/s2' },
      'gravityNorth, quick': { mean: 1e-7, max: 3e-7, reason: 'linear in height' },
      taylor: { mean: 1, max: 1.2, reason: 'terms that the published series leaves out' },
    },
    table,
  );
}

export function checkRotation(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'earth-rotation');
  const tally = new Tally(table.name);
  for (const row of table.rows) {
    const latitude = row.need('latitude');
    const height = row.need('height');
    const speed = row.need('groundSpeed');
    const track = row.need('track');
    const name = `row ${row.number}: ${row.text('latitude')} deg, track ${row.text('track')}`;
    const sin = Math.sin(latitude);
    const north = speed * Math.cos(track);
    const east = speed * Math.sin(track);
    const curvature = () => curvatureRelief(north, east, sin * sin, height);
    const coriolis = () => coriolisRelief(east, Math.cos(latitude));
    const exact = () => normalGravity(latitude, height).down;
    tally.absolute('curvature', 'm/s2', row.si('curvature'), curvature, name);
    tally.absolute('coriolis', 'm/s2', row.si('coriolis'), coriolis, name);
    tally.absolute('gravityDown', 'm/s2', row.si('gravityDown'), exact, name);
    tally.absolute(
      'gravityDown, quick',
      'm/s2',
      row.si('gravityDown'),
      () => gravityDown(sin * sin, height),
      name,
    );
    const relief = () => (curvature() + coriolis()) / gravityDown(sin * sin, height);
    tally.absolute('relief', 'of weight', row.si('relief'), relief, name);
    const right = () => coriolisToTheRight(speed, sin);
    tally.absolute('horizontalCoriolis', 'm/s2', row.si('horizontalCoriolis'), right, name);
    // The sphere of the same file, 6371 km, is only compared: the ellipsoid differs from it by up to 1 %.
    tally.relative('curvatureSphere', row.si('curvatureSphere'), curvature, name);
  }
  const place = { mean: 4e-10, max: 6e-10, reason: 'the file prints 1e-9 m/s2' };
  return tally.results(
    {
      curvature: place,
      coriolis: place,
      gravityDown: { mean: 4e-9, max: 6e-9, reason: 'the file prints 1e-8 m/s2' },
      'gravityDown, quick': {
        mean: 3e-7,
        max: 1e-6,
        reason: 'series in height set from the closed form',
      },
      relief: { mean: 4e-9, max: 1e-8, reason: 'gravity by the series' },
      horizontalCoriolis: { mean: 4e-9, max: 6e-9, reason: 'the file prints 8 digits' },
      curvatureSphere: { mean: 0.005, max: 0.01, reason: 'a sphere in place of the ellipsoid' },
    },
    table,
  );
}
