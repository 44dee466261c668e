/**
 * The crew's clock from what the sortie says of them. Report and the start of oxygen are times of the day, which a later take-off
 * leaves where they are; prebreathing is reckoned back from take-off (common practice).
 */
import { cabinAltitude } from '../aircraft/descent.ts';
import type { Light } from '../earth/light.ts';
import type { Draft } from './draft.ts';
import type {
  CrewClock,
  CrewDuty,
  CrewMoment,
  CrewMomentKind,
  CrewOxygen,
  CrewPrebreathe,
  EventLight,
  PlanEvent,
} from './plan.ts';
import { lightLater } from './sky.ts';
import type { CrewTimes, Sortie } from './sortie.ts';

export interface CrewAnswer {
  /** null where the sortie says nothing of its crew. */
  readonly clock: CrewClock | null;
  readonly missing: readonly string[];
}

/** `events` with times since take-off. A sortie that does not come to land has its moments and no ends. */
export function crewClockOf(drafted: Draft, events: readonly (PlanEvent & EventLight)[]): CrewAnswer {
  const { crew: times } = drafted.crew.sortie;
  if (times === null) return { clock: null, missing: [] };
  const takeOffS = drafted.crew.sortie.takeOff.timeS;
  const landingS = events.find(({ kind }) => kind === 'landing')?.timeS ?? null;
  const needed = neededOf(drafted, times);
  const prebreathe = typeof needed === 'string' ? null : prebreatheOf(needed, times, takeOffS);
  const duty = landingS === null ? null : dutyOf(times, takeOffS, landingS);
  const oxygen = landingS === null ? null : oxygenOf(times, prebreathe, { takeOffS, landingS });
  const ends = endsOf(duty, oxygen);
  const slip = ends.length === 0 ? null : ends.reduce((a, b) => (b.leftS < a.leftS ? b : a));
  const moments = momentsOf(drafted, events, { duty, prebreathe, oxygen });
  const missing = typeof needed === 'string' ? [needed] : [];
  return { clock: { moments, duty, prebreathe, oxygen, slip }, missing };
}

/** What a later take-off uses up of the crew's time, as it is left on a landing so long after take-off. */
export function crewEnds({ crew, takeOff }: Sortie, landingS: number): NonNullable<CrewClock['slip']>[] {
  if (crew === null) return [];
  const takeOffS = takeOff.timeS;
  return endsOf(dutyOf(crew, takeOffS, landingS), oxygenOf(crew, null, { takeOffS, landingS }));
}

/** Oxygen that is gone on when prebreathing asks for it moves with the take-off. */
function endsOf(duty: CrewDuty | null, oxygen: CrewOxygen | null): NonNullable<CrewClock['slip']>[] {
  return [
    ...(duty === null ? [] : [{ leftS: duty.leftS, by: 'duty' as const }]),
    ...(oxygen?.fixed === true ? [{ leftS: oxygen.leftS, by: 'oxygen' as const }] : []),
  ];
}

type Needed = Pick<CrewPrebreathe, 'cabinAltitudeM' | 'neededS'>;

/** null where the sortie asks for none; why it is not known. */
function neededOf({ crew, log }: Draft, { prebreathe }: CrewTimes): Needed | string | null {
  if (prebreathe === null) return null;
  if (typeof prebreathe === 'number') return { cabinAltitudeM: null, neededS: prebreathe };
  const { cabin } = crew.flight.setup.aircraft;
  if (cabin === null) return 'prebreathing: the deck does not say how its cabin follows the height';
  const heights = log.columns.pressureAltitudeM;
  const cabinAltitudeM = heights.reduce(
    (most, height) => Math.max(most, cabinAltitude(cabin, height)),
    Number.NEGATIVE_INFINITY,
  );
  const row = prebreathe.findLast(({ aboveM }) => cabinAltitudeM > aboveM);
  return { cabinAltitudeM, neededS: row?.timeS ?? 0 };
}

function prebreatheOf(needed: Needed | null, { oxygen }: CrewTimes, takeOffS: number): CrewPrebreathe | null {
  if (needed === null) return null;
  const fromS = oxygen?.fromS ?? null;
  const plannedS = fromS === null ? needed.neededS : takeOffS - fromS;
  return { ...needed, plannedS, leftS: plannedS - needed.neededS };
}

function dutyOf({ duty }: CrewTimes, takeOffS: number, landingS: number): CrewDuty | null {
  if (duty === null) return null;
  const reportS = duty.reportS - takeOffS;
  const endS = landingS + duty.afterLandingS;
  const lengthS = endS - reportS;
  return { reportS, endS, lengthS, mostS: duty.mostS, leftS: duty.mostS - lengthS };
}

function oxygenOf(
  { oxygen }: CrewTimes,
  prebreathe: CrewPrebreathe | null,
  { takeOffS, landingS }: { takeOffS: number; landingS: number },
): CrewOxygen | null {
  if (oxygen === null) return null;
  const { lastsS, reserveS } = oxygen;
  const fixed = oxygen.fromS !== null;
  const fromS = oxygen.fromS === null ? -(prebreathe?.neededS ?? 0) : oxygen.fromS - takeOffS;
  return { fromS, fixed, lastsS, reserveS, leftS: lastsS - reserveS - (landingS - fromS) };
}

/** Where the crew looks outside. */
const EVENTS: readonly string[] = ['take-off', 'contact', 'landing'];

function momentsOf(
  drafted: Draft,
  events: readonly (PlanEvent & EventLight)[],
  { duty, prebreathe, oxygen }: Pick<CrewClock, 'duty' | 'prebreathe' | 'oxygen'>,
): CrewMoment[] {
  const at = (kind: CrewMomentKind, name: string, timeS: number, sky: Sky = noSky): CrewMoment => ({
    kind,
    name,
    timeS,
    dutyS: duty === null || timeS < duty.reportS ? null : timeS - duty.reportS,
    oxygenLeftS: oxygen === null || timeS < oxygen.fromS ? null : oxygen.lastsS - (timeS - oxygen.fromS),
    ...sky,
  });
  const seen = events
    .filter(({ kind }) => EVENTS.includes(kind))
    .map((event) =>
      at(event.kind as CrewMomentKind, event.name, event.timeS, {
        light: event.light,
        lightHoldsS: event.light === null ? null : lightLater(event, event.light, drafted),
      }),
    );
  const own = [
    ...(duty === null
      ? []
      : [
          at('report', '', duty.reportS),
          at('offDuty', '', duty.endS),
          at('dutyEnds', '', duty.reportS + duty.mostS),
        ]),
    ...(prebreathe === null || prebreathe.neededS === 0 || oxygen !== null
      ? []
      : [at('prebreathe', '', -prebreathe.neededS)]),
    ...(oxygen === null
      ? []
      : [
          at('oxygen', '', oxygen.fromS),
          at('oxygenReserve', '', oxygen.fromS + oxygen.lastsS - oxygen.reserveS),
        ]),
  ];
  return [...own, ...seen].sort((a, b) => a.timeS - b.timeS);
}

interface Sky {
  readonly light: Light | null;
  readonly lightHoldsS: number | null;
}
const noSky: Sky = { light: null, lightHoldsS: null };
