/** Numbers of what is flown that could be changed to free a sortie. */
import type { Lever } from './lever.ts';
import type { Sortie, Step } from './sortie.ts';

const knot = 1852 / 3600;
const foot = 0.3048;

type StepOf<K extends Step['kind']> = Extract<Step, { kind: K }>;

/** A number of the steps of one kind. */
interface StepNumber<K extends Step['kind']> {
  readonly kind: K;
  /** Its key in the file. */
  readonly key: string;
  readonly quantity: string;
  readonly step: number;
  /** null where a step has no such number. */
  read(step: StepOf<K>): number | null;
  write(step: StepOf<K>, value: number): StepOf<K>;
}

/** The first such number of a leg as a lever; steps of the sortie that have the same number go with it. */
function stepLever<K extends Step['kind']>(
  sortie: Sortie,
  leg: number,
  of: StepNumber<K>,
  name: string,
  towards: (from: number) => number,
): Lever | null {
  const numberOf = (step: Step): number | null => (step.kind === of.kind ? of.read(step as StepOf<K>) : null);
  const from = sortie.legs[leg]?.fly.map(numberOf).find((value) => value !== null);
  if (from === undefined || from === null) return null;
  const paths = [leg, ...sortie.legs.keys()].flatMap((index) =>
    sortie.legs[index].fly.flatMap((step, i) =>
      numberOf(step) === from ? [`legs.${index}.fly.${i}.${of.kind}.${of.key}`] : [],
    ),
  );
  const [path, ...also] = new Set(paths);
  const change = (step: Step, value: number): Step =>
    numberOf(step) === from ? of.write(step as StepOf<K>, value) : step;
  return {
    path,
    also,
    name,
    quantity: of.quantity,
    from,
    towards: towards(from),
    step: of.step,
    set: (value) => ({
      ...sortie,
      legs: sortie.legs.map((old) => ({ ...old, fly: old.fly.map((step) => change(step, value)) })),
    }),
  };
}

/** The cruise Mach of a leg; every climb and cruise of the sortie that aims at the same Mach goes with it. */
export function cruiseMach(sortie: Sortie, leg: number): Lever | null {
  const cruise: StepNumber<'cruise'> = {
    kind: 'cruise',
    key: 'mach',
    quantity: 'mach',
    step: 0.01,
    read: ({ mach }) => (mach > 1 ? mach : null),
    write: (step, mach) => ({ ...step, mach }),
  };
  const lever = stepLever(sortie, leg, cruise, 'cruise Mach', (from) => from - 0.6);
  if (!lever) return null;
  const { from } = lever;
  const climbs = sortie.legs.flatMap(({ fly }, index) =>
    fly.flatMap((step, i) =>
      step.kind === 'climb' && step.mach === from ? [`legs.${index}.fly.${i}.climb.mach`] : [],
    ),
  );
  const change = (step: Step, mach: number): Step =>
    step.kind === 'climb' && step.mach === from ? { ...step, mach } : step;
  return {
    ...lever,
    also: [...lever.also, ...climbs],
    set: (mach) => {
      const cruising = lever.set(mach);
      return {
        ...cruising,
        legs: cruising.legs.map((old) => ({ ...old, fly: old.fly.map((step) => change(step, mach)) })),
      };
    },
  };
}

/** The altitude of a leg's level cruise, towards the one its climb ends at, or lower where that is the same. */
export function cruiseAltitude(sortie: Sortie, leg: number): Lever | null {
  const { fly, name } = sortie.legs[leg];
  const level = fly.find((step) => step.kind === 'cruise' && step.altitude !== 'optimum');
  if (level?.kind !== 'cruise' || level.altitude === 'optimum') return null;
  const from = level.altitude;
  const climb = fly.find((step) => step.kind === 'climb' && step.to !== 'optimum' && step.to !== from);
  const apart = climb?.kind === 'climb' && climb.to !== 'optimum' ? climb.to - from : 0;
  const altitude: StepNumber<'cruise'> = {
    kind: 'cruise',
    key: 'altitude',
    quantity: 'pressureAltitudeM',
    step: apart === 0 ? 100 * foot : Math.abs(apart),
    read: (step) => (step.altitude === 'optimum' ? null : step.altitude),
    write: (step, altitudeM) => ({ ...step, altitude: altitudeM }),
  };
  return stepLever(sortie, leg, altitude, `cruise altitude of ${name}`, () =>
    apart === 0 ? from - 20_000 * foot : from + apart,
  );
}

/** The bottom of a leg's pushover, lower (-1) for more speed or higher (+1) for less. */
export function pushoverBottom(sortie: Sortie, leg: number, sign: 1 | -1): Lever | null {
  const bottom: StepNumber<'pushover'> = {
    kind: 'pushover',
    key: 'bottom',
    quantity: 'pressureAltitudeM',
    step: 100 * foot,
    read: ({ bottomM }) => bottomM,
    write: (step, bottomM) => ({ ...step, bottomM }),
  };
  return stepLever(sortie, leg, bottom, 'bottom of the pushover', (from) => from + sign * 8000 * foot);
}

/** The load factor of the pull-out, less. */
export function pullOut(sortie: Sortie, leg: number): Lever | null {
  const pull: StepNumber<'pushover'> = {
    kind: 'pushover',
    key: 'pull',
    quantity: 'loadFactor',
    step: 0.05,
    read: ({ pullLoadFactor }) => pullLoadFactor,
    write: (step, pullLoadFactor) => ({ ...step, pullLoadFactor }),
  };
  return stepLever(sortie, leg, pull, 'load factor of the pull-out', () => 1.05);
}

/** The load factor of the push, more. */
export function push(sortie: Sortie, leg: number): Lever | null {
  const pushed: StepNumber<'pushover'> = {
    kind: 'pushover',
    key: 'push',
    quantity: 'loadFactor',
    step: 0.05,
    read: ({ loadFactor }) => loadFactor,
    write: (step, loadFactor) => ({ ...step, loadFactor }),
  };
  return stepLever(sortie, leg, pushed, 'load factor of the push', () => 0.9);
}

/** The equivalent airspeed of a leg's climb, less (-1) or more (+1). */
export function climbSpeed(sortie: Sortie, leg: number, sign: 1 | -1): Lever | null {
  const speed: StepNumber<'climb'> = {
    kind: 'climb',
    key: 'equivalentAirspeed',
    quantity: 'equivalentAirspeedMS',
    step: knot,
    read: (step) => (step.speed.kind === 'EAS' ? step.speed.valueMS : null),
    write: (step, valueMS) => ({ ...step, speed: { kind: 'EAS', valueMS } }),
  };
  return stepLever(sortie, leg, speed, 'climb speed', (from) => from + sign * 100 * knot);
}

/** The equivalent airspeed of a leg's descent, less (-1) or more (+1). */
export function descentSpeed(sortie: Sortie, leg: number, sign: 1 | -1): Lever | null {
  const speed: StepNumber<'descend'> = {
    kind: 'descend',
    key: 'equivalentAirspeed',
    quantity: 'equivalentAirspeedMS',
    step: knot,
    read: ({ equivalentAirspeedMS }) => equivalentAirspeedMS,
    write: (step, equivalentAirspeedMS) => ({ ...step, equivalentAirspeedMS }),
  };
  return stepLever(sortie, leg, speed, 'descent speed', (from) => from + sign * 100 * knot);
}
