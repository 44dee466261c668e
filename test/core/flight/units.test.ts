/**
 * The forces in other units: with metre, second and kilogram replaced by units of odd size, every result may change by the
 * factor of its own dimension only. A sum of unlike quantities, or a constant with a hidden unit, shows.
 */
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { type Air, newAir } from '../../../src/core/air/day.ts';
import { standardDay } from '../../../src/core/air/offset-day.ts';
import type { Aircraft, EnginePoint } from '../../../src/core/aircraft/aircraft.ts';
import { ROTATING_EARTH } from '../../../src/core/flight/earth-model.ts';
import { Forces } from '../../../src/core/flight/forces.ts';
import { EXACT } from '../../../src/core/flight/setup.ts';
import { loadDeck } from '../../../src/files/deck.ts';
import { deckFolder } from '../../../src/files/deck-folder.ts';

const folder = fileURLToPath(new URL('../../../decks/sandmartin', import.meta.url));
const { aircraft } = loadDeck(deckFolder(folder));
const vary = {
  dragFactor: 1.03,
  fuelFlowFactor: 1.02,
  thrustFactor: 0.98,
  headwindMS: 0,
  leakKgS: 0,
  dragIncrement: 0.0007,
  runningEngines: 2,
};
const foot = 0.3048;

/** How many of the other units one metre, second and kilogram are, and what follows for derived units. */
const [metre, second, kilogram] = [3.7, 0.59, 11.3];
const newton = (kilogram * metre) / second ** 2;
const speed = metre / second;

/** The same aircraft, told in the other units. */
function retold({ aerodynamics, propulsion, balance, ...rest }: Aircraft): Aircraft {
  const scale = (out: EnginePoint): void => {
    out.thrustN *= newton;
    out.fuelFlowKgS *= kilogram / second;
  };
  return {
    ...rest,
    aerodynamics: {
      ...aerodynamics,
      wingAreaM2: aerodynamics.wingAreaM2 * metre ** 2,
      at: (mach, altitude, height, cg, out) =>
        aerodynamics.at(mach, altitude / metre, height / metre, cg, out),
    },
    propulsion: {
      ...propulsion,
      at(power, mach, altitude, height, offsetK, out) {
        propulsion.at(power, mach, altitude / metre, height / metre, offsetK, out);
        scale(out);
      },
      powerFor(thrust, mach, altitude, height, offsetK, out) {
        propulsion.powerFor(thrust / newton, mach, altitude / metre, height / metre, offsetK, out);
        scale(out);
      },
    },
    balance: { ...balance, cgFraction: (fuel) => balance.cgFraction(fuel / kilogram) },
  };
}

interface Point {
  readonly altitudeFt: number;
  readonly mach: number;
  readonly massKg: number;
}

/** Forces at a point, and that by which newton, metre, second and kilogram are to be multiplied in what is asked of them. */
function place(point: Point, other: boolean): { forces: Forces; force: number } {
  const altitudeM = point.altitudeFt * foot;
  const air: Air = newAir();
  standardDay.sample(0.8, -1.5, altitudeM, 0, air);
  const told = other ? retold(aircraft) : aircraft;
  const [m, v, kg] = other ? [metre, speed, kilogram] : [1, 1, 1];
  const setup = {
    aircraft: told,
    day: standardDay,
    earth: ROTATING_EARTH,
    tolerance: EXACT,
    zeroFuelMassKg: aircraft.balance.emptyMassKg * kg,
  };
  const forces = new Forces(setup, vary);
  forces.washDrag = 0.002;
  const speedMS = point.mach * air.speedOfSoundMS * v;
  air.geometricHeightM *= m;
  air.speedOfSoundMS *= v;
  air.densityKgM3 *= kg / m ** 3;
  forces.atSpeed(speedMS, point.massKg * kg, air, altitudeM * m);
  return { forces, force: other ? newton : 1 };
}

/** Every result, brought back to newtons, kilograms and seconds. */
function results({ forces, force }: ReturnType<typeof place>): number[] {
  const flow = force === 1 ? 1 : kilogram / second;
  const { angleRad, liftN, dragN, thrustN, alongN, fuelFlowKgS, power, mach, cgFraction } = forces;
  return [
    angleRad,
    mach,
    cgFraction,
    power,
    liftN / force,
    dragN / force,
    thrustN / force,
    alongN / force,
    fuelFlowKgS / flow,
    ...forces.powers,
  ];
}

const points: readonly (readonly [string, Point])[] = [
  ['behind a tanker', { altitudeFt: 24_000, mach: 0.75, massKg: 70_000 }],
  ['in the drag rise', { altitudeFt: 30_000, mach: 1.1, massKg: 66_000 }],
  ['in the cruise', { altitudeFt: 70_000, mach: 2.85, massKg: 50_000 }],
];

/** Ways of asking for forces, in newtons times what a newton is in the units at hand. */
const ways: readonly (readonly [string, (forces: Forces, newtons: number, weightN: number) => void])[] = [
  [
    'a power and a normal force',
    (forces, newtons, weightN) => {
      forces.usePower(aircraft.propulsion.maximum);
      forces.useNormalForce(weightN * newtons);
    },
  ],
  [
    'a power and a force along the motion',
    (forces, newtons) => {
      forces.usePower(aircraft.propulsion.maximum);
      forces.useAlongForce(-20_000 * newtons);
    },
  ],
  [
    'both forces, the engines alike',
    (forces, newtons, weightN) => {
      forces.useBoth(-4000 * newtons, weightN * newtons);
      forces.useRequiredThrust();
    },
  ],
  [
    'both forces, one engine in afterburner',
    (forces, newtons, weightN) => {
      forces.useBoth(3000 * newtons, weightN * newtons);
      forces.useOneAfterburner();
    },
  ],
];

describe.each(points)('forces %s', (_name, point) => {
  it.each(ways)('[FLY-10] change by their own dimension only: %s', (_way, ask) => {
    const weightN = point.massKg * 9.8;
    const [si, other] = [place(point, false), place(point, true)];
    ask(si.forces, si.force, weightN);
    ask(other.forces, other.force, weightN);
    const expected = results(si);
    expect(si.forces.outside).toBe(0);
    expect(expected.every(Number.isFinite)).toBe(true);
    results(other).forEach((value, i) => {
      expect(Math.abs(value - expected[i])).toBeLessThan(1e-9 * Math.max(1, Math.abs(expected[i])));
    });
  });
});
