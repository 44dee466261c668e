/** The crew's clock against hand calculations, and what a slip does to it. */
import { describe, expect, it } from 'vitest';
import { crewClockOf } from '../../../src/core/plan/crew-clock.ts';
import { draftOf, type PlanRequest } from '../../../src/core/plan/draft.ts';
import type { CrewClock } from '../../../src/core/plan/plan.ts';
import { skyOf } from '../../../src/core/plan/sky.ts';
import { slipped } from '../../../src/core/plan/slip.ts';
import { change, longLoopText, requestOf } from '../../support/demo.ts';

const hour = 3600;
const minute = 60;
const foot = 0.3048;

/** The flight alone with its sky, which is all that the clock reads. */
function answerOf(request: PlanRequest) {
  const drafted = draftOf(request);
  const { events } = skyOf(drafted);
  return { drafted, events, ...crewClockOf(drafted, events) };
}

function clockOf(request: PlanRequest): CrewClock {
  const { clock } = answerOf(request);
  if (clock === null) throw new Error('the sortie says what keeps the time of its crew');
  return clock;
}

const request = requestOf(longLoopText);
const planned = answerOf(request);
const crew = clockOf(request);
const later = (slipS: number): PlanRequest => ({ ...request, sortie: slipped(request.sortie, slipS) });

/** From take-off to landing as the demonstration is flown. */
const flownS = planned.events.find(({ kind }) => kind === 'landing')?.timeS ?? Number.NaN;

describe("the crew's clock", () => {
  /** By hand: report 12:30Z, take-off 15:30Z, 45 min after landing, 9 h at most. */
  it('[CREW-1] duty runs from the report to the end of what is done after landing', () => {
    expect(crew.duty?.reportS).toBe(-3 * hour);
    expect(crew.duty?.lengthS).toBeCloseTo(3 * hour + flownS + 45 * minute, 6);
    expect(crew.duty?.leftS).toBeCloseTo(9 * hour - (3 * hour + flownS + 45 * minute), 6);
  });

  /** By hand: on oxygen from 14:35Z, 55 min before take-off; 7 h less 45 min of reserve. */
  it('[CREW-2] oxygen is used from when the crew goes on it', () => {
    expect(crew.oxygen).toMatchObject({ fromS: -55 * minute, fixed: true });
    expect(crew.oxygen?.leftS).toBeCloseTo(7 * hour - 45 * minute - 55 * minute - flownS, 6);
    const landing = crew.moments.find(({ kind }) => kind === 'landing');
    expect(landing?.oxygenLeftS).toBeCloseTo(7 * hour - 55 * minute - flownS, 6);
  });

  /** By hand: the highest pressure altitude lies between 60 000 ft (cabin 24 000) and 82 000 ft (26 000): 2 000 ft over 22 000 ft. */
  it('[CREW-3] prebreathing is that of the row for the greatest altitude of the cabin', () => {
    const topFt = Math.max(...planned.drafted.log.columns.pressureAltitudeM) / foot;
    const cabinFt = 24_000 + ((topFt - 60_000) * 2000) / 22_000;
    expect((crew.prebreathe?.cabinAltitudeM ?? 0) / foot).toBeCloseTo(cabinFt, 3);
    expect(crew.prebreathe).toMatchObject({ neededS: 45 * minute, plannedS: 55 * minute });
    const low = requestOf(change(longLoopText, ['above: 22000 ft', 'above: 26000 ft']));
    expect(clockOf(low).prebreathe?.neededS).toBe(30 * minute);
  });

  it('[CREW-4] moments come in order of time, with the light of the plan at each event', () => {
    const times = crew.moments.map(({ timeS }) => timeS);
    expect(times).toEqual([...times].sort((a, b) => a - b));
    for (const { kind, name, timeS, light } of crew.moments) {
      const event = planned.events.find((each) => each.kind === kind && each.name === name);
      if (event) expect([timeS, light]).toEqual([event.timeS, event.light]);
    }
    expect(crew.moments.filter(({ kind }) => kind === 'contact')).toHaveLength(2);
  });

  it('[CREW-5] a later take-off leaves report and oxygen where they are and uses them up, minute for minute', () => {
    const lateS = 40 * minute;
    const clock = clockOf(later(lateS));
    expect(clock.duty?.leftS).toBeCloseTo((crew.duty?.leftS ?? 0) - lateS, 0);
    expect(clock.oxygen?.leftS).toBeCloseTo((crew.oxygen?.leftS ?? 0) - lateS, 0);
    expect(clock.prebreathe?.plannedS).toBe(55 * minute + lateS);
  });

  it('[CREW-6] at the slip that it allows duty is just kept, and a minute later it is not', () => {
    const allowedS = crew.slip?.leftS ?? Number.NaN;
    expect(crew.slip?.by).toBe('duty');
    expect(clockOf(later(allowedS - 1)).slip?.leftS).toBeGreaterThan(0);
    expect(clockOf(later(allowedS + minute)).slip?.leftS).toBeLessThan(0);
  });

  it('[CREW-7] the light at the landing is as it was up to the slip that is told, and another two minutes later', () => {
    const landing = crew.moments.find(({ kind }) => kind === 'landing');
    const holdsS = landing?.lightHoldsS ?? Number.NaN;
    const lightAt = (slipS: number) => answerOf(later(slipS)).events.at(-1)?.light;
    expect(lightAt(holdsS - minute)).toBe(landing?.light);
    expect(lightAt(holdsS + 2 * minute)).not.toBe(landing?.light);
  });

  it('[CREW-8] without a time for it oxygen begins as late as prebreathing allows, and moves with the take-off', () => {
    const text = change(longLoopText, ['from: 2026-02-23T14:35Z, lasts', 'lasts']);
    const asked = requestOf(text);
    const clock = clockOf(asked);
    expect(clock.oxygen).toMatchObject({ fromS: -45 * minute, fixed: false });
    expect(clock.prebreathe?.leftS).toBe(0);
    const moved = clockOf({ ...asked, sortie: slipped(asked.sortie, 40 * minute) });
    expect(moved.oxygen?.leftS).toBeCloseTo(clock.oxygen?.leftS ?? 0, 0);
  });

  it('[CREW-9] says what it cannot tell: no cabin in the deck, nothing of the crew in the sortie', () => {
    const bare = { ...request, aircraft: { ...request.aircraft, cabin: null } };
    const { clock, missing } = answerOf(bare);
    expect(clock?.prebreathe).toBe(null);
    expect(missing.join()).toMatch(/prebreathing: the deck does not say how its cabin follows/);
    const silent = requestOf(longLoopText.replace(/crew:\n(?: {2}.*\n)+/, ''));
    expect(answerOf(silent)).toMatchObject({ clock: null, missing: [] });
  });
});

describe('faults of the crew in a sortie file', () => {
  it.each([
    [
      'reports: 2026-02-23T12:30Z',
      'reports: 2026-02-23T16:30Z',
      /crew\.duty\.reports: the crew reports after the take-off/,
    ],
    ['most: 9 h', 'most: 0 h', /crew\.duty\.most: a duty has a length above 0/],
    ['most: 9 h', 'most: 9 kg', /crew\.duty\.most: .*"kg" does not measure it/],
    ['above: 28000 ft', 'above: 20000 ft', /crew\.prebreathe\.2\.above: write the altitudes rising/],
    ['time: 75 min', 'time: 15 min', /crew\.prebreathe\.2\.time: a higher cabin does not ask for less/],
    [
      'from: 2026-02-23T14:35Z',
      'from: 2026-02-23T15:35Z',
      /crew\.oxygen\.from: the crew goes on oxygen after the take-off/,
    ],
    ['reserve: 45 min', 'reserve: 8 h', /crew\.oxygen\.reserve: a reserve is from 0 to less than what lasts/],
    ['lasts: 7 h', 'last: 7 h', /crew\.oxygen: .*unknown key "last"|crew\.oxygen\.last/],
  ])('[CREW-10] %s becomes %s', (from, to, says) => {
    expect(() => requestOf(change(longLoopText, [from, to]))).toThrow(says);
  });
});
