/** Where a leg of a flown sortie enters the drag rise, and what it is flown with. */
import { newState } from '../flight/state.ts';
import type { Track } from '../flight/track.ts';
import type { AccelerationQuestion, Reference } from '../optimise/acceleration-path.ts';
import type { Draft } from './draft.ts';
import { climbLaw, climbSpeedStop } from './leg-flyer.ts';
import type { ClimbStep, PushoverStep } from './sortie.ts';

/** All ways are compared at this Mach on the climb's schedule, beyond the drag rise. */
const REFERENCE_MACH = 1.6;

/** The usual pushover where a sortie has none: what the search starts from in load factors (common practice). */
const USUAL = { loadFactor: 0.6, pullLoadFactor: 1.3 };

/** The supersonic climb of a leg, and the pushover before it where it has one. */
export interface AccelerationSteps {
  readonly pushover: PushoverStep | null;
  readonly climb: ClimbStep;
  /** Index of the first of them among the steps of the leg. */
  readonly first: number;
}

/** null where the leg has no supersonic climb. */
export function accelerationSteps({ crew }: Draft, leg: number): AccelerationSteps | null {
  const steps = crew.sortie.legs[leg].fly;
  const at = steps.findIndex((step) => step.kind === 'climb' && step.mach > 1);
  const climb = steps[at];
  if (climb?.kind !== 'climb') return null;
  const before = steps[at - 1];
  if (before?.kind !== 'pushover') return { pushover: null, climb, first: at };
  return { pushover: before, climb, first: at - 1 };
}

export function referenceOf({ climb }: AccelerationSteps): Reference {
  return {
    law: climbLaw(climb),
    atLaw: climbSpeedStop(climb, 1),
    mach: Math.min(REFERENCE_MACH, climb.mach),
    power: climb.power,
  };
}

/** The start of the pushover, or of the climb where there is none, as it was flown; null where it did not come to that. */
export function questionOfLeg(
  drafted: Draft,
  leg: number,
  steps: AccelerationSteps,
): AccelerationQuestion | null {
  const { log, crew, flown } = drafted;
  const start = log.anchors.find(
    ({ progress }) => progress.leg === leg && progress.step === steps.first,
  )?.progress;
  const track = start && flown.legs[leg]?.route.tracks[start.track];
  if (!start || !track) return null;
  const { limits } = crew.flight.setup.aircraft;
  const { pads } = crew.sortie;
  return {
    flight: crew.flight,
    track,
    from: start.state,
    power: (steps.pushover ?? steps.climb).power,
    reference: referenceOf(steps),
    pushLoadFactor: (steps.pushover ?? USUAL).loadFactor,
    pullLoadFactor: (steps.pushover ?? USUAL).pullLoadFactor,
    limits: limits.map((limit) => ({ limit, pad: pads[limit.key] ?? 0 })),
  };
}

/** A state of the flight at a time with the track that it is on; place, speed and path are left to who flies on. */
export function stateAt({ log, flown }: Draft, leg: number, timeS: number) {
  const { columns } = log;
  const anchor = log.anchors.findLast(
    ({ progress }) => progress.leg === leg && progress.state.timeS <= timeS + 1e-6,
  );
  const track: Track | undefined = anchor && flown.legs[leg]?.route.tracks[anchor.progress.track];
  if (!anchor || !track) return null;
  const { state: from } = anchor.progress;
  const state = newState();
  state.timeS = timeS;
  state.pressureAltitudeM = log.at(columns.pressureAltitudeM, timeS);
  state.massKg = log.at(columns.massKg, timeS);
  state.distanceM = from.distanceM + log.at(log.distanceM, timeS) - log.at(log.distanceM, from.timeS);
  return { state, track };
}
