/** The cases of a reach ladder in which the aircraft is whole, and a tanker or the base of landing is not there. */
import type { Plan, ReachCase, ReachChoice, ReachLadder, WhyNone } from './plan.ts';
import type { ReachRequest } from './reach-asked.ts';
import type { Choice } from './reach-goals.ts';
import { bestOf, openings, spansOf, whyAt } from './reach-times.ts';

const lateS = 20 * 60;

/** What goes wrong with a tanker or the base of landing, with a whole aircraft: the same flights, other choices. */
export function otherCases(asked: ReachRequest, whole: ReachLadder, half: ReachLadder): ReachLadder[] {
  const { plan, request, choices, minutes } = asked;
  const next = minutes.map((minute) => plan.refuellings.find(({ contactS }) => contactS >= minute)?.tanker);
  const last = request.sortie.legs.at(-1)?.end;
  const closed = last?.kind === 'landing' ? last.base.name : null;
  const flowKgS = (tanker: string) =>
    holdFlow(plan, plan.refuellings.find((refuelling) => refuelling.tanker === tanker)?.contactS ?? 0);
  /** `less`: what is burnt more before the way to an end begins, or why there is none. */
  const changed = (
    key: ReachCase,
    name: string,
    source: string,
    less: (end: Choice, i: number) => number | WhyNone,
  ): ReachLadder => {
    const made = whole.choices.map((choice, index): ReachChoice => {
      const end = choices[index];
      const burnt = minutes.map((_, i) => less(end, i));
      const fuelKg = choice.fuelKg.map((kg, i) => {
        const more = burnt[i];
        return kg === null || typeof more === 'string' ? null : kg - more;
      });
      const why = burnt.map((more, i) => (typeof more === 'string' ? more : whyAt(choice, minutes[i])));
      const all = fuelKg.every((kg) => kg === null);
      const never = choice.never ?? (all ? (end.joinable ? 'absent' : 'closed') : null);
      const open = openings(minutes, fuelKg, choice.requiredKg);
      return { ...choice, fuelKg, never, open, none: spansOf(minutes, why) };
    });
    return { ...whole, key, name, source, choices: made, best: minutes.map((_, i) => bestOf(made, i)) };
  };
  const isNext = (end: Choice, i: number) => end.kind === 'tanker' && end.name === next[i];
  return [
    changed('tankerAbsent', 'Next tanker absent', 'the whole aircraft without that tanker', (end, i) =>
      isNext(end, i) ? 'absent' : 0,
    ),
    changed(
      'tankerLate',
      'Next tanker 20 min late',
      'the whole aircraft waiting at the fuel flow of the contact before fuel comes',
      (end, i) => (isNext(end, i) ? lateS * flowKgS(end.name) : 0),
    ),
    {
      ...half,
      key: 'tankerHalf',
      name: 'Tanker gave half its fuel',
      source: 'the whole aircraft, with half of what the last tanker was to give',
    },
    ...(closed === null
      ? []
      : [
          changed('baseClosed', `${closed} closed`, 'the whole aircraft without that base', (end) =>
            end.kind === 'base' && end.name === closed ? 'closed' : 0,
          ),
        ]),
  ];
}

/** The same sortie, each tanker having given half: of one tanker at a time, the last. */
export function halfFuelled(asked: ReachRequest): ReachRequest {
  const { plan } = asked;
  const missing = plan.refuellings.map(({ contactS, disconnectS, takenKg }) => {
    const part = (timeS: number) => (timeS - contactS) / (disconnectS - contactS);
    // Fuel comes as planned until half of it is in.
    return (timeS: number) => Math.max(0, Math.min(1, part(timeS)) - 0.5) * takenKg;
  });
  const missingAt = (timeS: number): number => {
    const last = plan.refuellings.findLastIndex(({ contactS }) => contactS <= timeS);
    return last < 0 ? 0 : missing[last](timeS);
  };
  return { ...asked, starts: asked.starts.lighter(missingAt) };
}

/** Fuel flow at a contact before fuel comes [kg/s]. */
function holdFlow({ trace }: Plan, contactS: number): number {
  const { timeS, fuelFlowKgS } = trace.columns;
  const node = timeS.findIndex((time) => time >= contactS - 1e-6);
  return fuelFlowKgS[Math.max(node, 0)];
}
