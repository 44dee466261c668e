/**
 * A day from an analysis or forecast on pressure levels.
 *
 * Temperature, wind and geopotential are linear in ln p between levels, bilinear in latitude and longitude, linear in time (also
 * across a gap longer than the rules allow, and there marked);
 * the gradients are those of this interpolation, on WGS 84 at height 0. Geopotential height is geopotential over
 * standard gravity and geometric height follows by `geometricFromGeopotential`, whose one radius for all latitudes differs
 * from the true height by up to 70 m at 24 km near the equator and the poles.
 */
import { gasConstant, standardGravity } from '../quantities/constants.ts';
import {
  type Air,
  type Day,
  HEIGHT,
  OUTSIDE_ABOVE,
  OUTSIDE_AREA,
  OUTSIDE_BELOW,
  OUTSIDE_MISSING,
  OUTSIDE_TIME,
  TEMPERATURE,
  WIND_EAST,
  WIND_NORTH,
} from './day.ts';
import { fillAir, withinRange } from './fill.ts';
import { gridGaps } from './gap-spread.ts';
import { type Axis, locate, makeAxis } from './grid-axis.ts';
import {
  coverage,
  type GridField,
  type GridRules,
  metresEast,
  metresNorth,
  usualGapS,
} from './grid-field.ts';
import { highestAltitudeM, lowestAltitudeM, pressureAltitudeOf, standardTemperature } from './standard.ts';
import { newStandardPoint, standardPoint } from './standard-point.ts';

const turn = 2 * Math.PI;
/** R/g0, m/K. */
const scale = gasConstant / standardGravity;
/** Coefficients of a field within a cell: 1, x, y, xy, z, xz, yz, xyz. */
const terms = 8;
const fieldCount = 4;

/** The day of a gridded analysis. It remembers the cell it read last, so a flight that goes on from there is quick. */
export function gridDay(field: GridField, rules: GridRules): Day {
  return new GridDay(field, rules);
}

/** The lowest or highest level, from which the day is continued. */
interface Edge {
  readonly logPressure: number;
  readonly altitudeM: number;
  readonly standardTemperatureK: number;
}

class GridDay implements Day {
  readonly description: Day['description'];
  readonly levelsM: readonly number[];
  readonly steady: boolean;
  readonly timesS: readonly number[];
  readonly covers: string;
  private readonly rules: GridRules;
  private readonly maximumGapS: number;
  private readonly fields: readonly Float32Array[];
  private readonly times: Axis;
  private readonly levels: Axis;
  private readonly latitudes: Axis;
  private readonly longitudes: Axis;
  /** Metres for a radian northward and eastward at each latitude of the grid. */
  private readonly northM: Float64Array;
  private readonly eastM: Float64Array;
  private readonly top: Edge;
  private readonly bottom: Edge;
  /** Key of the cell whose coefficients are held, at its earlier time, and their change to its later time. */
  private key = -1;
  private readonly early = new Float64Array(fieldCount * terms);
  private readonly change = new Float64Array(fieldCount * terms);
  private readonly values = new Float64Array(fieldCount);
  private readonly standard = newStandardPoint();

  constructor(field: GridField, rules: GridRules) {
    const { timesS, pressuresPa, latitudesRad, longitudesRad } = field;
    const row = longitudesRad.length;
    const sheet = row * latitudesRad.length;
    const block = sheet * pressuresPa.length;
    this.rules = rules;
    this.fields = [field.temperatureK, field.windEastMS, field.windNorthMS, field.geopotential];
    for (const values of this.fields) {
      if (values.length === block * timesS.length) continue;
      throw new Error(`a field has ${values.length} values where its axes ask for ${block * timesS.length}`);
    }
    const heights = pressuresPa.map((pressure) => -Math.log(pressure));
    this.times = makeAxis('time', timesS, block, false);
    this.levels = makeAxis('level', heights, sheet, false);
    this.latitudes = makeAxis('latitude', latitudesRad, row, false);
    this.longitudes = makeAxis('longitude', longitudesRad, 1, true);
    for (const axis of [this.levels, this.latitudes, this.longitudes]) {
      if (axis.count < 2) throw new Error('a grid needs two levels, two latitudes and two longitudes');
    }
    this.northM = this.latitudes.values.map(metresNorth);
    this.eastM = this.latitudes.values.map(metresEast);
    this.bottom = edgeAt(-this.levels.values[0]);
    this.top = edgeAt(-this.levels.values[this.levels.count - 1]);
    this.description = {
      kind: 'grid',
      title: rules.time === 'hold' ? `${field.title}, held` : field.title,
      attribution: field.attribution,
      continuedBy: (['time', 'top', 'bottom'] as const)
        .filter((way) => rules[way] !== 'refuse')
        .map((way) => `${way}: ${rules[way]}`),
      gaps: gridGaps(field, rules, this.levels),
      hydrostatic: true,
    };
    this.maximumGapS = rules.maximumGapS ?? usualGapS(timesS);
    this.covers = coverage(field, this.maximumGapS);
    this.levelsM = Array.from(this.levels.values, (minusLog) => pressureAltitudeOf(Math.exp(-minusLog)));
    this.steady = timesS.length === 1 && rules.time === 'hold';
    this.timesS = this.steady ? [] : Array.from(this.times.values);
  }

  sample(
    latitudeRad: number,
    longitudeRad: number,
    pressureAltitudeM: number,
    timeS: number,
    air: Air,
  ): void {
    const { levels, latitudes, longitudes, times, standard } = this;
    const altitude = withinRange(pressureAltitudeM, lowestAltitudeM, highestAltitudeM, air);
    standardPoint(altitude, standard);
    const edge = this.beyond(standard.logPressure, air);
    locate(levels, edge === null ? -standard.logPressure : -edge.logPressure);
    this.placeInArea(latitudeRad, longitudeRad, air);
    const moving = this.placeInTime(timeS, air);
    const key =
      ((times.cell * levels.count + levels.cell) * latitudes.count + latitudes.cell) * longitudes.count +
      longitudes.cell;
    if (key !== this.key) this.readCell(key);
    this.interpolate(moving, air);
    this.finish(altitude, edge, air);
  }

  /** The edge level that a pressure lies beyond, or null; marks it where no rule continues the day. */
  private beyond(logPressure: number, air: Air): Edge | null {
    if (logPressure > this.bottom.logPressure + grace) {
      if (this.rules.bottom === 'refuse') air.outside |= OUTSIDE_BELOW;
      return this.bottom;
    }
    if (logPressure < this.top.logPressure - grace) {
      if (this.rules.top === 'refuse') air.outside |= OUTSIDE_ABOVE;
      return this.top;
    }
    return null;
  }

  private placeInArea(latitudeRad: number, longitudeRad: number, air: Air): void {
    const south = this.latitudes.values[0];
    const north = this.latitudes.values[this.latitudes.count - 1];
    const west = this.longitudes.values[0];
    const east = this.longitudes.values[this.longitudes.count - 1];
    let latitude = latitudeRad;
    if (!(latitude >= south && latitude <= north)) {
      if (!(latitude > south - grace && latitude < north + grace)) air.outside |= OUTSIDE_AREA;
      latitude = latitude > north ? north : south;
    }
    let longitude = longitudeRad;
    if (longitude < west - grace || longitude >= west + turn - grace) {
      longitude -= turn * Math.floor((longitude - west + grace) / turn);
    }
    if (!(longitude >= west && longitude <= east)) {
      if (!(longitude < east + grace)) air.outside |= OUTSIDE_AREA;
      // Beyond the east end the nearer of the two meridians that bound the area holds.
      longitude = longitude > east && longitude - east <= west + turn - longitude ? east : west;
    }
    locate(this.latitudes, latitude);
    locate(this.longitudes, longitude);
  }

  /** 1 where the data change with time, 0 where they are held. */
  private placeInTime(timeS: number, air: Air): number {
    const first = this.times.values[0];
    const last = this.times.values[this.times.count - 1];
    if (timeS >= first && timeS <= last) {
      const { times } = this;
      locate(times, timeS);
      if (times.count === 1) return 0;
      const between = times.fraction > 0 && times.fraction < 1;
      if (between && times.width > this.maximumGapS) air.outside |= OUTSIDE_TIME;
      return 1;
    }
    if (this.rules.time === 'refuse') air.outside |= OUTSIDE_TIME;
    locate(this.times, timeS > last ? last : first);
    return 0;
  }

  private readCell(key: number): void {
    this.key = key;
    const { times, levels, latitudes, longitudes, early, change } = this;
    const low = levels.offsets[levels.cell];
    const high = levels.offsets[levels.cell + 1];
    const south = latitudes.offsets[latitudes.cell];
    const north = latitudes.offsets[latitudes.cell + 1];
    const west = longitudes.offsets[longitudes.cell];
    const east = longitudes.offsets[longitudes.cell + 1];
    const last = times.count > 1 ? 1 : 0;
    for (let later = 0; later <= last; later++) {
      const base = times.offsets[times.cell + later];
      const out = later === 0 ? early : change;
      for (let field = 0; field < fieldCount; field++) {
        const values = this.fields[field];
        const i = field * terms;
        bilinear(values, base + low, south, north, west, east, out, i);
        bilinear(values, base + high, south, north, west, east, out, i + 4);
        for (let term = 0; term < 4; term++) out[i + 4 + term] -= out[i + term];
      }
    }
    if (last === 1) for (let i = 0; i < change.length; i++) change[i] -= early[i];
  }

  /** Writes the values of the fields, and their gradients into `air`. */
  private interpolate(moving: number, air: Air): void {
    const { early: c, change: d, values, latitudes, longitudes, levels, times, northM, eastM } = this;
    const { upward, eastward, northward, perSecond } = air;
    const x = longitudes.fraction;
    const y = latitudes.fraction;
    const z = levels.fraction;
    const w = times.fraction;
    const row = latitudes.cell;
    const inArea = air.outside & OUTSIDE_AREA ? 0 : 1;
    // Near a pole a metre east is a great angle; at it there is no east.
    const perEast = inArea / Math.max((eastM[row] + y * (eastM[row + 1] - eastM[row])) * longitudes.width, 1);
    const perNorth = inArea / ((northM[row] + y * (northM[row + 1] - northM[row])) * latitudes.width);
    const perUp = 1 / (scale * this.standard.temperatureK * levels.width);
    const perTime = moving / times.width;
    const changing = times.count > 1;
    for (let field = 0; field < fieldCount; field++) {
      const i = field * terms;
      let alongX = c[i + 1] + z * c[i + 5];
      let alongY = c[i + 2] + z * c[i + 6];
      let alongXY = c[i + 3] + z * c[i + 7];
      let rise = c[i + 4] + x * c[i + 5] + y * (c[i + 6] + x * c[i + 7]);
      let value = c[i] + z * c[i + 4];
      if (changing) {
        const valueChange = d[i] + z * d[i + 4];
        const xChange = d[i + 1] + z * d[i + 5];
        const yChange = d[i + 2] + z * d[i + 6];
        const xyChange = d[i + 3] + z * d[i + 7];
        perSecond[field] = (valueChange + x * xChange + y * (yChange + x * xyChange)) * perTime;
        value += w * valueChange;
        alongX += w * xChange;
        alongY += w * yChange;
        alongXY += w * xyChange;
        rise += w * (d[i + 4] + x * d[i + 5] + y * (d[i + 6] + x * d[i + 7]));
      } else {
        perSecond[field] = 0;
      }
      values[field] = value + x * alongX + y * (alongY + x * alongXY);
      eastward[field] = (alongX + y * alongXY) * perEast;
      northward[field] = (alongY + x * alongXY) * perNorth;
      upward[field] = rise * perUp;
    }
  }

  /** From the fields to the air: continues beyond an edge level, turns geopotential into height, derives the rest. */
  private finish(altitudeM: number, edge: Edge | null, air: Air): void {
    const { values, standard } = this;
    const { upward, eastward, northward, perSecond } = air;
    let temperature = values[TEMPERATURE];
    let height = values[HEIGHT] / standardGravity;
    upward[HEIGHT] /= standardGravity;
    eastward[HEIGHT] /= standardGravity;
    northward[HEIGHT] /= standardGravity;
    perSecond[HEIGHT] /= standardGravity;
    if (edge !== null) {
      const offset = temperature - edge.standardTemperatureK;
      const thickness = scale * (edge.logPressure - standard.logPressure);
      temperature = standard.temperatureK + offset;
      height += altitudeM - edge.altitudeM + offset * thickness;
      upward[TEMPERATURE] = standard.lapseKM;
      upward[WIND_EAST] = 0;
      upward[WIND_NORTH] = 0;
      upward[HEIGHT] = temperature / standard.temperatureK;
      eastward[HEIGHT] += thickness * eastward[TEMPERATURE];
      northward[HEIGHT] += thickness * northward[TEMPERATURE];
      perSecond[HEIGHT] += thickness * perSecond[TEMPERATURE];
    }
    let windEast = values[WIND_EAST];
    let windNorth = values[WIND_NORTH];
    if (Number.isNaN(temperature + height + windEast + windNorth)) {
      air.outside |= OUTSIDE_MISSING;
      temperature = standard.temperatureK;
      height = altitudeM;
      windEast = 0;
      windNorth = 0;
      withoutGradients(standard.lapseKM, air);
    }
    const stretch = fillAir(air, standard, temperature, height);
    const square = stretch * stretch;
    upward[HEIGHT] *= square;
    eastward[HEIGHT] *= square;
    northward[HEIGHT] *= square;
    perSecond[HEIGHT] *= square;
    air.windEastMS = windEast;
    air.windNorthMS = windNorth;
  }
}

/** Rounding of an angle [rad] or ln p that is on an edge of the data: some millimetres. */
const grace = 1e-9;

function bilinear(
  values: Float32Array,
  base: number,
  south: number,
  north: number,
  west: number,
  east: number,
  out: Float64Array,
  at: number,
): void {
  const southWest = values[base + south + west];
  const southEast = values[base + south + east];
  const northWest = values[base + north + west];
  const northEast = values[base + north + east];
  out[at] = southWest;
  out[at + 1] = southEast - southWest;
  out[at + 2] = northWest - southWest;
  out[at + 3] = northEast - northWest - southEast + southWest;
}

function edgeAt(logPressure: number): Edge {
  const altitudeM = pressureAltitudeOf(Math.exp(logPressure));
  return { logPressure, altitudeM, standardTemperatureK: standardTemperature(altitudeM) };
}

function withoutGradients(lapseKM: number, air: Air): void {
  for (let field = 0; field < fieldCount; field++) {
    air.upward[field] = 0;
    air.eastward[field] = 0;
    air.northward[field] = 0;
    air.perSecond[field] = 0;
  }
  air.upward[TEMPERATURE] = lapseKM;
  air.upward[HEIGHT] = 1;
}
