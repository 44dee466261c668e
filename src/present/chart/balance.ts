/** The balance over fuel at one Mach, fuel in each tank along a sortie, and what an inlet off its schedule costs. */
import type { BalanceTable } from '../../core/aircraft/balance-state.ts';
import type { Plan, PlanInlet } from '../../core/plan/plan.ts';
import { balanceStates } from '../balance.ts';
import { balanceEnvelope } from '../balance-envelope.ts';
import { inletTable } from '../inlet.ts';
import { figures, type Gauges, gaugesOf, shown } from '../units.ts';
import { DASHES, type Figure, number, type PlotLook, plot, rangeOf } from './plot.ts';
import { centreOfGravityTable } from './tables.ts';

/** Centre of gravity against fuel between its limits at a Mach. */
export function balanceAtMachFigure(
  table: BalanceTable,
  tanks: readonly { readonly name: string }[],
  gauges: Gauges,
  look: PlotLook,
): Figure {
  const [fuel, cg] = ['fuelKg', 'cgFraction'].map(gauges);
  const x = table.states.map(({ fuelKg }) => fuel.fromSi(fuelKg));
  const of = (key: 'cgFraction' | 'forwardLimit' | 'aftLimit') =>
    table.states.map((state) => cg.fromSi(state[key]));
  const [travel, forward, aft] = [of('cgFraction'), of('forwardLimit'), of('aftLimit')];
  const [least, greatest] = rangeOf([...travel, ...forward, ...aft].filter(Number.isFinite));
  const at = shown(gauges('mach'), table.mach);
  const note = `At ${at}, tanks filled and emptied in the order of the deck. Dashed: limits.`;
  return {
    svg: plot(
      {
        title: `Centre of gravity at ${at}`,
        description: `Centre of gravity against fuel on board, with its limits. ${note}`,
        x: { name: `Fuel on board [${fuel.unit}]`, least: 0, greatest: x[x.length - 1] },
        y: {
          name: `Centre of gravity [${cg.unit} of the mean chord]`,
          least: least - 1,
          greatest: greatest + 1,
        },
        curves: [
          { name: 'of the loading', x, y: travel, weight: 2.4 },
          { name: 'aft limit', x, y: aft, dash: DASHES[1] },
          { name: 'forward limit', x, y: forward, dash: DASHES[1] },
        ],
      },
      look,
    ),
    note,
    table: balanceStates(table, tanks, gauges),
  };
}

/** Centre of gravity against Mach along a flight; null where none is known or it has no limits. */
export function balanceFlownFigure(plan: Plan, look: PlotLook): Figure | null {
  const envelope = balanceEnvelope(plan);
  if (envelope === null || envelope.limits.length === 0) return null;
  const gauges = gaugesOf(plan);
  const cg = gauges('cgFraction');
  const limits = envelope.limits.map(({ name, mach, bound }) => ({ name, mach, y: bound.map(cg.fromSi) }));
  const flown = envelope.cgFraction.map(cg.fromSi);
  const [least, greatest] = rangeOf([...flown, ...limits.flatMap(({ y }) => y)]);
  const [slowest, fastest] = rangeOf(envelope.mach);
  const note = 'Strong: as flown, with what the pumps transfer. Dashed: limits at the Mach and mass flown.';
  return {
    svg: plot(
      {
        title: 'Centre of gravity along the flight',
        description: `Centre of gravity against Mach between its limits. ${note}`,
        x: { name: 'Mach', least: slowest, greatest: fastest },
        y: {
          name: `Centre of gravity [${cg.unit} of the mean chord]`,
          least: least - 1,
          greatest: greatest + 1,
        },
        curves: [
          { name: '', x: envelope.mach, y: flown, weight: 1.6 },
          ...limits.map(({ name, mach, y }) => ({ name, x: mach, y, dash: DASHES[1] })),
        ],
      },
      look,
    ),
    note,
    table: centreOfGravityTable(plan, everyMin * 60),
  };
}

/** Minutes between rows of what is told along the flight. */
const everyMin = 10;

/** Fuel in each tank against time; null where the deck has no tanks or nothing was flown. */
export function tanksFigure(plan: Plan, look: PlotLook): Figure | null {
  const { balance, trace } = plan;
  if (balance === null || trace.columns.timeS.length < 2) return null;
  const fuel = gaugesOf(plan)('fuelKg');
  const minutes = trace.columns.timeS.map((timeS) => timeS / 60);
  const last = minutes[minutes.length - 1];
  const most = Math.max(...balance.tanks.map(({ capacityKg }) => fuel.fromSi(capacityKg)));
  const note = 'Tanks that go together in the order of use lie on one line where they hold the same.';
  const kept = minutes.flatMap((minute, i) =>
    i === 0 || Math.floor(minute / everyMin) > Math.floor(minutes[i - 1] / everyMin) ? [i] : [],
  );
  return {
    svg: plot(
      {
        title: 'Fuel in each tank',
        description: `Fuel in each tank against time since take-off. ${note}`,
        x: { name: 'Time since take-off [min]', least: 0, greatest: last },
        y: { name: `Fuel in each tank [${fuel.unit}]`, least: 0, greatest: most * 1.05 },
        curves: balance.tanks.map(({ name }, i) => ({
          name,
          x: minutes,
          y: balance.tanksKg[i].map((kg) => fuel.fromSi(kg)),
          dash: DASHES[i % DASHES.length],
          weight: 1.6,
        })),
      },
      look,
    ),
    note,
    table: {
      title: 'Fuel in each tank',
      columns: [number('time', 'min'), ...balance.tanks.map(({ name }) => number(name, fuel.unit))],
      rows: kept.map((node) => [
        minutes[node].toFixed(1),
        ...balance.tanksKg.map((tank) => figures(fuel, fuel.fromSi(tank[node]), 'available')),
      ]),
    },
  };
}

/** More fuel against the error of the inlets, one figure a leg. */
export function inletFigures(inlet: PlanInlet, gauges: Gauges, look: PlotLook): Figure[] {
  const [fuel, angle] = ['fuelKg', 'angleDeg'].map(gauges);
  return inlet.legs.map((leg) => {
    const x = leg.rows.map(({ errorDeg }) => angle.differenceFromSi(errorDeg));
    const with0 = (values: readonly number[]): number[] => {
      const after = x.findIndex((error) => error > 0);
      return [...values.slice(0, after), 0, ...values.slice(after)];
    };
    const all = leg.rows.map(({ fuelKg }) => fuel.fromSi(fuelKg));
    const one = leg.rows.map(({ oneInletFuelKg }) => fuel.fromSi(oneInletFuelKg));
    const most = Math.max(1, ...all.filter(Number.isFinite));
    const note = 'Errors held along the leg; a line ends where the next error of the table cannot be flown.';
    return {
      svg: plot(
        {
          title: `Cost of the inlet off its schedule to ${leg.to}`,
          description: `More fuel than planned against position less schedule. ${note}`,
          x: {
            name: `Position less schedule [${angle.unit}]`,
            least: Math.min(...x),
            greatest: Math.max(...x),
          },
          y: { name: `More fuel to ${leg.to} [${fuel.unit}]`, least: 0, greatest: most * 1.1 },
          curves: [
            { name: 'all sides', x: with0(x), y: with0(all), weight: 2.4 },
            { name: 'one side', x: with0(x), y: with0(one), dash: DASHES[1] },
          ],
        },
        look,
      ),
      note,
      table: inletTable(inlet, leg, gauges),
    };
  });
}
