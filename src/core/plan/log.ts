/** What a recorded flight leaves behind: moments in flat columns, phases, events, and the places to fly on from. */

import type { Limit } from '../aircraft/aircraft.ts';
import { radiusOnCourse } from '../earth/ellipsoid.ts';
import type { Moment } from '../flight/moment.ts';
import { copyState, type FlightState, newState } from '../flight/state.ts';
import type { Recorder } from '../phases/phase.ts';
import type { Capture, PlanEvent, PlanPhase, Turn } from './plan.ts';

/** Numbers kept of each moment, in this order. */
const KEPT = [
  'timeS', 'latitudeRad', 'longitudeRad', 'courseRad', 'pressureAltitudeM', 'geometricHeightM', 'energyHeightM', 'mach',
  'trueAirspeedMS', 'equivalentAirspeedMS', 'calibratedAirspeedMS', 'groundSpeedMS', 'staticTemperatureK',
  'temperatureOffsetK', 'indicatedInletTemperatureK', 'tailwindMS', 'windFromLeftMS', 'massKg', 'fuelKg', 'fuelFlowKgS',
  'power', 'thrustN', 'dragN', 'angleOfAttackRad', 'loadFactor', 'bankRad', 'cgFraction', 'climbRateMS',
] as const; // biome-ignore format: a table
export type Kept = (typeof KEPT)[number];

/** Where a flight stands: enough to fly on from here. */
export interface Progress {
  readonly state: FlightState;
  leg: number;
  step: number;
  track: number;
}

export function newProgress(): Progress {
  return { state: newState(), leg: 0, step: 0, track: 0 };
}

export function copyProgress(from: Readonly<Progress>, to: Progress): void {
  copyState(from.state, to.state);
  to.leg = from.leg;
  to.step = from.step;
  to.track = from.track;
}

/** The same place and leg so much later. */
export function laterProgress(from: Readonly<Progress>, byS: number): Progress {
  const to = newProgress();
  copyProgress(from, to);
  to.state.timeS += byS;
  return to;
}

/** An open phase, before it ends. */
interface OpenPhase {
  readonly kind: string;
  readonly name: string;
  readonly leg: number;
  readonly startS: number;
  readonly startDistanceM: number;
  readonly startFuelKg: number;
}

/** A place on the way from which the rest can be flown anew. */
export interface Anchor {
  readonly node: number;
  readonly progress: Progress;
}

/** Speed of the foot point on the ellipsoid [m/s]: less than that at height by R / (R + h), as distances on a chart are. */
function footSpeedMS({ groundSpeedMS, geometricHeightM, latitudeRad, courseRad }: Moment): number {
  const radius = radiusOnCourse(Math.sin(latitudeRad) ** 2, courseRad);
  return (groundSpeedMS * radius) / (radius + geometricHeightM);
}

/** The first node from a time on, between the second and the last. */
export function nodeFrom(times: readonly number[], timeS: number): number {
  let [low, high] = [1, times.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle] < timeS) low = middle + 1;
    else high = middle;
  }
  return high;
}

type Moments = 'columns' | 'distanceM' | 'phaseOf' | 'margins' | 'bounds';

export class Log {
  readonly columns: Record<Kept, number[]>;
  /** Over the ellipsoid since take-off. */
  readonly distanceM: number[] = [];
  readonly phaseOf: number[] = [];
  readonly margins: Record<string, number[]> = {};
  readonly bounds: Record<string, number[]> = {};
  readonly phases: PlanPhase[] = [];
  readonly events: PlanEvent[] = [];
  readonly turns: Turn[] = [];
  readonly captures: Capture[] = [];
  readonly anchors: Anchor[] = [];
  private open: OpenPhase | null = null;
  private footSpeedMS = 0;
  /** Those whose margins it keeps, and which a flight that it records watches. */
  readonly limits: readonly Limit[];

  constructor(limits: readonly Limit[]) {
    this.limits = limits;
    this.columns = Object.fromEntries(KEPT.map((key) => [key, []])) as unknown as Record<Kept, number[]>;
    for (const limit of limits) {
      this.margins[limit.key] = [];
      this.bounds[limit.key] = [];
    }
  }

  /** A column at a time, linear between nodes. */
  at(column: readonly number[], timeS: number): number {
    const times = this.columns.timeS;
    const high = nodeFrom(times, timeS);
    const span = times[high] - times[high - 1];
    const part = span > 0 ? Math.min(Math.max((timeS - times[high - 1]) / span, 0), 1) : 0;
    return column[high - 1] + part * (column[high] - column[high - 1]);
  }

  /** Speed of the foot point on the ellipsoid at a time [m/s], from the distances of the nodes beside it. */
  footSpeedAt(timeS: number): number {
    const times = this.columns.timeS;
    let high = nodeFrom(times, timeS);
    while (high < times.length - 1 && times[high] - times[high - 1] < 1e-6) high++;
    return (this.distanceM[high] - this.distanceM[high - 1]) / (times[high] - times[high - 1]);
  }

  /** Distance flown at the next contact after a time, or at the end [m]. */
  endOfLegM(timeS: number): number {
    const contact = this.events.find((event) => event.kind === 'contact' && event.timeS >= timeS - 1e-6);
    return contact ? this.at(this.distanceM, contact.timeS) : this.distanceM[this.nodes - 1];
  }

  get nodes(): number {
    return this.distanceM.length;
  }

  last(key: Kept): number {
    const column = this.columns[key];
    return column[column.length - 1];
  }

  get travelledM(): number {
    return this.nodes === 0 ? 0 : this.distanceM[this.nodes - 1];
  }

  /** A recorder that keeps a node at least each `everyS` seconds. `gates` are named by the caller. */
  recorder(everyS: number, onGate?: (index: number, at: Moment) => void): Recorder {
    return {
      everyS,
      moment: (at) => this.keep(at),
      gate: (index, at) => {
        this.keep(at);
        onGate?.(index, at);
      },
    };
  }

  /** Appends a node, unless it repeats the last one to the letter of its phase. */
  keep(at: Moment): void {
    const n = this.nodes;
    const phase = this.phases.length;
    if (n > 0 && at.timeS - this.columns.timeS[n - 1] < 1e-6 && this.phaseOf[n - 1] === phase) return;
    let distance = 0;
    const footSpeed = footSpeedMS(at);
    if (n > 0) {
      const dt = at.timeS - this.columns.timeS[n - 1];
      distance = this.distanceM[n - 1] + 0.5 * dt * (this.footSpeedMS + footSpeed);
    }
    this.footSpeedMS = footSpeed;
    this.distanceM.push(distance);
    this.phaseOf.push(phase);
    for (const key of KEPT) this.columns[key].push(at[key]);
    for (const limit of this.limits) {
      const value = limit.value(at.limitInputs);
      const bound = limit.bound(at.limitInputs);
      this.bounds[limit.key].push(bound);
      this.margins[limit.key].push(limit.side === 'upper' ? bound - value : value - bound);
    }
  }

  beginPhase(kind: string, name: string, leg: number, state: Readonly<FlightState>, fuelKg: number): void {
    const last = this.phases[this.phases.length - 1];
    if (last?.kind === kind && last.name === name && last.leg === leg && state.timeS - last.endS < 1e-6) {
      this.phases.pop();
      this.open = {
        kind,
        name,
        leg,
        startS: last.startS,
        startDistanceM: this.travelledM - last.distanceM,
        startFuelKg: fuelKg + last.fuelKg,
      };
      return;
    }
    this.open = {
      kind,
      name,
      leg,
      startS: state.timeS,
      startDistanceM: this.travelledM,
      startFuelKg: fuelKg,
    };
  }

  /** Closes the open phase; one that took no time leaves no trace. */
  endPhase(state: Readonly<FlightState>, fuelKg: number): void {
    const open = this.open;
    if (open === null) return;
    this.open = null;
    if (state.timeS - open.startS < 1e-3) {
      this.dropNodes(this.phases.length);
      return;
    }
    this.phases.push({
      kind: open.kind,
      name: open.name,
      leg: open.leg,
      startS: open.startS,
      endS: state.timeS,
      distanceM: this.travelledM - open.startDistanceM,
      fuelKg: open.startFuelKg - fuelKg,
    });
  }

  private dropNodes(phase: number): void {
    while (this.nodes > 0 && this.phaseOf[this.nodes - 1] === phase) {
      this.distanceM.pop();
      this.phaseOf.pop();
      for (const key of KEPT) this.columns[key].pop();
      for (const limit of this.limits) {
        this.bounds[limit.key].pop();
        this.margins[limit.key].pop();
      }
    }
  }

  event(kind: string, name: string, timeS: number, fuelKg: number): void {
    this.events.push({ kind, name, timeS, fuelKg });
  }

  /** What was written before the contact that ends a leg: a log that goes on from there. */
  beforeContact(leg: number): Log {
    const contact = this.phases.findIndex((phase) => phase.leg === leg && phase.kind === 'contact');
    const phases = contact < 0 ? this.phases.length : contact;
    const after = this.phaseOf.findIndex((phase) => phase >= phases);
    const nodes = after < 0 ? this.nodes : after;
    const contacts = this.events.flatMap(({ kind }, i) => (kind === 'contact' ? [i] : []));
    return this.copied({
      phases: this.phases.slice(0, phases),
      ...this.moments((column) => column.slice(0, nodes)),
      events: this.events.slice(0, contacts[leg]),
      turns: this.turns.filter((turn) => turn.leg <= leg),
      captures: this.captures.filter((capture) => capture.leg <= leg),
      anchors: this.anchors.filter(({ progress }) => progress.leg <= leg),
    });
  }

  /** The same flight so much later. */
  later(byS: number): Log {
    return this.copied({
      ...this.moments((column) => column),
      columns: { ...this.columns, timeS: this.columns.timeS.map((time) => time + byS) },
      phases: this.phases.map((phase) => ({
        ...phase,
        startS: phase.startS + byS,
        endS: phase.endS + byS,
      })),
      events: this.events.map((event) => ({ ...event, timeS: event.timeS + byS })),
      turns: this.turns.map((turn) => ({
        ...turn,
        startS: turn.startS + byS,
        rollInS: turn.rollInS + byS,
        endS: turn.endS + byS,
      })),
      captures: this.captures.map((capture) => ({ ...capture, timeS: capture.timeS + byS })),
      anchors: this.anchors.map(({ node, progress }) => ({ node, progress: laterProgress(progress, byS) })),
    });
  }

  private moments(of: (column: number[]) => number[]): Pick<Log, Moments> {
    const each = <K extends string>(columns: Record<K, number[]>) =>
      Object.fromEntries(
        Object.entries<number[]>(columns).map(([key, column]) => [key, of(column)]),
      ) as Record<K, number[]>;
    return {
      columns: each(this.columns),
      distanceM: of(this.distanceM),
      phaseOf: of(this.phaseOf),
      margins: each(this.margins),
      bounds: each(this.bounds),
    };
  }

  private copied(parts: Pick<Log, Moments | 'phases' | 'events' | 'turns' | 'captures' | 'anchors'>): Log {
    return Object.assign(new Log(this.limits), parts);
  }

  /** Remembers the place of the last node as one to fly on from. */
  anchor(progress: Readonly<Progress>): void {
    const copy = newProgress();
    copyProgress(progress, copy);
    this.anchors.push({ node: Math.max(0, this.nodes - 1), progress: copy });
  }
}

/** Phases and events alone: what a crew marks on the way, without moments and limits. */
export class EventLog extends Log {
  constructor(events: readonly PlanEvent[] = []) {
    super([]);
    this.events.push(...events);
  }

  override recorder(_everyS: number, onGate?: (index: number, at: Moment) => void): Recorder {
    return { everyS: Number.POSITIVE_INFINITY, gate: (index, at) => onGate?.(index, at) };
  }
}
