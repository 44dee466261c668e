/**
 * What should read what at each moment of a climb: fuel flow and scheduled positions of the deck's tables in today's air at the
 * power flown, centre of gravity, fuel and temperatures of the log; with tolerance and action of deck and sortie.
 */
import { quickTotalTemperature } from '../air/quick-total.ts';
import { geometricFromGeopotential, speedOfSound, standardTemperature } from '../air/standard.ts';
import type { Aircraft, CheckRule, EnginePoint, Schedule } from '../aircraft/aircraft.ts';
import { ruleFor, usualChecks } from '../aircraft/schedules.ts';
import { type Found, findMoments, isSameMach } from './check-moments.ts';
import type { Draft } from './draft.ts';
import { fileUnit } from './limits.ts';
import type { CheckMoment, CheckReading } from './plan.ts';
import type { CheckStep } from './sortie.ts';

/** What is read, before its tolerance is known; in the units of memory, NaN where its table does not reach. */
interface Bare {
  readonly of: string;
  readonly name: string;
  readonly side: string | null;
  readonly quantity: string;
  readonly expected: number;
  readonly standard: number | null;
  readonly table: string;
}

/** The air in which a reading is taken. */
interface Air {
  readonly mach: number;
  readonly pressureAltitudeM: number;
  readonly geometricHeightM: number;
  readonly temperatureOffsetK: number;
}

export function checksOf(drafted: Draft): CheckMoment[] {
  const { sortie, flight } = drafted.crew;
  const { aircraft } = flight.setup;
  const sources = [sortie.checks, aircraft.checks];
  return findMoments(drafted).map((found) => {
    const steps = sortie.checklist.filter((step) => belongs(step, found));
    const textsOf = (place: CheckStep['place']) =>
      steps.filter((step) => step.place === place).map(({ text }) => text);
    return {
      leg: found.leg,
      kind: found.kind,
      timeS: found.timeS - sortie.takeOff.timeS,
      mach: found.mach,
      pressureAltitudeM: found.value('pressureAltitudeM'),
      temperatureOffsetK: found.value('temperatureOffsetK'),
      engines: aircraft.propulsion.engines.map(({ name }, i) => ({ name, power: found.powers[i] })),
      readings: readingsAt(aircraft, found).map((bare) => inFile(bare, sources, found)),
      stepsBefore: textsOf('before'),
      stepsAfter: textsOf('after'),
    };
  });
}

/** Why there are no positions, tolerances or moments for the crew's steps. */
export function checksMissing({ crew }: Draft, checks: readonly CheckMoment[]): string[] {
  const { sortie, flight } = crew;
  const { schedules, checks: rules } = flight.setup.aircraft;
  const lost = sortie.checklist.filter((step) => !checks.some((moment) => belongs(step, moment)));
  return [
    ...(schedules.length === 0 ? ['nozzle, inlet and other positions: the deck has no schedules'] : []),
    ...(rules.length + sortie.checks.length === 0
      ? ['tolerances and actions of the checks: the deck has no checks']
      : []),
    ...lost.map(({ text, moment }) => `when to do "${text}": no leg of its comes to ${momentName(moment)}`),
  ];
}

function momentName(moment: CheckStep['moment']): string {
  return typeof moment === 'number' ? `Mach ${moment} in a climb` : moment;
}

function belongs(step: CheckStep, { leg, kind, mach }: Found | CheckMoment): boolean {
  if (step.leg !== null && step.leg !== leg) return false;
  if (typeof step.moment === 'string') return step.moment === kind;
  return kind === 'gate' && isSameMach(step.moment, mach);
}

/** A reading as the plan has it: in SI, angles in degrees, with its tolerance. */
function inFile(bare: Bare, sources: readonly (readonly CheckRule[])[], { kind }: Found): CheckReading {
  const { of, name, side, quantity, expected, standard, table } = bare;
  const unit = fileUnit(quantity);
  const { tolerance, action } = ruleFor(sources, of, kind, expected);
  const known = (value: number | null) => (value === null || Number.isNaN(value) ? null : value * unit);
  return {
    of,
    name,
    side,
    quantity,
    expected: known(expected),
    standard: known(standard),
    tolerance: known(tolerance),
    action,
    reason: Number.isNaN(expected) ? `outside the deck's table of ${table}` : null,
  };
}

function readingsAt(aircraft: Aircraft, found: Found): Bare[] {
  const { mach } = found;
  const pressureAltitudeM = found.value('pressureAltitudeM');
  const today: Air = {
    mach,
    pressureAltitudeM,
    geometricHeightM: found.value('geometricHeightM'),
    temperatureOffsetK: found.value('temperatureOffsetK'),
  };
  const standard: Air = {
    mach,
    pressureAltitudeM,
    geometricHeightM: geometricFromGeopotential(pressureAltitudeM),
    temperatureOffsetK: 0,
  };
  return [
    ...fuelFlows(aircraft, found.powers, today, standard),
    ...aircraft.schedules.flatMap((schedule) => positions(aircraft, schedule, found.powers, today, standard)),
    ofWhole('centreOfGravity', found.value('cgFraction'), null),
    ofWhole('fuel', found.value('fuelKg'), null),
    ofWhole(
      'inletTemperature',
      found.value('indicatedInletTemperatureK'),
      standardInletTemperature(aircraft, standard),
    ),
    ofWhole('staticTemperature', found.value('staticTemperatureK'), standardTemperature(pressureAltitudeM)),
  ];
}

function ofWhole(of: string, expected: number, standard: number | null): Bare {
  return { of, ...usualChecks[of], side: null, expected, standard, table: 'balance' };
}

/** As the gauge reads it on the standard day. */
function standardInletTemperature({ gauges }: Aircraft, { mach, pressureAltitudeM }: Air): number {
  const temperatureK = standardTemperature(pressureAltitudeM);
  const total = quickTotalTemperature(temperatureK, mach * speedOfSound(temperatureK));
  return temperatureK + gauges.inletTemperatureRecovery * (total - temperatureK);
}

function fuelFlows({ propulsion }: Aircraft, powers: readonly number[], today: Air, standard: Air): Bare[] {
  const out: EnginePoint = { thrustN: 0, fuelFlowKgS: 0, power: 0, outside: 0 };
  const flow = (power: number, air: Air): number => {
    const { mach, pressureAltitudeM, geometricHeightM, temperatureOffsetK } = air;
    propulsion.at(power, mach, pressureAltitudeM, geometricHeightM, temperatureOffsetK, out);
    return out.outside === 0 ? out.fuelFlowKgS : Number.NaN;
  };
  return propulsion.engines.map(({ name }, i) => ({
    of: 'fuelFlow',
    ...usualChecks.fuelFlow,
    side: name,
    expected: flow(powers[i], today),
    standard: flow(powers[i], standard),
    table: 'propulsion',
  }));
}

/** Of each engine at its own power, or of both sides of the inlet, where the day has no part. */
function positions(
  { propulsion }: Aircraft,
  { key, name, quantity, of, at }: Schedule,
  powers: readonly number[],
  today: Air,
  standard: Air,
): Bare[] {
  const where = (power: number, air: Air) =>
    at(power, air.mach, air.pressureAltitudeM, air.geometricHeightM, air.temperatureOffsetK);
  const bare = { of: key, name, quantity };
  if (of === 'side') {
    const both = { ...bare, expected: where(0, today), standard: null, table: 'the inlet' };
    return ['left', 'right'].map((side) => ({ ...both, side }));
  }
  return propulsion.engines.map((engine, i) => ({
    ...bare,
    side: engine.name,
    expected: where(powers[i], today),
    standard: where(powers[i], standard),
    table: 'propulsion',
  }));
}
