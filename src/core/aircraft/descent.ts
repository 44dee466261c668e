/** What an aircraft asks of its descents, and how its cabin follows its height. */

export const DESCENT_SYSTEMS = ['engine', 'inlet', 'cabin'] as const;
export type DescentSystem = (typeof DESCENT_SYSTEMS)[number];

/** In a descent the power stays at a setting or above it for the sake of one system, above a Mach or a pressure altitude. */
export interface DescentRule<Setting = number> {
  readonly of: DescentSystem;
  /** One of them is null. */
  readonly aboveMach: number | null;
  readonly abovePressureAltitudeM: number | null;
  /** On the ladder of settings; a deck writes its name. */
  readonly setting: Setting;
  /** Why, and where that stands. */
  readonly source: string;
}

/** Heights inside a cabin against those outside; pressure altitudes [m], rising, of equal number. */
export interface Cabin {
  readonly outsideM: readonly number[];
  readonly insideM: readonly number[];
  /** The fastest that it may come down [m/s]; null where the deck states none. */
  readonly greatestRateMS: number | null;
}

/** Linear between the points of the deck; its ends hold beyond them. */
export function cabinAltitude({ outsideM, insideM }: Cabin, pressureAltitudeM: number): number {
  const above = outsideM.findIndex((height) => height > pressureAltitudeM);
  if (above < 0) return insideM[insideM.length - 1];
  if (above === 0) return insideM[0];
  const part = (pressureAltitudeM - outsideM[above - 1]) / (outsideM[above] - outsideM[above - 1]);
  return insideM[above - 1] + part * (insideM[above] - insideM[above - 1]);
}

/** How fast the cabin goes up for each metre that the aircraft does: the steeper of the slopes that meet at a height. */
export function cabinSlope({ outsideM, insideM }: Cabin, pressureAltitudeM: number): number {
  let slope = 0;
  for (let i = 1; i < outsideM.length; i++) {
    const inside = pressureAltitudeM >= outsideM[i - 1] && pressureAltitudeM <= outsideM[i];
    if (inside) slope = Math.max(slope, (insideM[i] - insideM[i - 1]) / (outsideM[i] - outsideM[i - 1]));
  }
  return slope;
}

/** The least power that the rules allow at a Mach and pressure altitude [m]: 0 where none holds. A value reached is passed. */
export function leastDescentPower(
  rules: readonly DescentRule[],
  mach: number,
  pressureAltitudeM: number,
): number {
  return rules.reduce(
    (least, rule) => (holds(rule, mach, pressureAltitudeM) ? Math.max(least, rule.setting) : least),
    0,
  );
}

/** A height that counts as one of Mach [m]. */
const heightOfMach = 30_000;

/** How far above the last of their bounds some rules are, in Mach; 0 where all of them let go, negative below. */
export function roomToEnd(
  rules: readonly DescentRule[],
  { mach, pressureAltitudeM }: { readonly mach: number; readonly pressureAltitudeM: number },
): number {
  return rules.reduce((most, { aboveMach, abovePressureAltitudeM }) => {
    const room =
      aboveMach === null
        ? (pressureAltitudeM - (abovePressureAltitudeM ?? 0)) / heightOfMach
        : mach - aboveMach;
    return Math.max(most, room);
  }, Number.NEGATIVE_INFINITY);
}

/** How far a rule's bound is away at which it counts as reached. */
const nearMach = 1e-6;
const nearM = 1e-3;

export function holds(
  { aboveMach, abovePressureAltitudeM }: DescentRule<unknown>,
  mach: number,
  pressureAltitudeM: number,
): boolean {
  if (aboveMach !== null) return mach > aboveMach + nearMach;
  return pressureAltitudeM > (abovePressureAltitudeM ?? Number.POSITIVE_INFINITY) + nearM;
}
