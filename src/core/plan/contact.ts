/** In contact: can the receiver stay on as weight comes; where the margin ends; when one afterburner is lit and how. */

import { brent } from '../numerics/roots.ts';
import { standardGravity } from '../quantities/constants.ts';
import {
  type BeforeLight,
  bestLight,
  failureSeenS,
  followedS,
  type LightTried,
  lightWith,
} from './contact-light.ts';
import { type ContactBalanced, type ContactMoment, ContactStatics } from './contact-statics.ts';
import type { Draft } from './draft.ts';
import type {
  ContactDescent,
  ContactLight,
  ContactRow,
  ContactStudy,
  LightCase,
  Refuelling,
} from './plan.ts';
import type { Tanker } from './sortie.ts';

const degrees = 180 / Math.PI;

/** Rows are so far apart at least, and there are no more than about so many [kg]. */
const leastStepKg = 1000;
const mostRows = 10;

/** As a part of a step, to either side of where another engine follows. */
const aside = 1e-6;
/** A disconnect so near full tanks is one at full tanks [kg]. */
const sameKg = 20;

/** One for each refuelling that was flown, in order. */
export function contactsOf(drafted: Draft): ContactStudy[] {
  return drafted.flown.refuellings.map((refuelling, leg) => new Contacted(drafted, refuelling, leg).study());
}

/** What of the contacts cannot be computed, and why. */
export function contactMissing({ crew, flown }: Draft): string[] {
  const { rudder, propulsion } = crew.flight.setup.aircraft;
  const lit = flown.refuellings.filter(({ afterburnerFromKg }) => afterburnerFromKg !== null);
  if (lit.length === 0) return [];
  const missing: string[] = [];
  if (rudder === null) missing.push('rudder in contact: the deck has no rudder');
  if (propulsion.lightUp === null) {
    return [...missing, 'lighting an afterburner in contact: the deck does not say how one lights'];
  }
  for (const { tanker } of lit) {
    if (crew.sortie.tankers.find(({ name }) => name === tanker)?.envelope === null) {
      missing.push(`lighting an afterburner behind ${tanker}: the sortie gives its tanker no envelope`);
    }
  }
  return [...new Set(missing)];
}

type Row = ContactRow & Pick<ContactBalanced, 'fuelFlowKgS'>;

class Contacted {
  private readonly statics: ContactStatics;
  private readonly tanker: Tanker;
  private readonly start: ContactMoment;
  private readonly takeOffS: number;
  private readonly fullKg: number;
  private readonly plannedKg: number;
  private readonly rows: Row[] = [];
  private moment: ContactMoment;
  private balanced: ContactBalanced;
  private lit = false;
  private dryEnds: ContactMoment | null = null;
  private marginEndsKg: number | null = null;
  private litFollowsKg: number | null = null;

  constructor({ crew, flown }: Draft, { takenKg }: Refuelling, leg: number) {
    const { flight, sortie } = crew;
    const { end } = sortie.legs[leg];
    if (end.kind !== 'contact') throw new Error(`leg ${leg} ends without a tanker`);
    const { route, end: at } = flown.legs[leg];
    const { timeS, distanceM, massKg } = at.state;
    this.tanker = end.tanker;
    this.statics = new ContactStatics(flight, route.tracks[route.tracks.length - 1], end.tanker);
    this.start = { takenKg: 0, timeS, distanceM, massKg };
    this.takeOffS = sortie.takeOff.timeS;
    this.fullKg = flight.setup.zeroFuelMassKg + flight.setup.aircraft.balance.fuelCapacityKg;
    this.plannedKg = takenKg;
    this.moment = this.start;
    this.balanced = this.statics.at(this.start, false);
  }

  study(): ContactStudy {
    const { rows } = this;
    this.march();
    const last = rows[rows.length - 1];
    const dry = this.dryEnds;
    return {
      tanker: this.tanker.name,
      rows: rows.map(({ fuelFlowKgS, ...row }) => row),
      dryEndsKg: dry?.takenKg ?? null,
      marginEndsKg: this.marginEndsKg,
      litFollowsKg: this.litFollowsKg,
      bankDeg: this.tanker.bankRad * degrees,
      descent: dry && this.descent(dry.takenKg, last),
      light: dry && this.light(dry),
    };
  }

  private march(): void {
    const { start, statics } = this;
    const lacking = statics.lacking(start);
    this.lit = statics.canLight && lacking.dryN > 0;
    if (this.lit) {
      if (lacking.litN > 0) this.litFollowsKg = 0;
      this.dryEnds = start;
      this.balanced = statics.at(start, true);
    }
    this.keep('contact');
    const roomKg = this.fullKg - start.massKg;
    const stepKg = Math.max(leastStepKg, Math.ceil(roomKg / mostRows / leastStepKg) * leastStepKg);
    while (this.marginEndsKg === null && this.moment.massKg < this.fullKg - 1e-6) this.row(stepKg);
  }

  /** On to the next row; one where dry thrust or all thrust ends comes first. */
  private row(stepKg: number): void {
    const from = this.moment;
    const multiple = (Math.floor(from.takenKg / stepKg + 1e-9) + 1) * stepKg;
    const planned = from.takenKg < this.plannedKg - 1e-6 && this.plannedKg <= multiple;
    let to = this.ahead(planned ? this.plannedKg : multiple);
    if (planned && to.massKg > this.fullKg - sameKg) to = this.ahead(multiple);
    const full = to.massKg >= this.fullKg - 1e-6;
    if (full) to = between(from, to, (this.fullKg - from.massKg) / (to.massKg - from.massKg));
    const { statics } = this;
    const lacking = statics.lacking(to);
    if (statics.canLight && !this.lit && lacking.dryN > 0) {
      const ends = between(from, to, this.where(from, to, 'dryN'));
      this.go(ends);
      this.keep('dryEnds');
      this.dryEnds = ends;
      this.lit = true;
      this.balanced = statics.at(ends, true);
      this.keep('lit');
      return;
    }
    if (this.lit && this.litFollowsKg === null && lacking.litN > 0) {
      const part = this.where(from, to, 'litN');
      this.go(between(from, to, Math.max(0, part - aside)));
      this.keep('othersEnd');
      this.go(between(from, to, part + aside));
      this.keep('litFollows');
      this.litFollowsKg = this.moment.takenKg;
      return;
    }
    const out = lacking.allN > 0;
    if (out) to = between(from, to, this.where(from, to, 'allN'));
    this.go(to);
    if (out) this.marginEndsKg = to.takenKg;
    const atPlanned = Math.abs(to.takenKg - this.plannedKg) < 1;
    this.keep(out ? 'marginEnds' : atPlanned ? 'disconnect' : full ? 'full' : null);
  }

  private where(from: ContactMoment, to: ContactMoment, of: 'dryN' | 'litN' | 'allN'): number {
    return brent((part) => this.statics.lacking(between(from, to, part))[of], 0, 1, 1e-7).x;
  }

  /** So much fuel later, what is burnt by Heun's rule. */
  private ahead(takenKg: number): ContactMoment {
    const { moment, balanced, tanker } = this;
    const timeS = (takenKg - moment.takenKg) / tanker.rateKgS;
    const with_ = (flowKgS: number): ContactMoment => ({
      takenKg,
      timeS: moment.timeS + timeS,
      distanceM: moment.distanceM + balanced.groundSpeedMS * timeS,
      massKg: moment.massKg + (tanker.rateKgS - flowKgS) * timeS,
    });
    const { fuelFlowKgS } = balanced;
    const then = this.statics.flowAt(with_(fuelFlowKgS), this.lit);
    return with_(0.5 * (fuelFlowKgS + then));
  }

  private go(to: ContactMoment): void {
    this.moment = to;
    this.balanced = this.statics.at(to, this.lit);
  }

  private keep(mark: ContactRow['mark']): void {
    const { moment, balanced, takeOffS } = this;
    const { groundSpeedMS, ...rest } = balanced;
    this.rows.push({ mark, takenKg: moment.takenKg, timeS: moment.timeS - takeOffS, ...rest });
  }

  /** By the trapezoids of the rows. */
  private descent(fromKg: number, last: Row): ContactDescent {
    const rows = this.rows.filter(({ takenKg }) => takenKg >= fromKg);
    let lostM = 0;
    for (let i = 1; i < rows.length; i++) {
      lostM -= 0.5 * (rows[i].descentMS + rows[i - 1].descentMS) * (rows[i].timeS - rows[i - 1].timeS);
    }
    const spared = (last.requiredN - last.dryN) / (last.massKg * standardGravity);
    const rateMS = last.descentMS;
    return { rateMS, lostM, partPerMS: rateMS < 0 ? -spared / rateMS : 0 };
  }

  private light(dry: ContactMoment): ContactLight | null {
    const { statics, tanker, start } = this;
    const { lightUp, engines } = statics.flight.setup.aircraft.propulsion;
    const { envelope } = tanker;
    if (lightUp === null || envelope === null) return null;
    const row = statics.at(dry, false);
    const one = statics.oneEngine();
    const first = this.rows[0];
    const durationS = dry.timeS - start.timeS;
    const risingNS = durationS > 0 ? (row.requiredN - first.requiredN) / durationS : 0;
    const before = (aheadS: number): BeforeLight => ({
      ...one,
      mostLitN: one.mostN,
      massKg: dry.massKg - (durationS > 0 ? ((dry.massKg - start.massKg) / durationS) * aheadS : 0),
      engines: statics.engines,
      requiredN: row.requiredN - risingNS * aheadS,
      risingNS,
    });
    const tried = (aheadS: number) => bestLight(before(aheadS), lightUp, envelope);
    const others = statics.engines - 1;
    const leastRequiredN = one.leastLitN + others * one.idleN;
    const earliestKg =
      risingNS > 0 ? Math.max(0, ((leastRequiredN - first.requiredN) / risingNS) * tanker.rateKgS) : 0;
    const longestS = (dry.takenKg - earliestKg) / tanker.rateKgS;
    const holds = (s: number) => lightWith(before(s), lightUp, envelope, 0).use <= 1 || tried(s).use <= 1;
    const aheadS = latest(holds, longestS);
    const at = aheadS ?? Math.min(longestS, followedS(lightUp));
    const { use, cases, earlyN } = tried(at);
    const { requiredN } = before(at);
    return {
      engine: engines[0].name,
      earliestKg,
      latestKg: aheadS === null ? null : dry.takenKg - aheadS * tanker.rateKgS,
      stepN: one.leastLitN - one.militaryN,
      beforePower: statics.powerFor(requiredN / statics.engines),
      firstPower: statics.powerFor((requiredN - one.militaryN - earlyN) / others),
      afterPower: statics.powerFor((requiredN - one.leastLitN) / others),
      failureSeenS: failureSeenS(lightUp),
      foreLimitM: envelope.foreM,
      aftLimitM: envelope.aftM,
      closureLimitMS: envelope.closureMS,
      cases: cases.map(finite),
      use: orNull(use),
    };
  }
}

/** The least lead [s] with which something holds, to a tenth of a second; null where it does not up to the longest. */
function latest(holds: (aheadS: number) => boolean, longestS: number): number | null {
  let [low, high] = [0, Math.min(8, longestS)];
  while (!holds(high)) {
    if (high >= longestS) return null;
    low = high;
    high = Math.min(2 * high, longestS);
  }
  while (high - low > 0.1) {
    const middle = 0.5 * (low + high);
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return high;
}

function finite(one: LightTried['cases'][number]): LightCase {
  return { ...one, foreM: orNull(one.foreM), aftM: orNull(one.aftM), use: orNull(one.use) };
}

function orNull(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}

function between(a: ContactMoment, b: ContactMoment, part: number): ContactMoment {
  const mix = (from: number, to: number): number => from + part * (to - from);
  return {
    takenKg: mix(a.takenKg, b.takenKg),
    timeS: mix(a.timeS, b.timeS),
    distanceM: mix(a.distanceM, b.distanceM),
    massKg: mix(a.massKg, b.massKg),
  };
}
