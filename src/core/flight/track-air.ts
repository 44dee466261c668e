/**
 * A gridded day prepared along a track: columns at stations on the track, read from the day at its own levels once, when they
 * are first needed. Between levels the air is linear in ln p, as the day's own; along the track it is a cubic through four
 * stations (Catmull-Rom), so that its gradients have no jumps: those of a grid every 25 km would otherwise stop a long step.
 *
 * At the stations the air is the day's; between them it leaves out what the grid has below about 80 km of wavelength, a few
 * hundredths of a kelvin and tenths of a metre per second in an analysis of 0.25 degrees.
 */
import {
  type Air,
  type Day,
  HEIGHT,
  newAir,
  OUTSIDE_AREA,
  OUTSIDE_MISSING,
  TEMPERATURE,
  WIND_EAST,
  WIND_NORTH,
} from '../air/day.ts';
import { newStandardPoint, standardPoint } from '../air/standard-point.ts';
import { standardLogPressure } from '../air/standard.ts';
import { type LinePoint, newLinePoint } from '../earth/line.ts';
import { gammaAir, gasConstant, standardGravity } from '../quantities/constants.ts';
import { TRACK_MARGIN_M, type Track } from './track.ts';

const spacingM = 40_000;
const fields = 4;
const gammaGas = gammaAir * gasConstant;

export class TrackAir {
  /** Pressure altitude of each level, from low to high. */
  readonly levelsM: readonly number[];
  private readonly day: Day;
  private readonly track: Track;
  private readonly logPressures: Float64Array;
  private readonly stepM: number;
  private readonly stations: number;
  /** Station by station, level by level: temperature, wind east, wind north, geometric height. */
  private readonly columns: Float64Array;
  /** For each station and level 0: not read yet; 1: read; otherwise 1 more than the marks of the day there. */
  private readonly marks: Uint8Array;
  private readonly standard = newStandardPoint();
  private readonly weights = new Float64Array(8);

  constructor(day: Day, track: Track) {
    const { levelsM } = day;
    this.day = day;
    this.track = track;
    this.levelsM = levelsM;
    this.logPressures = Float64Array.from(levelsM, standardLogPressure);
    const span = track.lengthM + 2 * TRACK_MARGIN_M;
    this.stations = Math.ceil(span / spacingM) + 1;
    this.stepM = span / (this.stations - 1);
    this.columns = new Float64Array(this.stations * levelsM.length * fields);
    this.marks = new Uint8Array(this.stations * levelsM.length);
  }

  /** The layer between two levels that holds a pressure altitude; -1 below the lowest and above the highest. */
  layerOf(pressureAltitudeM: number): number {
    const { levelsM } = this;
    const last = levelsM.length - 1;
    if (!(pressureAltitudeM >= levelsM[0] && pressureAltitudeM < levelsM[last])) return -1;
    let low = 0;
    let high = last;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (levelsM[middle] <= pressureAltitudeM) low = middle;
      else high = middle;
    }
    return low;
  }

  /**
   * The air at a distance along the track, whose place is `point`. `layer` is that of the altitude, or a neighbour to be
   * continued across the level between them.
   */
  sample(distanceM: number, point: LinePoint, layer: number, pressureAltitudeM: number, air: Air): void {
    const { stations, stepM, weights, standard, columns } = this;
    const position = (distanceM + TRACK_MARGIN_M) / stepM;
    const cell = Math.min(Math.max(Math.floor(position), 1), stations - 3);
    air.outside = 0;
    const levels = this.levelsM.length;
    for (let k = -1; k <= 2; k++) {
      const place = (cell + k) * levels + layer;
      if (this.marks[place] !== 1) air.outside |= this.read(cell + k, layer);
      if (this.marks[place + 1] !== 1) air.outside |= this.read(cell + k, layer + 1);
    }
    this.weigh(position - cell);
    standardPoint(pressureAltitudeM, standard);
    const low = this.logPressures[layer];
    const depth = this.logPressures[layer + 1] - low;
    const part = (standard.logPressure - low) / depth;
    const upward = -standardGravity / (gasConstant * standard.temperatureK * depth);
    const row = levels * fields;
    const first = (cell - 1) * row + layer * fields;
    for (let field = 0; field < fields; field++) {
      let below = 0;
      let above = 0;
      let belowSlope = 0;
      let aboveSlope = 0;
      for (let k = 0; k < 4; k++) {
        const i = first + k * row + field;
        const lower = columns[i];
        const upper = columns[i + fields];
        below += weights[k] * lower;
        above += weights[k] * upper;
        belowSlope += weights[k + 4] * lower;
        aboveSlope += weights[k + 4] * upper;
      }
      const along = (belowSlope + part * (aboveSlope - belowSlope)) / stepM;
      air.upward[field] = (above - below) * upward;
      air.eastward[field] = along * point.sinCourse;
      air.northward[field] = along * point.cosCourse;
      air.perSecond[field] = 0;
      const value = below + part * (above - below);
      if (field === TEMPERATURE) air.temperatureK = value;
      else if (field === WIND_EAST) air.windEastMS = value;
      else if (field === WIND_NORTH) air.windNorthMS = value;
      else air.geometricHeightM = value;
    }
    air.pressurePa = standard.pressurePa;
    air.temperatureOffsetK = air.temperatureK - standard.temperatureK;
    air.densityKgM3 = air.pressurePa / (gasConstant * air.temperatureK);
    air.speedOfSoundMS = Math.sqrt(gammaGas * air.temperatureK);
  }

  /** Weights of the four stations and of their slopes at a part of the middle cell. */
  private weigh(t: number): void {
    const { weights } = this;
    const t2 = t * t;
    const t3 = t2 * t;
    weights[0] = 0.5 * (2 * t2 - t3 - t);
    weights[1] = 0.5 * (3 * t3 - 5 * t2 + 2);
    weights[2] = 0.5 * (4 * t2 - 3 * t3 + t);
    weights[3] = 0.5 * (t3 - t2);
    weights[4] = 0.5 * (4 * t - 3 * t2 - 1);
    weights[5] = 0.5 * (9 * t2 - 10 * t);
    weights[6] = 0.5 * (8 * t - 9 * t2 + 1);
    weights[7] = 0.5 * (3 * t2 - 2 * t);
  }

  /** Reads the day at a station and level; its marks, which stay with it. */
  private read(station: number, level: number): number {
    const place = station * this.levelsM.length + level;
    if (this.marks[place] !== 0) return this.marks[place] - 1;
    const { columns } = this;
    this.track.at(station * this.stepM - TRACK_MARGIN_M, stationPoint);
    const { latitudeRad, longitudeRad } = stationPoint;
    this.day.sample(latitudeRad, longitudeRad, this.levelsM[level], 0, stationAir);
    const i = place * fields;
    columns[i + TEMPERATURE] = stationAir.temperatureK;
    columns[i + WIND_EAST] = stationAir.windEastMS;
    columns[i + WIND_NORTH] = stationAir.windNorthMS;
    columns[i + HEIGHT] = stationAir.geometricHeightM;
    const marks = stationAir.outside & (OUTSIDE_AREA | OUTSIDE_MISSING);
    this.marks[place] = marks + 1;
    return marks;
  }
}

const stationPoint = newLinePoint();
const stationAir = newAir();
