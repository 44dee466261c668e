/** A contact drawn: thrust needed and there against mass taken, and what is left to speed up and slow down with. */
import type { ContactRow, ContactStudy, Plan } from '../../core/plan/plan.ts';
import { contactTable } from '../contact.ts';
import type { Table } from '../table.ts';
import { gaugesOf, shown } from '../units.ts';
import { rule } from './frame.ts';
import { type Curve, DASHES, type Figure, type PlotBox, type PlotLook, plot } from './plot.ts';

/** Both drawings of a contact; empty where its rows are too few. */
export function contactFigures(plan: Plan, study: ContactStudy, look: PlotLook): readonly Figure[] {
  if (study.rows.length < 2) return [];
  return [thrustFigure(plan, study, look), freeFigure(plan, study, look)];
}

function thrustFigure(plan: Plan, study: ContactStudy, look: PlotLook): Figure {
  const thrust = gaugesOf(plan)('thrustN');
  const of = (value: (row: ContactRow) => number) => study.rows.map((row) => thrust.fromSi(value(row)));
  const needed = of(({ requiredN }) => requiredN);
  const spread = (side: 1 | -1) => of((row) => row.requiredN + side * row.requiredSpreadN);
  const [dry, one] = [of(({ dryN }) => dryN), of(({ availableN }) => availableN)];
  const note =
    'Needed: level in the wash at the speed of the tanker; fine dots: one standard deviation of it.';
  return drawn(plan, study, look, {
    title: `${study.tanker}: thrust needed and there`,
    note,
    unit: `Thrust [${thrust.unit}]`,
    curves: [
      { name: 'needed', y: needed, weight: 2.4 },
      { name: '', y: spread(1), dash: DASHES[4] },
      { name: '', y: spread(-1), dash: DASHES[4] },
      { name: 'all dry', y: dry, dash: DASHES[1] },
      { name: 'one lit', y: one, dash: DASHES[3] },
    ],
    table: contactTable(plan, study),
  });
}

function freeFigure(plan: Plan, study: ContactStudy, look: PlotLook): Figure {
  const thrust = gaugesOf(plan)('thrustN');
  const of = (value: (row: ContactRow) => number) => study.rows.map((row) => thrust.fromSi(value(row)));
  const note =
    'On the engines that are left to follow the tanker with: all of them while dry, the dry ones beside a lit one, at last that one.';
  return drawn(plan, study, look, {
    title: `${study.tanker}: to speed up and to slow down with`,
    note,
    unit: `Thrust in hand [${thrust.unit}]`,
    curves: [
      { name: 'more', y: of(({ moreN }) => moreN), weight: 2.4 },
      { name: 'less', y: of(({ lessN }) => lessN), dash: DASHES[1] },
    ],
    broken: true,
    table: contactTable(plan, study),
  });
}

interface Drawn {
  readonly title: string;
  readonly note: string;
  readonly unit: string;
  readonly curves: readonly Omit<Curve, 'x'>[];
  readonly table: Table;
  readonly broken?: boolean;
}

/** Against mass taken, with uprights where something happens. */
function drawn(plan: Plan, study: ContactStudy, look: PlotLook, of: Drawn): Figure {
  const fuel = gaugesOf(plan)('fuelKg');
  const x = study.rows.map(({ takenKg }) => fuel.fromSi(takenKg));
  // Where other engines follow what is in hand jumps: the curve is broken there.
  const follows = study.rows.map(
    ({ free }, i) => of.broken === true && i > 0 && free !== study.rows[i - 1].free,
  );
  const withBreaks = (list: readonly number[], there: (i: number) => number): readonly number[] =>
    list.flatMap((value, i) => (follows[i] ? [there(i), value] : [value]));
  const values = of.curves.flatMap(({ y }) => [...y]).filter(Number.isFinite);
  const marks = [
    ...(study.light?.latestKg ? [{ kg: study.light.latestKg, name: 'light one by' }] : []),
    ...(study.dryEndsKg === null ? [] : [{ kg: study.dryEndsKg, name: 'dry ends' }]),
    ...(study.litFollowsKg ? [{ kg: study.litFollowsKg, name: 'lit one follows' }] : []),
    ...(study.marginEndsKg === null ? [] : [{ kg: study.marginEndsKg, name: 'thrust ends' }]),
  ];
  const told = marks.map(({ kg, name }) => `${name} ${shown(fuel, kg, 'available')}`).join(', ');
  const svg = plot(
    {
      title: of.title,
      description: `${of.unit} against mass taken. ${of.note}${told === '' ? '' : ` Uprights: ${told}.`}`,
      x: { name: `Mass taken [${fuel.unit}]`, least: 0, greatest: x[x.length - 1] },
      y: { name: of.unit, least: 0, greatest: Math.max(...values) * 1.1 },
      curves: of.curves.map((curve) => ({
        ...curve,
        x: withBreaks(x, (i) => x[i]),
        y: withBreaks(curve.y, () => Number.NaN),
      })),
      above: marks.map(({ kg, name }) => ({ name, at: fuel.fromSi(kg) })),
      over: (box) => marks.map(({ kg }) => upright(box, fuel.fromSi(kg))).join(''),
    },
    look,
  );
  return { svg, note: of.note, table: of.table };
}

function upright(box: PlotBox, at: number): string {
  return rule(box.x(at), 0, box.x(at), box.height, box.theme.ink, 1);
}
