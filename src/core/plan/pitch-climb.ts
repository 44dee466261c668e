/**
 * The pitch to hold in each stretch of a supersonic climb: from the schedule at one Mach a pitch attitude is held, to a tenth of a
 * degree, until another; where the speed drifts too far off the schedule the stretch is made shorter.
 */
import type { Flight } from '../flight/flight.ts';
import type { Moment } from '../flight/moment.ts';
import type { SpeedLaw } from '../flight/speed-law.ts';
import { holdPitch } from '../phases/hold-pitch.ts';
import type { Recorder } from '../phases/phase.ts';
import { type AccelerationSteps, accelerationSteps, stateAt } from './acceleration-start.ts';
import type { Draft } from './draft.ts';
import { climbLaw } from './leg-flyer.ts';
import type { Log } from './log.ts';
import type { PitchRow, PitchTable } from './plan.ts';
import { climbNodes, kindOf, reached } from './tables.ts';

const degrees = 180 / Math.PI;
/** 10 kt: what is held by eye (common practice). */
const DRIFT_MS = 5.14444;
const LONGEST_MACH = 0.3;
/** A stretch is halved no further than this. */
const SHORTEST_MACH = 0.075;
/** Read off an attitude indicator. */
const PITCH_STEP_RAD = 0.1 / degrees;
/** A schedule whose pitch half way is off that of both ends by more than this is not flown at one pitch. */
const BEND_RAD = 0.25 / degrees;
const EVERY_S = 15;
/** A stretch that takes so many times as long as the schedule will not end. */
const LONGEST_TIMES = 1.5;

/** One table for each supersonic climb that was flown. */
export function pitchesOf(drafted: Draft): PitchTable[] {
  const { crew, log } = drafted;
  return crew.sortie.legs.flatMap(({ name }, leg) => {
    const steps = accelerationSteps(drafted, leg);
    const nodes = steps ? climbNodes(log, leg) : [];
    if (!steps || nodes.length < 2) return [];
    const rows = new Stretches(drafted, leg, nodes, steps).rows();
    return rows.length === 0 ? [] : [{ leg, name, driftMS: DRIFT_MS, rows }];
  });
}

class Stretches {
  private readonly drafted: Draft;
  private readonly flight: Flight;
  private readonly log: Log;
  private readonly leg: number;
  private readonly power: number;
  private readonly law: SpeedLaw;
  /** Of the climb card. */
  private readonly startS: number;
  /** Of the climb on its law alone. */
  private readonly nodes: readonly number[];
  private readonly schedule: Schedule;
  private readonly known = new Map<number, Balanced | null>();

  constructor(drafted: Draft, leg: number, nodes: readonly number[], { climb }: AccelerationSteps) {
    const { log, crew } = drafted;
    this.drafted = drafted;
    this.flight = crew.flight;
    this.log = log;
    this.leg = leg;
    this.power = climb.power;
    this.law = climbLaw(climb);
    this.startS = log.columns.timeS[nodes[0]];
    const phases = nodes.filter((node) => kindOf(log, node) === 'climb');
    const last = log.phaseOf[phases[phases.length - 1]];
    this.nodes = phases.filter((node) => log.phases[log.phaseOf[node]].name === log.phases[last].name);
    this.schedule = new Schedule(log, this.nodes);
  }

  rows(): PitchRow[] {
    const { mach } = this.log.columns;
    const { nodes } = this;
    if (nodes.length < 2) return [];
    const [first, last] = [mach[nodes[0]], mach[nodes[nodes.length - 1]]];
    const rows: PitchRow[] = [];
    let from = first;
    while (from < last - 1e-3) {
      const row = this.from(from, last);
      if (row === null) break;
      rows.push(row);
      from = row.toMach;
    }
    return rows;
  }

  /** The longest stretch from a Mach that keeps to its speed; the shortest whether it does or not. */
  private from(fromMach: number, lastMach: number): PitchRow | null {
    for (let length = LONGEST_MACH; ; length /= 2) {
      const next = Math.round((fromMach + length) / SHORTEST_MACH) * SHORTEST_MACH;
      const toMach = lastMach - next < SHORTEST_MACH / 2 ? lastMach : Math.min(next, lastMach);
      const shortest = length / 2 < SHORTEST_MACH - 1e-9;
      if (!shortest && this.bends(fromMach, toMach)) continue;
      const row = this.row(fromMach, toMach);
      const kept = row !== null && Math.max(-row.slowestMS, row.fastestMS) <= DRIFT_MS;
      if (kept || shortest) return row;
    }
  }

  /** Whether the schedule's pitch half way is off that of both ends. */
  private bends(fromMach: number, toMach: number): boolean {
    const machs = [fromMach, (fromMach + toMach) / 2, toMach];
    const [from, middle, to] = machs.map((mach) => this.balanced(mach));
    if (!from || !middle || !to) return false;
    return Math.abs(middle.pitchRad - (from.pitchRad + to.pitchRad) / 2) > BEND_RAD;
  }

  private row(fromMach: number, toMach: number): PitchRow | null {
    const { log, flight, power, leg } = this;
    const start = this.balanced(fromMach);
    const end = this.balanced(toMach);
    const there = start && stateAt(this.drafted, leg, start.timeS);
    if (!start || !end || !there || !(end.timeS > start.timeS)) return null;
    const [fromS, toS] = [start.timeS, end.timeS];
    const pitchRad = Math.round((start.pitchRad + end.pitchRad) / 2 / PITCH_STEP_RAD) * PITCH_STEP_RAD;
    const { state, track } = there;
    state.trueAirspeedMS = start.speedMS;
    const drift = new Drift(this.schedule);
    const held = holdPitch(flight, state, track, {
      pitchRad,
      power,
      stops: [
        { at: 'mach', mach: toMach },
        { at: 'time', timeS: fromS + LONGEST_TIMES * (toS - fromS) },
      ],
      recorder: drift,
    });
    if (held.stop < 0) return null;
    return {
      fromMach,
      toMach,
      pitchDeg: pitchRad * degrees,
      angleOfAttackDeg: start.angleRad * degrees,
      timeS: fromS - this.drafted.crew.sortie.takeOff.timeS,
      sinceStartS: fromS - this.startS,
      durationS: state.timeS - fromS,
      fromPressureAltitudeM: log.at(log.columns.pressureAltitudeM, fromS),
      toPressureAltitudeM: state.pressureAltitudeM,
      slowestMS: drift.slowestMS,
      fastestMS: drift.fastestMS,
      highM: drift.highM,
    };
  }

  /** The climb on its law in balance where it reaches a Mach; null where it does not. */
  private balanced(mach: number): Balanced | null {
    const known = this.known.get(mach);
    if (known !== undefined) return known;
    const found = this.balance(mach);
    this.known.set(mach, found);
    return found;
  }

  private balance(mach: number): Balanced | null {
    const timeS = reached(this.log, this.nodes, mach);
    const there = timeS === null ? null : stateAt(this.drafted, this.leg, timeS);
    if (timeS === null || there === null) return null;
    const { flight } = this;
    const { state, track } = there;
    flight.placeOnTrack(track, state.distanceM, state.pressureAltitudeM, timeS);
    flight.climbInBalance(this.law, state.massKg, this.power);
    const { angleRad } = flight.forces;
    const pitchRad = Math.asin(flight.frame.sinPath) + angleRad;
    return { timeS, speedMS: flight.speedMS, angleRad, pitchRad };
  }
}

interface Balanced {
  readonly timeS: number;
  readonly speedMS: number;
  readonly angleRad: number;
  readonly pitchRad: number;
}

/** What the climb has at a Mach and at a time, linear between the nodes of its law. */
class Schedule {
  private readonly log: Log;
  private readonly nodes: readonly number[];

  constructor(log: Log, nodes: readonly number[]) {
    this.log = log;
    this.nodes = nodes;
  }

  speedAtMach(mach: number): number {
    const { log, nodes } = this;
    const { columns } = log;
    const last = nodes[nodes.length - 1];
    const timeS = reached(log, nodes, mach);
    if (timeS !== null) return log.at(columns.equivalentAirspeedMS, timeS);
    const node = mach > columns.mach[last] ? last : nodes[0];
    return columns.equivalentAirspeedMS[node];
  }

  heightAt(timeS: number): number {
    const { log, nodes } = this;
    const { columns } = log;
    const lastS = columns.timeS[nodes[nodes.length - 1]];
    return log.at(columns.pressureAltitudeM, Math.min(timeS, lastS));
  }
}

/** How far a flight goes off a schedule. */
class Drift implements Recorder {
  readonly everyS = EVERY_S;
  slowestMS = 0;
  fastestMS = 0;
  highM = 0;
  private readonly schedule: Schedule;

  constructor(schedule: Schedule) {
    this.schedule = schedule;
  }

  moment({ mach, timeS, equivalentAirspeedMS, pressureAltitudeM }: Moment): void {
    const faster = equivalentAirspeedMS - this.schedule.speedAtMach(mach);
    this.slowestMS = Math.min(this.slowestMS, faster);
    this.fastestMS = Math.max(this.fastestMS, faster);
    const higher = pressureAltitudeM - this.schedule.heightAt(timeS);
    if (Math.abs(higher) > Math.abs(this.highM)) this.highM = higher;
  }
}
