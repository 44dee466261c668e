/** The crew's clock in words and rows: duty, prebreathing, oxygen, light; how much later a take-off leaves them as they should be. */
import type { CrewClock, CrewMoment, CrewMomentKind, Plan } from '../core/plan/plan.ts';
import { eventName } from './names.ts';
import type { Table } from './table.ts';
import { clock, hoursMinutes } from './time.ts';
import { gaugesOf, shown } from './units.ts';

const MINUTE = 60;

/** To the minute, to the safe side: what is left down, what is needed up. */
function left(seconds: number): string {
  return hoursMinutes(Math.floor(seconds / MINUTE + 1e-9) * MINUTE);
}

function needed(seconds: number): string {
  return hoursMinutes(Math.ceil(seconds / MINUTE - 1e-9) * MINUTE);
}

export function crewSentences(plan: Plan): readonly string[] {
  const { crew } = plan;
  if (crew === null) return [];
  return [
    ...prebreatheSentence(plan, crew),
    ...oxygenSentence(plan, crew),
    ...dutySentence(plan, crew),
    ...slipSentence(crew),
  ];
}

function prebreatheSentence(plan: Plan, { prebreathe }: CrewClock): readonly string[] {
  if (prebreathe === null) return [];
  const { cabinAltitudeM, neededS, plannedS, leftS } = prebreathe;
  const altitude = gaugesOf(plan)('pressureAltitudeM');
  const cabin =
    cabinAltitudeM === null ? '' : `, the cabin up to ${shown(altitude, cabinAltitudeM, 'required')}`;
  if (neededS === 0) return [`No prebreathing is needed${cabin}.`];
  const latest = `Prebreathe ${needed(neededS)} before take-off${cabin}: begin by ${clock(plan.takeOff, -neededS)}`;
  if (leftS < 0) return [`${latest}. Planned are ${left(plannedS)}: ${needed(-leftS)} TOO SHORT.`];
  return [leftS < MINUTE ? `${latest}.` : `${latest}; planned are ${left(plannedS)}.`];
}

function oxygenSentence(plan: Plan, { oxygen }: CrewClock): readonly string[] {
  if (oxygen === null) return [];
  const { fromS, lastsS, reserveS, leftS } = oxygen;
  const reserve = reserveS === 0 ? '' : ` above the reserve of ${needed(reserveS)}`;
  const lasts = `On oxygen from ${clock(plan.takeOff, fromS)}: it lasts to ${clock(plan.takeOff, fromS + lastsS)}`;
  return [
    leftS < 0
      ? `${lasts}; on landing it is ${needed(-leftS)} SHORT of the reserve.`
      : `${lasts}; on landing ${left(leftS)} are left${reserve}.`,
  ];
}

function dutySentence(plan: Plan, { duty }: CrewClock): readonly string[] {
  if (duty === null) return [];
  const { reportS, endS, lengthS, mostS, leftS } = duty;
  const text = `Duty ${clock(plan.takeOff, reportS)} to ${clock(plan.takeOff, endS)}: ${needed(lengthS)} of ${left(mostS)}`;
  return [leftS < 0 ? `${text}, ${needed(-leftS)} TOO LONG.` : `${text}, ${left(leftS)} left.`];
}

function slipSentence({ slip }: CrewClock): readonly string[] {
  if (slip === null) return [];
  const what = slip.by === 'duty' ? 'duty' : 'the oxygen';
  return slip.leftS < 0
    ? [`No later take-off: ${what} is already past its end.`]
    : [`Take-off at most ${left(slip.leftS)} later: then ${what} ends.`];
}

/** Duty so far and oxygen left at a time since take-off. */
export function crewReadings({ crew }: Plan, timeS: number): readonly CrewReading[] {
  const { duty, oxygen } = crew ?? { duty: null, oxygen: null };
  return [
    ...(duty === null
      ? []
      : [
          {
            name: 'Duty',
            text: `${needed(timeS - duty.reportS)} of ${left(duty.mostS)}`,
            means: 'Since the crew reported, of the longest duty that the sortie allows.',
          },
        ]),
    ...(oxygen === null
      ? []
      : [
          {
            name: 'Oxygen left',
            text: left(oxygen.lastsS - (timeS - oxygen.fromS)),
            means: 'Until the supply of the crew is used up, its reserve included.',
          },
        ]),
  ];
}

/** As the readings of a moment. */
interface CrewReading {
  readonly name: string;
  readonly text: string;
  readonly means: string;
}

const NAMES: Readonly<Record<CrewMomentKind, string>> = {
  report: 'report',
  prebreathe: 'prebreathe by',
  oxygen: 'on oxygen',
  'take-off': 'take-off',
  contact: '',
  landing: 'landing',
  offDuty: 'off duty',
  oxygenReserve: 'oxygen reserve',
  dutyEnds: 'end of duty',
};

export function crewMomentName(plan: Plan, { kind, name }: CrewMoment): string {
  return NAMES[kind] || eventName(plan, { kind, name });
}

/** "day, 2:40 more": how long a later take-off leaves the light as it is. */
export function lightWords({ light, lightHoldsS }: CrewMoment): string {
  if (light === null) return '';
  return lightHoldsS === null ? light : `${light} to +${left(lightHoldsS)}`;
}

export function crewTable(plan: Plan): Table {
  const moments = plan.crew?.moments ?? [];
  return {
    title: "The crew's clock",
    columns: [
      { name: 'moment', unit: '', align: 'left' },
      { name: 'from take-off', unit: 'h:min', align: 'right' },
      { name: 'UTC', unit: '', align: 'right' },
      { name: 'duty', unit: 'h:min', align: 'right' },
      { name: 'oxygen left', unit: 'h:min', align: 'right' },
      { name: 'light, until a slip of', unit: '', align: 'left' },
    ],
    rows: moments.map((moment) => [
      crewMomentName(plan, moment),
      hoursMinutes(moment.timeS),
      clock(plan.takeOff, moment.timeS),
      dutyWords(moment),
      oxygenWords(moment),
      lightWords(moment),
    ]),
  };
}

export function dutyWords({ dutyS }: CrewMoment): string {
  return dutyS === null ? '' : needed(dutyS);
}

export function oxygenWords({ oxygenLeftS }: CrewMoment): string {
  return oxygenLeftS === null ? '' : left(oxygenLeftS);
}
