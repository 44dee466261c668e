/** What readings come to, in sentences and rows: as planned or not, since when, why, what follows. */
import type { Answer } from '../core/airborne/answer.ts';
import type { CauseKey } from '../core/airborne/causes.ts';
import type { Estimate } from '../core/airborne/mixture.ts';
import type { Question } from '../core/airborne/plausible.ts';
import type { ReachNow } from '../core/airborne/reach-now.ts';
import type { ReadKey } from '../core/airborne/reading.ts';
import type { Plan } from '../core/plan/plan.ts';
import { eventName } from './names.ts';
import type { Column, Table } from './table.ts';
import { hoursMinutes } from './time.ts';
import { figures, type Gauge, gaugesOf, numeral, rounded, shown } from './units.ts';

/** What is read, as a crew calls it, and the quantity whose gauge it is read on. */
export const READ_AS: Readonly<Record<ReadKey, { readonly name: string; readonly quantity: string }>> = {
  fuelKg: { name: 'Fuel on board', quantity: 'fuelKg' },
  fuelUsedKg: { name: 'Fuel used', quantity: 'fuelKg' },
  fuelFlowKgS: { name: 'Fuel flow', quantity: 'fuelFlowKgS' },
  fuelFlowLeftKgS: { name: 'Flow left', quantity: 'fuelFlowKgS' },
  fuelFlowRightKgS: { name: 'Flow right', quantity: 'fuelFlowKgS' },
  inletTemperatureK: { name: 'Inlet temperature', quantity: 'inletTemperatureK' },
  mach: { name: 'Mach', quantity: 'mach' },
  pressureAltitudeM: { name: 'Altitude', quantity: 'pressureAltitudeM' },
  groundSpeedMS: { name: 'Ground speed', quantity: 'groundSpeedMS' },
  distanceM: { name: 'Distance flown', quantity: 'distanceM' },
  disconnect: { name: 'Disconnect', quantity: 'fuelKg' },
};

const CAUSES: Readonly<Record<CauseKey, string>> = {
  bothEngines: 'both engines burn more, or more drag',
  drag: 'more drag',
  leftEngine: 'the left engine burns more',
  rightEngine: 'the right engine burns more',
  leak: 'fuel is lost',
  gauge: 'the fuel gauge has stepped',
  temperature: 'warmer air',
  headwind: 'more headwind',
};

/** What counts first. */
export function airborneSentences(answer: Answer, plan: Plan): readonly string[] {
  const gauges = gaugesOf(plan);
  const fuel = gauges('fuelKg');
  const { alert, fuelKg, known } = answer;
  const more = `${spread(fuel, fuelKg)} ${fuelKg.mean < 0 ? 'less' : 'more'} fuel than planned at ${hoursMinutes(answer.timeS)}`;
  const first =
    alert === null
      ? known.length === 0
        ? `As planned: ${more}.`
        : `As told: ${more}.`
      : `NOT as planned since ${hoursMinutes(alert.sinceS)} ± ${Math.ceil(alert.sinceSdS / 60)} min: ${causeWords(answer)}. ${more}.`;
  return [first, ...known.map((each) => `Known since ${hoursMinutes(each.sinceS)}: ${CAUSES[each.cause]}.`)];
}

function causeWords({ alert }: Answer): string {
  if (alert === null) return '';
  const told = alert.odds
    .filter(({ probability }) => probability >= 0.1)
    .map(({ key, probability }) => `${CAUSES[key]} ${Math.round(probability * 100)}\u00a0%`);
  return alert.cause === null ? `cannot tell why (${told.join(', ')})` : told[0];
}

function spread(gauge: Gauge, { mean, sd }: Estimate): string {
  const [much, about] = [Math.abs(mean), sd].map((kg) => gauge.differenceFromSi(kg));
  return `${figures(gauge, much)} ± ${figures(gauge, about, 'required')}\u00a0${gauge.differenceUnit}`;
}

/** "12 340 kg for fuel on board at 1:15? 13 240 kg was expected; with two digits exchanged it would be 13 240 kg." */
export function questionSentence({ entry, expected, slip, meant, as }: Question, plan: Plan): string {
  const { name, quantity } = READ_AS[entry.key];
  const gauge = gaugesOf(plan)(quantity);
  const of = (si: number) => shown(gauge, si);
  const because =
    slip === 'transposed'
      ? `; with two digits exchanged it would be ${of(meant as number)}`
      : slip === 'decimal'
        ? `; with the point elsewhere it would be ${of(meant as number)}`
        : slip === 'unit'
          ? `; as ${as} it would be ${of(meant as number)}`
          : slip === 'kind'
            ? `; it may be ${as}`
            : '';
  return `${of(entry.value)} for ${name.toLowerCase()} at ${hoursMinutes(entry.timeS)}? About ${of(expected)} is expected${because}.`;
}

const number = (name: string, unit: string): Column => ({ name, unit, align: 'right' });

/** Fuel at each moment of the leg that is still ahead. */
export function gatesTable({ gates }: Answer, plan: Plan): Table {
  const fuel = gaugesOf(plan)('fuelKg');
  const kg = (si: number, side: 'available' | 'required') => figures(fuel, fuel.fromSi(si), side);
  return {
    title: 'Fuel to the end of the leg',
    columns: [
      { name: 'at', unit: '', align: 'left' },
      number('plan', 'h:min'),
      number('later', 'min'),
      number('planned', fuel.unit),
      number('expected', fuel.unit),
      number('±', fuel.differenceUnit),
      number('in hand', fuel.unit),
    ],
    rows: gates.map((gate) => [
      eventName(plan, gate),
      hoursMinutes(gate.timeS),
      numeral(rounded(gate.laterS / 60, 0.1, 'required'), 0.1),
      kg(gate.plannedKg, 'available'),
      kg(gate.fuelKg.mean, 'available'),
      kg(gate.fuelKg.sd, 'required'),
      gate.requiredKg === null ? '' : kg(gate.fuelKg.mean - gate.requiredKg, 'available'),
    ]),
  };
}

/** Where to go now after each failure, and which choice closes next. */
export function reachNowTable(reach: readonly ReachNow[], plan: Plan): Table {
  const fuel = gaugesOf(plan)('fuelKg');
  return {
    title: 'In reach now',
    columns: [
      { name: 'after', unit: '', align: 'left' },
      { name: 'best', unit: '', align: 'left' },
      number('over', fuel.unit),
      { name: 'closes next', unit: '', align: 'left' },
      number('in', 'min'),
    ],
    rows: reach.map(({ name, best, next }) => [
      name,
      best === null ? 'NONE' : best.end,
      best === null ? '' : figures(fuel, fuel.fromSi(best.overKg), 'available'),
      next === null ? '' : next.end,
      next === null ? '' : String(Math.floor(next.inS / 60)),
    ]),
  };
}
