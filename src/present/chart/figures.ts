/** Drawings on two axes of numbers as a chart of their own: below each other, each with how it is read, with title and foot. */
import type { Plan } from '../../core/plan/plan.ts';
import { contactTable } from '../contact.ts';
import { element } from '../svg.ts';
import type { Table } from '../table.ts';
import { SIZE, textWidth } from '../theme.ts';
import { gaugesOf, plainSpaces } from '../units.ts';
import { wrap } from '../wrap.ts';
import { balanceFlownFigure } from './balance.ts';
import { contactFigures } from './contact.ts';
import { type Frame, LEFT, line } from './frame.ts';
import { envelopeFigure, envelopeTable } from './manoeuvre.ts';
import { type Figure, heightOf } from './plot.ts';
import { type Body, type ChartOptions, sheet } from './sheet.ts';
import { centreOfGravityTable } from './tables.ts';

const BESIDE = 24;
const LINE = 15;
const GAP = 24;
/** Of the trace in a table. */
const EVERY_NODE = 0;

/** A chart, its file's name without an end, and its numbers. */
export interface FigureChart {
  readonly name: string;
  readonly svg: string;
  readonly table: Table;
}

/** The contacts and the fuel states after them, numbered in the order of the flight, and the centre of gravity; what there is. */
export function figureCharts(plan: Plan, options: ChartOptions): readonly FigureChart[] {
  const gauges = gaugesOf(plan);
  const look = { theme: options.theme, width: (options.width ?? 1000) - LEFT - BESIDE };
  const chart = (name: string, title: string, figures: readonly Figure[], table: Table): FigureChart => {
    const description = plainSpaces(figures.map(({ note }) => note).join(' '));
    const svg = sheet(
      plan,
      `${title}: ${plan.title}`,
      [],
      description,
      (frame) => below(frame, figures),
      options,
    );
    return { name, svg, table };
  };
  const contacts = plan.contacts.flatMap((study, i) => {
    const figures = contactFigures(plan, study, look);
    const name = `contact-${i + 1}`;
    return figures.length === 0
      ? []
      : [chart(name, `In contact with ${study.tanker}`, figures, contactTable(plan, study))];
  });
  const loadFactors = plan.manoeuvres.flatMap((table, i) => {
    const figure = envelopeFigure(table, gauges, look);
    return figure === null || table.envelope === null
      ? []
      : [
          chart(
            `load-factor-${i + 1}`,
            `Load factor ${table.name}`,
            [figure],
            envelopeTable(table.envelope, gauges),
          ),
        ];
  });
  const balance = balanceFlownFigure(plan, look);
  return [
    ...contacts,
    ...loadFactors,
    ...(balance === null
      ? []
      : [chart('centre-of-gravity', 'Centre of gravity', [balance], centreOfGravityTable(plan, EVERY_NODE))]),
  ];
}

function below(frame: Frame, figures: readonly Figure[]): Body {
  const width = frame.width - LEFT - BESIDE;
  const parts: string[] = [];
  let y = 0;
  for (const figure of figures) {
    const height = heightOf(figure);
    const at = { x: LEFT, y, width, height };
    parts.push(element('svg', at, figure.svg));
    y += height + LINE;
    for (const text of wrap(plainSpaces(figure.note), (t) => textWidth(t, SIZE.small), width)) {
      parts.push(line(frame, LEFT, y, text, SIZE.small));
      y += LINE;
    }
    y += GAP;
  }
  return { markup: parts.join(''), height: y };
}
