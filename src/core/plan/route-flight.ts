/**
 * Flies phases along the route of a leg: turns where it has corners, and takes each phase up again after a turn. What is flown is
 * recorded where there is a log.
 */
import type { Air } from '../air/day.ts';
import { type Line, newLinePoint } from '../earth/line.ts';
import type { Flight } from '../flight/flight.ts';
import type { Moment } from '../flight/moment.ts';
import { constantMach, type SpeedLaw } from '../flight/speed-law.ts';
import type { FlightState } from '../flight/state.ts';
import type { AltitudeTable } from '../optimise/cruise-altitude.ts';
import { accelerate, turn, turnLead } from '../phases/index.ts';
import type { PhaseEnd, Power, Recorder, Stop, WatchedLimit } from '../phases/phase.ts';
import { copyProgress, type Log, newProgress, type Progress } from './log.ts';
import type { LegDecisions } from './plan.ts';
import { courseChange, type Route } from './route.ts';
import type { Leg, Sortie } from './sortie.ts';

/** What every leg of a sortie is flown with. */
export interface Crew {
  readonly flight: Flight;
  readonly sortie: Sortie;
  /** Best cruise altitude at a Mach, prepared once for each. */
  altitudes(mach: number): Pick<AltitudeTable, 'altitudeM'>;
  /** What it decides is not flown again: what only that needs is left out. */
  readonly once?: boolean;
  /** Decisions of a sortie like this one, leg by leg, near which its own are looked for. */
  readonly near?: readonly LegDecisions[];
}

/** null: the leg was flown to its end. */
export interface Stopped {
  /** 'thrust', 'fuel', 'route' or 'outside:...', as phases end. */
  readonly reason: string;
  readonly text: string;
  readonly phase: string;
}

/** Spacing of recorded nodes. */
export const climbEveryS = 20;
const turnEveryS = 30;
/** Below this change of course no turn is flown. */
export const leastTurnRad = 0.01;
/** Above this change a fly-by turn needs an unreasonable lead. */
const greatestTurnRad = 2.7;
/** Over a way this short to a turn the speed does not change what its lead is. */
const atOnceM = 2000;
/** Mach numbers are the same within this. */
export const machTolerance = 1e-4;
/** Mach gates that the log keeps, and those of them from which the rest is flown again for the fuel required. */
export const machGates = [0.9, 1.2, 1.5, 1.8, 2.1, 2.4, 2.7, 3.0, 3.3];
const anchorGates = [1.2, 1.5, 1.8, 2.1, 2.4, 2.7];

export function newDecisions(): LegDecisions {
  return { startDown: null, turns: [], pushover: null, climbToM: {}, takenKg: 0 };
}

export class RouteFlight {
  readonly decisions: LegDecisions;
  protected readonly crew: Crew;
  protected readonly leg: Leg;
  protected readonly route: Route;
  protected readonly held: LegDecisions | null;
  protected readonly log: Log | null;
  protected at: Progress = newProgress();
  protected phaseName = '';
  protected readonly lawSpeed = { trueAirspeedMS: 0.5, perLogPressure: 0.5, perLogTemperature: 0.5 };
  /** Limits not yet met on this leg; only a recorded flight watches them. */
  protected watched: WatchedLimit[];

  private lastGate: number | null = null;

  /** `held` are decisions to be kept instead of solved for; `log` records the flight. */
  constructor(crew: Crew, leg: Leg, route: Route, held: LegDecisions | null, log: Log | null) {
    this.crew = crew;
    this.leg = leg;
    this.route = route;
    this.held = held;
    this.log = log;
    this.decisions = held ?? newDecisions();
    const { pads } = crew.sortie;
    this.watched = (log?.limits ?? []).map((limit) => ({ limit, pad: pads[limit.key] ?? 0 }));
  }

  protected get near(): LegDecisions | undefined {
    const { leg } = this.at;
    return this.crew.sortie.legs[leg] === this.leg ? this.crew.near?.[leg] : undefined;
  }

  protected get state(): FlightState {
    return this.at.state;
  }

  protected get track() {
    return this.route.tracks[this.at.track];
  }

  protected get fuelKg(): number {
    return this.state.massKg - this.crew.flight.setup.zeroFuelMassKg;
  }

  /** The air here, as the flight along the track has it. */
  protected get air(): Air {
    const { flight } = this.crew;
    const { distanceM, pressureAltitudeM, timeS } = this.state;
    flight.placeOnTrack(this.track, distanceM, pressureAltitudeM, timeS);
    return flight.frame.air;
  }

  protected get mach(): number {
    return this.state.trueAirspeedMS / this.air.speedOfSoundMS;
  }

  /** Speed that a law asks for here. */
  protected speedOf(law: SpeedLaw): number {
    law.at(this.air, this.lawSpeed, this.state.massKg);
    return this.lawSpeed.trueAirspeedMS;
  }

  protected anchor(): void {
    this.log?.anchor(this.at);
  }

  protected recorder(everyS: number, gates?: (index: number, at: Moment) => void): Recorder | undefined {
    return this.log?.recorder(everyS, gates);
  }

  /** Runs one phase under a name, so that the log knows it. */
  protected phase<E extends PhaseEnd>(kind: string, name: string, run: () => E): E {
    this.phaseName = name;
    this.log?.beginPhase(kind, name, this.at.leg, this.state, this.fuelKg);
    const end = run();
    this.log?.endPhase(this.state, this.fuelKg);
    return end;
  }

  protected stopped(end: PhaseEnd): Stopped {
    return { reason: end.reason, text: end.text, phase: this.phaseName };
  }

  /**
   * Runs a phase again and again until it ends by one of its own stops: where a corner comes first, the turn is flown and the
   * phase taken up after it. `run` gets the stops to add; `goal` is where the speed goes. Null when the phase ended by its own stop.
   */
  protected along(
    run: (more: Stop[]) => PhaseEnd,
    own: (end: PhaseEnd) => boolean,
    goal: SpeedLaw | null = null,
  ): Stopped | null {
    for (;;) {
      const corner = this.at.track < this.route.corners.length ? this.turnPointM() : null;
      if (corner !== null && this.state.distanceM >= corner - 1) {
        const stopped = this.turn();
        if (stopped) return stopped;
        continue;
      }
      const until = corner === null ? null : this.lookAgainM(corner, goal);
      const end = run(until === null ? [] : [{ at: 'distance', distanceM: until }]);
      if (end.reason === 'distance' && until !== null && this.state.distanceM >= until - 1) continue;
      if (end.reason.startsWith('limit:')) {
        this.noteLimit(end);
        continue;
      }
      return own(end) ? null : this.stopped(end);
    }
  }

  /** A limit that was met is written down, and the flight goes on without watching it. */
  protected noteLimit(end: PhaseEnd): void {
    const key = end.reason.slice('limit:'.length);
    this.watched = this.watched.filter((watched) => watched.limit.key !== key);
    this.log?.event('limit', key, this.state.timeS, this.fuelKg);
  }

  /** How far a turn that begins at `corner` at the speed here can be left alone: the faster aircraft turns earlier. */
  private lookAgainM(corner: number, goal: SpeedLaw | null): number {
    if (goal === null || this.held?.turns[this.at.track]) return corner;
    const { distanceM } = this.state;
    const fast = Math.min(corner, this.turnPointM(goal));
    if (fast > distanceM + 1) return fast;
    return corner - distanceM < atOnceM ? corner : (corner + distanceM) / 2;
  }

  /** Where the present track has to be left for the next turn, a little early; the turn flies on to its own lead point. */
  protected turnPointM(law = this.turnLaw()): number {
    const corner = this.route.cornersM[this.at.track];
    const held = this.held?.turns[this.at.track];
    if (held) return corner - held.leadM;
    const { bankRad } = this.route.corners[this.at.track];
    const next = this.route.tracks[this.at.track + 1];
    const options = { law, bankRad, cornerM: corner };
    return corner - turnLead(this.crew.flight, this.state, this.track, next, options) - 1000;
  }

  protected turn(): Stopped | null {
    const index = this.at.track;
    const corner = this.route.corners[index];
    const cornerM = this.route.cornersM[index];
    const from = this.track;
    const to = this.route.tracks[index + 1];
    const change = courseChange(from, cornerM, to);
    if (Math.abs(change) > greatestTurnRad) {
      const degrees = Math.round((Math.abs(change) * 180) / Math.PI);
      return {
        reason: 'route',
        text: `the turn at ${corner.name} is ${degrees} deg; more than 155 needs a further waypoint`,
        phase: 'turn',
      };
    }
    if (Math.abs(change) < leastTurnRad) {
      this.state.distanceM -= cornerM;
      this.at.track++;
      return null;
    }
    const { flight } = this.crew;
    const law = this.turnLaw();
    const startS = this.state.timeS;
    const mach = this.mach;
    const fuel = this.fuelKg;
    const result = this.phase('turn', `Turn at ${corner.name}`, () =>
      turn(flight, this.state, from, to, {
        law,
        bankRad: corner.bankRad,
        cornerM,
        held: this.held?.turns[index] ?? undefined,
        near: this.near?.turns[index] ?? undefined,
        recorder: this.recorder(turnEveryS),
      }),
    );
    if (result.reason !== 'rolledOut') return this.stopped(result);
    this.at.track++;
    if (!this.held) this.decisions.turns[index] = result.solution;
    if (corner.kind === 'waypoint') this.log?.event('waypoint', corner.name, startS, fuel);
    this.log?.turns.push({
      name: corner.name,
      leg: this.at.leg,
      startS,
      rollInS: this.state.timeS - result.timeS,
      endS: this.state.timeS,
      mach,
      bankDeg: (result.bankRad * 180) / Math.PI,
      radiusM: result.radiusM,
      leadM: result.leadM,
      courseFromDeg: courseDeg(from, cornerM),
      courseToDeg: courseDeg(to, 0),
      fuelKg: result.fuelKg,
      rollOutM: result.rollOutM,
      bankLimitedBy: result.bankLimitedBy,
    });
    return null;
  }

  /** A turn is flown at the Mach (or, subsonic, the calibrated airspeed) that it is begun with. */
  protected turnLaw(): SpeedLaw {
    const mach = this.mach;
    return constantMach(mach);
  }

  /** Level, to the speed that a law asks for, which `met` says is reached. */
  protected toSpeed(law: SpeedLaw, met: Stop, power: Power, goal: string): Stopped | null {
    const difference = this.speedOf(law) - this.state.trueAirspeedMS;
    if (Math.abs(difference) < 0.5) return null;
    const kind = difference > 0 ? 'acceleration' : 'deceleration';
    const name = `${difference > 0 ? 'Acceleration' : 'Deceleration'} to ${goal}`;
    const gates = this.gatesTo(this.speedOf(law) / this.air.speedOfSoundMS);
    const stopped = this.along(
      (more) =>
        this.phase(kind, name, () =>
          accelerate(this.crew.flight, this.state, this.track, {
            power: difference > 0 ? power : 'idle',
            stops: [met, ...more],
            limits: this.watched,
            gates: gates.map((mach) => ({ at: 'mach', mach })),
            recorder: this.recorder(climbEveryS, (index, at) => this.gate(gates[index], at, at.fuelKg)),
          }),
        ),
      (end) => end.stop === 0,
      law,
    );
    if (!stopped) this.gateHere();
    return stopped;
  }

  protected toMach(mach: number, power: Power): Stopped | null {
    const law = constantMach(mach);
    return this.toSpeed(law, { at: 'mach', mach }, power, law.title);
  }

  /** The gates from the Mach here to another; none on the way to the same, which rounding would meet again and again. */
  protected gatesTo(mach: number): number[] {
    if (!this.log || Math.abs(this.mach - mach) <= machTolerance) return [];
    const [low, high] = this.mach < mach ? [this.mach, mach] : [mach, this.mach];
    return machGates.filter((gate) => gate >= low - machTolerance && gate <= high + machTolerance);
  }

  /** A gate where a phase ended. */
  protected gateHere(): void {
    const gate = machGates.find((mach) => Math.abs(mach - this.mach) <= machTolerance);
    if (gate !== undefined) this.gate(gate, this.state, this.fuelKg);
  }

  /** A Mach that is held is met again and again: it counts once. */
  protected gate(mach: number, at: Readonly<FlightState>, fuelKg: number): void {
    const log = this.log;
    if (!log || mach === this.lastGate) return;
    this.lastGate = mach;
    log.event('gate', `M ${mach.toFixed(1)}`, at.timeS, fuelKg);
    if (!anchorGates.includes(mach)) return;
    const anchor = newProgress();
    copyProgress({ ...this.at, state: at }, anchor);
    log.anchor(anchor);
  }
}

function courseDeg(track: Line, distanceM: number): number {
  const point = newLinePoint();
  track.at(distanceM, point);
  return ((point.courseRad * 180) / Math.PI + 360) % 360;
}
