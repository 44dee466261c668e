/** The landing card: how fast, and does the runway hold it. */
import type { LandingData, Plan } from '../../core/plan/plan.ts';
import { fuelDifference as left } from '../sentences.ts';
import { gaugesOf, read, shown } from '../units.ts';
import { BLANK, type Card, type Cell, cell, MOST_ROWS, part, split, words } from './card.ts';
import {
  conditionWords,
  distanceCells,
  figureCell,
  leftCell,
  limited,
  RUNWAY_COLUMNS,
  shortRunway,
  speed,
} from './runway.ts';

export function landingCards(plan: Plan): readonly Card[] {
  const planned = plan.landings.filter(({ worstCase }) => worstCase === null);
  const worst = plan.landings.filter(({ worstCase }) => worstCase !== null);
  return [...planned.map((data) => plannedCard(plan, data)), ...worstCards(plan, worst)];
}

const STOP_NOTE =
  ' The stop begins at once from the approach speed, with every brake on the runway as stated and all engines at idle.';

function plannedCard(plan: Plan, data: LandingData): Card {
  const { base, runway, stop } = data;
  return {
    title: `Landing: ${base}${runway === null ? '' : ` ${runway.name}`}`,
    question: 'How fast, and does the runway hold it?',
    answer: [
      `Approach at ${speed(plan, data.approach, 'required')}${roomWords(plan, data)}.`,
      ...shortRunway(plan, runway, 'the landing', data.longestM),
      ...beyond(data),
    ],
    table: { columns: RUNWAY_COLUMNS, rows: rows(plan, data) },
    notes: [
      conditionWords(plan, data),
      `Both distances are from touch-down.${stop === null ? '' : STOP_NOTE} Required is rounded up, what is left down.`,
    ],
  };
}

/** What the longer of the two distances leaves of the runway, where it leaves any. */
function roomWords(plan: Plan, { runway, longestM }: LandingData): string {
  if (runway === null || longestM === null || longestM > runway.lengthM) return '';
  return `; ${left(gaugesOf(plan)('lengthM'), runway.lengthM, longestM).text} of the runway are left at the least`;
}

/** Where the least of a runway is left; nothing where none holds or is stated. */
function leastRoom(plan: Plan, landings: readonly LandingData[]): readonly string[] {
  const room = landings.flatMap(({ base, runway, longestM }) =>
    runway === null || longestM === null
      ? []
      : [{ base, runway, longestM, leftM: runway.lengthM - longestM }],
  );
  const [least] = room.sort((a, b) => a.leftM - b.leftM);
  if (least === undefined || least.leftM < 0) return [];
  const { text } = left(gaugesOf(plan)('lengthM'), least.runway.lengthM, least.longestM);
  return [`The least is left at ${least.base}: ${text}.`];
}

/** One row for each worst case. */
function worstCards(plan: Plan, landings: readonly LandingData[]): readonly Card[] {
  if (landings.length === 0) return [];
  const gauges = gaugesOf(plan);
  const airspeed = gauges('calibratedAirspeedMS');
  const pieces = split(landings, MOST_ROWS);
  return pieces.map((piece, i) => ({
    title: `Landing in the worst cases${part(i, pieces.length)}`,
    question: 'Does the other runway hold it?',
    answer: [
      ...leastRoom(plan, piece),
      ...piece.flatMap((data) =>
        shortRunway(plan, data.runway, `the landing at ${data.base}`, data.longestM),
      ),
    ],
    table: {
      columns: [
        { name: 'Base', unit: 'and its case', holds: 'words' },
        { name: 'Approach', unit: airspeed.unit, holds: 'figures' },
        { name: 'Run', unit: 'runway below', holds: 'figures' },
        { name: 'Left', unit: 'of the runway', holds: 'figures' },
      ],
      rows: piece.map((data) => [
        words(`${data.base}${data.runway === null ? '' : ` ${data.runway.name}`}`, data.worstCase ?? ''),
        cell(read(airspeed, data.approach.calibratedAirspeedMS, 'required')),
        ...distanceCells(plan, data.runway, data.longestM),
      ]),
    },
    notes: [
      "The run is the longer of the deck's table (dry, level, no wind) and the stop from the approach speed with every brake on the runway as stated, in the wind of the weather. Required is rounded up, what is left down.",
    ],
  }));
}

/** What the tyres and the brakes do not take. */
function beyond({ approach, stop }: LandingData): readonly string[] {
  if (stop === null) return [];
  const { tyreSpeedMS, brakeEnergyJ, brakeEnergyLimitJ } = stop;
  const fast = tyreSpeedMS !== null && approach.groundSpeedMS > tyreSpeedMS;
  const hot = brakeEnergyLimitJ !== null && brakeEnergyJ > brakeEnergyLimitJ;
  return [
    ...(fast ? ['A touch-down at the approach speed is faster than the tyres allow.'] : []),
    ...(hot
      ? ['The stop from the approach speed is more than the brakes take: slow down before braking.']
      : []),
  ];
}

function rows(plan: Plan, data: LandingData): readonly (readonly Cell[])[] {
  const gauges = gaugesOf(plan);
  const fuel = gauges('fuelKg');
  const { approach, runway, stop } = data;
  const braked = runway === null ? 'dry' : runway.condition;
  return [
    [
      words('Approach'),
      figureCell(gauges('calibratedAirspeedMS'), approach.calibratedAirspeedMS, 'required'),
      BLANK,
    ],
    [
      words('Fuel on landing', `reserve ${shown(fuel, data.reserveKg, 'required')}`),
      cell(read(fuel, data.fuelKg, 'available'), '', fuel.shortUnit),
      leftCell(fuel, data.fuelKg, data.reserveKg),
    ],
    [
      words('Ground run', "deck's table: dry, level, no wind"),
      ...distanceCells(plan, runway, data.tableGroundRunM),
    ],
    [
      words('Stop', `every brake on a ${braked} runway, from approach speed`),
      ...distanceCells(plan, runway, stop?.distanceM ?? null, stop !== null),
    ],
    [
      words('Brake energy', 'of that stop'),
      ...limited(
        gauges('brakeEnergyJ'),
        stop?.brakeEnergyJ ?? null,
        stop?.brakeEnergyLimitJ ?? null,
        'no limit in the deck',
      ),
    ],
    [
      words('Tyre speed', 'over the ground at approach speed'),
      ...limited(
        gauges('groundSpeedMS'),
        approach.groundSpeedMS,
        stop?.tyreSpeedMS ?? null,
        'no limit in the deck',
      ),
    ],
  ];
}
