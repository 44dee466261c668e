/** The card of the day's own rules of thumb: what a step of each driver costs at each gate, and how far it can go. */
import type { DriverRule, Plan, RuleCost, Rules } from '../../core/plan/plan.ts';
import { keyWords, upperFirst } from '../names.ts';
import {
  costFigures,
  costWords,
  edgeWords,
  isBothWays,
  isFelt,
  ruleSentences,
  stepWords,
  straightWords,
  valueWords,
} from '../rules.ts';
import { type Gauges, gaugesOf } from '../units.ts';
import { type Card, type Cell, cell, MOST_ROWS, part, split, words } from './card.ts';

/** Beside the rule and its end. */
const MOST_GATES = 3;

export function rulesCards(plan: Plan): readonly Card[] {
  const { rules } = plan;
  if (!rules) return [];
  const gates = split([...rules.gates.keys()], MOST_GATES);
  const felt = rules.drivers.filter(isFelt);
  const pieces = gates.flatMap((some) => split(felt, MOST_ROWS).map((rows) => ({ some, rows })));
  return pieces.map(({ some, rows }, i) => cardOf(plan, rules, some, rows, part(i, pieces.length)));
}

function cardOf(
  plan: Plan,
  rules: Rules,
  gates: readonly number[],
  drivers: readonly DriverRule[],
  which: string,
): Card {
  const gauges = gaugesOf(plan);
  const { shortUnit } = gauges('fuelKg');
  return {
    title: `Rules of the day${which}`,
    question: 'What does each surprise cost today, and how much of it can I take?',
    answer: stops(drivers, gauges),
    table: {
      columns: [
        { name: 'Each', unit: 'rule good within 5 %', holds: 'words' },
        ...gates.map((gate) => ({
          name: rules.gates[gate].name,
          unit: shortUnit,
          holds: 'figures' as const,
        })),
        { name: 'Up to', unit: 'then it fails', holds: 'words' },
      ],
      rows: drivers.map((driver) => [
        words(upperFirst(stepWords(driver, gauges).replace(/^Each /, '')), straightWords(driver, gauges)),
        ...gates.map((gate) => costCell(driver, driver.costs[gate], gauges)),
        words(upToWords(driver, gauges)),
      ]),
    },
    notes: [
      `Fuel less at the place for one step of each, alone, the plan flown as decided${rules.withStandardDay ? '; small, the same on the standard day, or what a step below costs' : ''}. Costs are rounded up, what can be taken down. A contact for full tanks hides what came before it.`,
      ...ruleSentences({ ...rules, drivers: rules.drivers.filter((driver) => !isFelt(driver)) }, gauges),
      ...rules.notComputed.map((text) => `Not computed: ${text}.`),
    ],
  };
}

/** Small, the same on the standard day; where the two ways differ, what the other way costs. */
function costCell(driver: DriverRule, cost: RuleCost, gauges: Gauges): Cell {
  const { standardPerStepKg } = cost;
  const [figure, below] = costFigures(driver, cost, gauges);
  if (isBothWays(driver)) return cell(figure, below ?? '');
  return cell(figure, standardPerStepKg === null ? '' : costWords(standardPerStepKg, gauges));
}

function upToWords(driver: DriverRule, gauges: Gauges): string {
  const ends = driver.edges.map(({ passes, lookedTo }) =>
    passes === null ? `${valueWords(driver, lookedTo, gauges)} and more` : valueWords(driver, passes, gauges),
  );
  return ends.join(', ');
}

function driverName({ key, of }: DriverRule): string {
  return of === null ? keyWords(key) : `${of} late`;
}

/** What stops the sortie, not where, for the first two drivers of the air and the aircraft that do. */
function stops(drivers: readonly DriverRule[], gauges: Gauges): readonly string[] {
  const said = drivers.flatMap((driver) =>
    driver.edges
      .filter(({ passes }) => passes !== null && !isBothWays(driver))
      .map((edge) => `${driverName(driver)}: ${edgeWords(driver, { ...edge, phase: null }, gauges)}.`),
  );
  return said.slice(0, 2).map(upperFirst);
}
