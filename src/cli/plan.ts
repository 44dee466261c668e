/** `ramrise plan`: a sortie as plan.json, cards and charts in a folder, and a summary on the terminal. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import packageFile from '../../package.json' with { type: 'json' };
import type { PlanRequest } from '../core/plan/draft.ts';
import { makePlan } from '../core/plan/make-plan.ts';
import type { Plan } from '../core/plan/plan.ts';
import { CannotPlan } from '../core/plan/sortie-flyer.ts';
import { withSurprises } from '../core/plan/surprises.ts';
import { readText } from '../files/disk.ts';
import { trackGeoJson } from '../files/geojson.ts';
import { trackGpx } from '../files/gpx.ts';
import { asWritten, planText, SORTIE_COPY } from '../files/plan.ts';
import { readPlanRequest } from '../files/plan-request.ts';
import { trackOfPlan } from '../files/track.ts';
import type { CardFonts } from '../present/card/pdf.ts';
import { figureCharts } from '../present/chart/figures.ts';
import { fuelChart } from '../present/chart/fuel.ts';
import { marginsChart } from '../present/chart/margins.ts';
import { oneScaleChart } from '../present/chart/margins-one-scale.ts';
import { profileChart } from '../present/chart/profile.ts';
import { sectionChart, sectionTable } from '../present/chart/section.ts';
import { stripChart } from '../present/chart/strip.ts';
import { fuelTable, marginsTable, oneScaleTable, profileTable } from '../present/chart/tables.ts';
import { sentences } from '../present/sentences.ts';
import { summary } from '../present/summary.ts';
import { tableCsv } from '../present/table.ts';
import { PAPER } from '../present/theme.ts';
import { EXIT, Refusal, WrongUsage } from './outcome.ts';
import { answerSlip, readSlips } from './slip.ts';
import { say, sayJson } from './text.ts';
import { type NewFile, writeFiles } from './write.ts';

export interface PlanOptions {
  readonly out?: string;
  /** Later take-offs, such as "0..120min/10min". */
  readonly slip?: string;
  /** Leaves out what is flown after the plan. */
  readonly quick?: boolean;
  readonly json?: boolean;
}

export async function plan(sortie: string, options: PlanOptions): Promise<void> {
  const { out, slip, quick = false, json } = options;
  if (out === undefined && slip === undefined) {
    throw new WrongUsage('plan needs --out <folder>; see ramrise plan --help');
  }
  const slipsS = slip === undefined ? null : readSlips(slip);
  const { made, slips } = await answer(sortie, slipsS, out !== undefined && !quick);
  const files = out === undefined ? [] : await filesOf(made, readText(sortie));
  const written = out === undefined ? [] : await writeFiles(out, [...files, ...(slips?.files ?? [])]);
  if (!made.flyable) process.exitCode = EXIT.cannotBeFlown;
  if (json) {
    const { title, fingerprint, flyable, failure, evaluations } = made;
    const answers = sentences(made);
    const slipped = slips && { slip: slips.json };
    sayJson({ title, fingerprint, flyable, answers, failure, evaluations, ...slipped, files: written });
    return;
  }
  process.stdout.write(slips?.text ?? summary(made));
  if (written.length > 0) say('');
  for (const file of written) say(`Written: ${file}`);
}

/** The plan as its file says it, and what later take-offs cost; aircraft, day and flight are let go before anything is drawn. */
async function answer(sortie: string, slipsS: readonly number[] | null, whole: boolean) {
  const request = await readPlanRequest(sortie, `${packageFile.name} ${packageFile.version}`);
  const planned = planOrRefuse(request);
  const made = asWritten(whole ? withSurprises(planned, request) : planned);
  return { made, slips: slipsS && answerSlip(request, made, slipsS) };
}

function planOrRefuse(request: PlanRequest): Plan {
  try {
    return makePlan(request);
  } catch (error) {
    if (error instanceof CannotPlan) throw new Refusal(error.message);
    throw error;
  }
}

/** Every node of the trace has its row in the tables of the charts. */
const EVERY_NODE = 0;

/** Makes every file of a plan, each from what the plan's own file says, with the sortie as it was read. */
async function filesOf(made: Plan, sortieText: string): Promise<NewFile[]> {
  const { cardsPdf } = await import('../present/card/pdf.ts');
  const { mapChart } = await import('../present/chart/map.ts');
  const { readOutlines } = await import('./outlines.ts');
  const outlines = readOutlines(made);
  const theme = { theme: PAPER };
  const section = sectionChart(made, theme);
  return [
    ['plan.json', planText(made)],
    [SORTIE_COPY, sortieText],
    ['cards.pdf', Buffer.from(await cardsPdf(made, readFonts(), outlines))],
    ['strip.svg', stripChart(made, theme)],
    ['profile.svg', profileChart(made, theme)],
    ['profile.csv', tableCsv(profileTable(made, EVERY_NODE))],
    ['fuel.svg', fuelChart(made, theme)],
    ['fuel.csv', tableCsv(fuelTable(made, EVERY_NODE))],
    ['margins.svg', marginsChart(made, theme)],
    ['margins.csv', tableCsv(marginsTable(made, EVERY_NODE))],
    ['margins-one-scale.svg', oneScaleChart(made, theme)],
    ['margins-one-scale.csv', tableCsv(oneScaleTable(made, EVERY_NODE))],
    ...(section === null ? [] : sectionFiles(made, section)),
    ...figureCharts(made, theme).flatMap(({ name, svg, table }): NewFile[] => [
      [`${name}.svg`, svg],
      [`${name}.csv`, tableCsv(table)],
    ]),
    ['map.svg', mapChart(made, outlines, theme)],
    ...trackFiles(made),
  ];
}

/** The track for other programs; none where nothing was flown. */
function trackFiles(made: Plan): NewFile[] {
  if (made.trace.columns.timeS.length < 2) return [];
  const track = trackOfPlan(made);
  return [
    ['track.geojson', trackGeoJson(track)],
    ['track.gpx', trackGpx(track, made.program)],
  ];
}

function sectionFiles(made: Plan, chart: string): NewFile[] {
  return [
    ['section.svg', chart],
    ['section.csv', tableCsv(sectionTable(made))],
  ];
}

function readFonts(): CardFonts {
  const require = createRequire(import.meta.url);
  return {
    regular: readFileSync(
      require.resolve(
        '@expo-google-fonts/atkinson-hyperlegible-next/400Regular/AtkinsonHyperlegibleNext_400Regular.ttf',
      ),
    ),
    bold: readFileSync(
      require.resolve(
        '@expo-google-fonts/atkinson-hyperlegible-next/700Bold/AtkinsonHyperlegibleNext_700Bold.ttf',
      ),
    ),
  };
}
