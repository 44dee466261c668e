/** The balance of an aircraft over its fuel, and of a sortie in contact, in words and tables. */
import type { BalanceTable } from '../core/aircraft/balance-state.ts';
import type { ContactBalance, Plan, PlanTransfer, TankerAccount } from '../core/plan/plan.ts';
import { type Column, NO_DATA, type Table } from './table.ts';
import { hoursMinutes, minutesSeconds } from './time.ts';
import { figures, type Gauges, gaugesOf, margin, read, shown } from './units.ts';

const number = (name: string, unit: string): Column => ({ name, unit, align: 'right' });

/** Where the centre of gravity leaves its limits at a Mach, one sentence a range. */
export function balanceSentences({ mach, states, outside }: BalanceTable, gauges: Gauges): string[] {
  const [fuel, cg] = ['fuelKg', 'cgFraction'].map(gauges);
  const at = shown(gauges('mach'), mach);
  if (states.some((state) => Number.isNaN(state.cgFraction))) {
    return ['Centre of gravity: not computed: the deck has no masses with arms, no tanks or no mean chord.'];
  }
  if (states.every(({ marginFraction }) => marginFraction === null)) {
    return [`At ${at} the deck has no limits of the centre of gravity.`];
  }
  if (outside.length === 0) {
    return [`At ${at} the centre of gravity is inside its limits with any fuel, in the order of the tanks.`];
  }
  return outside.map(({ side, fromKg, toKg, mostFraction, mostAtKg }) => {
    const most = `${figures(cg, cg.differenceFromSi(mostFraction), 'required')}\u00a0${cg.differenceUnit}`;
    return `At ${at} the centre of gravity is too far ${side} with ${shown(fuel, fromKg, 'available')} to ${shown(fuel, toKg, 'required')} of fuel, by up to ${most} with ${shown(fuel, mostAtKg)}.`;
  });
}

/** A row for each fuel state: mass, centre of gravity between its limits, what each tank holds. */
export function balanceStates(
  { mach, states }: BalanceTable,
  tanks: readonly { readonly name: string }[],
  gauges: Gauges,
): Table {
  const [fuel, mass, cg] = ['fuelKg', 'massKg', 'cgFraction'].map(gauges);
  return {
    title: `Balance at ${shown(gauges('mach'), mach)}`,
    columns: [
      number('fuel', fuel.unit),
      number('mass', mass.unit),
      number('forward limit', cg.unit),
      number('centre of gravity', cg.unit),
      number('aft limit', cg.unit),
      number('margin', cg.unit),
      ...tanks.map(({ name }) => number(name, fuel.unit)),
    ],
    rows: states.map((state) => [
      read(fuel, state.fuelKg, 'available'),
      read(mass, state.massKg, 'required'),
      state.forwardLimit === null ? NO_DATA : read(cg, state.forwardLimit, 'required'),
      read(cg, state.cgFraction),
      state.aftLimit === null ? NO_DATA : read(cg, state.aftLimit, 'available'),
      state.marginFraction === null ? NO_DATA : margin(cg, state.marginFraction).figure,
      ...state.tanksKg.map((kg) => read(fuel, kg, 'available')),
    ]),
  };
}

/** The centre of gravity while one tanker gives fuel. */
export function contactTable(plan: Plan, { tanker, rows }: ContactBalance): Table {
  const gauges = gaugesOf(plan);
  const [fuel, cg] = ['fuelKg', 'cgFraction'].map(gauges);
  return {
    title: `In contact with ${tanker}`,
    columns: [
      number('on the boom', 'min:s'),
      number('left', 'min:s'),
      number('fuel', fuel.unit),
      number('forward limit', cg.unit),
      number('centre of gravity', cg.unit),
      number('aft limit', cg.unit),
      { name: 'fills from here', unit: '', align: 'left' },
    ],
    rows: rows.map((row) => [
      minutesSeconds(row.onBoomS),
      minutesSeconds(row.leftS),
      read(fuel, row.fuelKg, 'available'),
      row.forwardLimit === null ? NO_DATA : read(cg, row.forwardLimit, 'required'),
      row.cgFraction === null ? NO_DATA : read(cg, row.cgFraction),
      row.aftLimit === null ? NO_DATA : read(cg, row.aftLimit, 'available'),
      row.fills.join(', '),
    ]),
  };
}

/** What each tanker gives and keeps, grade by grade. */
export function tankerTable(plan: Plan, tankers: readonly TankerAccount[]): Table {
  const fuel = gaugesOf(plan)('fuelKg');
  return {
    title: 'Tankers',
    columns: [
      { name: 'tanker', unit: '', align: 'left' },
      { name: 'grade', unit: '', align: 'left' },
      number('to give', fuel.unit),
      number('given', fuel.unit),
      number('left', fuel.unit),
    ],
    rows: tankers.flatMap(({ tanker, fuels, ownFuelKg }) => [
      ...fuels.map(({ grade, burnable, beforeKg, givenKg, afterKg }) => [
        tanker,
        `${grade ?? 'grade not named'}${burnable ? '' : ': not for this aircraft'}`,
        read(fuel, beforeKg, 'available'),
        read(fuel, givenKg, 'required'),
        read(fuel, afterKg, 'available'),
      ]),
      ...(ownFuelKg === null
        ? []
        : [[tanker, 'its own', read(fuel, 0), read(fuel, 0), read(fuel, ownFuelKg, 'available')]]),
    ]),
  };
}

/** What goes from tank to tank by Mach, one sentence each; none where nothing does. */
export function transferSentences(transfers: readonly PlanTransfer[], gauges: Gauges): string[] {
  const [mach, fuel, rate] = ['mach', 'fuelKg', 'fuelRateKgS'].map(gauges);
  return transfers.map(({ from, to, massKg, beginsMach, endsMach, rateKgS }) => {
    const pump = rateKgS === null ? '' : `, at ${shown(rate, rateKgS)} at most`;
    return `From ${shown(mach, beginsMach)} to ${shown(mach, endsMach)}, ${shown(fuel, massKg)} go from ${from} to ${to}${pump}; back as it falls.`;
  });
}

/** What the flight leaves above each least fuel, such as that for cooling, where that is least. */
export function leastFuelSentences(plan: Plan): string[] {
  const fuel = gaugesOf(plan)('fuelKg');
  return plan.limits
    .filter(({ quantity, side }) => quantity === 'fuelKg' && side === 'lower')
    .map(
      ({ name, leastMargin, bound, timeS }) =>
        `${name}: ${margin(fuel, leastMargin).text} left above ${shown(fuel, bound, 'required')}, at ${hoursMinutes(timeS)}.`,
    );
}

/** A pump that cannot keep to its schedule; none where all do. */
export function pumpSentences(plan: Plan): string[] {
  const behind = plan.balance?.behind ?? null;
  if (behind === null) return [];
  const gauges = gaugesOf(plan);
  const [fuel, cg, rate] = ['fuelKg', 'cgFraction', 'fuelRateKgS'].map(gauges);
  const { from, to, rateKgS, behindKg, timeS, mach, cgFraction, scheduledFraction } = behind;
  const { leastMarginFraction, leastTimeS } = behind;
  const room =
    leastMarginFraction === null
      ? ''
      : leastMarginFraction < 0
        ? ` As pumped it is beyond a limit by up to ${margin(cg, leastMarginFraction).text.replace('\u2212', '')}, at ${hoursMinutes(leastTimeS)}.`
        : ` As pumped at least ${margin(cg, leastMarginFraction).text} are left to either limit, at ${hoursMinutes(leastTimeS)}.`;
  return [
    `The pump from ${from} to ${to} gives ${shown(rate, rateKgS)}, less than its schedule asks: ${shown(fuel, behindKg, 'required')} behind at ${hoursMinutes(timeS)} and ${shown(gauges('mach'), mach)}, where the centre of gravity is ${shown(cg, cgFraction)}, not ${shown(cg, scheduledFraction)}.${room}`,
  ];
}

/** Time to dump to the landing mass, one sentence each. */
export function dumpSentences(plan: Plan): string[] {
  const { dump } = plan;
  if (dump === null) return [];
  const [fuel, mass] = ['fuelKg', 'massKg'].map(gaugesOf(plan));
  const landing = shown(mass, dump.landingMassKg, 'available');
  if (dump.rows.length === 0) return [`Never heavier than the greatest mass on landing, ${landing}.`];
  return dump.rows.map(({ after, dumpedKg, durationS, massAfterKg }) => {
    const short =
      massAfterKg > dump.landingMassKg + 0.5
        ? ` That leaves ${shown(mass, massAfterKg, 'required')}: no more can be dumped.`
        : '';
    return `After ${after ?? 'the take-off'}: ${shown(fuel, dumpedKg, 'required')} to dump in ${minutesSeconds(durationS)}, to land with ${landing}.${short}`;
  });
}
