/**
 * Stop or go: the speeds at which an engine may be lost on the runway, after the definitions of MIL-STD-3013 (from memory).
 *
 * Accelerate-go is the distance from brake release to lift-off with all engines up to a speed and one fewer from there.
 * Accelerate-stop is the distance with all engines up to a speed, one fewer at take-off power until the crew acts, then
 * braking to a stop. Where the two are equal stand the critical engine failure speed and the critical field length. The least
 * speed from which the take-off can go on is where accelerate-go is the runway; the refusal speed, the greatest from which it
 * can be stopped, is where accelerate-stop is the runway. Speeds are along the ground [m/s], distances in metres.
 */
import { brent } from '../numerics/roots.ts';
import type { GroundRoll } from './ground-roll.ts';

export interface DecisionQuestion {
  readonly roll: GroundRoll;
  readonly liftOffMS: number;
  /** Infinite where it is not stated. */
  readonly runwayM: number;
  /** Speed from which the rudder holds the aircraft straight with an engine lost; 0 where it is not stated. */
  readonly minimumControlMS: number;
  /** Greatest work of the wheel brakes; infinite where it is not stated. */
  readonly brakeEnergyJ: number;
}

/** Why a bound of the decision speed is where it is. */
type DecisionBound = 'runway' | 'minimumControlSpeed' | 'brakeEnergy' | 'liftOff' | 'none';

export interface Decision {
  /** Where accelerate-stop equals accelerate-go. */
  readonly criticalMS: number;
  readonly criticalFieldM: number;
  /** Least and greatest decision speed, and what bounds them; none fits where the first is the greater. */
  readonly leastMS: number;
  readonly leastBy: DecisionBound;
  readonly greatestMS: number;
  readonly greatestBy: DecisionBound;
  /** The critical engine failure speed, or the nearest to it that fits; the critical one where none fits. */
  readonly speedMS: number;
  readonly fits: boolean;
}

/** Stands for a distance without end, so that a root can be looked for. */
const endlessM = 1e7;
const toleranceMS = 1e-3;

export function accelerateGoM(roll: GroundRoll, liftOffMS: number, lostAtMS: number): number {
  const before = roll.accelerate(0, lostAtMS, roll.engines).distanceM;
  return before + roll.accelerate(lostAtMS, liftOffMS, roll.engines - 1).distanceM;
}

/** `remaining` engines run from the moment at which the take-off is refused: all, or one fewer. */
export function accelerateStop(
  roll: GroundRoll,
  refusedAtMS: number,
  remaining: number,
): { readonly distanceM: number; readonly brakeEnergyJ: number } {
  const before = roll.accelerate(0, refusedAtMS, roll.engines);
  const reaction = roll.react(refusedAtMS, remaining);
  const stop = roll.stop(reaction.speedMS, remaining);
  return {
    distanceM: before.distanceM + reaction.distanceM + stop.distanceM,
    brakeEnergyJ: stop.brakeEnergyJ,
  };
}

export function decide(question: DecisionQuestion): Decision {
  const { roll, liftOffMS, runwayM, minimumControlMS, brakeEnergyJ } = question;
  const go = (speedMS: number): number => Math.min(accelerateGoM(roll, liftOffMS, speedMS), endlessM);
  const stop = (speedMS: number): number =>
    Math.min(accelerateStop(roll, speedMS, roll.engines - 1).distanceM, endlessM);
  // The brakes take most where every engine has run until then.
  const energy = (speedMS: number): number => accelerateStop(roll, speedMS, roll.engines).brakeEnergyJ;

  const criticalMS = crossing((speedMS) => stop(speedMS) - go(speedMS), liftOffMS);
  const leastGoMS = crossing((speedMS) => runwayM - go(speedMS), liftOffMS);
  const refusalMS = crossing((speedMS) => stop(speedMS) - runwayM, liftOffMS);
  const coolMS = crossing((speedMS) => energy(speedMS) - brakeEnergyJ, liftOffMS);

  const leastMS = Math.max(leastGoMS, minimumControlMS);
  const greatestMS = Math.min(refusalMS, coolMS);
  const fits = leastMS <= greatestMS;
  return {
    criticalMS,
    criticalFieldM: accelerateGoM(roll, liftOffMS, criticalMS),
    leastMS,
    leastBy: leastMS === 0 ? 'none' : leastGoMS >= minimumControlMS ? 'runway' : 'minimumControlSpeed',
    greatestMS,
    greatestBy: greatestMS === liftOffMS ? 'liftOff' : refusalMS <= coolMS ? 'runway' : 'brakeEnergy',
    speedMS: fits ? Math.min(Math.max(criticalMS, leastMS), greatestMS) : criticalMS,
    fits,
  };
}

/** Where a rising function passes 0 between rest and lift-off; the end at which it is nearest to it where it does not. */
function crossing(f: (speedMS: number) => number, liftOffMS: number): number {
  if (f(0) >= 0) return 0;
  if (f(liftOffMS) <= 0) return liftOffMS;
  return brent(f, 0, liftOffMS, toleranceMS).x;
}
