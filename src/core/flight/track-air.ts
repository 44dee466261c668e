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
import { standardLogPressure } from '../air/standard.ts';
import { newStandardPoint, standardPoint } from '../air/standard-point.ts';
import { type LinePoint, newLinePoint } from '../earth/line.ts';
import { gammaAir, gasConstant, standardGravity } from '../quantities/constants.ts';
import { TRACK_MARGIN_M, type Track } from './track.ts';

const spacingM = 40_000;
const fields = 4;
const gammaGas = gammaAir * gasConstant;

/** A column of the day on the track. */
interface Station {
  /** Level by level: temperature, wind east, wind north, geometric height. */
  readonly values: Float64Array;
  /** For each level 0: not read yet; READ plus the marks of the day there. */
  readonly marks: Uint8Array;
}

const READ = 1;
const notRead: Station = { values: new Float64Array(0), marks: new Uint8Array(0) };

/** The air of a day prepared along one track. */
export interface PreparedAir {
  /** Pressure altitude of each level, from low to high. */
  readonly levelsM: readonly number[];
  /** The layer between two levels that holds a pressure altitude; -1 below the lowest and above the highest. */
  layerOf(pressureAltitudeM: number): number;
  /**
   * The air at a distance along the track, whose place is `point`. `layer` is that of the altitude, or a neighbour to be
   * continued across the level between them.
   */
  sample(
    distanceM: number,
    point: LinePoint,
    layer: number,
    pressureAltitudeM: number,
    timeS: number,
    air: Air,
  ): void;
}

export class TrackAir implements PreparedAir {
  /** Pressure altitude of each level, from low to high. */
  readonly levelsM: readonly number[];
  private readonly day: Day;
  private readonly timeS: number;
  private readonly track: Track;
  private readonly logPressures: Float64Array;
  private readonly stepM: number;
  private readonly count: number;
  private readonly stations: Station[] = [];
  private readonly standard = newStandardPoint();
  private readonly weights = new Float64Array(8);
  private readonly values = new Float64Array(fields);
  /** The cell and layer last asked for: its four stations and their marks. */
  private cell = -1;
  private layer = -1;
  private outside = 0;
  private s0 = notRead.values;
  private s1 = notRead.values;
  private s2 = notRead.values;
  private s3 = notRead.values;

  /** The day at one time, which makes no difference on a steady day. */
  constructor(day: Day, track: Track, timeS = 0) {
    const { levelsM } = day;
    this.day = day;
    this.timeS = timeS;
    this.track = track;
    this.levelsM = levelsM;
    this.logPressures = Float64Array.from(levelsM, standardLogPressure);
    const span = track.lengthM + 2 * TRACK_MARGIN_M;
    this.count = Math.ceil(span / spacingM) + 1;
    this.stepM = span / (this.count - 1);
    for (let i = 0; i < this.count; i++) this.stations.push(notRead);
  }

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

  sample(
    distanceM: number,
    point: LinePoint,
    layer: number,
    pressureAltitudeM: number,
    _timeS: number,
    air: Air,
  ): void {
    const { stepM, weights, standard, values } = this;
    const position = (distanceM + TRACK_MARGIN_M) / stepM;
    const cell = Math.min(Math.max(Math.floor(position), 1), this.count - 3);
    if (cell !== this.cell || layer !== this.layer) this.prepare(cell, layer);
    air.outside = this.outside;
    const { s0, s1, s2, s3 } = this;
    this.weigh(position - cell);
    const w0 = weights[0];
    const w1 = weights[1];
    const w2 = weights[2];
    const w3 = weights[3];
    const v0 = weights[4];
    const v1 = weights[5];
    const v2 = weights[6];
    const v3 = weights[7];
    standardPoint(pressureAltitudeM, standard);
    const low = this.logPressures[layer];
    const depth = this.logPressures[layer + 1] - low;
    const part = (standard.logPressure - low) / depth;
    const perUp = -standardGravity / (gasConstant * standard.temperatureK * depth);
    const { upward, eastward, northward, perSecond } = air;
    const east = point.sinCourse / stepM;
    const north = point.cosCourse / stepM;
    for (let field = 0, i = layer * fields; field < fields; field++, i++) {
      const j = i + fields;
      const below = w0 * s0[i] + w1 * s1[i] + w2 * s2[i] + w3 * s3[i];
      const above = w0 * s0[j] + w1 * s1[j] + w2 * s2[j] + w3 * s3[j];
      const belowSlope = v0 * s0[i] + v1 * s1[i] + v2 * s2[i] + v3 * s3[i];
      const aboveSlope = v0 * s0[j] + v1 * s1[j] + v2 * s2[j] + v3 * s3[j];
      const along = belowSlope + part * (aboveSlope - belowSlope);
      values[field] = below + part * (above - below);
      upward[field] = (above - below) * perUp;
      eastward[field] = along * east;
      northward[field] = along * north;
      perSecond[field] = 0;
    }
    air.temperatureK = values[TEMPERATURE];
    air.windEastMS = values[WIND_EAST];
    air.windNorthMS = values[WIND_NORTH];
    air.geometricHeightM = values[HEIGHT];
    air.pressurePa = standard.pressurePa;
    air.temperatureOffsetK = air.temperatureK - standard.temperatureK;
    air.densityKgM3 = air.pressurePa / (gasConstant * air.temperatureK);
    air.speedOfSoundMS = Math.sqrt(gammaGas * air.temperatureK);
  }

  /** Reads what a cell between stations and a layer need. */
  private prepare(cell: number, layer: number): void {
    this.cell = cell;
    this.layer = layer;
    this.outside = 0;
    for (let k = cell - 1; k <= cell + 2; k++) this.outside |= this.read(k, layer) | this.read(k, layer + 1);
    this.s0 = this.stations[cell - 1].values;
    this.s1 = this.stations[cell].values;
    this.s2 = this.stations[cell + 1].values;
    this.s3 = this.stations[cell + 2].values;
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
  private read(index: number, level: number): number {
    if (this.stations[index] === notRead) {
      const values = new Float64Array(this.levelsM.length * fields);
      this.stations[index] = { values, marks: new Uint8Array(this.levelsM.length) };
    }
    const { values, marks } = this.stations[index];
    if (marks[level] !== 0) return marks[level] - READ;
    this.track.at(index * this.stepM - TRACK_MARGIN_M, stationPoint);
    const { latitudeRad, longitudeRad } = stationPoint;
    this.day.sample(latitudeRad, longitudeRad, this.levelsM[level], this.timeS, stationAir);
    const i = level * fields;
    values[i + TEMPERATURE] = stationAir.temperatureK;
    values[i + WIND_EAST] = stationAir.windEastMS;
    values[i + WIND_NORTH] = stationAir.windNorthMS;
    values[i + HEIGHT] = stationAir.geometricHeightM;
    const outside = stationAir.outside & (OUTSIDE_AREA | OUTSIDE_MISSING);
    marks[level] = READ + outside;
    return outside;
  }
}

const stationPoint = newLinePoint();
const stationAir = newAir();
