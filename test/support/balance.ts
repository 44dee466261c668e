/** The balance, the tankers and the dump of the small plan: invented, with sums that can be done by heart. */
import type {
  ContactBalanceRow,
  PlanBalance,
  PlanDump,
  PlanInlet,
  TankerAccount,
} from '../../src/core/plan/plan.ts';

function row(
  onBoomS: number,
  leftS: number,
  fuelKg: number,
  cgFraction: number,
  fills: string[],
): ContactBalanceRow {
  return {
    timeS: 1860 + onBoomS,
    onBoomS,
    leftS,
    fuelKg,
    cgFraction,
    forwardLimit: 0.2,
    aftLimit: 0.295,
    marginFraction: Math.min(cgFraction - 0.2, 0.295 - cgFraction),
    fills,
  };
}

export const testBalance: PlanBalance = {
  tanks: [
    { name: 'forward', capacityKg: 16_000, unusableKg: 100, order: 1 },
    { name: 'aft', capacityKg: 20_000, unusableKg: 100, order: 2 },
  ],
  tanksKg: [[], []],
  transfers: [],
  behind: null,
  contacts: [
    {
      tanker: 'Ewer One',
      rows: [
        row(0, 660, 7000, 0.262, ['aft']),
        row(300, 360, 20_000, 0.281, ['forward']),
        row(660, 0, 35_600, 0.231, []),
      ],
      leastMarginFraction: 0.014,
    },
    {
      tanker: 'Ewer Two',
      rows: [row(0, 600, 6000, 0.25, ['aft']), row(600, 0, 22_000, 0.27, [])],
      leastMarginFraction: 0.025,
    },
  ],
};

export const testTankers: readonly TankerAccount[] = [
  {
    tanker: 'Ewer One',
    fuels: [
      { grade: 'kerosene', burnable: true, beforeKg: 40_000, givenKg: 28_600, afterKg: 11_400 },
      { grade: 'petrol', burnable: false, beforeKg: 5000, givenKg: 0, afterKg: 5000 },
    ],
    ownFuelKg: 20_000,
    payloadKg: 1000,
    massBeforeKg: 116_000,
    massAfterKg: 87_400,
  },
];

export const testDump: PlanDump = {
  rateKgS: 20,
  leastKg: 3000,
  landingMassKg: 45_000,
  rows: [
    { after: 'Ewer One', timeS: 2520, massKg: 62_600, dumpedKg: 17_600, durationS: 880, massAfterKg: 45_000 },
  ],
};

export const testInlet: PlanInlet = {
  schedule: 'ramp',
  name: 'Inlet ramp',
  legs: [
    {
      leg: 1,
      name: 'Out and round',
      to: 'Ewer Two',
      mach: 2.85,
      positionDeg: 20.3,
      inHandKg: 900,
      rows: [
        {
          errorDeg: -1,
          thrustChange: -0.0298,
          dragChange: 0,
          shockMarginDeg: 2.17,
          fuelKg: 188.7,
          oneInletFuelKg: 67.3,
          stopped: null,
        },
        {
          errorDeg: 2,
          thrustChange: -0.142,
          dragChange: 0.034,
          shockMarginDeg: -0.83,
          fuelKg: null,
          oneInletFuelKg: null,
          stopped: 'expelled',
        },
      ],
      low: { errorDeg: -2.37, by: 'fuel' },
      high: { errorDeg: 1.17, by: 'expelled' },
    },
  ],
};
