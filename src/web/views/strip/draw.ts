/** The strip for a screen: the panels of the printed one and the air met, without title and foot, which the page has. */
import type { Plan } from '../../../core/plan/plan.ts';
import { temperaturePanel, windPanel } from '../../../present/chart/air.ts';
import { type Along, type Frame, newFrame, type Part } from '../../../present/chart/frame.ts';
import { fuelPanel } from '../../../present/chart/fuel.ts';
import { marginPanels } from '../../../present/chart/margins.ts';
import { heightPanel, machPanel } from '../../../present/chart/profile.ts';
import { patterns, stack } from '../../../present/chart/sheet.ts';
import { stretches } from '../../../present/phases.ts';
import { element } from '../../../present/svg.ts';
import { FONT_FAMILY, NIGHT, PAPER, SIZE } from '../../../present/theme.ts';
import { hoursMinutes } from '../../../present/time.ts';
import type { ThemeName } from '../../session.svelte.ts';

export interface Strip {
  readonly svg: string;
  readonly frame: Frame;
  readonly height: number;
  /** What can be opened to fill the width; `index` is that of its last phase. */
  readonly phases: readonly { readonly index: number; readonly text: string }[];
}

export function drawStrip(
  plan: Plan,
  themeName: ThemeName,
  width: number,
  along: Along,
  part: Part | null,
  last: Plan | null,
): Strip {
  const theme = themeName === 'night' ? NIGHT : PAPER;
  const frame = newFrame(plan, theme, width, { along, last, ...(part === null ? {} : { part }) });
  const { markup, height } = stack(frame, [
    heightPanel(frame, 170),
    machPanel(frame, 120),
    fuelPanel(frame, 230),
    temperaturePanel(frame, 100),
    windPanel(frame, 120),
    ...marginPanels(frame),
  ]);
  const svg = element(
    'svg',
    {
      viewBox: `0 0 ${width} ${height}`,
      'font-family': FONT_FAMILY,
      'font-size': SIZE.small,
      'aria-hidden': 'true',
    },
    patterns(theme),
    markup,
  );
  const phases = stretches(plan, 'name').map(({ last, name, startS }) => ({
    index: last,
    text: `${hoursMinutes(startS)} ${name}`,
  }));
  return { svg, frame, height, phases };
}
