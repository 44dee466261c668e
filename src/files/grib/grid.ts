/**
 * The grid of a field: section 3 of a GRIB 2 message, grid template 3.0 (latitude and longitude, equidistant).
 *
 * However a file scans, the axes here run from north to south and from west to east, and `order` tells where each
 * point stands in the file. Latitudes are taken as geodetic whatever the shape of the Earth of the file's model.
 */
import type { Section } from './bytes.ts';

export interface LatLonGrid {
  /** From north to south. */
  readonly latitudesDeg: Float64Array;
  /** From west to east, ascending, over no more than a turn; they may pass 180 or 360. */
  readonly longitudesDeg: Float64Array;
  readonly scan: Scan;
}

/** How the points follow each other in the file (flag table 3.4). */
interface Scan {
  readonly westward: boolean;
  readonly northward: boolean;
  /** Points of a column follow each other, not those of a row. */
  readonly byColumn: boolean;
  /** Every other row (or column) runs backwards. */
  readonly alternating: boolean;
}

const missing = 0xffffffff;

/** The grid of a field; throws `GribError` naming the template of a grid that is not read. */
export function gridOf(section: Section): LatLonGrid {
  const template = section.unsigned(13, 2);
  if (section.unsigned(6, 1) !== 0)
    throw section.fault('grid predefined by its centre; grid template 3.0 is read');
  if (template !== 0)
    throw section.fault(`grid template 3.${template}; 3.0 (latitude and longitude) is read`);
  if (section.unsigned(11, 1) !== 0)
    throw section.fault('rows of different length (a reduced grid) are not read');
  const [columns, rows] = [section.unsigned(31, 4), section.unsigned(35, 4)];
  if (columns === missing || rows === missing) throw section.fault('rows of different length are not read');
  const points = section.unsigned(7, 4);
  if (columns * rows !== points || columns < 1 || rows < 1) {
    throw section.fault(`a grid of ${columns} x ${rows} points that says it has ${points}`);
  }
  const scan = scanOf(section);
  const degrees = anglesOf(section);
  const [south, north] = scan.northward ? [degrees(47), degrees(56)] : [degrees(56), degrees(47)];
  const [west, end] = scan.westward ? [degrees(60), degrees(51)] : [degrees(51), degrees(60)];
  if (!(south >= -90 && north <= 90 && (rows === 1 ? south === north : south < north))) {
    throw section.fault(`latitudes from ${degrees(47)} to ${degrees(56)} deg in ${rows} rows`);
  }
  const span = columns === 1 ? 0 : end - west - 360 * Math.ceil((end - west) / 360 - 1);
  checkStep(section, 'longitude', span / (columns - 1), [64, 0x20]);
  checkStep(section, 'latitude', (north - south) / (rows - 1), [68, 0x10]);
  return {
    latitudesDeg: spread(north, south - north, rows),
    longitudesDeg: spread(west, span, columns),
    scan,
  };
}

/** Place in the file of the point in a row from the north and a column from the west. */
export function placeOf(
  { latitudesDeg, longitudesDeg, scan }: LatLonGrid,
  row: number,
  column: number,
): number {
  const [rows, columns] = [latitudesDeg.length, longitudesDeg.length];
  let j = scan.northward ? rows - 1 - row : row;
  let i = scan.westward ? columns - 1 - column : column;
  if (scan.byColumn) {
    if (scan.alternating && i % 2 === 1) j = rows - 1 - j;
    return i * rows + j;
  }
  if (scan.alternating && j % 2 === 1) i = columns - 1 - i;
  return j * columns + i;
}

/** Whether two grids have the same points. */
export function samePoints(a: LatLonGrid, b: LatLonGrid): boolean {
  return same(a.latitudesDeg, b.latitudesDeg) && same(a.longitudesDeg, b.longitudesDeg);
}

/** A grid in words, such as "144 x 73 points from 90 to -90 N, 0 to 357.5 E". */
export function gridText({ latitudesDeg: lat, longitudesDeg: lon }: LatLonGrid): string {
  const [rows, columns] = [lat.length, lon.length];
  return `${columns} x ${rows} points from ${lat[0]} to ${lat[rows - 1]} N, ${lon[0]} to ${lon[columns - 1]} E`;
}

function scanOf(section: Section): Scan {
  const flags = section.unsigned(72, 1);
  if ((flags & 0x0f) !== 0) throw section.fault('rows or points offset against each other are not read');
  return {
    westward: (flags & 0x80) !== 0,
    northward: (flags & 0x40) !== 0,
    byColumn: (flags & 0x20) !== 0,
    alternating: (flags & 0x10) !== 0,
  };
}

/** Reads an angle [deg] at an octet: counts of a basic angle over its subdivisions, or of a millionth of a degree. */
function anglesOf(section: Section): (octet: number) => number {
  const [basic, subdivisions] = [section.unsigned(39, 4), section.unsigned(43, 4)];
  const given = basic !== 0 && basic !== missing && subdivisions !== 0 && subdivisions !== missing;
  const [numerator, denominator] = given ? [basic, subdivisions] : [1, 1e6];
  return (octet) => (section.signed(octet, 4) * numerator) / denominator;
}

/** Degrees by which a step may differ from that of its ends, since all three are rounded to a millionth. */
const stepRounding = 4e-6;

/** The step at an octet, where its flag (table 3.3) says that it is given, must be that of the first and last points. */
function checkStep(section: Section, name: string, step: number, [octet, flag]: [number, number]): void {
  const counts = section.unsigned(octet, 4);
  const given = (section.unsigned(55, 1) & flag) !== 0 && counts !== missing && counts !== 0;
  if (!given || !Number.isFinite(step)) return;
  const written = anglesOf(section)(octet);
  if (Math.abs(written - step) <= stepRounding) return;
  throw section.fault(`a ${name} step of ${written} deg where its ends make ${step} deg`);
}

function spread(first: number, span: number, count: number): Float64Array {
  return Float64Array.from({ length: count }, (_, i) =>
    count === 1 ? first : first + (span * i) / (count - 1),
  );
}

function same(a: Float64Array, b: Float64Array): boolean {
  return a.length === b.length && a.every((value, i) => value === b[i]);
}
