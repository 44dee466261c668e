/**
 * Differences of two plans. Where an expected number is given it follows from the definition of fuel in hand (on board less
 * required) or from the arithmetic of the split; none was taken from a run.
 */
import { describe, expect, it } from 'vitest';
import { offsetDay } from '../../../src/core/air/offset-day.ts';
import { type Measure, type Side, type Sources, splitByCause } from '../../../src/core/plan/causes.ts';
import { comparePlans } from '../../../src/core/plan/compare.ts';
import type { PlanRequest } from '../../../src/core/plan/draft.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import { flyOutcome, outcomeOf } from '../../../src/core/plan/outcome.ts';
import { changedParts } from '../../../src/core/plan/parts.ts';
import { CannotPlan } from '../../../src/core/plan/sortie-flyer.ts';
import { loadDeck } from '../../../src/files/deck.ts';
import { deckFolder } from '../../../src/files/deck-folder.ts';
import { change, longLoopText, requestOf } from '../../support/demo.ts';

const nothing = { keys: [], split: null, notFlown: [] };
const first = requestOf(longLoopText);
const plan = makePlan(first);

/** Sources that have everything; the sorties do not depend on the deck here. */
function sourcesOf(old: PlanRequest, now: PlanRequest, gone: readonly string[] = []): Sources {
  const request: Record<Side, PlanRequest> = { old, new: now };
  const there = <T>(what: string, value: T): T => {
    if (gone.includes(what)) throw new CannotPlan(`${what} is gone`);
    return value;
  };
  return {
    weatherChanged: old.day !== now.day,
    aircraftChanged: old.aircraft !== now.aircraft,
    remarks: [],
    day: (of) => there(`${of} day`, request[of].day),
    aircraft: (of) => there(`${of} aircraft`, request[of].aircraft),
    sortie: (of) => there(`${of} sortie`, request[of].sortie),
  };
}

function splitOf(old: PlanRequest, now: PlanRequest, gone: readonly string[] = []) {
  return splitByCause(outcomeOf(makePlan(old)), outcomeOf(makePlan(now)), sourcesOf(old, now, gone));
}

function measureAt(measures: readonly Measure[], of: string, what: Measure['what']): Measure {
  const found = measures.find((measure) => measure.of.includes(of) && measure.what === what);
  if (!found) throw new Error(`no measure ${what} at ${of}`);
  return found;
}

/** A deck whose aircraft is heavier when empty. */
const heavier = (() => {
  const source = deckFolder('decks/sandmartin');
  const heavy = (text: string) =>
    text.replace('empty aircraft, mass: 35200 kg', 'empty aircraft, mass: 35700 kg');
  return loadDeck({
    name: source.name,
    read: (file) => {
      const text = source.read(file);
      return file === 'deck.yaml' && text !== null ? change(text, [text, heavy(text)]) : text;
    },
  }).aircraft;
})();

describe('two plans side by side', () => {
  it('[CMP-1] of the same inputs have nothing changed', () => {
    const comparison = comparePlans(plan, makePlan(requestOf(longLoopText)), nothing);
    expect(comparison.nothingChanged).toBe(true);
    expect(comparison.changed).toEqual([]);
    expect(comparison.marks.every(({ change }) => change.timeS === 0 && change.fuelKg === 0)).toBe(true);
  });

  it('[CMP-2] a reserve of 500 kg more leaves the flight as it is and 500 kg less in hand from the last contact on', () => {
    const other = makePlan(requestOf(change(longLoopText, ['landing: 2000 kg', 'landing: 2500 kg'])));
    const { marks, limits, nothingChanged } = comparePlans(plan, other, nothing);
    expect(nothingChanged).toBe(false);
    for (const mark of marks) expect([mark.change.timeS, mark.change.fuelKg]).toEqual([0, 0]);
    expect(limits.every(({ change }) => change === 0)).toBe(true);
    expect(marks.findLast(({ kind }) => kind === 'landing')?.change.inHandKg).toBeCloseTo(-500, 6);
  });

  it('[CMP-3] names the inputs by role, and what the plans say of them', () => {
    const with2 = (sha256: string) => [{ role: 'weather', name: 'day.nc', sha256 }];
    const comparison = comparePlans(
      { ...plan, inputs: with2('aa') },
      {
        ...plan,
        inputs: [...with2('bb'), { role: 'areas', name: 'a.geojson', sha256: 'cc' }],
        takeOff: '2026-02-23T16:00Z',
      },
      nothing,
    );
    expect(comparison.nothingChanged).toBe(false);
    expect(comparison.changed.map(({ what }) => what)).toEqual(['weather', 'areas', 'take-off']);
    expect(comparison.changed[1].from).toBe(null);
  });

  it('[CMP-4] a moment that only one of them has is said, and the others are still compared', () => {
    const renamed = makePlan(requestOf(change(longLoopText, ['name: Alder', 'name: Aspen'])));
    const { onlyFrom, onlyTo, marks } = comparePlans(plan, renamed, nothing);
    expect(onlyFrom.map(({ name }) => name)).toEqual(['Alder']);
    expect(onlyTo.map(({ name }) => name)).toEqual(['Aspen']);
    expect(marks).toHaveLength(outcomeOf(plan).marks.length - 1);
  });

  it('[CMP-5] what is flown again to split a difference comes to what the plan itself has', () => {
    const { marks, limits, flyable } = outcomeOf(plan);
    const flown = flyOutcome(first);
    expect(flown.marks).toEqual(marks);
    expect(flown.flyable).toBe(flyable);
    expect(flown.limits.map(({ key, leastMargin }) => [key, leastMargin])).toEqual(
      limits.map(({ key, leastMargin }) => [key, leastMargin]),
    );
  });
});

describe('a difference split by cause', () => {
  it('[CMP-11] where only the deck changed, all of it is the aircraft', () => {
    const { split } = splitOf(first, { ...first, aircraft: heavier });
    expect(split?.causes.map(({ key }) => key)).toEqual(['aircraft']);
    const landing = measureAt(split?.measures ?? [], 'landing', 'inHandKg');
    expect(landing.change).toBeLessThan(-50);
    expect(landing.causes).toEqual([{ cause: 'aircraft', change: landing.change, alone: landing.change }]);
    expect(landing.interaction).toBe(0);
  });

  it('[CMP-12] two causes add up to the whole in their order; moved alone they leave the interaction', () => {
    const text = change(longLoopText, ['landing: 2000 kg', 'landing: 2500 kg']);
    const now = { ...requestOf(text), aircraft: heavier, day: offsetDay(8) };
    const { split } = splitOf(first, now);
    expect(split?.causes.map(({ key }) => key)).toEqual(['weather', 'aircraft', 'reserves']);
    for (const { from, to, change: whole, causes, interaction } of split?.measures ?? []) {
      const sum = (of: 'change' | 'alone') =>
        causes.reduce((total, cause) => total + (cause[of] ?? Number.NaN), 0);
      expect(Math.abs(from + sum('change') - to)).toBeLessThan(1e-6 * Math.max(1, Math.abs(to)));
      expect(Math.abs(sum('alone') + (interaction ?? Number.NaN) - whole)).toBeLessThan(1e-6);
    }
    // The reserve moves no fuel: what is in hand at the landing falls by just that, alone or after the others.
    const landing = measureAt(split?.measures ?? [], 'landing', 'inHandKg');
    const reserve = landing.causes.find(({ cause }) => cause === 'reserves');
    expect(reserve?.change).toBeCloseTo(-500, 5);
    expect(reserve?.alone).toBeCloseTo(-500, 5);
  });

  it('[CMP-13] without the old weather the weather still has its part, from the plan itself; alone nothing is flown', () => {
    const now = {
      ...requestOf(change(longLoopText, ['landing: 2000 kg', 'landing: 2500 kg'])),
      day: offsetDay(8),
    };
    const { split, notFlown } = splitOf(first, now, ['old day']);
    expect(notFlown).toEqual(['old day is gone']);
    const landing = measureAt(split?.measures ?? [], 'landing', 'inHandKg');
    const [weather, reserves] = landing.causes;
    expect([weather.cause, reserves.cause]).toEqual(['weather', 'reserves']);
    expect((weather.change ?? 0) + (reserves.change ?? 0)).toBeCloseTo(landing.change, 6);
    expect(reserves.change).toBeCloseTo(-500, 5);
    expect([reserves.alone, landing.interaction]).toEqual([null, null]);
  });

  it('[CMP-14] is not made where the old sortie or an input of the new plan is gone', () => {
    const now = requestOf(change(longLoopText, ['landing: 2000 kg', 'landing: 2500 kg']));
    expect(splitOf(first, now, ['old sortie'])).toEqual({ split: null, notFlown: ['old sortie is gone'] });
    expect(splitOf(first, now, ['new day', 'old day']).split).toBe(null);
  });

  it('[CMP-15] numbers of another program are a cause of their own', () => {
    const outcome = outcomeOf(plan);
    const older = { ...outcome, marks: outcome.marks.map((mark) => ({ ...mark, fuelKg: mark.fuelKg + 40 })) };
    const { split } = splitByCause(older, outcome, sourcesOf(first, first));
    expect(split?.causes.map(({ key }) => key)).toEqual(['program']);
    const landing = measureAt(split?.measures ?? [], 'landing', 'fuelKg');
    expect(landing.causes[0].change).toBeCloseTo(-40, 9);
    expect(landing.interaction).toBeCloseTo(0, 9);
  });
});

describe('the parts of a sortie', () => {
  const keysOf = (...changes: Parameters<typeof change>[1][]) =>
    changedParts(first.sortie, requestOf(change(longLoopText, ...changes)).sortie).map(({ key }) => key);

  it.each<[part: string, from: string | RegExp, to: string]>([
    ['takeOff', 'time: 2026-02-23T15:30Z', 'time: 2026-02-23T15:40Z'],
    ['load', 'fuel: 14000 kg', 'fuel: 13500 kg'],
    ['route', 'name: Alder, at: "46.80N', 'name: Alder, at: "46.90N'],
    ['tankers', 'take: 17000 kg', 'take: 16000 kg'],
    ['tankers', 'rate: 3000 kg/min', 'rate: 2900 kg/min'],
    ['steps', 'push: 0.6 g', 'push: 0.7 g'],
    ['reserves', 'landing: 2000 kg', 'landing: 2100 kg'],
    ['reserves', 'pads: { inletTemperature: 5 K }', 'pads: { inletTemperature: 6 K }'],
    ['reserves', 'divert: Harrow Flat, mach: 0.80', 'divert: Harrow Flat, mach: 0.78'],
    ['rest', 'ladder: { every: 10 min }', 'ladder: { every: 5 min }'],
  ])('[CMP-21] %s: %s becomes %s', (part, from, to) => {
    expect(keysOf([from, to])).toEqual([part]);
  });

  it('[CMP-22] in their order they turn one sortie into the other, and each alone leaves all others as they were', () => {
    const to = requestOf(
      change(
        longLoopText,
        ['fuel: 14000 kg', 'fuel: 13500 kg'],
        ['take: 17000 kg', 'take: 16000 kg'],
        ['push: 0.6 g', 'push: 0.7 g'],
        ['ladder: { every: 10 min }', 'ladder: { every: 5 min }'],
      ),
    ).sortie;
    const parts = changedParts(first.sortie, to);
    expect(parts.map(({ key }) => key)).toEqual(['load', 'tankers', 'steps', 'rest']);
    expect(parts.reduce((sortie, part) => part.move(sortie, to), first.sortie)).toEqual(to);
    for (const part of parts) {
      expect(changedParts(first.sortie, part.move(first.sortie, to)).map(({ key }) => key)).toEqual([
        part.key,
      ]);
    }
  });

  it('[CMP-23] legs that are not alike move as a whole', () => {
    const shorter = { ...first.sortie, legs: first.sortie.legs.slice(1) };
    expect(changedParts(first.sortie, shorter).map(({ key }) => key)).toEqual(['legs']);
  });
});
