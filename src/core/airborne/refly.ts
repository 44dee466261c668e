/**
 * The rest of a planned sortie flown from a moment of it with what the readings tell of: the same decisions, equations, deck and day
 * as the plan, another aircraft and air. A phase that cannot be begun in its middle (a turn, a pushover, a contact) is left to its
 * end as planned, at the fuel flow found.
 */
import type { Line } from '../earth/line.ts';
import { crewOf, type PlanRequest } from '../plan/draft.ts';
import { fuelAtEqualEnergy } from '../plan/energy.ts';
import { summariseLimits } from '../plan/limits.ts';
import { type Anchor, copyProgress, Log, newProgress, nodeFrom, type Progress } from '../plan/log.ts';
import { type Mark, marksOf } from '../plan/outcome.ts';
import type { LegDecisions, LimitSummary, Plan, PlanPhase } from '../plan/plan.ts';
import { recoveryFrom } from '../plan/required.ts';
import type { Route } from '../plan/route.ts';
import type { Crew } from '../plan/route-flight.ts';
import { flyOn, flySortie, type SortieFlown } from '../plan/sortie-flyer.ts';
import { standardGravity } from '../quantities/constants.ts';
import { type Deviation, deviating } from './deviation.ts';

/** A moment of a flight and of its plan [s since the take-off of each]. */
export interface Now {
  readonly timeS: number;
  readonly planTimeS: number;
  /** As flown, in seconds since 1970. */
  readonly takeOffS: number;
}

/** Height and Mach of a cruise as read, above those of the plan; null where they were not read. */
export interface FlownNow {
  readonly raisedM: number | null;
  readonly machMore: number | null;
}

/** A moment ahead, in the order in which they come. */
export interface GateAhead {
  readonly kind: string;
  readonly name: string;
  readonly leg: number;
  /** Since the take-off of the plan. */
  readonly planTimeS: number;
  readonly plannedKg: number;
  /** null where the plan does not know. */
  readonly plannedRequiredKg: number | null;
  /** As flown on, since take-off; NaN where it is not reached. */
  readonly timeS: number;
  readonly fuelKg: number;
  /** What is required with what is found; null where it is not known. */
  readonly requiredKg: number | null;
}

export interface FlownOn {
  readonly gates: readonly GateAhead[];
  /** Legs on which the decided start of the descent leaves no room, so that another was solved for. */
  readonly newStartDowns: readonly number[];
  /** Where it could not be flown on and why; null where it was flown to its end. */
  readonly stopped: { readonly reason: string; readonly text: string; readonly phase: string } | null;
  /** What was taken at the edge of its data; null where nothing was. */
  readonly beyondData: string | null;
  /** Least margin of every limit on the rest of the way, the closest first; times since take-off as flown. */
  readonly limits: readonly LimitAhead[];
  readonly evaluations: number;
}

export interface LimitAhead extends LimitSummary {
  /** For how long it is passed [s]. */
  readonly beyondS: number;
}

/** From where a flight goes on. */
export interface Begin {
  readonly progress: Progress;
  readonly route: Route;
  /** How far above the altitude that the rule of the cruise gives here [m]; 0 outside a cruise. */
  readonly offM: number;
}

/** Phases that are not begun in their middle; nor is the level stretch to a landing, which ends the trace. */
const whole: readonly string[] = ['take-off', 'turn', 'pushover', 'contact', 'hold', 'landing'];

/** A plan made ready to be flown on from any moment. */
export class FlyingOn {
  readonly request: PlanRequest;
  readonly plan: Plan;
  readonly crew: Crew;
  /** As decided, but that full tanks are asked for again where the sortie asks for them. */
  readonly decisions: readonly LegDecisions[];
  private readonly log: Log;
  private readonly flown: SortieFlown;
  private readonly takeOffS: number;

  /** Flies the plan once as it was decided. Throws `CannotPlan`, and an error where the plan is of other inputs. */
  constructor(request: PlanRequest, plan: Plan) {
    this.request = request;
    this.plan = plan;
    this.takeOffS = request.sortie.takeOff.timeS;
    this.crew = crewOf(request);
    this.log = new Log(request.aircraft.limits);
    this.flown = flySortie(this.crew, plan.decisions, this.log);
    this.decisions = plan.decisions.map((decided, leg) => {
      const end = request.sortie.legs[leg]?.end;
      const refuelling = plan.refuellings[leg];
      if (end?.kind !== 'contact' || end.takeKg !== 'full' || !refuelling) return decided;
      return { ...decided, takenKg: refuelling.takenKg + refuelling.offloadLeftKg };
    });
  }

  /** The phase of the plan at a moment of it. */
  phaseAt(planTimeS: number): PlanPhase {
    const timeS = planTimeS + this.takeOffS;
    const { phases } = this.log;
    return phases.find(({ endS }) => endS > timeS) ?? phases[phases.length - 1];
  }

  /** Where the plan is the place of a flight that is `lagM` behind it. */
  placeTime(planTimeS: number, lagM: number): number {
    const { distanceM, columns } = this.log;
    const here = this.log.at(distanceM, planTimeS + this.takeOffS) - lagM;
    const high = nodeFrom(distanceM, here);
    const span = distanceM[high] - distanceM[high - 1];
    const part = span > 0 ? Math.min(1, Math.max(0, (here - distanceM[high - 1]) / span)) : 1;
    const [from, to] = [columns.timeS[high - 1], columns.timeS[high]];
    const timeS = from + part * (to - from) - this.takeOffS;
    // A contact ends every lag: after it the plan goes on from where the tanker was left.
    const met = this.plan.refuellings.some(({ contactS }) => timeS < contactS && planTimeS >= contactS);
    return met ? planTimeS : timeS;
  }

  /** null where nothing is left to be flown. */
  begin(now: Now, deviation: Deviation, flown: FlownNow | null = null): Begin | null {
    const lagging = this.placeTime(now.planTimeS, deviation.lagM) + this.takeOffS;
    const phase = this.phaseAt(lagging - this.takeOffS);
    const lands = this.request.sortie.legs[phase.leg]?.end.kind === 'landing';
    const skipped = whole.includes(phase.kind) || (phase.kind === 'level' && lands);
    const fromS = skipped ? phase.endS : lagging;
    const leg = phase.kind === 'contact' ? phase.leg + 1 : phase.leg;
    const { columns } = this.log;
    if (this.flown.legs[leg] === undefined || fromS >= columns.timeS[columns.timeS.length - 1]) return null;
    const { route } = this.flown.legs[leg];
    const progress = newProgress();
    copyProgress(this.anchorAt(fromS, leg)?.progress ?? progress, progress);
    progress.leg = leg;
    this.place(progress, route, fromS);
    // At a pressure altitude every law of speed holds the Mach: warmer air is flown through faster.
    progress.state.trueAirspeedMS *= fasterIn(this.log.at(columns.staticTemperatureK, fromS), deviation);
    const meanwhileS = fromS - lagging;
    const { fuelKg } = columns;
    const plannedKg = this.log.at(fuelKg, fromS);
    const burntKg = Math.max(0, this.log.at(fuelKg, lagging) - plannedKg);
    const lost = deviation.leakKgS * meanwhileS;
    const airK = this.log.at(columns.staticTemperatureK, fromS);
    // Fuel flow goes with the square root of temperature, as in the slopes of the trace.
    const more = (deviation.flow + deviation.drag + (0.5 * deviation.temperatureK) / airK) * burntKg;
    // On board less planned is told for the moment of the plan; at the place that was reached the plan has burnt less.
    const behindKg = this.log.at(fuelKg, now.planTimeS + this.takeOffS) - this.log.at(fuelKg, lagging);
    const takenFull = phase.kind === 'contact' && this.request.sortie.legs[phase.leg].end.kind === 'contact';
    const full = takenFull && this.fills(phase.leg);
    const missing = full ? 0 : deviation.fuelKg + behindKg - lost - more;
    const { state } = progress;
    state.massKg = this.crew.flight.setup.zeroFuelMassKg + Math.max(0, plannedKg + missing);
    state.timeS = now.takeOffS + now.timeS + meanwhileS;
    return { progress, route, offM: this.inCruise(progress, deviation, fromS, flown) };
  }

  /** The height and Mach of a cruise: as read, else as its rule has them for the weight and the air; how far above that rule. */
  private inCruise(
    { leg, step, state }: Progress,
    { temperatureK }: Deviation,
    atS: number,
    flown: FlownNow | null,
  ): number {
    const cruise = this.request.sortie.legs[leg].fly[step];
    if (cruise?.kind !== 'cruise') return 0;
    const { massKg, temperatureOffsetK } = this.log.columns;
    const offsetK = this.log.at(temperatureOffsetK, atS);
    const table = cruise.altitude === 'optimum' ? this.crew.altitudes(cruise.mach) : null;
    const ruledM =
      table === null
        ? 0
        : table.altitudeM(state.massKg, offsetK + temperatureK) -
          table.altitudeM(this.log.at(massKg, atS), offsetK);
    const raisedM = flown?.raisedM ?? ruledM;
    const before = state.trueAirspeedMS;
    state.trueAirspeedMS *= 1 + (flown?.machMore ?? 0) / this.log.at(this.log.columns.mach, atS);
    state.pressureAltitudeM += raisedM;
    // Fuel was told at the energy of the plan.
    const energyM = (flown?.raisedM ?? 0) + (state.trueAirspeedMS ** 2 - before ** 2) / (2 * standardGravity);
    state.massKg -= fuelAtEqualEnergy(0, state.massKg, energyM);
    return raisedM - ruledM;
  }

  /** Flies the rest with a deviation, from the height and Mach that were read. */
  fly(now: Now, deviation: Deviation, read: FlownNow | null = null): FlownOn {
    const { crew, beyondData } = this.crewWith(deviation);
    const begin = this.begin(now, deviation, read);
    const marks = this.marksAfter(this.placeTime(now.planTimeS, deviation.lagM));
    if (begin === null)
      return {
        gates: marks.map(unreached),
        newStartDowns: [],
        stopped: null,
        beyondData,
        limits: [],
        evaluations: 0,
      };
    const { limits } = this.request.aircraft;
    const { leg } = begin.progress;
    const { flown, log, newStartDowns } = this.roomForDescents(crew, begin);
    const there = new Map(
      marksOf(
        log.events.map((event) => ({ ...event, timeS: event.timeS - now.takeOffS })),
        [],
        [],
        [],
      ).map((mark) => [mark.key, mark]),
    );
    const planned = this.heldMarks(now.planTimeS, deviation.lagM);
    const inHand = this.inHandAtEnds(crew, flown, leg, there, marks);
    return {
      gates: marks.map(({ key, kind, name, leg: after, timeS, fuelKg, inHandKg }) => {
        const mark = there.get(key);
        const asHeld = planned.get(key);
        const share = inHandKg === null ? null : (inHand.get(leg + after)?.(inHandKg) ?? null);
        return {
          kind,
          name,
          leg: leg + after,
          planTimeS: timeS,
          plannedKg: fuelKg,
          plannedRequiredKg: inHandKg === null ? null : fuelKg - inHandKg,
          // A turn that is held begins a little later than one that is planned: both are told as the plan has it.
          timeS: (mark?.timeS ?? Number.NaN) + timeS - (asHeld?.timeS ?? timeS),
          fuelKg: (mark?.fuelKg ?? Number.NaN) + fuelKg - (asHeld?.fuelKg ?? fuelKg),
          requiredKg:
            mark === undefined || share === null
              ? null
              : mark.fuelKg + fuelKg - (asHeld?.fuelKg ?? fuelKg) - share,
        };
      }),
      newStartDowns,
      stopped: flown.stopped,
      beyondData,
      limits: summariseLimits(limits, this.request.sortie.pads, log, now.takeOffS).map((limit) => ({
        ...limit,
        beyondS: beyondFor(log.columns.timeS, log.margins[limit.key]),
      })),
      evaluations: crew.flight.evaluations,
    };
  }

  /** Held decisions, but that a descent that would end beyond its leg is begun where it is solved to. */
  private roomForDescents(crew: Crew, begin: Begin) {
    const newStartDowns: number[] = [];
    let decisions = this.decisions;
    for (;;) {
      const { flown, log } = this.onFrom(crew, begin, decisions);
      const at = flown.legs.length;
      if (flown.stopped?.reason !== 'route' || newStartDowns.includes(at))
        return { flown, log, newStartDowns };
      newStartDowns.push(at);
      decisions = decisions.map((decided, leg) => (leg === at ? { ...decided, startDown: null } : decided));
    }
  }

  private onFrom(
    crew: Crew,
    { progress, route }: Begin,
    decisions: readonly LegDecisions[],
  ): { readonly flown: SortieFlown; readonly log: Log } {
    const log = new Log(this.request.aircraft.limits);
    const from = newProgress();
    copyProgress(progress, from);
    const flown = flyOn(crew, decisions, log, {
      progress: from,
      route,
      legs: this.flown.legs.slice(0, progress.leg),
      refuellings: this.flown.refuellings.slice(0, progress.leg),
      takeOff: this.flown.takeOff,
    });
    return { flown, log };
  }

  /** The aircraft and the day of a deviation; the altitudes of the cruise stay those of the cards. */
  crewWith(deviation: Deviation): { readonly crew: Crew; readonly beyondData: string | null } {
    const { request, variation, beyondData } = deviating(this.request, deviation);
    return { crew: { ...crewOf(request, variation), altitudes: this.crew.altitudes }, beyondData };
  }

  /**
   * For each leg what is in hand at a moment for what the plan has in hand there: at the end of the leg flown, before it in the
   * proportion that the plan has.
   */
  private inHandAtEnds(
    crew: Crew,
    flown: SortieFlown,
    first: number,
    there: ReadonlyMap<string, Mark>,
    planned: readonly Mark[],
  ): ReadonlyMap<number, (plannedKg: number) => number | null> {
    const { sortie } = crew;
    const ofLeg = new Map<number, (plannedKg: number) => number | null>();
    for (const end of planned) {
      const leg = first + end.leg;
      const mark = there.get(end.key);
      const plannedKg = end.inHandKg;
      if ((end.kind !== 'contact' && end.kind !== 'landing') || mark === undefined || plannedKg === null)
        continue;
      const spec = sortie.legs[leg].end;
      const requiredKg =
        spec.kind === 'landing'
          ? sortie.landingReserveKg
          : recoveryFrom(crew, spec, flown.legs[leg], leg).fuelRequiredKg;
      if (Number.isNaN(requiredKg)) continue;
      const inHandKg = mark.fuelKg - requiredKg;
      const rate = plannedKg > leastInHandKg ? inHandKg / plannedKg : null;
      ofLeg.set(leg, (kg) => (kg === plannedKg ? inHandKg : rate === null ? null : rate * kg));
    }
    return ofLeg;
  }

  private fills(leg: number): boolean {
    const end = this.request.sortie.legs[leg].end;
    return end.kind === 'contact' && end.takeKg === 'full' && this.plan.refuellings[leg]?.endedBy === 'full';
  }

  /** Moments of the plan after one of it, counted from the leg that is flown there. */
  private marksAfter(planTimeS: number): Mark[] {
    const { events, trace } = this.plan;
    const { timeS, fuelKg, fuelRequiredKg } = trace.columns;
    const fromS = this.fromS(planTimeS);
    return marksOf(
      events.filter((event) => event.timeS > fromS && event.kind !== 'disconnect'),
      timeS,
      fuelKg,
      fuelRequiredKg,
    );
  }

  /** The same moments of the plan as it is flown when its decisions are held. */
  private heldMarks(planTimeS: number, lagM: number): ReadonlyMap<string, Mark> {
    const events = this.log.events.map((event) => ({ ...event, timeS: event.timeS - this.takeOffS }));
    const fromS = this.fromS(this.placeTime(planTimeS, lagM));
    const marks = marksOf(
      events.filter(({ timeS, kind }) => timeS > fromS && kind !== 'disconnect'),
      [],
      [],
      [],
    );
    return new Map(marks.map((mark) => [mark.key, mark]));
  }

  /** Where flying begins for a moment of the plan. */
  private fromS(planTimeS: number): number {
    const phase = this.phaseAt(planTimeS);
    return whole.includes(phase.kind) ? phase.endS - this.takeOffS - 1e-3 : planTimeS;
  }

  private anchorAt(timeS: number, leg: number): Anchor | undefined {
    const { anchors, columns } = this.log;
    return anchors.findLast(
      ({ node, progress }) => progress.leg === leg && columns.timeS[node] <= timeS + 1e-6,
    );
  }

  /** The state of the plan at a moment, on the track that it follows there. */
  private place(progress: Progress, route: Route, timeS: number): void {
    const { columns } = this.log;
    const value = (key: keyof Log['columns']): number => this.log.at(columns[key], timeS);
    const { state } = progress;
    const high = nodeFrom(columns.timeS, timeS);
    const unwrapped = (key: 'longitudeRad' | 'courseRad'): number => {
      const [from, to] = [columns[key][high - 1], columns[key][high]];
      const span = columns.timeS[high] - columns.timeS[high - 1];
      const part = span > 0 ? Math.min(1, Math.max(0, (timeS - columns.timeS[high - 1]) / span)) : 1;
      return from + part * wrapped(to - from);
    };
    state.latitudeRad = value('latitudeRad');
    state.longitudeRad = unwrapped('longitudeRad');
    state.headingRad = unwrapped('courseRad');
    state.pressureAltitudeM = value('pressureAltitudeM');
    state.trueAirspeedMS = value('trueAirspeedMS');
    state.pathAngleRad = Math.asin(Math.max(-1, Math.min(1, value('climbRateMS') / value('trueAirspeedMS'))));
    state.bankRad = 0;
    const { track, distanceM } = nearestTrack(route.tracks, progress.track, state, state.headingRad);
    progress.track = track;
    state.distanceM = distanceM;
  }
}

/** At the same Mach, in the air of a deviation over that of the plan. */
export function fasterIn(temperatureK: number, deviation: Deviation): number {
  return Math.sqrt(Math.max(0.5, 1 + deviation.temperatureK / temperatureK));
}

/** A moment of the leg that ends before anything can be flown on. */
function unreached({ kind, name, leg, timeS, fuelKg, inHandKg }: Mark): GateAhead {
  const plannedRequiredKg = inHandKg === null ? null : fuelKg - inHandKg;
  const planned = { planTimeS: timeS, plannedKg: fuelKg, plannedRequiredKg };
  return { kind, name, leg, ...planned, timeS: Number.NaN, fuelKg: Number.NaN, requiredKg: null };
}

/** For how long a margin is used up, linear between nodes [s]. */
export function beyondFor(timeS: readonly number[], margin: readonly number[]): number {
  let sum = 0;
  for (let i = 1; i < timeS.length; i++) {
    const [from, to] = [margin[i - 1], margin[i]];
    const span = timeS[i] - timeS[i - 1];
    if (from < 0 && to < 0) sum += span;
    else if (from < 0 || to < 0)
      sum += span * (Math.min(from, to) / (Math.min(from, to) - Math.max(from, to)));
  }
  return sum;
}

/** With less in hand in the plan a proportion of it says nothing. */
const leastInHandKg = 100;

function nearestTrack(
  tracks: readonly Line[],
  first: number,
  place: { readonly latitudeRad: number; readonly longitudeRad: number },
  courseRad: number,
): { readonly track: number; readonly distanceM: number } {
  let best = { track: first, distanceM: 0, offM: Number.POSITIVE_INFINITY };
  for (let track = first; track < tracks.length; track++) {
    const line = tracks[track];
    const { alongM, rightM } = line.offset(place);
    const beyondM = Math.max(0, -alongM, alongM - line.lengthM);
    const turned = Math.abs(wrapped(line.initialCourseRad - courseRad));
    // A track that leads another way is not the one, however near.
    const offM = Math.abs(rightM) + 0.2 * beyondM + (turned > Math.PI / 2 ? 1e6 : 0);
    if (offM < best.offM - 1) best = { track, distanceM: alongM, offM };
  }
  return best;
}

function wrapped(angleRad: number): number {
  return angleRad - 2 * Math.PI * Math.round(angleRad / (2 * Math.PI));
}
