import { describe, expect, it } from 'vitest';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import { Faults } from '../../../src/files/faults.ts';
import { compileSortie, readSortieFile } from '../../../src/files/sortie.ts';
import { change, longLoopText, requestOf, sandmartin } from '../../support/demo.ts';

const plan = makePlan(requestOf(longLoopText));
const { balance, tankers, dump } = plan;
const { columns, phase } = plan.trace;

function refusals(text: string): string[] {
  const faults = new Faults();
  const read = readSortieFile(text, 'sortie.yaml', faults);
  if (read) compileSortie(read, sandmartin, null, faults);
  return faults.faults.map(({ path, message }) => `${path}: ${message}`);
}

describe('balance of a sortie', () => {
  it('[BAL-1] at every node the tanks together hold what is on board, each of them within its capacity', () => {
    expect(balance?.tanksKg.every((tank) => tank.length === columns.fuelKg.length)).toBe(true);
    columns.fuelKg.forEach((fuelKg, node) => {
      const sum = balance?.tanksKg.reduce((total, tank) => total + tank[node], 0) ?? 0;
      expect(Math.abs(sum - fuelKg)).toBeLessThan(1e-6);
      balance?.tanks.forEach(({ capacityKg }, i) => {
        expect(balance.tanksKg[i][node]).toBeLessThanOrEqual(capacityKg + 1e-6);
      });
    });
  });

  it('[BAL-2] fuel of all aircraft together is kept to 0.1 kg: what tankers give less what is burnt is what is on board', () => {
    const given = tankers.flatMap(({ fuels }) => fuels).reduce((sum, fuel) => sum + fuel.givenKg, 0);
    const taken = plan.refuellings.reduce((sum, { takenKg }) => sum + takenKg, 0);
    expect(Math.abs(given - taken)).toBeLessThan(0.1);
    for (const { fuels } of tankers) {
      for (const { beforeKg, givenKg, afterKg } of fuels)
        expect(Math.abs(beforeKg - givenKg - afterKg)).toBeLessThan(0.1);
    }
    // Burnt by phases: a contact counts what came in less what was burnt in it.
    const burnt = plan.phases.reduce((sum, { fuelKg }) => sum + fuelKg, 0) + taken;
    const last = columns.fuelKg[columns.fuelKg.length - 1];
    expect(Math.abs(14_000 + taken - burnt - last)).toBeLessThan(0.1);
  });

  it('[BAL-3] a contact has a row wherever another tank begins to fill, in the order opposite to use', () => {
    const contact = balance?.contacts[0];
    expect(contact?.rows.map(({ fills }) => fills.join('+'))).toEqual([
      'aft',
      'left wing+right wing',
      'forward',
      '',
    ]);
    // Unusable 240 kg, centre 5940 kg, aft 5960 kg; then both wings, 13 920 kg (capacities less unusable of the deck).
    expect(contact?.rows[1].fuelKg).toBeCloseTo(240 + 5940 + 5960, 6);
    expect(contact?.rows[2].fuelKg).toBeCloseTo(240 + 5940 + 5960 + 13_920, 6);
    for (const { onBoomS, leftS } of contact?.rows ?? []) {
      expect(onBoomS + leftS).toBeCloseTo(plan.refuellings[0].disconnectS - plan.refuellings[0].contactS, 6);
    }
  });

  it('[BAL-4] the margin of a contact is the least of its limits along the trace', () => {
    const nodes = columns.timeS.flatMap((timeS, i) =>
      plan.phases[phase[i]].kind === 'contact' && timeS < 3000 ? [i] : [],
    );
    const margins = ['forwardCentreOfGravity', 'aftCentreOfGravity'].flatMap((key) =>
      nodes.map((node) => plan.trace.margins[key][node]),
    );
    const least = Math.min(
      ...margins,
      ...(balance?.contacts[0].rows.map((row) => row.marginFraction ?? 1) ?? []),
    );
    expect(balance?.contacts[0].leastMarginFraction).toBeCloseTo(least, 9);
  });

  it('[BAL-5] dumping to the landing mass takes the difference at the rate of the deck', () => {
    expect(dump?.rows.map(({ after }) => after)).toEqual(['Ewer One', 'Ewer Two']);
    for (const { massKg, dumpedKg, durationS, massAfterKg } of dump?.rows ?? []) {
      expect(dumpedKg).toBeCloseTo(massKg - 52_000, 6);
      expect(durationS).toBeCloseTo((massKg - 52_000) / 20, 6);
      expect(massAfterKg).toBeCloseTo(52_000, 6);
    }
  });
});

describe('fuel of a tanker', () => {
  const own = '      - { grade: kerosene to ASTM D1655, offload: 38000 kg }\n';

  it('[BAL-6] of what a receiver may not burn nothing is given, and of what it may no more than there is', () => {
    const short = makePlan(requestOf(change(longLoopText, [own, own.replace('38000', '20000')])));
    const [kerosene, wideCut] = short.tankers[0].fuels;
    expect(short.refuellings[0]?.takenKg).toBe(20_000);
    expect(kerosene).toMatchObject({ burnable: true, givenKg: 20_000, afterKg: 0 });
    expect(wideCut).toMatchObject({ burnable: false, beforeKg: 6000, givenKg: 0, afterKg: 6000 });
  });

  it('[BAL-10] a second grade that may be burnt gives what the first lacks, a third nothing', () => {
    const two =
      own.replace('38000', '20000') + own.replace('kerosene to ASTM D1655', 'kerosene of low volatility');
    const mixed = makePlan(requestOf(change(longLoopText, [own, two])));
    const [first, second, third] = mixed.tankers[0].fuels;
    const takenKg = mixed.refuellings[0].takenKg;
    expect(first).toMatchObject({ givenKg: 20_000, afterKg: 0 });
    expect(Math.abs(second.givenKg - (takenKg - 20_000))).toBeLessThan(0.1);
    expect(Math.abs(second.beforeKg - second.givenKg - second.afterKg)).toBeLessThan(0.1);
    expect(third).toMatchObject({ burnable: false, givenKg: 0 });
  });

  it('[BAL-7] the mass of a tanker is all that it carries', () => {
    // 55 000 empty, 1200 payload, 21 000 own, 38 000 + 6000 to give.
    expect(tankers[0].massBeforeKg).toBe(121_200);
    expect(tankers[0].massAfterKg).toBeCloseTo(121_200 - plan.refuellings[0].takenKg, 6);
    expect(tankers[1].massBeforeKg).toBe(null);
  });

  it('[BAL-8] a tanker is refused that has nothing to burn, both ways of writing its fuel, or more than it can carry', () => {
    expect(refusals(change(longLoopText, [own, '']))).toEqual([
      'tankers.0.fuels: Ewer One has no fuel that Sandmartin may burn: it has wide-cut; the deck names kerosene to ASTM D1655, kerosene of low volatility',
    ]);
    expect(refusals(change(longLoopText, ['    fuels:\n', '    offload: 3000 kg\n    fuels:\n']))).toEqual([
      'tankers.0: a tanker has either "offload" or "fuels"',
    ]);
    expect(refusals(change(longLoopText, ['maximumMass: 145000 kg', 'maximumMass: 120000 kg']))).toEqual([
      'tankers.0.maximumMass: with all that it carries the tanker has 121200 kg, more than 120000 kg',
    ]);
    expect(
      refusals(change(longLoopText, ['grade: wide-cut', 'grade: Kerosene of low volatility'], [own, ''])),
    ).toEqual([]);
  });

  it('[BAL-9] a second contact with a tanker finds what the first has left', () => {
    const twice = requestOf(
      change(
        longLoopText,
        [/tanker: Ewer Two/, 'tanker: Ewer One'],
        ['at: "34.60N 91.60W"', 'at: "39.60N 80.20W"'],
      ),
    );
    const taken = makePlan(twice).refuellings;
    const sum = taken.reduce((total, { takenKg }) => total + takenKg, 0);
    expect(taken.length).toBe(2);
    expect(sum).toBeLessThanOrEqual(38_000 + 1e-6);
    expect(taken[1].offloadLeftKg).toBeCloseTo(38_000 - sum, 6);
  });
});
