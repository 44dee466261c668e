/**
 * A day that changes with time, prepared along a track: one `TrackAir` for each of the day's times, linear between them as the day
 * itself is. Before the first and after the last time the air of that time holds, with the marks that the day sets there.
 */
import {
  type Air,
  type Day,
  HEIGHT,
  newAir,
  OUTSIDE_TIME,
  TEMPERATURE,
  WIND_EAST,
  WIND_NORTH,
} from '../air/day.ts';
import { type LinePoint, newLinePoint } from '../earth/line.ts';
import { gammaAir, gasConstant } from '../quantities/constants.ts';
import type { Track } from './track.ts';
import { type PreparedAir, TrackAir } from './track-air.ts';

const fields = 4;
const unknown = -1;

export class ChangingAir implements PreparedAir {
  readonly levelsM: readonly number[];
  private readonly day: Day;
  private readonly track: Track;
  private readonly timesS: readonly number[];
  private readonly nodes: readonly TrackAir[];
  /** OUTSIDE_TIME or 0 before the first time, in each gap between two, and after the last; `unknown` until it is met. */
  private readonly marks: Int8Array;
  private readonly later = newAir();
  private readonly asked = newAir();
  private readonly place = newLinePoint();
  /** How many of the times are past at the last look-up. */
  private past = 0;

  constructor(day: Day, track: Track, timesS: readonly number[]) {
    this.levelsM = day.levelsM;
    this.day = day;
    this.track = track;
    this.timesS = timesS;
    this.nodes = timesS.map((time) => new TrackAir(day, track, time));
    this.marks = new Int8Array(timesS.length + 1).fill(unknown);
  }

  layerOf(pressureAltitudeM: number): number {
    return this.nodes[0].layerOf(pressureAltitudeM);
  }

  sample(
    distanceM: number,
    point: LinePoint,
    layer: number,
    pressureAltitudeM: number,
    timeS: number,
    air: Air,
  ): void {
    const { timesS, nodes, later } = this;
    const last = timesS.length;
    while (this.past < last && timesS[this.past] <= timeS) this.past++;
    while (this.past > 0 && timesS[this.past - 1] > timeS) this.past--;
    const { past } = this;
    if (past === 0 || past === last) {
      nodes[past === 0 ? 0 : last - 1].sample(distanceM, point, layer, pressureAltitudeM, timeS, air);
      if (past === 0 || timeS > timesS[last - 1]) air.outside |= this.mark(past, timeS);
      return;
    }
    nodes[past - 1].sample(distanceM, point, layer, pressureAltitudeM, timeS, air);
    nodes[past].sample(distanceM, point, layer, pressureAltitudeM, timeS, later);
    const width = timesS[past] - timesS[past - 1];
    const part = (timeS - timesS[past - 1]) / width;
    if (part > 0) air.outside |= later.outside | this.mark(past, timeS);
    blend(air, later, part, width);
  }

  /** What the day says of its times here; the same at every place. */
  private mark(past: number, timeS: number): number {
    if (this.marks[past] === unknown) {
      const { day, place, asked } = this;
      this.track.at(0, place);
      day.sample(place.latitudeRad, place.longitudeRad, this.levelsM[0], timeS, asked);
      this.marks[past] = asked.outside & OUTSIDE_TIME;
    }
    return this.marks[past];
  }
}

/** Turns the air of one time into that of a part of the way to a later one, `widthS` after it. */
function blend(air: Air, later: Air, part: number, widthS: number): void {
  const { perSecond } = air;
  perSecond[TEMPERATURE] = (later.temperatureK - air.temperatureK) / widthS;
  perSecond[WIND_EAST] = (later.windEastMS - air.windEastMS) / widthS;
  perSecond[WIND_NORTH] = (later.windNorthMS - air.windNorthMS) / widthS;
  perSecond[HEIGHT] = (later.geometricHeightM - air.geometricHeightM) / widthS;
  for (let field = 0; field < fields; field++) {
    air.upward[field] += part * (later.upward[field] - air.upward[field]);
    air.eastward[field] += part * (later.eastward[field] - air.eastward[field]);
    air.northward[field] += part * (later.northward[field] - air.northward[field]);
  }
  const standardK = air.temperatureK - air.temperatureOffsetK;
  const passedS = part * widthS;
  air.temperatureK += passedS * perSecond[TEMPERATURE];
  air.windEastMS += passedS * perSecond[WIND_EAST];
  air.windNorthMS += passedS * perSecond[WIND_NORTH];
  air.geometricHeightM += passedS * perSecond[HEIGHT];
  air.temperatureOffsetK = air.temperatureK - standardK;
  air.densityKgM3 = air.pressurePa / (gasConstant * air.temperatureK);
  air.speedOfSoundMS = Math.sqrt(gammaAir * gasConstant * air.temperatureK);
}
