/** The landing card: how fast, and does the runway hold it. */
import type { LandingData, Plan } from '../../core/plan/plan.ts';
import { fuelDifference as left } from '../sentences.ts';
import { gaugesOf, read, shown } from '../units.ts';
import { BLANK, type Card, type Cell, cell, words } from './card.ts';
import {
  conditionWords,
  distanceCells,
  figureCell,
  limited,
  RUNWAY_COLUMNS,
  shortRunway,
  speed,
} from './runway.ts';

export function landingCards(plan: Plan): readonly Card[] {
  const { landingData: data } = plan;
  if (data === null) return [];
  const { base, runway, stop } = data;
  const after =
    stop === null
      ? ''
      : ' The stop begins at once from the approach speed, with every brake and all engines at idle.';
  return [
    {
      title: `Landing: ${base}${runway === null ? '' : ` ${runway.name}`}`,
      question: 'How fast, and does the runway hold it?',
      answer: [
        `Approach at ${speed(plan, data.approach, 'required')}${roomWords(plan, data)}.`,
        ...shortRunway(plan, runway, "the ground run of the deck's table", data.tableGroundRunM),
        ...shortRunway(plan, runway, 'the stop from the approach speed', stop?.distanceM ?? null),
        ...beyond(data),
      ],
      table: { columns: RUNWAY_COLUMNS, rows: rows(plan, data) },
      notes: [
        conditionWords(plan, data),
        `Both distances are from touch-down.${after} Required is rounded up, what is left down.`,
      ],
    },
  ];
}

/** What the deck's ground run leaves of the runway, where it leaves any. */
function roomWords(plan: Plan, { runway, tableGroundRunM }: LandingData): string {
  if (runway === null || tableGroundRunM > runway.lengthM) return '';
  const room = left(gaugesOf(plan)('lengthM'), runway.lengthM, tableGroundRunM).text;
  return `; the ground run of the deck's table leaves ${room} of the runway`;
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
      cell(left(fuel, data.fuelKg, data.reserveKg).figure, '', fuel.differenceUnit),
    ],
    [
      words('Ground run', "deck's table: level, no wind"),
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
