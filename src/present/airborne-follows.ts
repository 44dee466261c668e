/** What follows from readings, in sentences and rows: fuel ahead, what closes next, what to do now, limits near, the gauge. */
import type { Advice, Choice } from '../core/airborne/advice.ts';
import type { Answer } from '../core/airborne/answer.ts';
import type { Follows, FuelAhead } from '../core/airborne/follow.ts';
import type { InletGauge } from '../core/airborne/gauge.ts';
import type { LimitRead } from '../core/airborne/limits-met.ts';
import type { ReachNow } from '../core/airborne/reach-now.ts';
import type { LimitAhead } from '../core/airborne/refly.ts';
import type { Plan } from '../core/plan/plan.ts';
import { eventName, limitName, lowerFirst } from './names.ts';
import type { Column, Table } from './table.ts';
import { hoursMinutes } from './time.ts';
import { figures, type Gauge, gaugesOf, margin, numeral, rounded, shown } from './units.ts';

/** Stands beside what was answered at the edge of the data. */
const BEYOND_DATA = 'beyond data';

/** What decides first: the end of the leg, the next choice to close, what to do now, limits met; then what was not computed. */
export function followSentences(follows: Follows, answer: Answer, plan: Plan): readonly string[] {
  return [
    ...endSentences(follows, plan),
    ...nextSentences(follows),
    ...adviceSentences(follows.advice, answer, plan),
    ...limitSentences(follows, plan),
    ...follows.beyondData.map((what) => `${BEYOND_DATA}: ${what}. Told at the edge least favourable.`),
    ...follows.notComputed.map((why) => `From the plan's own numbers: ${why}.`),
    ...follows.failed.map((part) => `Not computed: ${part}.`),
  ];
}

/** Whether what the end of the leg needs is there with two standard deviations to spare. */
function endSentences({ fuel, stopped, stoppedIfWorse, newStartDowns }: Follows, plan: Plan): string[] {
  const gauge = gaugesOf(plan)('fuelKg');
  const end = fuel.find(({ kind }) => kind === 'contact' || kind === 'landing') ?? fuel.at(-1);
  const cannot =
    stopped !== null
      ? [`NOT to be flown on as planned: ${stopped.phase}, ${stopped.text}.`]
      : stoppedIfWorse !== null
        ? [
            `One standard deviation worse it cannot be flown on: ${stoppedIfWorse.phase}, ${stoppedIfWorse.text}.`,
          ]
        : [];
  const downs = fuel.filter(({ kind, leg, timeS }) => {
    return kind === 'start-down' && newStartDowns.includes(leg) && Number.isFinite(timeS);
  });
  cannot.push(
    ...downs.map(
      ({ timeS, planTimeS }) =>
        `The start of the descent planned at ${hoursMinutes(planTimeS)} leaves no room for it: start down at ${hoursMinutes(timeS)}.`,
    ),
  );
  if (end === undefined || end.requiredKg === null) return cannot;
  const inHand = end.fuelKg - end.requiredKg;
  const has = `${shown(gauge, end.fuelKg, 'available')} ± ${figures(gauge, gauge.differenceFromSi(end.sdKg), 'required')} at ${eventName(plan, end)}, of ${shown(gauge, end.requiredKg, 'required')} required`;
  const mark = markOf(end);
  const marked = mark === '' ? '' : ` (${mark})`;
  const verdict =
    inHand >= 2 * end.sdKg
      ? 'enough.'
      : `${inHand < 0 ? 'NOT enough' : 'not surely enough'}. Choose from what is in reach now.`;
  return [...cannot, `${has}${marked}: ${verdict}`];
}

function nextSentences({ reach, next }: Follows): string[] {
  if (reach === null) return ['What is in reach is not computed: the plan was kept without its reach.'];
  const whole = reach.find(({ key }) => key === 'none');
  const told = (name: string, end: string, inS: number): string =>
    `${end} in ${Math.floor(inS / 60)} min, ${lowerFirst(name)}`;
  const first = whole?.next ? [told(whole.name, whole.next.end, whole.next.inS)] : [];
  if (next !== null && next.after !== whole?.name) first.push(told(next.after, next.end, next.inS));
  return [first.length === 0 ? 'No choice closes any more.' : `Closes next: ${first.join('; ')}.`];
}

function adviceSentences(advice: Advice | null, { alert }: Answer, plan: Plan): string[] {
  if (advice === null) return [];
  const { best, passesNow, to, heldBy } = advice;
  const passed = passesNow === null ? [] : [passedWords(plan, passesNow.key)];
  const stays = best.raisedM === 0 && best.machMore === 0;
  if (Number.isNaN(best.fuelKg)) {
    return [...passed, `No other height or Mach brings it to ${to}: choose from what is in reach now.`];
  }
  if (stays) {
    const why = alert === null ? '' : ' What changed does not ask for another.';
    return [...passed, `What to do now: keep this height and Mach; no other saves fuel to ${to}.${why}`];
  }
  const fuel = gaugesOf(plan)('fuelKg');
  const saved = fuel.differenceFromSi(Math.abs(best.savesKg));
  const amount = `${figures(fuel, saved, 'available')} ${fuel.differenceUnit}`;
  const price = Number.isNaN(best.savesKg)
    ? `arrives with ${shown(fuel, best.fuelKg, 'available')}`
    : best.savesKg >= 0
      ? `saves ${amount}`
      : `costs ${figures(fuel, saved, 'required')} ${fuel.differenceUnit}`;
  const binds = heldBy === null ? '' : ` ${limitWords(plan, heldBy)} forbids the next step.`;
  return [
    ...passed,
    `What to do now: ${choiceWords(advice, best, plan)} ${price} ${Number.isNaN(best.savesKg) ? 'at' : 'to'} ${to}${laterWords(best)}.${binds}`,
  ];
}

/** "Going on as now passes inlet temperature.", or why it cannot be flown. */
function passedWords(plan: Plan, key: string): string {
  const isLimit = plan.limits.some((limit) => limit.key === key);
  if (isLimit) return `Going on as now passes ${lowerFirst(limitWords(plan, key))}.`;
  return `Going on as now cannot be flown: ${lowerFirst(limitWords(plan, key))} does not suffice.`;
}

function laterWords({ laterS }: Choice): string {
  const minutes = Math.abs(laterS) / 60;
  return !(minutes >= 0.05) ? '' : `, ${minutes.toFixed(1)} min ${laterS > 0 ? 'later' : 'sooner'}`;
}

/** "M 2.80, 1 000 ft lower". */
function choiceWords({ mach }: Advice, { raisedM, machMore }: Choice, plan: Plan): string {
  const altitude = gaugesOf(plan)('pressureAltitudeM');
  const much = figures(altitude, altitude.differenceFromSi(Math.abs(raisedM)));
  const height = raisedM === 0 ? [] : [`${much} ${altitude.shortUnit} ${raisedM > 0 ? 'higher' : 'lower'}`];
  const speed = machMore === 0 ? [] : [`M\u00a0${(mach + machMore).toFixed(2)}`];
  return [...height, ...speed].join(', ');
}

/** Why a flight ends, beside the limits of a deck. */
const REASONS: Readonly<Record<string, string>> = {
  thrust: 'The thrust',
  fuel: 'The fuel',
  route: 'The way to the end of the leg',
  manoeuvre: 'The level-off',
};

function limitWords(plan: Plan, key: string): string {
  return REASONS[key] ?? (key.startsWith('outside:') ? 'The end of the data' : limitName(plan, key));
}

function limitSentences({ limitsRead, limitsAhead }: Follows, plan: Plan): string[] {
  const read = limitsRead
    .filter(({ least }) => least.margin < 0)
    .map((limit) => {
      const gauge = gaugesOf(plan)(limit.quantity);
      const now = limit.margin < 0 ? ', and is now' : '';
      const check = limit.checkGauge ? '. The estimate expects no such reading: check that gauge' : '';
      return `${limit.name} was read beyond its limit by ${beyond(gauge, limit.least.margin)} at ${hoursMinutes(limit.least.timeS)}, for ${minutes(limit.beyondS)} min in all${now}${check}.`;
    });
  const ahead = limitsAhead
    .filter(({ leastMargin }) => leastMargin < 0)
    .map((limit) => {
      const gauge = gaugesOf(plan)(limit.quantity);
      return `${limit.name} will be passed by ${beyond(gauge, limit.leastMargin)} at ${hoursMinutes(limit.timeS)}, for ${minutes(limit.beyondS)} min in all.`;
    });
  return [...read, ...ahead];
}

function beyond(gauge: Gauge, marginSi: number): string {
  const step = gauge.step / 10;
  return `${figures(gauge, gauge.differenceFromSi(-marginSi), 'required', step)} ${gauge.differenceUnit}`;
}

function minutes(seconds: number): string {
  return numeral(rounded(seconds / 60, 0.1, 'required'), 0.1);
}

/** What the inlet gauge should read, and what air its reading means. */
export function gaugeSentences(gauge: InletGauge | null, plan: Plan): readonly string[] {
  if (gauge === null) return [];
  const gauges = gaugesOf(plan);
  const [inlet, air] = [gauges('inletTemperatureK'), gauges('temperatureK')];
  const k = (value: number): string => value.toFixed(1);
  const lag =
    Math.abs(gauge.lagK) < 0.05
      ? ''
      : `, ${k(Math.abs(gauge.lagK))} K ${gauge.lagK < 0 ? 'above' : 'below'} that by its lag`;
  const should = `The inlet gauge should read ${shown(inlet, gauge.expectedK)} now: ${k(gauge.recoveryK)} K below the total temperature by the recovery of its probe${lag}.`;
  if (gauge.read === null) return [should];
  const { timeS, readK, airK, perHundredthMachK } = gauge.read;
  return [
    should,
    `It read ${shown(inlet, readK)} at ${hoursMinutes(timeS)}: air of ${shown(air, airK)}, of which 0.01 Mach moves ${k(perHundredthMachK)} K; the estimate has ${shown(air, gauge.airK)}.`,
  ];
}

const number = (name: string, unit: string): Column => ({ name, unit, align: 'right' });
const wordsColumn = (name: string): Column => ({ name, unit: '', align: 'left' });

/** Fuel at each moment that is ahead. */
export function fuelTable({ fuel, flown }: Follows, plan: Plan): Table {
  const gauge = gaugesOf(plan)('fuelKg');
  const kg = (si: number, side: 'available' | 'required') => figures(gauge, gauge.fromSi(si), side);
  return {
    title: flown ? 'Fuel ahead, flown on with what is found' : 'Fuel to the end of the leg',
    columns: [
      wordsColumn('at'),
      number('time', 'h:min'),
      number('later', 'min'),
      number('planned', gauge.unit),
      number('expected', gauge.unit),
      number('±', gauge.differenceUnit),
      number('in hand', gauge.unit),
    ],
    rows: fuel.map((gate) => [
      [eventName(plan, gate), markOf(gate)].filter((text) => text !== '').join(', '),
      hoursMinutes(gate.timeS),
      numeral(rounded((gate.timeS - gate.planTimeS) / 60, 0.1, 'required'), 0.1),
      kg(gate.plannedKg, 'available'),
      kg(gate.fuelKg, 'available'),
      kg(gate.sdKg, 'required'),
      gate.requiredKg === null ? '' : inHandOf(gate, gauge),
    ]),
  };
}

/** How a number was come by, where it was not flown though the rest was. */
function markOf({ by }: FuelAhead): string {
  return by === 'beyondData' ? BEYOND_DATA : by === 'slopes' ? 'by slopes' : '';
}

function inHandOf({ fuelKg, requiredKg }: FuelAhead, gauge: Gauge): string {
  return requiredKg === null ? '' : margin(gauge, fuelKg - requiredKg).figure;
}

/** Where to go now after each failure, and which choice closes next. */
export function reachNowTable(reach: readonly ReachNow[], plan: Plan): Table {
  const fuel = gaugesOf(plan)('fuelKg');
  return {
    title: 'In reach now',
    columns: [
      wordsColumn('after'),
      wordsColumn('best'),
      number('over', fuel.unit),
      wordsColumn('closes next'),
      number('in', 'min'),
    ],
    rows: reach.map(({ name, best, next, beyondData }) => [
      `${name}${beyondData ? `, ${BEYOND_DATA}` : ''}`,
      best === null ? 'NONE' : best.end,
      best === null ? '' : figures(fuel, fuel.fromSi(best.overKg), 'available'),
      next === null ? '' : next.end,
      next === null ? '' : String(Math.floor(next.inS / 60)),
    ]),
  };
}

/** Each height and each Mach beside those of now. */
export function adviceTable(advice: Advice, plan: Plan): Table {
  const fuel = gaugesOf(plan)('fuelKg');
  return {
    title: `Another height or Mach, to ${advice.to}`,
    columns: [
      wordsColumn('fly'),
      number('saves', fuel.differenceUnit),
      number('later', 'min'),
      wordsColumn('forbidden by'),
    ],
    rows: advice.choices.map((choice) => {
      const flies = Number.isFinite(choice.savesKg);
      return [
        choiceWords(advice, choice, plan),
        flies ? figures(fuel, fuel.differenceFromSi(choice.savesKg), 'available') : '',
        flies ? numeral(Math.round(choice.laterS / 6) / 10, 0.1) : '',
        choice.forbidden === null ? '' : lowerFirst(limitWords(plan, choice.forbidden.key)),
      ];
    }),
  };
}

/** Rows of the limits that are near, the closest first. */
const nearRows = 6;

/** What was read of each limit and how near it comes on the rest of the way. */
export function limitsTable({ limitsAhead, limitsRead }: Follows, plan: Plan): Table {
  const near = limitsAhead.slice(0, nearRows);
  const others = limitsRead.filter(({ key }) => !near.some((limit) => limit.key === key));
  const rows = [
    ...near.map((limit) => ({ ahead: limit, read: limitsRead.find(({ key }) => key === limit.key) })),
    ...others.map((read) => ({ ahead: limitsAhead.find(({ key }) => key === read.key), read })),
  ];
  return {
    title: 'Limits near',
    columns: [
      wordsColumn('limit'),
      number('read', ''),
      number('margin read', ''),
      number('beyond so far', 'min'),
      number('least ahead', ''),
      number('at', 'h:min'),
      number('beyond ahead', 'min'),
    ],
    rows: rows.map(({ ahead, read }) => limitRow(ahead, read, plan)),
  };
}

function limitRow(ahead: LimitAhead | undefined, read: LimitRead | undefined, plan: Plan): readonly string[] {
  const limit = ahead ?? (read as LimitRead);
  const gauge = gaugesOf(plan)(limit.quantity);
  return [
    limit.name,
    read === undefined ? '' : shown(gauge, read.value),
    read === undefined ? '' : margin(gauge, read.margin).text,
    read === undefined ? '' : minutes(read.beyondS),
    ahead === undefined ? '' : margin(gauge, ahead.leastMargin).text,
    ahead === undefined ? '' : hoursMinutes(ahead.timeS),
    ahead === undefined ? '' : minutes(ahead.beyondS),
  ];
}
