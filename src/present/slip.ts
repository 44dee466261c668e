/** What a later take-off costs, in words and rows: the worst minute first. */
import type { Plan } from '../core/plan/plan.ts';
import type { Slip, SlipPlace, SlipRow } from '../core/plan/slip.ts';
import { eventName, lowerFirst } from './names.ts';
import { failureSentences, fuelDifference } from './sentences.ts';
import { type Column, type Table, tableText } from './table.ts';
import { clock } from './time.ts';
import { gaugesOf, margin, plainSpaces, read, shown } from './units.ts';
import { wrap } from './wrap.ts';

const WIDTH = 96;

export function slipText(slip: Slip, plan: Plan): string {
  const table = { ...slipTable(slip, plan), title: 'What a later take-off costs' };
  const paragraphs = [
    ...slipSentences(slip, plan),
    tableText(table, WIDTH),
    ...reasons(slip, plan),
    plan.caution,
  ];
  const text = paragraphs.map((paragraph) =>
    paragraph.includes('\n') ? paragraph : wrap(paragraph, (part) => part.length, WIDTH).join('\n'),
  );
  return `${plainSpaces(text.join('\n\n'))}\n`;
}

export function slipWords(slipS: number): string {
  return `+${Number((slipS / 60).toFixed(2))}\u00a0min`;
}

/** The worst minute by name, what cannot be flown, and whether the weather moves at all. */
export function slipSentences(slip: Slip, plan: Plan): readonly string[] {
  const { rows, steady } = slip;
  const bad = rows.filter(({ flyable }) => flyable === false);
  const cannot = rows.filter((row) => row.cannot !== null);
  const list = (of: readonly SlipRow[]) => of.map(({ slipS }) => slipWords(slipS)).join(', ');
  return [
    ...worstSentence(slip, plan),
    ...(bad.length > 0 ? [`Cannot be flown at ${list(bad)}.`] : []),
    ...(cannot.length > 0 ? [`Cannot be planned at ${list(cannot)}.`] : []),
    ...(steady
      ? ['The weather is the same at every time: a slip moves the light and the validity, nothing else.']
      : []),
  ];
}

function worstSentence({ rows, worst, steady }: Slip, plan: Plan): readonly string[] {
  if (worst === null) {
    const planned = rows.some((row) => row.worst !== null);
    return planned && !steady ? ['The fuel in hand is the same at every take-off.'] : [];
  }
  const row = rows[worst];
  const first = rows[0];
  const at = row.worst;
  if (at === null) return [];
  const fuel = gaugesOf(plan)('fuelKg');
  const before = first.places.find(({ key }) => key === at.key)?.inHandKg ?? null;
  const less = before === null ? null : at.inHandKg - before;
  const place = slipPlaceName(plan, at);
  const left = fuelDifference(fuel, at.fuelKg, at.fuelKg - at.inHandKg).text;
  if (worst === 0)
    return [`The worst take-off is the earliest, ${slipWords(row.slipS)}: ${left} in hand at ${place}.`];
  const than =
    less === null ? '' : `${shown(fuel, -less, 'required')} less in hand than at ${slipWords(first.slipS)}, `;
  return [`Worst at ${slipWords(row.slipS)}: ${than}${left} in hand at ${place}.`];
}

export function slipPlaceName(plan: Plan, { kind, name }: Pick<SlipPlace, 'kind' | 'name'>): string {
  return eventName(plan, { kind, name: kind === 'landing' || kind === 'take-off' ? kind : name });
}

/** Each failure and each refusal once, with the first take-off that has it. */
function reasons({ rows }: Slip, plan: Plan): readonly string[] {
  const said = new Map<string, string>();
  for (const { slipS, failure, cannot } of rows) {
    const key = cannot ?? failure?.limit;
    if (key === undefined || said.has(key)) continue;
    const why = failure === null ? (cannot ?? '') : failureSentences(plan, { ...failure, freedBy: null })[0];
    said.set(key, `${slipWords(slipS)}: ${lowerFirst(why)}`);
  }
  return [...said.values()];
}

const number = (name: string, unit: string): Column => ({ name, unit, align: 'right' });
const word = (name: string): Column => ({ name, unit: '', align: 'left' });

export function slipTable({ rows }: Slip, plan: Plan): Table {
  const gauges = gaugesOf(plan);
  const fuel = gauges('fuelKg');
  const lit = rows.find(({ places }) => places.some(({ kind }) => kind === 'landing')) ?? rows[0];
  const cells = rows.map((row) => {
    const { slipS, takeOff, worst, nearest, landingFuelKg } = row;
    const inHand =
      worst === null ? '' : fuelDifference(fuel, worst.fuelKg, worst.fuelKg - worst.inHandKg).figure;
    return [
      `${Number((slipS / 60).toFixed(2))}`,
      clock(takeOff),
      row.cannot !== null ? 'not planned' : row.flyable ? 'yes' : 'no',
      inHand,
      worst === null ? '' : slipPlaceName(plan, worst),
      landingFuelKg === null ? '' : read(fuel, landingFuelKg, 'available'),
      nearest === null
        ? ''
        : `${lowerFirst(nearest.name)} ${margin(gauges(nearest.quantity), nearest.leastMargin).text}`,
      ...lit.places.map(({ key }) => row.places.find((place) => place.key === key)?.light ?? ''),
    ];
  });
  const columns = [
    number('slip', 'min'),
    word('UTC'),
    word('flyable'),
    number('in hand', fuel.shortUnit),
    word('least at'),
    number('landed', fuel.shortUnit),
    word('closest limit'),
    ...lit.places.map((place) => word(`light at ${slipPlaceName(plan, place)}`)),
  ];
  return { title: '', columns, rows: cells };
}
