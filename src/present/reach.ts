/** Reach ladders in rows and sentences: where one can still go after each failure, with how much, and until when. */
import type { Reach, ReachChoice, ReachLadder, UnstartRow, WhyNone } from '../core/plan/plan.ts';
import { leastMissing, whyAt } from '../core/plan/reach-times.ts';
import type { Column, Table } from './table.ts';
import { clock, hoursMinutes } from './time.ts';
import { figures, type Gauges, read, shown } from './units.ts';

/** Between rows of a ladder in a terminal. */
const everyS = 10 * 60;

/** The minute of a reach that holds for a time: the one before it, for what is in reach then is told too early, never too late. */
export function minuteAt({ timeS }: Reach, atS: number): number {
  return Math.max(
    timeS.findLastIndex((minute) => minute <= atS),
    0,
  );
}

const WHY: Readonly<Record<WhyNone, string>> = {
  gone: 'no longer there',
  notYet: 'not there yet',
  absent: 'absent',
  closed: 'closed',
  cannotRefuel: 'cannot take fuel',
  heights: 'no height can be held',
  thrust: 'thrust does not bring it there',
  fuel: 'tonnes short',
  weather: 'the weather ends before it',
  data: 'outside the tables of the deck',
};

/** "One engine stopped: NOWHERE to go ...", then after what there always is somewhere. */
export function reachSentences(reach: Reach, gauges: Gauges): readonly string[] {
  const told = reach.ladders.map((ladder) => ({
    name: ladder.name,
    nowhere: nowhereWords(reach, ladder, gauges),
  }));
  const always = told.flatMap(({ name, nowhere }) => (nowhere === null ? [name] : []));
  return [
    ...told.flatMap(({ name, nowhere }) => (nowhere === null ? [] : [`${name}: ${nowhere}.`])),
    ...(always.length === 0 ? [] : [`Always somewhere to go: ${always.join(', ')}.`]),
  ];
}

/** "NOWHERE to go from 1:02 to 1:56, up to ...": when, and how much is missing; null where there always is somewhere. */
export function nowhereWords(reach: Reach, ladder: ReachLadder, gauges: Gauges): string | null {
  const spans = withoutReach(reach, ladder);
  if (spans.length === 0) return null;
  const each = spans.map((span) => `${spanWords(span)}, ${missingWords(reach, ladder, span, gauges)}`);
  return `NOWHERE to go ${each.join('; ')}`;
}

/** "up to 7 200 kg short (Curlew Ridge at 1:56)": the minute of a span at which the most is missing to the end that it is least to. */
function missingWords(
  { timeS, ends }: Reach,
  { choices }: ReachLadder,
  { fromS, toS }: { readonly fromS: number; readonly toS: number },
  gauges: Gauges,
): string {
  let worst: { i: number; end: number; missingKg: number } | null = null;
  for (let i = 0; i < timeS.length; i++) {
    if (timeS[i] < fromS || timeS[i] > toS) continue;
    const least = leastMissing(choices, i);
    if (least === null) return `none can be flown to at ${hoursMinutes(timeS[i])}`;
    if (worst === null || least.missingKg > worst.missingKg) worst = { i, ...least };
  }
  if (worst === null) return '';
  const kg = shown(gauges('fuelKg'), worst.missingKg, 'required');
  return `up to ${kg} short (${ends[worst.end].name} at ${hoursMinutes(timeS[worst.i])})`;
}

/** Spans from the first to the last minute in which nothing is in reach. */
function withoutReach({ timeS }: Reach, { best }: ReachLadder): { fromS: number; toS: number }[] {
  const spans: { fromS: number; toS: number }[] = [];
  best.forEach((end, i) => {
    if (end !== null) return;
    if (i > 0 && best[i - 1] === null) spans[spans.length - 1].toS = timeS[i];
    else spans.push({ fromS: timeS[i], toS: timeS[i] });
  });
  return spans;
}

function spanWords({ fromS, toS }: { readonly fromS: number; readonly toS: number }): string {
  const [from, to] = [hoursMinutes(fromS), hoursMinutes(toS)];
  return from === to ? `at ${from}` : `from ${from} to ${to}`;
}

/**
 * When a choice is open: opening times up, closing times down to the minute; what stays open to the end has no end. Where it never
 * is, why, or how much is missing at best.
 */
export function openWords({ timeS }: Reach, choice: ReachChoice, gauges: Gauges): string {
  const { open, never, none, fuelKg, requiredKg } = choice;
  if (open.length === 0) {
    const there = fuelKg.filter((kg) => kg !== null);
    if (never !== null && there.length === 0) {
      const reasons = [...new Set(none.map(({ why }) => WHY[why]))].join(', ');
      return never === 'cannot be flown to' ? `${never}: ${reasons}` : never;
    }
    if (requiredKg === null) return 'no base within reach of it';
    return `never, ${shown(gauges('fuelKg'), requiredKg - Math.max(...there), 'required')} short at best`;
  }
  const [first, last] = [timeS[0], timeS[timeS.length - 1]];
  return open
    .map(({ fromS, toS }) => {
      const until = toS >= last ? 'to the end' : `to ${hoursMinutes(down(toS))}`;
      return fromS <= first ? until : `${hoursMinutes(up(fromS))} ${until}`;
    })
    .join(', ');
}

function down(seconds: number): number {
  return Math.floor(seconds / 60 + 1e-9) * 60;
}

function up(seconds: number): number {
  return Math.ceil(seconds / 60 - 1e-9) * 60;
}

/** Fuel on arrival, down; with "low" where it is less than has to arrive, and "none" where nothing does. */
export function arrivalWords({ fuelKg, requiredKg }: ReachChoice, i: number, gauges: Gauges): string {
  const kg = fuelKg[i];
  if (kg === null || kg < 0) return 'none';
  const figure = read(gauges('fuelKg'), kg, 'available');
  return requiredKg === null || kg < requiredKg ? `${figure} low` : figure;
}

/** Why a choice is none at a minute, and by how much; empty where it is one. */
export function whyNone(
  reach: Reach,
  { choices }: ReachLadder,
  end: number,
  i: number,
  gauges: Gauges,
): string {
  const choice = choices[end];
  const { fuelKg, requiredKg } = choice;
  const kg = fuelKg[i];
  const why = whyAt(choice, reach.timeS[i]);
  if (kg === null) return why === null ? 'none' : WHY[why];
  if (requiredKg === null) return 'no base within reach of it';
  if (kg >= requiredKg) return '';
  const behind = reach.ends[end].kind === 'tanker' && kg >= 0 ? ' for a base if no fuel comes' : '';
  return `${shown(gauges('fuelKg'), requiredKg - kg, 'required')} short${behind}`;
}

/** Ends against failures: when each is open. */
export function closingTable(reach: Reach, ladder: ReachLadder, gauges: Gauges): Table {
  const { shortUnit } = gauges('fuelKg');
  return {
    title: ladder.name,
    columns: [
      { name: 'To', unit: '', align: 'left' },
      { name: 'Has to arrive', unit: shortUnit, align: 'right' },
      { name: 'Open', unit: '', align: 'left' },
    ],
    rows: ladder.choices.map((choice, end) => [
      reach.ends[end].name,
      choice.requiredKg === null ? 'none' : read(gauges('fuelKg'), choice.requiredKg, 'required'),
      openWords(reach, choice, gauges),
    ]),
  };
}

/** One failure by time: fuel on arrival at each end, and the best of them. */
export function ladderTable(reach: Reach, ladder: ReachLadder, takeOff: string, gauges: Gauges): Table {
  const { shortUnit } = gauges('fuelKg');
  const rows = reach.timeS.flatMap((_, i) => {
    const told = i === 0 || i === reach.timeS.length - 1 || reach.timeS[i] % everyS === 0;
    return told ? [ladderRow(reach, ladder, i, takeOff, gauges)] : [];
  });
  return {
    title: ladder.name,
    columns: [
      { name: 'At', unit: 'h:min', align: 'left' },
      { name: 'Clock', unit: 'UTC', align: 'left' },
      ...reach.ends.map(({ name }): Column => ({ name, unit: shortUnit, align: 'right' })),
      { name: 'Best', unit: '', align: 'left' },
    ],
    rows,
  };
}

function ladderRow(
  reach: Reach,
  ladder: ReachLadder,
  i: number,
  takeOff: string,
  gauges: Gauges,
): readonly string[] {
  const best = ladder.best[i];
  return [
    hoursMinutes(reach.timeS[i]),
    clock(takeOff, reach.timeS[i]),
    ...ladder.choices.map((choice) => arrivalWords(choice, i, gauges)),
    best === null ? 'NONE' : reach.ends[best].name,
  ];
}

/** One moment: each failure, each end, the fuel that arrives and when, or why none. */
export function momentTable(
  reach: Reach,
  ladders: readonly ReachLadder[],
  i: number,
  takeOff: string,
  gauges: Gauges,
): Table {
  const { shortUnit } = gauges('fuelKg');
  return {
    title: `At ${hoursMinutes(reach.timeS[i])}, ${clock(takeOff, reach.timeS[i])}`,
    columns: [
      { name: 'Failure', unit: '', align: 'left' },
      { name: 'To', unit: '', align: 'left' },
      { name: 'Arrives', unit: shortUnit, align: 'right' },
      { name: 'Has to', unit: shortUnit, align: 'right' },
      { name: 'At', unit: 'UTC', align: 'left' },
      { name: '', unit: '', align: 'left' },
    ],
    rows: ladders.flatMap((ladder) =>
      ladder.choices.map((choice, end) => [
        end === 0 ? ladder.name : '',
        reach.ends[end].name,
        arrivalWords(choice, i, gauges).replace(' low', ''),
        choice.requiredKg === null ? 'none' : read(gauges('fuelKg'), choice.requiredKg, 'required'),
        arrivalClock(choice, i, takeOff),
        ladder.best[i] === end ? 'BEST' : whyNone(reach, ladder, end, i, gauges),
      ]),
    ),
  };
}

function arrivalClock({ arrivalS, fuelKg }: ReachChoice, i: number, takeOff: string): string {
  const [timeS, kg] = [arrivalS[i], fuelKg[i]];
  return timeS === null || kg === null || kg < 0 ? '' : clock(takeOff, timeS);
}

/** "As long back to Harrow Flat as on to Ewer One at 0:57." */
export function equalTimeSentences({ ladders }: Reach): readonly string[] {
  return ladders.flatMap(({ key, name, equalTimes }) =>
    key === 'tankerAbsent' || key === 'tankerLate' || key === 'tankerHalf' || key === 'baseClosed'
      ? []
      : equalTimes.map(
          ({ back, on, timeS }) =>
            `${name}: as long back to ${back} as on to ${on} at ${hoursMinutes(timeS)}.`,
        ),
  );
}

/** What a ladder rests on. */
export function sourceSentences({ ladders }: Reach): readonly string[] {
  return ladders.map(({ name, source, burnSpread }) => {
    const spread =
      burnSpread === null
        ? ''
        : `; what is burnt on the way is known to ${(100 * burnSpread).toFixed(1)}\u00a0%`;
    return `${name}: ${source}${spread}.`;
  });
}

export function unstartTable(reach: Reach, takeOff: string, gauges: Gauges): Table {
  const altitude = gauges('pressureAltitudeM');
  return {
    title: 'An inlet unstarts',
    columns: [
      { name: 'At', unit: 'h:min', align: 'left' },
      { name: 'Clock', unit: 'UTC', align: 'left' },
      { name: 'Mach', unit: '', align: 'right' },
      { name: 'Yaw', unit: 'kNm', align: 'right' },
      { name: 'Rudder', unit: '°', align: 'right' },
      { name: 'Restart after', unit: 's', align: 'right' },
      { name: 'Mach lost', unit: '', align: 'right' },
      { name: 'Height lost', unit: altitude.shortUnit, align: 'right' },
      { name: 'Fuel', unit: gauges('fuelKg').shortUnit, align: 'right' },
      { name: 'Then in reach', unit: '', align: 'left' },
    ],
    rows: reach.unstarts.map((row) => unstartRow(reach, row, takeOff, gauges)),
  };
}

function unstartRow(reach: Reach, row: UnstartRow, takeOff: string, gauges: Gauges): readonly string[] {
  const { restart } = row;
  const altitude = gauges('pressureAltitudeM');
  return [
    hoursMinutes(row.timeS),
    clock(takeOff, row.timeS),
    row.mach.toFixed(2),
    String(Math.round(Math.abs(row.yawNm) / 1000)),
    rudderWords(row),
    restart === null ? 'none' : String(Math.ceil(restart.afterS)),
    restart === null ? 'none' : restart.machLost.toFixed(2),
    restart === null ? 'none' : figures(altitude, altitude.differenceFromSi(restart.heightLostM)),
    restart === null ? 'none' : read(gauges('fuelKg'), restart.fuelKg, 'required'),
    reachAfter(reach, row, gauges),
  ];
}

/** The rudder that holds it; what the deck's limit does not allow is said. */
export function rudderWords({ rudderDeg, rudderLimitDeg }: UnstartRow): string {
  if (rudderDeg === null) return 'no data';
  const held = Math.abs(rudderDeg);
  return rudderLimitDeg !== null && held > rudderLimitDeg
    ? `over ${rudderLimitDeg.toFixed(1)}`
    : held.toFixed(1);
}

/** Where enough arrives after a restart, most first. */
export function reachAfter(reach: Reach, { restart }: UnstartRow, gauges: Gauges): string {
  const whole = reach.ladders.find(({ key }) => key === 'none');
  if (restart === null || whole === undefined) return 'none';
  const enough = restart.fuelOnArrivalKg.flatMap((kg, end) => {
    const { requiredKg } = whole.choices[end];
    return kg === null || requiredKg === null || kg < requiredKg
      ? []
      : [{ kg, end, overKg: kg - requiredKg }];
  });
  enough.sort((a, b) => b.overKg - a.overKg);
  const each = enough.map(
    ({ kg, end }) => `${reach.ends[end].name} ${shown(gauges('fuelKg'), kg, 'available')}`,
  );
  return each.length === 0 ? 'NONE' : each.join(', ');
}
