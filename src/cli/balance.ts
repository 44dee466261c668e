/** `ramrise balance`: centre of gravity and tanks over fuel and Mach, of a deck or of a sortie with its contacts. */
import { statSync } from 'node:fs';
import packageFile from '../../package.json' with { type: 'json' };
import type { Aircraft } from '../core/aircraft/aircraft.ts';
import { type BalanceTable, balanceTable } from '../core/aircraft/balance-state.ts';
import { newLimitInputs } from '../core/aircraft/limits.ts';
import { namedTransfers } from '../core/plan/balance.ts';
import { fuelled } from '../core/plan/fuel-today.ts';
import { makePlan } from '../core/plan/make-plan.ts';
import { CAUTION, type Plan } from '../core/plan/plan.ts';
import { CannotPlan } from '../core/plan/sortie-flyer.ts';
import { OutsideRange } from '../core/quantities/errors.ts';
import { readQuantity } from '../core/quantities/values.ts';
import { loadDeck } from '../files/deck.ts';
import { deckFolder } from '../files/deck-folder.ts';
import { readPlanRequest } from '../files/plan-request.ts';
import {
  balanceSentences,
  balanceStates,
  contactTable,
  dumpSentences,
  leastFuelSentences,
  pumpSentences,
  tankerTable,
  transferSentences,
} from '../present/balance.ts';
import { fuelTodaySentences } from '../present/fuel-today.ts';
import { tableText } from '../present/table.ts';
import { gaugesIn, plainSpaces, shown } from '../present/units.ts';
import { Refusal } from './outcome.ts';
import { say, sayJson } from './text.ts';

export interface BalanceOptions {
  /** Of one loading, such as "20000 kg"; every 2 t if left out. */
  readonly fuel?: string;
  /** Such as "2.85 Mach"; in contact, at Mach 1.6 and at the highest Mach if left out. */
  readonly mach?: string;
  readonly json?: boolean;
}

const stepKg = 2000;
const usualMachs = [0.75, 1.6];

export async function balance(path: string, options: BalanceOptions): Promise<void> {
  const { aircraft, plan } = statSync(path).isDirectory()
    ? { aircraft: loadDeck(deckFolder(path)).aircraft, plan: null }
    : await ofSortie(path);
  const tables = tablesOf(aircraft, options);
  if (options.json) {
    const { tanks, transfers, unusableFuelKg, fuelCapacityKg } = aircraft.balance;
    const contacts = plan && {
      behind: plan.balance?.behind ?? null,
      contacts: plan.balance?.contacts ?? [],
      tankers: plan.tankers,
      dump: plan.dump,
    };
    sayJson({
      aircraft: aircraft.identity.name,
      fuelCapacityKg,
      unusableFuelKg,
      tanks,
      transfers,
      tables,
      ...contacts,
      caution: CAUTION,
    });
    return;
  }
  print(aircraft, tables, plan);
}

/** The aircraft with the fuel of the day, and the plan. */
async function ofSortie(path: string): Promise<{ aircraft: Aircraft; plan: Plan }> {
  const request = await readPlanRequest(path, `${packageFile.name} ${packageFile.version}`);
  try {
    return { aircraft: fuelled(request.aircraft, request.sortie.aircraft), plan: makePlan(request) };
  } catch (error) {
    if (error instanceof CannotPlan) throw new Refusal(error.message);
    throw error;
  }
}

function tablesOf(aircraft: Aircraft, { fuel, mach }: BalanceOptions): BalanceTable[] {
  const { fuelCapacityKg, tanks } = aircraft.balance;
  if (tanks.length === 0)
    throw new Refusal(`balance not computed: the deck of ${aircraft.identity.name} has no tanks`);
  const amount = fuel === undefined ? null : readQuantity(fuel, 'fuelKg');
  if (amount !== null && !(amount >= 0 && amount <= fuelCapacityKg)) {
    throw new OutsideRange('fuel on board', amount, 'kg', 0, fuelCapacityKg, 'the tanks');
  }
  const machs = mach === undefined ? [...usualMachs, highestMach(aircraft)] : [readQuantity(mach, 'mach')];
  return machs.map((at) => balanceTable(aircraft, at, stepKg, amount === null ? null : [amount]));
}

/** The limit of Mach at rest on the ground where the deck has one, else a usual one. */
function highestMach({ limits }: Aircraft): number {
  const limit = limits.find(({ quantity, side }) => quantity === 'mach' && side === 'upper');
  return limit === undefined ? 2.5 : limit.bound(newLimitInputs());
}

function print(aircraft: Aircraft, tables: readonly BalanceTable[], plan: Plan | null): void {
  const gauges = gaugesIn(aircraft.gauges.units);
  const { tanks, unusableFuelKg } = aircraft.balance;
  const order = [...tanks].sort((a, b) => a.order - b.order).map(({ name }) => name);
  sayAll([
    ...tables.flatMap((table) => balanceSentences(table, gauges)),
    ...(plan === null
      ? []
      : [
          ...pumpSentences(plan),
          ...dumpSentences(plan),
          ...leastFuelSentences(plan),
          ...fuelTodaySentences(plan),
        ]),
    `Tanks are emptied in the order ${order.join(', ')}; ${shown(gauges('fuelKg'), unusableFuelKg, 'required')} cannot be used.`,
    ...transferSentences(namedTransfers(aircraft), gauges),
  ]);
  if (plan !== null) {
    for (const contact of plan.balance?.contacts ?? []) sayTable(tableText(contactTable(plan, contact)));
    sayTable(tableText(tankerTable(plan, plan.tankers)));
  }
  for (const table of tables) sayTable(tableText(balanceStates(table, tanks, gauges)));
  sayTable(CAUTION);
}

function sayTable(text: string): void {
  say('');
  say(text);
}

function sayAll(lines: readonly string[]): void {
  for (const line of lines) say(plainSpaces(line));
}
