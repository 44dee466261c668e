/** The strip for a screen: the panels of the printed one and the air met, without title and foot, which the page has. */
import type { Plan } from '../../../core/plan/plan.ts';
import { temperaturePanel, windPanel } from '../../../present/chart/air.ts';
import { type Along, type Frame, newFrame, type Part } from '../../../present/chart/frame.ts';
import { fuelPanel } from '../../../present/chart/fuel.ts';
import { marginPanels } from '../../../present/chart/margins.ts';
import { heightPanel, machPanel } from '../../../present/chart/profile.ts';
import { layersOf } from '../../../present/chart/sheet.ts';
import { stretches } from '../../../present/phases.ts';
import { NIGHT, PAPER } from '../../../present/theme.ts';
import { hoursMinutes } from '../../../present/time.ts';
import type { ThemeName } from '../../session.svelte.ts';

export interface Strip {
  /** Of an svg, lowest first. */
  readonly layers: readonly string[];
  readonly frame: Frame;
  readonly height: number;
  /** What can be opened to fill the width; `index` is that of its last phase. */
  readonly phases: readonly { readonly index: number; readonly text: string }[];
  readonly look: StripLook;
}

export interface StripLook {
  readonly themeName: ThemeName;
  readonly width: number;
  readonly along: Along;
  readonly part: Part | null;
}

/** `last` has the slower answers of the plan before while they are missing; of `before` stands what shows the same flight. */
export function drawStrip(plan: Plan, look: StripLook, last: Plan | null, before: Strip | null): Strip {
  const { themeName, width, along, part } = look;
  const theme = themeName === 'night' ? NIGHT : PAPER;
  const frame = newFrame(plan, theme, width, { along, last, ...(part === null ? {} : { part }) });
  const stands = before !== null && before.frame.plan.phases === plan.phases && sameLook(before.look, look);
  const { layers, height } = layersOf(
    frame,
    [
      heightPanel(frame, 170),
      machPanel(frame, 120),
      fuelPanel(frame, 230),
      temperaturePanel(frame, 100),
      windPanel(frame, 120),
      ...marginPanels(frame),
    ],
    stands ? before.layers : null,
  );
  const phases = stands
    ? before.phases
    : stretches(plan, 'name').map(({ last, name, startS }) => ({
        index: last,
        text: `${hoursMinutes(startS)} ${name}`,
      }));
  return { layers, frame, height, phases, look };
}

function sameLook(one: StripLook, other: StripLook): boolean {
  return (Object.keys(one) as (keyof StripLook)[]).every((key) => Object.is(one[key], other[key]));
}
