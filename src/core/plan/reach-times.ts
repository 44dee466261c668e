/** When the choices of a reach ladder open and close, and which is the best. */
import type { EqualTime, ReachChoice, WhyNone } from './plan.ts';
import type { ReachRequest } from './reach-asked.ts';

/** A choice that is open for less counts as closed. */
const leastOpenS = 120;

/** Of the ends with enough the one with the most above what is required there. */
export function bestOf(choices: readonly ReachChoice[], i: number): number | null {
  let best: number | null = null;
  let mostKg = 0;
  choices.forEach(({ fuelKg, requiredKg }, end) => {
    const kg = fuelKg[i];
    if (kg === null || requiredKg === null || kg - requiredKg < mostKg) return;
    best = end;
    mostKg = kg - requiredKg;
  });
  return best;
}

/** The end to which least is missing, and how much: less than 0 where there is enough; null where none can be flown to. */
export function leastMissing(
  choices: readonly ReachChoice[],
  i: number,
): { readonly end: number; readonly missingKg: number } | null {
  let least: { end: number; missingKg: number } | null = null;
  choices.forEach(({ fuelKg, requiredKg }, end) => {
    const kg = fuelKg[i];
    if (kg === null || requiredKg === null) return;
    const missingKg = requiredKg - kg;
    if (least === null || missingKg < least.missingKg) least = { end, missingKg };
  });
  return least;
}

/** Spans in which enough arrives, their ends between two minutes on a straight line. */
export function openings(
  minutes: readonly number[],
  fuelKg: readonly (number | null)[],
  requiredKg: number | null,
): { readonly fromS: number; readonly toS: number }[] {
  if (requiredKg === null) return [];
  const spans: { fromS: number; toS: number }[] = [];
  let fromS: number | null = null;
  minutes.forEach((minute, i) => {
    const over = overOf(fuelKg[i], requiredKg);
    const before = i === 0 ? Number.NaN : overOf(fuelKg[i - 1], requiredKg);
    const crossingS = (known: number): number => {
      const part = before / (before - over);
      return Number.isFinite(part) ? minutes[i - 1] + part * (minute - minutes[i - 1]) : known;
    };
    if (over >= 0 && fromS === null) fromS = crossingS(minute);
    if (!(over >= 0) && fromS !== null) {
      spans.push({ fromS, toS: crossingS(minutes[i - 1]) });
      fromS = null;
    }
  });
  const lastS = minutes[minutes.length - 1];
  if (fromS !== null) spans.push({ fromS, toS: lastS });
  // What opens again for a moment is nothing to count on.
  return spans.filter((span) => span.toS - span.fromS >= leastOpenS || span.toS === lastS);
}

/** Minutes that share a reason, in spans. */
export function spansOf(minutes: readonly number[], why: readonly (WhyNone | null)[]): ReachChoice['none'] {
  const spans: { fromS: number; toS: number; why: WhyNone }[] = [];
  why.forEach((reason, i) => {
    const last = spans.at(-1);
    if (reason === null) return;
    if (last?.why === reason && why[i - 1] === reason) last.toS = minutes[i];
    else spans.push({ fromS: minutes[i], toS: minutes[i], why: reason });
  });
  return spans;
}

/** Why nothing arrives at a minute; null where something does. */
export function whyAt({ none }: ReachChoice, minuteS: number): WhyNone | null {
  return none.find(({ fromS, toS }) => fromS <= minuteS && minuteS <= toS)?.why ?? null;
}

function overOf(kg: number | null, requiredKg: number): number {
  return kg === null ? Number.NaN : kg - requiredKg;
}

/** Leg by leg: back to the base of the leg before, on to the end of this one. */
export function equalTimesOf(
  { plan, request, choices, minutes }: ReachRequest,
  made: readonly ReachChoice[],
): EqualTime[] {
  const { sortie } = request;
  return sortie.legs.flatMap((leg, index): EqualTime[] => {
    const before = sortie.legs[index - 1]?.end;
    const backName =
      before === undefined
        ? sortie.takeOff.base.name
        : before.kind === 'landing'
          ? before.base.name
          : before.worstCase.base.name;
    const onName = leg.end.kind === 'landing' ? leg.end.base.name : leg.end.tanker.name;
    const at = (name: string) => choices.findIndex((choice) => choice.name === name);
    const [back, on] = [made[at(backName)], made[at(onName)]];
    const fromS = plan.refuellings[index - 1]?.disconnectS ?? 0;
    const toS = plan.refuellings[index]?.contactS ?? minutes[minutes.length - 1];
    if (back === undefined || on === undefined || backName === onName) return [];
    const timeS = equalTime(minutes, back.arrivalS, on.arrivalS, fromS, toS);
    return timeS === null ? [] : [{ leg: index, back: backName, on: onName, timeS }];
  });
}

/** The first moment within a span at which it takes no longer on than back; null where there is none. */
export function equalTime(
  minutes: readonly number[],
  backS: readonly (number | null)[],
  onS: readonly (number | null)[],
  fromS: number,
  toS: number,
): number | null {
  let before = Number.NaN;
  for (let i = 0; i < minutes.length; i++) {
    if (minutes[i] < fromS || minutes[i] > toS) continue;
    const longer = (onS[i] ?? Number.NaN) - (backS[i] ?? Number.NaN);
    if (longer <= 0 && before > 0) {
      return minutes[i - 1] + (before / (before - longer)) * (minutes[i] - minutes[i - 1]);
    }
    before = longer;
  }
  return null;
}
