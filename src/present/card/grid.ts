/** The optimum altitude card: how high now, for the fuel on board and the temperature met. */
import type { AltitudeGrid, Plan } from '../../core/plan/plan.ts';
import { keyWords, limitName, lowerFirst, upperFirst } from '../names.ts';
import { figures, type Gauge, gaugesOf, read, rounded, shown } from '../units.ts';
import {
  type Card,
  type CardColumn,
  type Cell,
  cell,
  MOST_COLUMNS,
  MOST_ROWS,
  part,
  split,
  words,
} from './card.ts';

/** Figures of more than this many characters leave room for three columns of altitude, not four. */
const WIDE = 6;

export function gridCards(plan: Plan): readonly Card[] {
  const alike: AltitudeGrid[][] = [];
  for (const grid of plan.altitudeGrids) {
    const same = alike.find(([first]) => agree(plan, first, grid));
    if (same === undefined) alike.push([grid]);
    else same.push(grid);
  }
  return alike.flatMap(([grid, ...others]) => cardsOf(plan, grid, others));
}

/** Whether the altitudes of a grid are those of another within half a step of its figures, wherever it has any. */
function agree(plan: Plan, one: AltitudeGrid, other: AltitudeGrid): boolean {
  const gauge = gaugesOf(plan)('pressureAltitudeM');
  const same = (a: readonly number[], b: readonly number[]) =>
    a.length === b.length && a.every((value, i) => value === b[i]);
  return (
    one.mach === other.mach &&
    same(one.fuelKg, other.fuelKg) &&
    same(one.temperatureOffsetK, other.temperatureOffsetK) &&
    one.cells.every((row, i) =>
      row.every(({ pressureAltitudeM: a }, j) => {
        const { pressureAltitudeM: b } = other.cells[i][j];
        if (a === null || b === null) return b === null;
        return Math.abs(gauge.differenceFromSi(a - b)) <= gauge.step / 2;
      }),
    )
  );
}

/** Cards of a grid, which stand for others that agree with it. */
function cardsOf(plan: Plan, grid: AltitudeGrid, others: readonly AltitudeGrid[]): readonly Card[] {
  const gauge = gaugesOf(plan)('pressureAltitudeM');
  const standard = grid.temperatureOffsetK.indexOf(0);
  const widest = Math.max(...grid.fuelKg.map((fuel) => read(gaugesOf(plan)('fuelKg'), fuel).length));
  const most = MOST_COLUMNS - (widest > WIDE ? 2 : 1);
  const offsets = columnPieces(grid, most);
  const rows = split(
    grid.fuelKg.map((_, i) => i).sort((a, b) => grid.fuelKg[b] - grid.fuelKg[a]),
    MOST_ROWS,
  );
  return rows.flatMap((lines, a) =>
    offsets.map((columns) => {
      const notes = new Map<string, string>();
      const table = {
        columns: heads(plan, grid, columns),
        rows: lines.map((i) => row(plan, { grid, others, standard, notes }, i, columns)),
      };
      return {
        title: `Best altitude, ${range(plan, grid, columns)}${part(a, rows.length)}`,
        question: `${upperFirst([grid, ...others].map(({ power }) => keyWords(power)).join(' or '))}, M ${figures(gaugesOf(plan)('mach'), grid.mach)}: how high now?`,
        answer: today(plan, grid),
        table,
        notes: [
          ...[...notes].map(([note, letter]) => `${letter}  ${note}.`),
          standard >= 0
            ? `Small: the same fuel on the standard day. All are ${gauge.unit}, to ${gauge.step} ${gauge.shortUnit}.`
            : `Altitudes are ${gauge.unit}, to ${gauge.step} ${gauge.shortUnit}.`,
          ...worked(plan, grid, lines, columns, standard),
          ...workedBetween(plan, grid, lines, columns),
        ],
      };
    }),
  );
}

/** Columns of each card; the last of a card is the first of the next, so that a temperature between them can be found. */
function columnPieces(grid: AltitudeGrid, most: number): readonly (readonly number[])[] {
  const all = grid.temperatureOffsetK.map((_, j) => j);
  if (all.length <= most) return [all];
  return split(all.slice(0, -1), most - 1).map((piece) => [...piece, piece[piece.length - 1] + 1]);
}

function heads(plan: Plan, grid: AltitudeGrid, columns: readonly number[]): readonly CardColumn[] {
  const gauges = gaugesOf(plan);
  const unit = gauges('pressureAltitudeM').unit;
  const fuel: CardColumn = { name: 'Fuel', unit: `${gauges('fuelKg').unit}, mass below`, holds: 'figures' };
  const altitudes = columns.map((j): CardColumn => {
    const offset = grid.temperatureOffsetK[j];
    const name = offsetName(gauges('temperatureOffsetK'), offset);
    return {
      name,
      unit: offset === 0 ? 'standard day' : unit,
      holds: 'figures',
    };
  });
  return [fuel, ...altitudes];
}

/** "ISA −10 to +0 K". */
function range(plan: Plan, grid: AltitudeGrid, columns: readonly number[]): string {
  const gauge = gaugesOf(plan)('temperatureOffsetK');
  const [first, last] = [columns[0], columns[columns.length - 1]].map((j) =>
    offsetName(gauge, grid.temperatureOffsetK[j]),
  );
  return first === last ? first : `${first.split('\u00a0')[0]} to ${last.replace('ISA ', '')}`;
}

/** "ISA +5 K". */
function offsetName(gauge: Gauge, offsetK: number): string {
  const text = read(gauge, offsetK);
  return `ISA ${text.startsWith('−') ? '' : '+'}${text}\u00a0${gauge.differenceUnit}`;
}

/** What a cell is set with. */
interface Setting {
  readonly grid: AltitudeGrid;
  readonly others: readonly AltitudeGrid[];
  /** Column of the standard day; -1 where there is none. */
  readonly standard: number;
  /** Letters of the notes below the table. */
  readonly notes: Map<string, string>;
}

function row(plan: Plan, setting: Setting, i: number, columns: readonly number[]): readonly Cell[] {
  const { grid } = setting;
  const gauges = gaugesOf(plan);
  const fuel = cell(read(gauges('fuelKg'), grid.fuelKg[i]), read(gauges('massKg'), grid.massKg[i]));
  return [fuel, ...columns.map((j) => altitudeCell(plan, setting, i, j))];
}

function altitudeCell(plan: Plan, { grid, others, standard, notes }: Setting, i: number, j: number): Cell {
  const gauge = gaugesOf(plan)('pressureAltitudeM');
  const at = grid.cells[i][j];
  if (at.pressureAltitudeM === null)
    return words(at.reason === null ? 'not computed' : reasonWords(plan, at.reason));
  const onStandard = standard < 0 || standard === j ? null : grid.cells[i][standard].pressureAltitudeM;
  const beside = onStandard === null ? '' : read(gauge, onStandard);
  const parts = [
    ...(at.reason === null ? [] : [`held there by: ${reasonWords(plan, at.reason)}`]),
    ...others.flatMap((other) => {
      const { pressureAltitudeM, reason } = other.cells[i][j];
      if (pressureAltitudeM !== null || reason === null) return [];
      return [`none with ${keyWords(other.power)}: ${reasonWords(plan, reason)}`];
    }),
  ];
  const figure = read(gauge, at.pressureAltitudeM, at.reason === null ? 'nearest' : 'available');
  if (parts.length === 0) return cell(figure, beside);
  const note = parts.join('; ');
  if (!notes.has(note)) notes.set(note, String.fromCharCode(97 + notes.size));
  return cell(figure, beside, notes.get(note));
}

/** A limit's name in a sentence, or "thrust". */
function reasonWords(plan: Plan, reason: string): string {
  return lowerFirst(limitName(plan, reason));
}

/** One cell of the card read aloud with what belongs to it, so that it can be checked by hand. */
function worked(
  plan: Plan,
  grid: AltitudeGrid,
  lines: readonly number[],
  columns: readonly number[],
  standard: number,
): readonly string[] {
  const gauges = gaugesOf(plan);
  const i = lines[Math.floor(lines.length / 2)];
  const j = nearestFirst(plan, grid, columns).find(
    (column) => grid.cells[i][column].pressureAltitudeM !== null,
  );
  if (j === undefined) return [];
  const at = grid.cells[i][j];
  const fuel = gauges('fuelKg');
  const mass = (kg: number) => `${read(fuel, kg)} ${fuel.unit}`;
  const altitude = (m: number | null) =>
    shown(gauges('pressureAltitudeM'), m, at.reason === null ? 'nearest' : 'available');
  const day = offsetName(gauges('temperatureOffsetK'), grid.temperatureOffsetK[j]);
  const parts = [
    `Read: ${mass(grid.fuelKg[i])} of fuel and ${mass(plan.aircraft.emptyMassKg)} empty are ${mass(grid.massKg[i])}; ${day}: ${altitude(at.pressureAltitudeM)}`,
  ];
  const onStandard = standard < 0 || standard === j ? null : grid.cells[i][standard].pressureAltitudeM;
  if (onStandard !== null) parts.push(`standard day ${altitude(onStandard)}`);
  if (at.specificRangeMKg !== null) {
    const range = shown(gauges('rangeM'), at.specificRangeMKg * thousand(fuel), 'available');
    parts.push(`there 1\u2009000 ${fuel.unit} carry ${range}`);
  }
  if (at.inletTemperatureK !== null) {
    parts.push(`the inlet reads ${shown(gauges('inletTemperatureK'), at.inletTemperatureK, 'required')}`);
  }
  return [`${parts.join(', ')}.`];
}

/** A point between four cells worked by hand from their printed figures: first along the temperature, then along the fuel. */
function workedBetween(
  plan: Plan,
  grid: AltitudeGrid,
  lines: readonly number[],
  columns: readonly number[],
): readonly string[] {
  const gauges = gaugesOf(plan);
  const [altitude, fuel, offset] = ['pressureAltitudeM', 'fuelKg', 'temperatureOffsetK'].map(gauges);
  const printed = (i: number, column: number) =>
    rounded(altitude.fromSi(grid.cells[i][column].pressureAltitudeM), altitude.step, 'nearest');
  const square = squareOf(plan, grid, lines, columns);
  if (square === null) return [];
  const { upper, lower, cold, warm } = square;
  const number = (value: number) => figures(altitude, value, 'nearest', 1);
  const along = (i: number) => printed(i, cold) + PART * (printed(i, warm) - printed(i, cold));
  const between = (from: number, to: number, result: number) =>
    `${number(from)} ${to < from ? '−' : '+'} ${PART} × ${number(Math.abs(to - from))} = ${number(result)}`;
  const kg = (i: number) => `${read(fuel, grid.fuelKg[i])} ${fuel.unit}`;
  const mixed = (a: number, b: number) => a + PART * (b - a);
  const fuelKg = mixed(grid.fuelKg[upper], grid.fuelKg[lower]);
  const offsetK = mixed(grid.temperatureOffsetK[cold], grid.temperatureOffsetK[warm]);
  const result = mixed(along(upper), along(lower));
  return [
    `Worked between cells, ${read(fuel, fuelKg)} ${fuel.unit} at ${offsetName(offset, offsetK)}: ` +
      `with ${kg(upper)} ${between(printed(upper, cold), printed(upper, warm), along(upper))}; ` +
      `with ${kg(lower)} ${between(printed(lower, cold), printed(lower, warm), along(lower))}; ` +
      `then ${between(along(upper), along(lower), result)}, so ${figures(altitude, result)}\u00a0${altitude.shortUnit}.`,
  ];
}

interface Square {
  readonly upper: number;
  readonly lower: number;
  readonly cold: number;
  readonly warm: number;
}

/** Four neighbours of a card that all hold an altitude: about the day's temperature, then about the middle row; null where none are. */
function squareOf(
  plan: Plan,
  grid: AltitudeGrid,
  lines: readonly number[],
  columns: readonly number[],
): Square | null {
  const holds = (i: number, j: number) => grid.cells[i][j].pressureAltitudeM !== null;
  const middle = Math.floor((lines.length - 2) / 2);
  const rows = lines
    .slice(0, -1)
    .map((upper, at) => ({ upper, lower: lines[at + 1], away: Math.abs(at - middle) }));
  rows.sort((a, b) => a.away - b.away);
  for (const cold of nearestFirst(plan, grid, columns.slice(0, -1))) {
    const warm = columns[columns.indexOf(cold) + 1];
    const row = rows.find(({ upper, lower }) =>
      [upper, lower].every((i) => holds(i, cold) && holds(i, warm)),
    );
    if (row !== undefined) return { upper: row.upper, lower: row.lower, cold, warm };
  }
  return null;
}

/** How far from the first cell to the second the worked point lies. */
const PART = 0.4;

/** Kilograms in a thousand of the gauge's units of fuel. */
function thousand(fuel: Gauge): number {
  return 1000 / fuel.differenceFromSi(1);
}

/** The columns, the nearest to the temperature met in cruise first. */
function nearestFirst(plan: Plan, grid: AltitudeGrid, columns: readonly number[]): readonly number[] {
  const met = cruiseOffsets(plan, grid);
  const mean = met.reduce((sum, offset) => sum + offset, 0) / Math.max(1, met.length);
  const away = (j: number) => Math.abs(grid.temperatureOffsetK[j] - mean);
  return [...columns].sort((a, b) => away(a) - away(b));
}

/** How far from the Mach of the grid a cruise still belongs to it. */
const SAME_MACH = 0.1;

/** The temperature offsets that the plan meets in its cruises at the Mach of the grid. */
function cruiseOffsets(plan: Plan, grid: AltitudeGrid): readonly number[] {
  const { phases, trace } = plan;
  const { temperatureOffsetK, mach } = trace.columns;
  return temperatureOffsetK.filter(
    (_, i) => phases[trace.phase[i]].kind === 'cruise' && Math.abs(mach[i] - grid.mach) < SAME_MACH,
  );
}

function today(plan: Plan, grid: AltitudeGrid): readonly string[] {
  const met = cruiseOffsets(plan, grid);
  if (met.length === 0) return [];
  const gauge = gaugesOf(plan)('temperatureOffsetK');
  const low = offsetName(gauge, Math.min(...met));
  const high = offsetName(gauge, Math.max(...met));
  return [low === high ? `Today in cruise: ${low}.` : `Today in cruise: ${low} to ${high}.`];
}
