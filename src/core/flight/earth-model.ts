/**
 * The Earth that the motion knows: gravity, curvature and rotation, each of which published check cases leave out in turn.
 */
export interface EarthModel {
  readonly title: string;
  /** True: ellipsoid radii of WGS-84 and gravity by latitude and height. False: flat, with `constantGravityMS2`. */
  readonly curved: boolean;
  /** Used where the Earth is flat. */
  readonly constantGravityMS2: number;
  /** Angular velocity of the Earth in the Coriolis terms; 0 leaves them out. */
  readonly rotationRadS: number;
  /** False leaves the sideways Coriolis force out of the bank on a leg. */
  readonly sideways: boolean;
}

/** WGS-84, turning at 7.292115e-5 rad/s (NIMA TR8350.2, table 3.1). The one a plan flies over. */
export const ROTATING_EARTH: EarthModel = {
  title: 'WGS-84, rotating',
  curved: true,
  constantGravityMS2: 9.80665,
  rotationRadS: 7.292115e-5,
  sideways: true,
};

export const STILL_EARTH: EarthModel = { ...ROTATING_EARTH, title: 'WGS-84, not rotating', rotationRadS: 0 };

/** A flat Earth with a constant gravity [m/s2]. */
export function flatEarth(gravityMS2 = 9.80665): EarthModel {
  return { title: 'flat', curved: false, constantGravityMS2: gravityMS2, rotationRadS: 0, sideways: true };
}
