/** Cards as an A5 PDF with its fonts inside. The same plan gives the same bytes. */
import type { Plan } from '../../core/plan/plan.ts';
import type { Outlines } from '../map/outlines.ts';
import { moment } from '../time.ts';
import { footOf } from './card.ts';
import { CompressedDocument, joined } from './compressed.ts';
import { layOut } from './layout.ts';
import { cardsOf } from './pack.ts';
import { isTabular, type Mark, type Measure, PAGE, typeSize, type Weight } from './page.ts';

/** The face in two weights, as TrueType files. */
export interface CardFonts {
  readonly regular: Uint8Array;
  readonly bold: Uint8Array;
}

const POINT = 72 / 25.4;

function optionsFor(text: string, height: number) {
  const features = isTabular(text, height) ? ['tnum'] : undefined;
  return { features, lineBreak: false, baseline: 'alphabetic' } as const;
}

/** The pack as the bytes of a PDF; without outlines it has no map. `report` hears of each card when it is drawn. */
export async function cardsPdf(
  plan: Plan,
  fonts: CardFonts,
  outlines: Outlines | null = null,
  report: (drawn: number, count: number) => void = () => {},
): Promise<Uint8Array> {
  const document = newDocument(plan, fonts);
  const measure = measureWith(document);
  const cards = cardsOf(plan, outlines, measure);
  const foot = footOf(plan, cards.length);
  const bytes = collect(document);
  cards.forEach((card, i) => {
    document.addPage();
    for (const mark of layOut(card, foot, i + 1, cards.length, measure)) draw(document, mark);
    report(i + 1, cards.length);
  });
  document.end();
  return bytes;
}

/** Width of text in millimetres as the PDF sets it. */
export function cardMeasure(plan: Plan, fonts: CardFonts): Measure {
  return measureWith(newDocument(plan, fonts));
}

function newDocument(plan: Plan, fonts: CardFonts): PDFKit.Document {
  // The moment stands for the plan, not for the clock, so that the file depends on nothing else.
  const date = new Date(moment(plan.takeOff));
  const document = new CompressedDocument({
    size: [PAGE.width * POINT, PAGE.height * POINT],
    margin: 0,
    autoFirstPage: false,
    lang: 'en',
    displayTitle: true,
    // None of its own, which only Node could read.
    font: null,
    info: {
      Title: `${plan.title}: cards ${plan.fingerprint}`,
      Subject: plan.caution,
      Creator: plan.program,
      Producer: plan.program,
      CreationDate: date,
      ModDate: date,
    },
  });
  document.registerFont('regular', fonts.regular);
  document.registerFont('bold', fonts.bold);
  return document;
}

/** Measures each text once: shaping it takes most of the time of a page. */
function measureWith(document: PDFKit.Document): Measure {
  const known = new Map<string, number>();
  return (text, height, weight) => {
    const key = `${weight} ${height} ${text}`;
    let width = known.get(key);
    if (width === undefined) {
      setFont(document, height, weight);
      width = document.widthOfString(text, optionsFor(text, height)) / POINT;
      known.set(key, width);
    }
    return width;
  };
}

function setFont(document: PDFKit.Document, height: number, weight: Weight): void {
  document.font(weight).fontSize(typeSize(height) * POINT);
}

function draw(document: PDFKit.Document, mark: Mark): void {
  switch (mark.is) {
    case 'text':
      setFont(document, mark.height, mark.weight);
      document
        .fillColor(mark.ink)
        .text(mark.text, mark.x * POINT, mark.y * POINT, optionsFor(mark.text, mark.height));
      return;
    case 'rule':
      document
        .lineWidth(mark.weight * POINT)
        .moveTo(mark.x1 * POINT, mark.y * POINT)
        .lineTo(mark.x2 * POINT, mark.y * POINT)
        .stroke('black');
      return;
    case 'box':
      document
        .lineWidth(0.2 * POINT)
        .rect(mark.x * POINT, mark.y * POINT, mark.width * POINT, mark.height * POINT);
      if (mark.filled) document.fill('black');
      else document.stroke('black');
      return;
    case 'ring':
      document
        .lineWidth(0.2 * POINT)
        .circle(mark.x * POINT, mark.y * POINT, mark.radius * POINT)
        .stroke('black');
      return;
    case 'path': {
      const colour = grey(mark.grey);
      document
        .save()
        .translate(mark.at[0] * POINT, mark.at[1] * POINT)
        .scale(POINT);
      if (mark.dash.length > 0) document.dash(mark.dash);
      document.path(mark.d);
      if (mark.weight === null) document.fill(colour);
      else document.lineWidth(mark.weight).lineJoin('round').stroke(colour);
      document.restore();
    }
  }
}

function grey(lightness: number): string {
  const part = Math.round(lightness * 255)
    .toString(16)
    .padStart(2, '0');
  return `#${part}${part}${part}`;
}

/** The stream of the document as one array. */
function collect(document: PDFKit.Document): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    document.on('data', (chunk) => chunks.push(chunk));
    document.on('error', reject);
    document.on('end', () => resolve(joined(chunks)));
  });
}
