/** The phases of flight; each flies a state along a track until a stop, a limit, or what it needs is gone. */
export { type AccelerateOptions, accelerate } from './accelerate.ts';
export { type ClimbOptions, climb } from './climb.ts';
export { climbOut } from './climb-out.ts';
export { type AltitudeTarget, type CruiseOptions, cruise } from './cruise.ts';
export { accelerateGoM, accelerateStop, decide } from './decision.ts';
export { GroundRoll, type RunwayConditions } from './ground-roll.ts';
export { type HoldOptions, hold } from './hold.ts';
export { climbToLevel, type LevelOffOptions, type LevelOffResult } from './level-off.ts';
export {
  type PushoverOptions,
  type PushoverPart,
  type PushoverResult,
  type PushoverSolution,
  pushover,
} from './pushover.ts';
export { type RefuelOptions, type RefuelResult, refuel } from './refuel.ts';
export { type TurnOptions, type TurnResult, type TurnSolution, turn, turnLead } from './turn.ts';
