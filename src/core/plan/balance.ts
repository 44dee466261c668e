/** Fuel in each tank along a flight, the balance in contact, what tankers give, and dumping. */
import type { Aircraft } from '../aircraft/aircraft.ts';
import { centreBetween } from '../aircraft/balance-state.ts';
import type { Draft } from './draft.ts';
import type {
  ContactBalance,
  ContactBalanceRow,
  PlanBalance,
  PlanDump,
  PlanTransfer,
  Refuelling,
  TankerAccount,
} from './plan.ts';
import { pumpedAlong } from './pumped.ts';
import type { Tanker } from './sortie.ts';

/** null where the deck has no tanks. */
export function balanceOfPlan(drafted: Draft): PlanBalance | null {
  const { aircraft } = drafted.crew.flight.setup;
  const { tanks } = aircraft.balance;
  if (tanks.length === 0) return null;
  return {
    tanks: tanks.map(({ name, capacityKg, unusableKg, order }) => ({ name, capacityKg, unusableKg, order })),
    transfers: namedTransfers(aircraft),
    ...pumpedIn(aircraft, drafted),
    contacts: drafted.flown.refuellings.map((refuelling) => contactBalance(drafted, aircraft, refuelling)),
  };
}

/** With the names of their tanks. */
export function namedTransfers({ balance: { tanks, transfers } }: Aircraft): PlanTransfer[] {
  return transfers.map(({ from, to, ...transfer }) => ({
    from: tanks[from].name,
    to: tanks[to].name,
    ...transfer,
  }));
}

function pumpedIn(aircraft: Aircraft, { log }: Draft): Pick<PlanBalance, 'tanksKg' | 'behind'> {
  const { tanksKg, behind } = pumpedAlong(aircraft, log.columns);
  return { tanksKg, behind };
}

export function balanceMissing({ crew }: Draft): string[] {
  const { balance, landing, dump } = crew.flight.setup.aircraft;
  const missing: string[] = [];
  if (balance.tanks.length === 0) missing.push('fuel in each tank: the deck has no tanks');
  if (dump === null) missing.push('dumping fuel: the deck has no rate of dumping');
  else if (!landing?.maximumMassKg) {
    missing.push('time to dump to the landing mass: the deck has no greatest mass on landing');
  }
  return missing;
}

function contactBalance(
  { log, crew }: Draft,
  aircraft: Aircraft,
  { tanker, contactS, disconnectS }: Refuelling,
): ContactBalance {
  const { timeS, fuelKg, mach, cgFraction } = log.columns;
  /** What pumps that are behind leave the centre of gravity off that of the schedule. */
  const off = cgFraction.map((value, node) => value - aircraft.balance.cgFraction(fuelKg[node], mach[node]));
  const stateAt = (fuel: number, atMach: number, offBy: number) =>
    centreBetween(aircraft, aircraft.balance.cgFraction(fuel, atMach) + offBy, fuel, atMach);
  const nodes: number[] = [];
  for (let node = 0; node < log.nodes; node++) {
    const contact = log.phases[log.phaseOf[node]]?.kind === 'contact';
    if (contact && timeS[node] > contactS - 1e-6 && timeS[node] < disconnectS + 1e-6) nodes.push(node);
  }
  const takeOffS = crew.sortie.takeOff.timeS;
  const row = (at: number, fuel: number): ContactBalanceRow => {
    const state = stateAt(fuel, log.at(mach, at), log.at(off, at));
    return {
      timeS: at - takeOffS,
      onBoomS: at - contactS,
      leftS: disconnectS - at,
      fuelKg: fuel,
      cgFraction: Number.isNaN(state.cgFraction) ? null : state.cgFraction,
      forwardLimit: state.forwardLimit,
      aftLimit: state.aftLimit,
      marginFraction: state.marginFraction,
      fills: disconnectS - at < 1e-6 ? [] : fillingFrom(aircraft, fuel),
    };
  };
  const corners = [...aircraft.balance.corners].flatMap((corner) => {
    const at = crossing(nodes, timeS, fuelKg, corner);
    return at === null ? [] : [row(at, corner)];
  });
  const first = nodes[0];
  const last = nodes[nodes.length - 1];
  const rows =
    nodes.length === 0 ? [] : [row(contactS, fuelKg[first]), ...corners, row(disconnectS, fuelKg[last])];
  const margins = nodes
    .map((node) => stateAt(fuelKg[node], mach[node], off[node]).marginFraction)
    .concat(rows.map(({ marginFraction }) => marginFraction))
    .filter((margin) => margin !== null);
  return { tanker, rows, leastMarginFraction: margins.length > 0 ? Math.min(...margins) : null };
}

/** When fuel rises through an amount, linear between nodes; null at either end and where it does not. */
function crossing(
  nodes: readonly number[],
  timeS: readonly number[],
  fuelKg: readonly number[],
  kg: number,
): number | null {
  for (let k = 1; k < nodes.length; k++) {
    const [a, b] = [nodes[k - 1], nodes[k]];
    if (!(fuelKg[a] < kg && fuelKg[b] >= kg)) continue;
    if (k === nodes.length - 1 && fuelKg[b] - kg < 1) return null;
    return timeS[a] + ((kg - fuelKg[a]) / (fuelKg[b] - fuelKg[a])) * (timeS[b] - timeS[a]);
  }
  return null;
}

/** The tanks that take the next kilogram at low speed. */
function fillingFrom({ balance }: Aircraft, fuelKg: number): string[] {
  const now = new Float64Array(balance.tanks.length);
  const next = new Float64Array(balance.tanks.length);
  balance.fillTanks(fuelKg, 0, now);
  balance.fillTanks(Math.min(fuelKg + 1, balance.fuelCapacityKg), 0, next);
  return balance.tanks.filter((_, i) => next[i] > now[i]).map(({ name }) => name);
}

/** One for each tanker of the sortie; what it gives comes from the grades that may be burnt, in their order. */
export function tankersOf({ crew, flown }: Draft): TankerAccount[] {
  return crew.sortie.tankers.map((tanker) => {
    let left = flown.refuellings.reduce(
      (sum, refuelling) => (refuelling.tanker === tanker.name ? sum + refuelling.takenKg : sum),
      0,
    );
    const fuels = tanker.fuels.map(({ grade, burnable, offloadKg }) => {
      const givenKg = burnable ? Math.min(left, offloadKg) : 0;
      left -= givenKg;
      return { grade, burnable, beforeKg: offloadKg, givenKg, afterKg: offloadKg - givenKg };
    });
    const { ownFuelKg, payloadKg } = tanker.carries;
    const mass = (key: 'beforeKg' | 'afterKg') =>
      massOf(
        tanker,
        fuels.reduce((sum, fuel) => sum + fuel[key], 0),
      );
    const masses = { massBeforeKg: mass('beforeKg'), massAfterKg: mass('afterKg') };
    return { tanker: tanker.name, fuels, ownFuelKg, payloadKg, ...masses };
  });
}

function massOf({ carries }: Tanker, offloadKg: number): number | null {
  const { emptyMassKg, payloadKg, ownFuelKg } = carries;
  if (emptyMassKg === null || ownFuelKg === null) return null;
  return emptyMassKg + payloadKg + ownFuelKg + offloadKg;
}

/** null where the deck cannot dump or states no landing mass. */
export function dumpOf({ crew, flown, log }: Draft): PlanDump | null {
  const { aircraft, zeroFuelMassKg } = crew.flight.setup;
  const { dump, landing } = aircraft;
  const landingMassKg = landing?.maximumMassKg ?? null;
  if (dump === null || landingMassKg === null) return null;
  const { takeOff, aircraft: loaded } = crew.sortie;
  const starts = [
    { after: null, timeS: flown.takeOff.timeS, fuelKg: loaded.fuelKg - flown.takeOff.fuelKg },
    ...flown.refuellings.map(({ tanker, disconnectS }) => ({
      after: tanker,
      timeS: disconnectS - takeOff.timeS,
      fuelKg: log.at(log.columns.fuelKg, disconnectS),
    })),
  ];
  const rows = starts.flatMap(({ after, timeS, fuelKg }) => {
    const massKg = zeroFuelMassKg + fuelKg;
    if (massKg <= landingMassKg) return [];
    const dumpedKg = Math.max(0, Math.min(massKg - landingMassKg, fuelKg - dump.leastKg));
    const durationS = dumpedKg / dump.rateKgS;
    return [{ after, timeS, massKg, dumpedKg, durationS, massAfterKg: massKg - dumpedKg }];
  });
  return { rateKgS: dump.rateKgS, leastKg: dump.leastKg, landingMassKg, rows };
}
