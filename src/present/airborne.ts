/** What readings come to, in sentences and rows: as planned or not, since when, why, what follows. */
import type { Answer } from '../core/airborne/answer.ts';
import type { CauseKey } from '../core/airborne/causes.ts';
import type { Estimate } from '../core/airborne/mixture.ts';
import type { Question } from '../core/airborne/plausible.ts';
import type { ReadKey } from '../core/airborne/reading.ts';
import type { Plan } from '../core/plan/plan.ts';
import { hoursMinutes } from './time.ts';
import { figures, type Gauge, gaugesOf, shown } from './units.ts';

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
  disconnect: { name: 'Tanker left', quantity: 'fuelKg' },
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

/** What counts first: as planned or not, what is known, how fast fuel goes, what no cause explains. */
export function airborneSentences(answer: Answer, plan: Plan): readonly string[] {
  const fuel = gaugesOf(plan)('fuelKg');
  const { alert, fuelKg, known, unexplained } = answer;
  const more = `${spread(fuel, fuelKg)} ${fuelKg.mean < 0 ? 'less' : 'more'} fuel than planned at ${hoursMinutes(answer.timeS)}`;
  const first =
    alert === null
      ? known.length === 0
        ? `As planned: ${more}.`
        : `With what is known: ${more}.`
      : `NOT as planned since ${hoursMinutes(alert.sinceS)} ± ${Math.ceil(alert.sinceSdS / 60)} min: ${causeWords(answer)}. ${more}.`;
  return [
    first,
    ...known.map(
      ({ cause, sinceS, amount }) =>
        `Known since ${hoursMinutes(sinceS)}: ${CAUSES[cause]}, ${amountWords(cause, amount)}.`,
    ),
    rateSentence(answer, fuel),
    ...unexplained.map(
      ({ key, timeS }) =>
        `${READ_AS[key].name} has drifted, seen at ${hoursMinutes(timeS)}, from all that is looked for: check that gauge.`,
    ),
  ];
}

function amountWords(cause: CauseKey, { mean, sd }: Estimate): string {
  const of = (factor: number, decimals: number, unit: string): string =>
    `${(mean * factor).toFixed(decimals)} ± ${(sd * factor).toFixed(decimals)} ${unit}`;
  switch (cause) {
    case 'leak':
      return of(60, 1, 'kg/min');
    case 'gauge':
      return of(1, 0, 'kg');
    case 'temperature':
      return `${of(1, 1, 'K')} warmer`;
    case 'headwind':
      return `${of(3600 / 1852, 0, 'kt')} more against`;
    default:
      return of(100, 1, '%');
  }
}

function rateSentence({ rateKgS }: Answer, fuel: Gauge): string {
  const size = (kgS: number): string => fuel.differenceFromSi(60 * Math.abs(kgS)).toFixed(1);
  const more = rateKgS.mean >= 0 ? 'more' : 'less';
  return `${size(rateKgS.mean)} ± ${size(rateKgS.sd)} ${fuel.differenceUnit} a minute ${more} than planned goes now.`;
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
