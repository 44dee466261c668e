/** What changed between two plans, for a terminal: the answer first, then its causes ranked, then every moment and limit. */
import type { Measure, Split } from '../core/plan/causes.ts';
import type { Changed, Comparison, MarkChange } from '../core/plan/compare.ts';
import type { Plan } from '../core/plan/plan.ts';
import {
  changeText,
  decides,
  headlines,
  inHandMargin,
  interacts,
  measureName,
  measureSpan,
  measureUnit,
  orderSentences,
  placed,
  ranked,
} from './causes.ts';
import { signed, signedTime } from './change.ts';
import { eventName, limitName, lowerFirst } from './names.ts';
import { failureSentences } from './sentences.ts';
import { type Column, type Table, tableText } from './table.ts';
import { dateAndClock, hoursMinutesSeconds } from './time.ts';
import { gaugesOf, margin, plainSpaces, read } from './units.ts';
import { wrap } from './wrap.ts';

const WIDTH = 96;

/** `plan` is the new one: its gauges and names are used. */
export function comparisonText(comparison: Comparison, plan: Plan): string {
  const { from, to, changed, keys, onlyFrom, onlyTo } = comparison;
  const head = `${from.title}, ${from.fingerprint} (old) to ${to.title}, ${to.fingerprint} (new).`;
  if (comparison.nothingChanged) return `${head}\n\nNothing changed: the same inputs, the same numbers.\n`;
  const only = [
    ...(onlyFrom.length > 0 ? [`Only in the old plan: ${names(plan, onlyFrom)}.`] : []),
    ...(onlyTo.length > 0 ? [`Only in the new plan: ${names(plan, onlyTo)}.`] : []),
  ];
  const paragraphs = [
    ...verdict(comparison, plan),
    head,
    ...(changed.length === 0 ? [] : [tableText(changedTable('What went in', changed), WIDTH)]),
    ...(keys.length === 0 ? [] : [tableText(changedTable('In the sortie', keys), WIDTH)]),
    ...causeParagraphs(comparison, plan),
    tableText(marksTable(comparison, plan), WIDTH),
    tableText(nextTable(comparison, plan), WIDTH),
    tableText(limitsTable(comparison, plan), WIDTH),
    ...only,
    plan.caution,
  ];
  const text = paragraphs.map((paragraph) =>
    paragraph.includes('\n') ? paragraph : wrap(paragraph, (part) => part.length, WIDTH).join('\n'),
  );
  return `${plainSpaces(text.join('\n\n'))}\n`;
}

/** Whether it can be flown, before and now, and what is in hand where one thing has to be enough for the other. */
export function verdict({ from, to, marks }: Comparison, plan: Plan): readonly string[] {
  const fuel = gaugesOf(plan)('fuelKg');
  const now = to.flyable ? 'flyable' : 'not flyable';
  const before = from.flyable ? 'flyable' : 'not flyable';
  const inHand = marks.filter(decides).map((mark) => {
    const { from: a, to: b, change } = mark;
    return `${inHandMargin(plan, a).figure} to ${inHandMargin(plan, b).text} at ${eventName(plan, placed(mark))} (${signed(fuel, change.inHandKg)})`;
  });
  const why = to.failure === null ? [] : failureSentences(plan, to.failure);
  const first =
    before === now ? `Old and new plan are ${now}` : `The old plan is ${before}, the new one ${now}`;
  return [inHand.length === 0 ? `${first}.` : `${first}. Fuel in hand: ${inHand.join(', ')}.`, ...why];
}

function names(plan: Plan, marks: readonly Pick<MarkChange, 'kind' | 'name'>[]): string {
  return marks.map((mark) => eventName(plan, placed(mark))).join(', ');
}

const number = (name: string, unit: string): Column => ({ name, unit, align: 'right' });
const word = (name: string): Column => ({ name, unit: '', align: 'left' });

function changedTable(title: string, changed: readonly Changed[]): Table {
  const said = (text: string | null): string => {
    if (text === null) return 'none';
    return /^\d{4}-\d\d-\d\dT/.test(text) ? dateAndClock(text) : text;
  };
  const rows = changed.map(({ what, from, to }) => [what, said(from), said(to)]);
  return { title, columns: [word(''), word('old'), word('new')], rows };
}

function causeParagraphs(comparison: Comparison, plan: Plan): readonly string[] {
  const { split, notFlown } = comparison;
  const reasons = notFlown.map((reason) => `Not flown again: ${reason}.`);
  if (split === null) return [...reasons, 'So the difference is not split by cause.'];
  if (split.causes.length === 0) return [...reasons, 'No cause changes a number.'];
  const measures = headlines(comparison, split, plan);
  const tables = measures.map((measure) => tableText(causesTable(comparison, split, measure, plan), WIDTH));
  return [...orderSentences(split, measures), ...reasons, ...tables];
}

const BAR = 20;

function causesTable(comparison: Comparison, split: Split, measure: Measure, plan: Plan): Table {
  const rows = ranked(split, measure, plan);
  const most = Math.max(...rows.map(({ change }) => Math.abs(change)));
  const bar = (change: number): string => '█'.repeat(most > 0 ? Math.round((change / most) * BAR) : 0);
  const cells = rows.map(({ name, change, changeText, aloneText }) => [
    name,
    changeText,
    bar(Math.max(0, -change)),
    bar(Math.max(0, change ?? 0)),
    aloneText,
  ]);
  if (interacts(measure))
    cells.push(['interaction', '', '', '', changeText(plan, measure, measure.interaction)]);
  const unit = measureUnit(plan, measure);
  return {
    title: `${measureName(comparison, plan, measure)}: ${measureSpan(comparison, plan, measure)}`,
    columns: [word('cause'), number('change', unit), number('less', ''), word('more'), number('alone', unit)],
    rows: cells,
  };
}

function marksTable({ marks }: Comparison, plan: Plan): Table {
  const fuel = gaugesOf(plan)('fuelKg');
  const rows = marks.map((mark) => {
    const { to, change } = mark;
    return [
      eventName(plan, placed(mark)),
      hoursMinutesSeconds(to.timeS),
      signedTime(change.timeS),
      read(fuel, to.fuelKg, 'available'),
      signed(fuel, change.fuelKg),
      inHandMargin(plan, to).figure,
      signed(fuel, change.inHandKg),
    ];
  });
  const columns = [
    word('at'),
    number('time', 'h:mm:ss'),
    number('change', 'min:s'),
    number('on board', fuel.shortUnit),
    number('change', fuel.shortUnit),
    number('in hand', fuel.shortUnit),
    number('change', fuel.shortUnit),
  ];
  return { title: 'The new plan, and its change from the old', columns, rows };
}

/** The limit that is next at each moment of the new plan, and how much nearer or further it is than in the old. */
function nextTable({ marks }: Comparison, plan: Plan): Table {
  const rows = marks.flatMap((mark) => {
    const { next } = mark;
    if (next === null) return [];
    const gauge = gaugesOf(plan)(next.quantity);
    const { figure, unit } = margin(gauge, next.to);
    return [
      [
        eventName(plan, placed(mark)),
        lowerFirst(limitName(plan, next.limit)),
        figure,
        signed(gauge, next.change),
        unit,
      ],
    ];
  });
  const columns = [word('at'), word('next limit'), number('margin', ''), number('change', ''), word('')];
  return { title: 'Margins there', columns, rows };
}

function limitsTable({ limits }: Comparison, plan: Plan): Table {
  const rows = limits.map(({ name, quantity, from, to, change }) => {
    const gauge = gaugesOf(plan)(quantity);
    return [
      name,
      margin(gauge, from).figure,
      margin(gauge, to).figure,
      signed(gauge, change),
      gauge.differenceUnit,
    ];
  });
  const columns = [word('limit'), number('old', ''), number('new', ''), number('change', ''), word('')];
  return { title: 'Least margins, the closest first', columns, rows };
}
