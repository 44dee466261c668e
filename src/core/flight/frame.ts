/**
 * Where the aircraft is, how it moves over the Earth, and what accelerations are not forces on it.
 *
 * Conventions: SI, radians; axes north, east, up at the aircraft; "ahead" is along the horizontal part of the motion through
 * the air, "right" to the right of it; "along" is along that motion itself and "normal" is upward at right angles to it in
 * the vertical plane.
 *
 * With v the velocity through the air, vg = v + W that over the rotating Earth: dv/dt = F/m + A, and A = gravity - 2 omega x vg -
 * transport of the axes - dW/dt along the flight path. Etkin, Dynamics of Atmospheric Flight (1972), chapter 5; Groves, Principles of
 * GNSS, Inertial and Multisensor Navigation (2013), section 5.4 (from memory). Vertical wind is nil.
 */
import { type Air, type Day, HEIGHT, newAir, TEMPERATURE, WIND_EAST, WIND_NORTH } from '../air/day.ts';
import { meridianRadius, primeVerticalRadius } from '../earth/ellipsoid.ts';
import { gravityDown, gravityNorth } from '../earth/gravity.ts';
import { newLinePoint } from '../earth/line.ts';
import { gasConstant, standardGravity } from '../quantities/constants.ts';
import { ChangingAir } from './changing-air.ts';
import type { EarthModel } from './earth-model.ts';
import { TRACK_MARGIN_M, type Track } from './track.ts';
import { type PreparedAir, TrackAir } from './track-air.ts';

/** The track ended before the flight did; stands beside the OUTSIDE_ marks of the day. */
export const OUTSIDE_TRACK = 1024;

/** Radius that turns metres into latitude and longitude on the flat Earth, where both are metres divided by it. */
export const FLAT_RADIUS_M = 6_371_000;

export class Frame {
  readonly air: Air = newAir();
  readonly point = newLinePoint();
  /** 0, or the sum of the marks of what does not reach here. */
  outside = 0;
  pressureAltitudeM = 0.5;
  timeS = 0.5;
  /** d ln p / d Hp and, along the present motion, the rates of temperature. */
  logPressureUp = 0.5;
  temperatureRate = 0.5;
  sinHeading = 0.5;
  cosHeading = 0.5;
  groundEastMS = 0.5;
  groundNorthMS = 0.5;
  groundSpeedMS = 0.5;
  tailwindMS = 0.5;
  windFromLeftMS = 0.5;
  /** Of distance along the track over the ellipsoid, and of pressure altitude. */
  distanceRate = 0.5;
  altitudeRate = 0.5;
  /** The change of `altitudeRate` with the speed upward: d Hp / d z. */
  altitudePerHeight = 0.5;
  sinPath = 0.5;
  cosPath = 0.5;
  /** A along and normal to the motion through the air, and to its right. */
  alongPull = 0.5;
  normalPull = 0.5;
  sidePull = 0.5;
  /** The layer of a gridded day that a step keeps to, so that it meets no jump of gradient; -1: that of each altitude. */
  layer = -1;
  private readonly day: Day;
  /** Gridded days are prepared along each track. */
  private readonly prepared = new Map<Track, PreparedAir>();
  private readonly earth: EarthModel;
  private readonly headwindMS: number;
  private gravity = 0.5;
  private gravityNorthward = 0.5;
  /** 1/(M+h), 1/(N+h), and the parts of them that belong to the ellipsoid's surface: M/(M+h), N/(N+h). */
  private meridianTurn = 0.5;
  private primeTurn = 0.5;
  private northRatio = 0.5;
  private eastRatio = 0.5;

  /** `headwindMS` goes with the motion and has no shear. */
  constructor(day: Day, earth: EarthModel, headwindMS = 0) {
    this.day = day;
    this.earth = earth;
    this.headwindMS = headwindMS;
  }

  /** Looks up place, course, air and gravity at a distance along a track. */
  placeOnTrack(track: Track, distanceM: number, pressureAltitudeM: number, timeS: number): void {
    const last = track.lengthM + TRACK_MARGIN_M;
    const clear = distanceM >= -TRACK_MARGIN_M && distanceM <= last;
    const distance = clear ? distanceM : distanceM < 0 ? -TRACK_MARGIN_M : last;
    track.at(distance, this.point);
    const prepared = this.airAlong(track);
    const layer = this.layer >= 0 || prepared === null ? this.layer : prepared.layerOf(pressureAltitudeM);
    if (prepared === null || layer < 0) this.sample(pressureAltitudeM, timeS);
    else prepared.sample(distance, this.point, layer, pressureAltitudeM, timeS, this.air);
    this.settle(pressureAltitudeM, timeS);
    if (!clear) this.outside |= OUTSIDE_TRACK;
  }

  /** The same at a latitude and longitude, off any track. */
  placeAt(latitudeRad: number, longitudeRad: number, pressureAltitudeM: number, timeS: number): void {
    const point = this.point;
    point.latitudeRad = latitudeRad;
    point.longitudeRad = longitudeRad;
    point.sinLatitude = Math.sin(latitudeRad);
    point.cosLatitude = Math.cos(latitudeRad);
    this.sample(pressureAltitudeM, timeS);
    this.settle(pressureAltitudeM, timeS);
  }

  /** The air of a track, prepared once; null on a day that is smooth. */
  airAlong(track: Track): PreparedAir | null {
    const { day } = this;
    if (day.levelsM.length === 0) return null;
    let air = this.prepared.get(track);
    if (air === undefined) {
      air = day.steady ? new TrackAir(day, track) : new ChangingAir(day, track, day.timesS);
      this.prepared.set(track, air);
    }
    return air;
  }

  private sample(pressureAltitudeM: number, timeS: number): void {
    const { latitudeRad, longitudeRad } = this.point;
    this.day.sample(latitudeRad, longitudeRad, pressureAltitudeM, timeS, this.air);
  }

  private settle(pressureAltitudeM: number, timeS: number): void {
    const { air, point, earth } = this;
    this.pressureAltitudeM = pressureAltitudeM;
    this.timeS = timeS;
    this.outside = air.outside;
    this.altitudePerHeight = 1 / air.upward[HEIGHT];
    this.logPressureUp = -standardGravity / (gasConstant * (air.temperatureK - air.temperatureOffsetK));
    if (!earth.curved) {
      this.gravity = earth.constantGravityMS2;
      this.gravityNorthward = 0;
      this.meridianTurn = 0;
      this.primeTurn = 0;
      this.northRatio = 1;
      this.eastRatio = 1;
      return;
    }
    const height = air.geometricHeightM;
    const sinSquare = point.sinLatitude * point.sinLatitude;
    const meridian = meridianRadius(sinSquare);
    const prime = primeVerticalRadius(sinSquare);
    this.gravity = gravityDown(sinSquare, height);
    this.gravityNorthward = gravityNorth(point.latitudeRad, height);
    this.meridianTurn = 1 / (meridian + height);
    this.primeTurn = 1 / (prime + height);
    this.northRatio = meridian * this.meridianTurn;
    this.eastRatio = prime * this.primeTurn;
  }

  /** Motion on the track at a speed through the air and a sine of path angle: the heading holds the track against the wind. */
  moveOnTrack(speedMS: number, sinPath: number): void {
    this.holdTrack(speedMS, sinPath);
    const { point } = this;
    this.pulls(speedMS, false);
    this.distanceRate =
      this.groundEastMS * this.eastRatio * point.sinCourse +
      this.groundNorthMS * this.northRatio * point.cosCourse;
  }

  /** Motion on the track with a rate of pressure altitude: along the isobar, which may slope, and up from it. */
  moveOnTrackAtRate(speedMS: number, altitudeRateMS: number): void {
    this.holdTrack(speedMS, 0);
    const sinPath = this.levelSinPath(speedMS) + altitudeRateMS / (this.altitudePerHeight * speedMS);
    this.moveOnTrack(speedMS, sinPath);
    this.altitudeRate = altitudeRateMS;
  }

  /** The wind triangle. */
  private holdTrack(speedMS: number, sinPath: number): void {
    const { point, air } = this;
    this.incline(sinPath);
    const horizontal = speedMS * this.cosPath;
    const tail = air.windEastMS * point.sinCourse + air.windNorthMS * point.cosCourse - this.headwindMS;
    const cross = air.windEastMS * point.cosCourse - air.windNorthMS * point.sinCourse;
    const sinCrab = -cross / horizontal;
    const cosCrab = Math.sqrt(Math.max(0, 1 - sinCrab * sinCrab));
    this.tailwindMS = tail;
    this.windFromLeftMS = cross;
    this.sinHeading = point.sinCourse * cosCrab + point.cosCourse * sinCrab;
    this.cosHeading = point.cosCourse * cosCrab - point.sinCourse * sinCrab;
    this.groundSpeedMS = horizontal * cosCrab + tail;
    this.groundEastMS = this.groundSpeedMS * point.sinCourse;
    this.groundNorthMS = this.groundSpeedMS * point.cosCourse;
  }

  /** Motion on a heading, drifting with the wind. Course and distance rate are those over the ground. */
  moveOnHeading(speedMS: number, sinPath: number, headingRad: number): void {
    this.sinHeading = Math.sin(headingRad);
    this.cosHeading = Math.cos(headingRad);
    this.moveAhead(speedMS, sinPath);
  }

  /** The same along the isobar, which may slope. */
  moveLevelOnHeading(speedMS: number, headingRad: number): void {
    this.sinHeading = Math.sin(headingRad);
    this.cosHeading = Math.cos(headingRad);
    this.drift(speedMS);
    this.moveAhead(speedMS, this.levelSinPath(speedMS));
    this.altitudeRate = 0;
  }

  private moveAhead(speedMS: number, sinPath: number): void {
    const { point, air } = this;
    this.incline(sinPath);
    this.drift(speedMS * this.cosPath);
    const { groundEastMS: east, groundNorthMS: north } = this;
    const speed = Math.sqrt(east * east + north * north);
    this.groundSpeedMS = speed;
    point.sinCourse = east / speed;
    point.cosCourse = north / speed;
    this.tailwindMS = air.windEastMS * point.sinCourse + air.windNorthMS * point.cosCourse - this.headwindMS;
    this.windFromLeftMS = air.windEastMS * point.cosCourse - air.windNorthMS * point.sinCourse;
    this.pulls(speedMS, true);
    this.distanceRate = Math.sqrt((east * this.eastRatio) ** 2 + (north * this.northRatio) ** 2);
  }

  /** Velocity over the ground of a horizontal speed through the air, on the heading. */
  private drift(horizontalMS: number): void {
    const carriedMS = horizontalMS - this.headwindMS;
    this.groundEastMS = carriedMS * this.sinHeading + this.air.windEastMS;
    this.groundNorthMS = carriedMS * this.cosHeading + this.air.windNorthMS;
  }

  /** Change of the wind ahead with pressure altitude, along the present motion. */
  shear(): number {
    const { air, sinHeading, cosHeading, cosPath } = this;
    return cosPath * (air.upward[WIND_EAST] * sinHeading + air.upward[WIND_NORTH] * cosHeading);
  }

  /** Sine of the path angle at which pressure altitude stays: the slope of the isobar, at the present ground velocity. */
  levelSinPath(speedMS: number): number {
    const { air, groundEastMS, groundNorthMS } = this;
    const rise =
      air.eastward[HEIGHT] * groundEastMS * this.eastRatio +
      air.northward[HEIGHT] * groundNorthMS * this.northRatio +
      air.perSecond[HEIGHT];
    return rise / speedMS;
  }

  latitudeRate(): number {
    return this.groundNorthMS * (this.earth.curved ? this.meridianTurn : 1 / FLAT_RADIUS_M);
  }

  longitudeRate(): number {
    if (!this.earth.curved) return this.groundEastMS / FLAT_RADIUS_M;
    return (this.groundEastMS * this.primeTurn) / this.point.cosLatitude;
  }

  private incline(sinPath: number): void {
    this.sinPath = sinPath;
    this.cosPath = Math.sqrt(1 - sinPath * sinPath);
  }

  /**
   * The accelerations A. `turning` keeps the turning of the meridian and the change of the cross wind, which on a track (a
   * geodesic, the heading following the wind) have no part in the bank.
   */
  private pulls(speedMS: number, turning: boolean): void {
    const { air, point, sinHeading, cosHeading, sinPath, cosPath } = this;
    const east = this.groundEastMS;
    const north = this.groundNorthMS;
    const upward = speedMS * sinPath;
    const eastRate = east * this.eastRatio;
    const northRate = north * this.northRatio;
    const { upward: up, eastward, northward, perSecond } = air;
    const rise = eastward[HEIGHT] * eastRate + northward[HEIGHT] * northRate + perSecond[HEIGHT];
    const climb = (upward - rise) * this.altitudePerHeight;
    this.altitudeRate = climb;
    this.temperatureRate =
      up[TEMPERATURE] * climb +
      eastward[TEMPERATURE] * eastRate +
      northward[TEMPERATURE] * northRate +
      perSecond[TEMPERATURE];
    const windEast =
      up[WIND_EAST] * climb +
      eastward[WIND_EAST] * eastRate +
      northward[WIND_EAST] * northRate +
      perSecond[WIND_EAST];
    const windNorth =
      up[WIND_NORTH] * climb +
      eastward[WIND_NORTH] * eastRate +
      northward[WIND_NORTH] * northRate +
      perSecond[WIND_NORTH];
    const spin = 2 * this.earth.rotationRadS;
    const spinUp = spin * point.sinLatitude;
    const spinNorth = spin * point.cosLatitude;
    const { meridianTurn, primeTurn } = this;
    let northPull = this.gravityNorthward - spinUp * east - meridianTurn * north * upward;
    let eastPull = spinUp * north - spinNorth * upward - primeTurn * east * upward;
    const upPull = spinNorth * east + primeTurn * east * east + meridianTurn * north * north - this.gravity;
    const ahead = (eastPull - windEast) * sinHeading + (northPull - windNorth) * cosHeading;
    this.alongPull = ahead * cosPath + upPull * sinPath;
    this.normalPull = upPull * cosPath - ahead * sinPath;
    if (turning) {
      const meridian = (primeTurn * east * point.sinLatitude) / point.cosLatitude;
      northPull -= meridian * east + windNorth;
      eastPull += meridian * north - windEast;
      const turningAhead = meridian * (north * sinHeading - east * cosHeading);
      this.alongPull += turningAhead * cosPath;
      this.normalPull -= turningAhead * sinPath;
    }
    this.sidePull = this.earth.sideways || turning ? eastPull * cosHeading - northPull * sinHeading : 0;
  }
}
