/** The recorder strip: the whole sortie on one time axis, height and Mach over fuel over every margin, answers above. */
import type { Plan } from '../../core/plan/plan.ts';
import { sentences } from '../sentences.ts';
import { plainSpaces } from '../units.ts';
import { fuelPanel } from './fuel.ts';
import { marginPanels } from './margins.ts';
import { heightPanel, machPanel } from './profile.ts';
import { type ChartOptions, chart } from './sheet.ts';

export function stripChart(plan: Plan, options: ChartOptions): string {
  const answers = sentences(plan);
  return chart(
    plan,
    plan.title,
    answers,
    plainSpaces(answers.join(' ')),
    (frame) => [
      heightPanel(frame, 170),
      machPanel(frame, 130),
      fuelPanel(frame, 240),
      ...marginPanels(frame),
    ],
    options,
  );
}
