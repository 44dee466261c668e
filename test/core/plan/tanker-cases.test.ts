/** The tanker matrix: every case, fuel conserved over all aircraft, worse never better, the last minute to decide. */
import { describe, expect, it } from 'vitest';
import { crewOf, draft, draftOf } from '../../../src/core/plan/draft.ts';
import { waiting } from '../../../src/core/plan/drivers.ts';
import type { TankerCase } from '../../../src/core/plan/plan.ts';
import { recoveryFrom } from '../../../src/core/plan/required.ts';
import { tankerMatrix } from '../../../src/core/plan/tanker-cases.ts';
import { tankerOwnOf } from '../../../src/core/plan/tanker-own.ts';
import { change, longLoopText, requestOf } from '../../support/demo.ts';

const request = requestOf(longLoopText);
const matrix = tankerMatrix(request, { pairs: true });
const singles = matrix.cases.filter(({ faults }) => faults.length === 1);

function one(tanker: string, trouble: string): TankerCase {
  const found = singles.find(({ faults }) => faults[0].tanker === tanker && faults[0].trouble === trouble);
  if (!found) throw new Error(`no case ${tanker} ${trouble}`);
  return found;
}

/** Over the reserve when turned away at the contact, which every case of the demonstration has. */
function over(each: TankerCase): number {
  const [{ overReserveKg }] = each.recoveries;
  if (overReserveKg === null) throw new Error('the way to the base is flown');
  return overReserveKg;
}

describe('the tanker matrix', () => {
  it('[TKM-1] has every tanker absent, half and late, and every pair of them on request', () => {
    const names = (cases: readonly TankerCase[]) =>
      cases.map(({ faults }) => faults.map(({ tanker, trouble }) => `${tanker} ${trouble}`).join(' + '));
    const expected = ['Ewer One', 'Ewer Two'].flatMap((tanker) =>
      ['absent', 'half', 'late'].map((trouble) => `${tanker} ${trouble}`),
    );
    expect(names(tankerMatrix(request).cases)).toEqual(expected);
    expect(matrix.cases).toHaveLength(6 + 9);
    expect(new Set(names(matrix.cases)).size).toBe(15);
  });

  it('[TKM-2] conserves fuel over receiver, tankers and what is burnt, to 0.1 kg', () => {
    for (const { account } of matrix.cases) {
      const before = account.atTakeOffKg + account.forOffloadKg;
      const after = account.burntKg + account.onBoardAtEndKg + account.keptByTankersKg;
      expect(Math.abs(before - after)).toBeLessThan(0.1);
      expect(account.takenKg + account.keptByTankersKg).toBeCloseTo(account.forOffloadKg, 1);
    }
  });

  it('[TKM-3] a case that is worse for the receiver never shows more reserve', () => {
    for (const tanker of ['Ewer One', 'Ewer Two']) {
      // To wait in vain is worse than to turn away at once.
      expect(over(one(tanker, 'late'))).toBeLessThan(over(one(tanker, 'absent')));
    }
    expect(over(one('Ewer Two', 'absent'))).toBeLessThan(over(one('Ewer Two', 'half')));
    // Two in trouble are never better off going on than one of them.
    for (const pair of matrix.cases.filter(({ faults }) => faults.length === 2)) {
      const inHand = pair.goesOn?.leastInHandKg;
      if (inHand === undefined || inHand === null) continue;
      for (const { tanker, trouble } of pair.faults) {
        const alone = one(tanker, trouble).goesOn?.leastInHandKg ?? Number.NaN;
        expect(inHand).toBeLessThan(alone + 5);
      }
    }
  });

  it('[TKM-4] a tanker with half of its fuel gives no more than that, and none goes on without a tanker', () => {
    const half = one('Ewer Two', 'half');
    expect(half.account.takenKg - one('Ewer Two', 'absent').account.takenKg).toBeCloseTo(15_000, 3);
    for (const { faults, goesOn } of matrix.cases) {
      expect(goesOn === null).toBe(faults.some(({ trouble }) => trouble === 'absent'));
    }
  });

  /** Its own engines: rates times hours, the way home by another library's distance in the wind of the place. */
  it('[TKM-6] keeps the own fuel of each tanker that comes, and none of one that does not', () => {
    for (const { faults, account, tankers } of matrix.cases) {
      expect(Math.abs(account.ownKg - account.ownBurntKg - account.ownLeftKg)).toBeLessThan(0.1);
      const absent = faults.find(({ trouble }) => trouble === 'absent');
      if (absent) expect(tankers.map(({ tanker }) => tanker)).not.toContain(absent.tanker);
    }
    const planned = tankerOwnOf(draftOf(request));
    const late = one('Ewer One', 'late').tankers;
    // A late Ewer One waits no longer itself, and gives a little more, further on; Ewer Two waits the 20 min longer that the receiver comes later, to a minute, at 5 200 kg/h.
    const over = (of: readonly { tanker: string; overReserveKg: number | null }[], name: string) =>
      of.find(({ tanker }) => tanker === name)?.overReserveKg ?? Number.NaN;
    expect(Math.abs(over(late, 'Ewer One') - over(planned, 'Ewer One'))).toBeLessThan(200);
    const longerKg = over(planned, 'Ewer Two') - over(late, 'Ewer Two');
    expect(Math.abs(longerKg - (5200 * 20) / 60)).toBeLessThan(90);
  });

  it('[TKM-7] with half in and too heavy to climb on the way to a near base, the aircraft stays at the height of the contact', () => {
    const near = requestOf(change(longLoopText, ['divert: Harrow Flat, mach', 'divert: Otter Bluff, mach']));
    const half = tankerMatrix(near).cases[1].recoveries[0];
    expect(half.pressureAltitudeM).toBeCloseTo(24_000 * 0.3048, 6);
    expect(one('Ewer One', 'half').recoveries[0].pressureAltitudeM).toBeCloseTo(30_000 * 0.3048, 6);
    // The deck: 36 700 kg without fuel, 52 000 kg at the most on landing.
    const landedKg = half.fuelOnLandingKg ?? Number.NaN;
    expect(half.aboveLandingMassKg).toBeCloseTo(36_700 + landedKg - 52_000, 6);
    expect(one('Ewer One', 'absent').recoveries[0].aboveLandingMassKg).toBe(0);
  });

  it('[TKM-5] waiting to the last moment lands with the reserve, a minute longer does not', () => {
    for (const [leg, tanker] of ['Ewer One', 'Ewer Two'].entries()) {
      const { decideByS, timeS } = one(tanker, 'absent').recoveries[0];
      if (decideByS === null) throw new Error('there is time to decide');
      const landed = (waitS: number): number => {
        const sortie = waiting(request.sortie, leg, waitS);
        const { crew, flown } = draft(crewOf({ ...request, sortie }));
        const { end } = sortie.legs[leg];
        if (end.kind !== 'contact') throw new Error('the leg ends at a tanker');
        return recoveryFrom(crew, end, flown.legs[leg], leg).fuelOnLandingKg;
      };
      const longestS = decideByS - timeS;
      expect(landed(longestS)).toBeGreaterThan(matrix.reserveKg - 1);
      expect(landed(longestS + 60)).toBeLessThan(matrix.reserveKg);
    }
  });
});
