/** What a later take-off costs, in words and rows: the worst minute first. */
import type { Plan } from '../core/plan/plan.ts';
import type { Slip, SlipPlace, SlipRow } from '../core/plan/slip.ts';
import { eventName, lowerFirst } from './names.ts';
import { failureSentences, fuelDifference } from './sentences.ts';
import { type Column, type Table, tableText } from './table.ts';
import { clock, hoursMinutes } from './time.ts';
import { gaugesOf, margin, plainSpaces, read, shown } from './units.ts';
import { wrap } from './wrap.ts';

const WIDTH = 96;

export function slipText(slip: Slip, plan: Plan): string {
  const paragraphs = [
    ...slipSentences(slip, plan),
    tableText(terminalTable(slip, plan), WIDTH),
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
    ...crewSentence(rows),
    ...(steady ? [steadySentence(plan)] : []),
  ];
}

/** The first take-off after which the crew's duty or oxygen is too short. */
function crewSentence(rows: readonly SlipRow[]): readonly string[] {
  const first = rows.find(({ crew }) => crew !== null && crew.leftS < 0);
  if (!first?.crew) return [];
  const what = first.crew.by === 'duty' ? 'duty is too long' : 'oxygen is too little';
  return [`From ${slipWords(first.slipS)} on the crew's ${what}.`];
}

function steadySentence({ areas, crew }: Plan): string {
  const moved = [
    'the light',
    ...(areas.some(({ hours }) => hours !== null) ? ['the hours of areas'] : []),
    ...(crew?.slip ? ['the clock of the crew'] : []),
    'the validity',
  ];
  return `The weather is the same at every time: a slip moves against ${moved.slice(0, -1).join(', ')} and ${moved.at(-1)}, nothing else.`;
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
  for (const { slipS, failure, areas, cannot } of rows) {
    const key = cannot ?? failure?.name;
    if (key === undefined || said.has(key)) continue;
    const why = failure === null ? `${cannot}.` : failureSentences({ ...plan, areas }, failure)[0];
    said.set(key, `${slipWords(slipS)}: ${lowerFirst(why)}`);
  }
  return [...said.values()];
}

const number = (name: string, unit: string): Column => ({ name, unit, align: 'right' });
const word = (name: string): Column => ({ name, unit: '', align: 'left' });

/** Every take-off with the light at each place, for a file. */
export function slipTable(slip: Slip, plan: Plan): Table {
  const places = furthest(slip);
  return tableWith(
    slip,
    plan,
    places.map((place) => word(`light at ${slipPlaceName(plan, place)}`)),
    (row) => places.map((place) => lightAt(row, place)),
  );
}

/** The same for a terminal: the light of all places in one column, a twilight by its kind alone ("civil"). */
function terminalTable(slip: Slip, plan: Plan): Table {
  const places = furthest(slip);
  return tableWith(slip, plan, [word('light, take-off to landing')], (row) => {
    const lights = places.map((place) => lightAt(row, place).replace(' twilight', ''));
    return [lights.every((light) => light === lights[0]) ? lights[0] : lights.join(', ')];
  });
}

/** The places of the take-off that came furthest. */
export function furthest({ rows }: Slip): readonly SlipPlace[] {
  return rows.reduce((most, { places }) => (places.length > most.length ? places : most), rows[0].places);
}

function lightAt({ places }: SlipRow, { key }: SlipPlace): string {
  return places.find((place) => place.key === key)?.light ?? '';
}

function tableWith(
  { rows }: Slip,
  plan: Plan,
  more: readonly Column[],
  cells: (row: SlipRow) => readonly string[],
): Table {
  const fuel = gaugesOf(plan)('fuelKg');
  const withCrew = rows.some(({ crew }) => crew !== null);
  const columns = [
    number('slip', 'min'),
    word('UTC'),
    word('flyable'),
    number('in hand', fuel.shortUnit),
    word('least at'),
    number('landed', fuel.shortUnit),
    word('closest limit'),
    ...(withCrew ? [number('crew left', 'h:min')] : []),
  ];
  return {
    title: 'What a later take-off costs (in hand: the least, at which contact or at the landing)',
    columns: [...columns, ...more],
    rows: rows.map((row) => [...rowCells(row, plan), ...(withCrew ? [crewLeft(row)] : []), ...cells(row)]),
  };
}

/** Down to the minute. */
function crewLeft({ crew }: SlipRow): string {
  return crew === null ? '' : `${hoursMinutes(Math.floor(crew.leftS / 60) * 60)} ${crew.by}`;
}

function rowCells(
  { slipS, takeOff, cannot, flyable, worst, nearest, landingFuelKg }: SlipRow,
  plan: Plan,
): string[] {
  const gauges = gaugesOf(plan);
  const fuel = gauges('fuelKg');
  const least = worst && fuelDifference(fuel, worst.fuelKg, worst.fuelKg - worst.inHandKg).figure;
  const limit = nearest && margin(gauges(nearest.quantity), nearest.leastMargin).text;
  return [
    `${Number((slipS / 60).toFixed(2))}`,
    clock(takeOff),
    cannot !== null ? 'not planned' : flyable ? 'yes' : 'no',
    least ?? '',
    worst === null ? '' : worst.kind === 'landing' ? 'landing' : worst.name,
    landingFuelKg === null ? '' : read(fuel, landingFuelKg, 'available'),
    nearest === null ? '' : `${lowerFirst(nearest.name)} ${limit}`,
  ];
}
