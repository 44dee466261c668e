/** The planner's worker: files in memory, what was read of them kept, and plans reported stage by stage. */
import * as Comlink from 'comlink';
import { dirname, resolve } from 'pathe';
import packageFile from '../../package.json';
import type { Answer } from '../core/airborne/answer.ts';
import type { Entry } from '../core/airborne/reading.ts';
import type { Aircraft } from '../core/aircraft/aircraft.ts';
import type { CurvesAt } from '../core/aircraft/curves.ts';
import type { LegAcceleration } from '../core/plan/acceleration.ts';
import type { PlanRequest } from '../core/plan/draft.ts';
import { makePlan, planning } from '../core/plan/make-plan.ts';
import type { ManoeuvreQuestion } from '../core/plan/manoeuvre-question.ts';
import type { Plan, PlanInput, PlanSurprises, ReachArea, Surprise, TankerMatrix } from '../core/plan/plan.ts';
import { CannotPlan } from '../core/plan/sortie-flyer.ts';
import type { DeckReport } from '../files/deck.ts';
import { type Fault, Faults } from '../files/faults.ts';
import { fingerprintOf, sha256 } from '../files/fingerprint.ts';
import type { WeatherWindow } from '../files/grid-file.ts';
import { asSaid, type ReadDay, readAircraft, readAreasOf, readDay } from '../files/plan-request.ts';
import { compileSortie, type ReadSortie, readSortieFile } from '../files/sortie.ts';
import { reachOf } from '../files/sortie-reach.ts';
import { sortieJsonSchema } from '../files/sortie-schema.ts';
import { type Changes, changesFrom } from './changes.ts';
import { putFile } from './disk.ts';
import type { Flying, FollowedOn, SlopesAt } from './views/airborne/flying.ts';
import type { DeckLook } from './views/aircraft/deck-look.ts';
import type { BalanceLook } from './views/balance/balance-look.ts';
import type { ManoeuvreLook } from './views/manoeuvre/manoeuvre-look.ts';
import type { ColumnAt, WeatherHeld, WeatherLook } from './views/weather/weather-look.ts';

const program = `${packageFile.name} ${packageFile.version}`;

/** Why a text cannot be planned. */
export interface Refused {
  readonly faults: readonly Fault[];
}

interface KeptDay {
  readonly key: string;
  readonly reach: WeatherWindow;
  readonly day: ReadDay;
}

export class Desk {
  private readonly decks = new Map<string, ReturnType<typeof readAircraft>>();
  private readonly looks = new Map<string, DeckReport>();
  private readonly held = new Map<string, WeatherHeld>();
  private day: KeptDay | null = null;
  private asked = 0;
  private flight: Flying | null = null;
  private planned: { readonly request: PlanRequest; readonly plan: Plan } | null = null;

  put(files: ReadonlyMap<string, Uint8Array<ArrayBuffer>>): void {
    for (const [path, bytes] of files) putFile(path, bytes);
    this.decks.clear();
    this.looks.clear();
    this.held.clear();
    this.day = null;
  }

  /** The JSON Schema of a sortie. */
  sortieSchema(): object {
    return sortieJsonSchema();
  }

  /** The deck in a folder, its check, and its curves at a point; `name` is what messages call it. */
  async lookAtDeck(folder: string, name: string, at: Partial<CurvesAt>): Promise<DeckLook> {
    const { lookAtDeck } = await import('./views/aircraft/deck-look.ts');
    return lookAtDeck(folder, name, at, this.looks);
  }

  /** The air above a place on the day of a sortie, and what its weather file holds; null where the text has faults. */
  async lookAtWeather(path: string, text: string, at: ColumnAt): Promise<WeatherLook | null> {
    const { lookAtWeather } = await import('./views/weather/weather-look.ts');
    const faults = new Faults();
    const read = readSortieFile(text, path, faults);
    const day = read && (await this.dayOf(read, dirname(path), faults));
    return read && day && lookAtWeather(read, day, dirname(path), at, this.held);
  }

  /** The balance of a sortie's aircraft at a Mach, with the fuel of the day; null where the text has faults. */
  async lookAtBalance(path: string, text: string, mach: number): Promise<BalanceLook | null> {
    const { lookAtBalance } = await import('./views/balance/balance-look.ts');
    const request = await this.request(path, text);
    return 'faults' in request ? null : lookAtBalance(request, mach);
  }

  /** A manoeuvre of a sortie judged, and the table at its height and speed; null where the text has faults. */
  async lookAtManoeuvre(
    path: string,
    text: string,
    question: ManoeuvreQuestion,
  ): Promise<ManoeuvreLook | null> {
    const { lookAtManoeuvre } = await import('./views/manoeuvre/manoeuvre-look.ts');
    const request = await this.request(path, text);
    return 'faults' in request ? null : lookAtManoeuvre(request, question);
  }

  /** How to go through the drag rise of a sortie; null where the text cannot be planned. */
  async accelerationOf(path: string, text: string): Promise<readonly LegAcceleration[] | null> {
    const { accelerationOf } = await import('../core/plan/acceleration.ts');
    const request = await this.request(path, text);
    if ('faults' in request) return null;
    try {
      return accelerationOf(request);
    } catch (error) {
      if (error instanceof CannotPlan) return null;
      throw error;
    }
  }

  /** The tanker matrix of a sortie with every pair of troubles; null where the text cannot be planned. */
  async tankerPairs(path: string, text: string): Promise<TankerMatrix | null> {
    const { tankerMatrix } = await import('../core/plan/tanker-cases.ts');
    const request = await this.request(path, text);
    if ('faults' in request) return null;
    try {
      return tankerMatrix(request, { pairs: true });
    } catch (error) {
      if (error instanceof CannotPlan) return null;
      throw error;
    }
  }

  /** What is being planned is not wanted any more. */
  giveUp(): void {
    this.asked++;
  }

  /** Plans a text as if it were the file at a path, and reports each stage; ends early where it is given up. */
  async plan(path: string, text: string, report: (changes: Changes) => void): Promise<Refused | null> {
    this.asked++;
    const mine = this.asked;
    const request = await this.request(path, text);
    if ('faults' in request) return request;
    try {
      let before: Plan | null = null;
      for (const stage of planning(request)) {
        if (mine !== this.asked) return null;
        if (stage !== null) {
          report(changesFrom(before, stage));
          before = stage.plan;
          this.planned = { request, plan: stage.plan };
        }
        await breath();
      }
      return null;
    } catch (error) {
      if (error instanceof CannotPlan) return { faults: [faultOf(path, error.message)] };
      throw error;
    }
  }

  /** Flies a part of the plan that was made last, for the case that something goes otherwise; null where it was given up for another plan. */
  async surprise(part: Surprise): Promise<Partial<PlanSurprises> | null> {
    if (this.planned === null) return null;
    const mine = this.asked;
    const { request, plan } = this.planned;
    const { surprising } = await import('../core/plan/surprises.ts');
    const work = surprising(part, request, plan);
    for (let step = work.next(); ; step = work.next()) {
      if (mine !== this.asked) return null;
      if (step.done) return step.value;
      await breath();
    }
  }

  /** What is in reach from a moment of a sortie; null where its text cannot be planned, or it was given up for another. */
  async areasInReach(path: string, text: string, timeS: number): Promise<readonly ReachArea[] | null> {
    const mine = this.asked;
    const request = await this.request(path, text);
    if ('faults' in request) return null;
    const { flyingAreas } = await import('../core/plan/reach-area.ts');
    const { askedOf } = await import('../core/plan/reach-asked.ts');
    const plan = this.planFor(request);
    const start = plan && askedOf(request, plan);
    if (!start) return null;
    const work = flyingAreas(start, timeS);
    for (let step = work.next(); ; step = work.next()) {
      if (step.done) return step.value;
      if (mine !== this.asked) return null;
      await breath();
    }
  }

  /** Makes a flight ready to be flown on; the slopes of its deck, null where the sortie that made its plan is not at hand. */
  async beginFlight(path: string, text: string, plan: Plan): Promise<SlopesAt | null> {
    const { Flying } = await import('./views/airborne/flying.ts');
    const request = text === '' ? 'its sortie is not open' : await this.request(path, text);
    const found = typeof request === 'object' && 'faults' in request ? 'its sortie has faults now' : request;
    this.flight = new Flying(plan, found);
    return this.flight.slopes;
  }

  /** What follows from an answer of the flight that was made ready; null where that is another one. */
  async follow(fingerprint: string, answer: Answer, readings: readonly Entry[]): Promise<FollowedOn | null> {
    const { flight } = this;
    if (flight?.plan.fingerprint !== fingerprint) return null;
    const work = flight.follow(answer, readings);
    for (let step = work.next(); ; step = work.next()) {
      if (step.done) return step.value;
      await breath();
    }
  }

  /** The plan that was made last where it is of this request; otherwise it is made: the page may show one that it was given. */
  private planFor(request: PlanRequest): Plan | null {
    if (this.planned?.request.fingerprint === request.fingerprint) return this.planned.plan;
    try {
      const plan = makePlan(request);
      this.planned = { request, plan };
      return plan;
    } catch (error) {
      if (error instanceof CannotPlan) return null;
      throw error;
    }
  }

  private async request(path: string, text: string): Promise<PlanRequest | Refused> {
    const faults = new Faults();
    const folder = dirname(path);
    const read = readSortieFile(text, path, faults);
    if (!read) return { faults: faults.faults };
    const { aircraft, sha256: deckSha256 } = this.deck(
      resolve(folder, read.file.aircraft.deck),
      read,
      faults,
    );
    const weather = await this.dayOf(read, folder, faults);
    const { areas, inputs: areaInputs } = readAreasOf(read, folder, faults);
    const sortie = aircraft && compileSortie(read, aircraft, weather?.run ?? null, faults, areas);
    if (faults.faults.length > 0 || !sortie || !aircraft || !weather) return { faults: faults.faults };
    const inputs: PlanInput[] = [
      { role: 'sortie', name: path, sha256: sha256(text) },
      { role: 'deck', name: read.file.aircraft.deck, sha256: deckSha256 },
      ...weather.inputs,
      ...areaInputs,
    ];
    return {
      sortie,
      aircraft,
      day: asSaid(weather.day, read),
      inputs,
      fingerprint: fingerprintOf(inputs, program),
      program,
    };
  }

  private deck(
    folder: string,
    read: ReadSortie,
    faults: Faults,
  ): { aircraft: Aircraft | null; sha256: string } {
    const kept = this.decks.get(folder);
    if (kept) return kept;
    const deck = readAircraft(folder, read.file.aircraft.deck, faults);
    if (deck.aircraft) this.decks.set(folder, deck);
    return deck;
  }

  /** The day, read again only where the sortie says other things of it or reaches beyond what was read. */
  private async dayOf(read: ReadSortie, folder: string, faults: Faults): Promise<ReadDay | null> {
    const key = JSON.stringify({ ...read.file.weather, temperatureOffset: 0 });
    const reach = reachOf(read.file);
    if (this.day?.key === key && holds(this.day.reach, reach)) return this.day.day;
    const wide = widened(reach);
    const day = await readDay(read, folder, wide, faults);
    if (day) this.day = { key, reach: wide, day };
    return day;
  }
}

/** Lets messages in, such as that the plan is given up. */
function breath(): Promise<void> {
  const { port1, port2 } = new MessageChannel();
  return new Promise((done) => {
    port1.onmessage = () => {
      port1.close();
      done();
    };
    port2.postMessage(null);
  });
}

function faultOf(path: string, message: string): Fault {
  return { severity: 'fault', place: { file: path, line: 0, column: 0 }, path: '', message };
}

/** So far a waypoint may be moved before more of the file has to be read: 5 degrees. */
const roomRad = (5 * Math.PI) / 180;

function widened(reach: WeatherWindow): WeatherWindow {
  const { southRad, northRad, westRad, eastRad } = reach;
  return {
    ...reach,
    southRad: Math.max(southRad - roomRad, -Math.PI / 2),
    northRad: Math.min(northRad + roomRad, Math.PI / 2),
    westRad: westRad - roomRad,
    eastRad: eastRad + roomRad,
  };
}

function holds(outer: WeatherWindow, inner: WeatherWindow): boolean {
  return (
    inner.southRad >= outer.southRad &&
    inner.northRad <= outer.northRad &&
    inner.westRad >= outer.westRad &&
    inner.eastRad <= outer.eastRad
  );
}

Comlink.expose(new Desk());
