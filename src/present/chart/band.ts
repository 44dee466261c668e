/** The band of phases above the panels: every phase and event by its name, and the ground on which the panels stand. */
import type { PlanEvent } from '../../core/plan/plan.ts';
import { eventName } from '../names.ts';
import { type Stretch, stretches } from '../phases.ts';
import { element } from '../svg.ts';
import { SIZE, textWidth } from '../theme.ts';
import { type Frame, line, rule } from './frame.ts';
import { lightStrip } from './light-strip.ts';

const ROW = 15;
const BAND = 9;
/** More rows than a crowded quarter of an hour ever needs. */
const MOST_ROWS = 8;

/** Widths below which a stretch goes without a name, unless a crew would ask for it. */
const LEAST_WIDTH = 7;
const ALWAYS_NAMED = new Set(['contact', 'pushover', 'landing']);

interface Label {
  readonly text: string;
  readonly x: number;
  readonly halfWidth: number;
  readonly isEvent: boolean;
}

interface Placed extends Label {
  readonly row: number;
}

/** Names in rows over the band, each above its own stretch or joined to it by a leader; events are set in bold. */
export function band(frame: Frame): { markup: string; height: number } {
  const { x, theme } = frame;
  const parts = shownStretches(frame);
  const wanted = [...parts.flatMap((stretch) => stretchLabel(frame, stretch)), ...eventLabels(frame)];
  const labels = placed(
    wanted.sort((a, b) => a.x - b.x),
    frame.width,
  );
  const top = (Math.max(0, ...labels.map((label) => label.row)) + 1) * ROW;
  const leaders: string[] = [];
  const names: string[] = [];
  for (const { text, x: at, row, isEvent } of labels) {
    const baseline = top - 5 - row * ROW;
    if (row > 0 || isEvent) leaders.push(rule(at, baseline + 3, at, top, theme.quiet, 0.6));
    names.push(line(frame, at, baseline, text, SIZE.small, isEvent ? 'bold' : 'normal', theme.ink, 'middle'));
  }
  const boxes = parts.map((stretch, i) =>
    element('rect', {
      x: x(stretch.startS),
      y: top,
      width: Math.max(0.4, x(stretch.endS) - x(stretch.startS)),
      height: BAND,
      fill: i % 2 === 0 ? theme.ground : theme.quiet,
      stroke: theme.ink,
      'stroke-width': 0.6,
    }),
  );
  const light = lightStrip(frame, top + BAND);
  return {
    markup: [...leaders, ...names, ...boxes, light.markup].join(''),
    height: top + BAND + light.height,
  };
}

/** Every second stretch on a tinted ground, and a dotted line at every event. */
export function ground(frame: Frame, height: number): string {
  const { x, theme } = frame;
  const tints = shownStretches(frame)
    .filter((_, i) => i % 2 === 1)
    .map((stretch) =>
      element('rect', {
        x: x(stretch.startS),
        width: Math.max(0, x(stretch.endS) - x(stretch.startS)),
        height,
        fill: theme.tint,
      }),
    );
  const events = namedEvents(frame).map(({ timeS }) =>
    rule(x(timeS), 0, x(timeS), height, theme.quiet, 0.8, '1 3'),
  );
  return [...tints, ...events].join('');
}

/** The name of a stretch where it has room, else its kind; a contact keeps its name. None where it is very short. */
function stretchLabel(frame: Frame, stretch: Stretch): readonly Label[] {
  const { kind, name, startS, endS } = stretch;
  const { x } = frame;
  const width = x(endS) - x(startS);
  if (width < LEAST_WIDTH && !ALWAYS_NAMED.has(kind)) return [];
  if (namedByEvent(frame, stretch)) return [];
  const whole = textWidth(name, SIZE.small) < width - 6 || kind === 'contact';
  return [label(whole ? name : kind, (x(startS) + x(endS)) / 2, false)];
}

function eventLabels(frame: Frame): readonly Label[] {
  return namedEvents(frame).map((event) =>
    label(event.kind === 'landing' ? 'landing' : eventName(frame.plan, event), frame.x(event.timeS), true),
  );
}

/** What the lines or a phase show already, or the climb card and the tables. */
const UNNAMED = new Set(['gate', 'contact', 'disconnect', 'level-off', 'take-off', 'cruise', 'cruise-start']);

function namedEvents(frame: Frame): readonly PlanEvent[] {
  const landed = frame.plan.phases.some((phase) => phase.kind === 'landing');
  return frame.plan.events.filter(
    ({ kind, timeS }) => !UNNAMED.has(kind) && !(landed && kind === 'landing') && frame.shows(timeS),
  );
}

/** What follows each other under one kind, cut at the ends of the part shown. */
function shownStretches({ plan, startS, endS }: Frame): readonly Stretch[] {
  return stretches(plan, 'kind')
    .map((stretch) => ({
      ...stretch,
      startS: Math.max(stretch.startS, startS),
      endS: Math.min(stretch.endS, endS),
    }))
    .filter((stretch) => stretch.endS > stretch.startS);
}

/** A turn, or a slow-down from a start down, that begins or ends with an event goes by the event's name. */
function namedByEvent(frame: Frame, { kind, startS, endS }: Stretch): boolean {
  const of = kind === 'turn' ? ['waypoint'] : kind === 'deceleration' ? ['start-down', 'slow-down'] : [];
  return frame.plan.events.some(
    (event) => of.includes(event.kind) && event.timeS >= startS - 1 && event.timeS <= endS + 1,
  );
}

function label(text: string, x: number, isEvent: boolean): Label {
  return { text, x, halfWidth: textWidth(text, SIZE.small) / 2 + 3, isEvent };
}

/** Lowest row in which a label overlaps no other and lines from row to band cross the fewest. */
function placed(labels: readonly Label[], width: number): readonly Placed[] {
  const done: Placed[] = [];
  for (const wanted of labels) {
    const x = Math.min(Math.max(wanted.x, wanted.halfWidth), width - wanted.halfWidth);
    const here = { ...wanted, x };
    const rows = Array.from({ length: MOST_ROWS }, (_, row) => row).filter(
      (row) => !done.some((other) => other.row === row && overlap(other, here)),
    );
    const crossed = rows.map((row) => done.filter((other) => crosses(other, { ...here, row })).length);
    const best = crossed.indexOf(Math.min(...crossed));
    done.push({ ...here, row: rows[best] ?? MOST_ROWS });
  }
  return done;
}

function overlap(a: Label, b: Label): boolean {
  return Math.abs(a.x - b.x) < a.halfWidth + b.halfWidth;
}

/** Whether the leader of the higher one runs through the text of the lower. */
function crosses(a: Placed, b: Placed): boolean {
  const lower = a.row < b.row ? a : b;
  return a.row !== b.row && Math.abs(a.x - b.x) < lower.halfWidth;
}
