/** The moments from a contact to the cruise at which a crew checks its instruments, found in the log. */
import { CHECK_MOMENTS, type CheckMomentKind } from '../aircraft/aircraft.ts';
import type { Draft } from './draft.ts';
import type { Kept, Log } from './log.ts';
import { machGates } from './route-flight.ts';
import type { CheckStep } from './sortie.ts';
import { climbNodes, kindOf, reached } from './tables.ts';

/** A moment of the log. */
export interface Found {
  readonly leg: number;
  readonly kind: CheckMomentKind;
  readonly timeS: number;
  readonly mach: number;
  /** Power of each engine. */
  readonly powers: readonly number[];
  value(key: Kept): number;
}

/** A drag rise that no pushover begins is taken to lie beyond this Mach. */
const dragRiseMach = 0.9;
const sameMach = 1e-6;

/** The moments of each leg that leaves a contact or climbs beyond Mach 1, in order of time. */
export function findMoments({ log, crew, flown }: Draft): Found[] {
  const { sortie, flight } = crew;
  const { propulsion } = flight.setup.aircraft;
  const alike = (power: number) => propulsion.engines.map(() => power);
  return sortie.legs.flatMap((leg, index) => {
    const nodes = climbNodes(log, index);
    if (nodes.length < 2) return [];
    const found: Found[] = [];
    const atNode = (kind: CheckMomentKind, node: number, powers?: readonly number[]): void => {
      if (node < 0) return;
      const value = (key: Kept) => log.columns[key][node];
      const timeS = value('timeS');
      const mach = value('mach');
      found.push({ leg: index, kind, timeS, mach, powers: powers ?? alike(value('power')), value });
    };
    const atMach = (kind: CheckMomentKind, mach: number): void => {
      const timeS = reached(log, nodes, mach);
      if (timeS === null) return;
      const value = (key: Kept) => log.at(log.columns[key], timeS);
      found.push({ leg: index, kind, timeS, mach, powers: alike(value('power')), value });
    };
    const contact = lastOfContact(log, index - 1);
    const refuelled = flown.refuellings.find(
      ({ disconnectS }) => Math.abs(disconnectS - log.columns.timeS[contact]) < 1e-3,
    );
    atNode(
      'disconnect',
      contact,
      refuelled?.enginesAtDisconnect.map(({ power }) => power),
    );
    if (!leg.fly.some((step) => step.kind === 'climb' && step.mach > 1)) return found;
    const { minimumAfterburner } = propulsion;
    if (minimumAfterburner !== null) atNode('burner', firstAtPower(log, nodes, minimumAfterburner));
    const pushover = nodes.find((node) => kindOf(log, node) === 'pushover');
    if (pushover === undefined) atMach('dragRise', dragRiseMach);
    else atNode('dragRise', pushover);
    const { startMach } =
      flight.setup.aircraft.schedules.find((schedule) => schedule.startMach !== null) ?? {};
    if (startMach) atMach('inletStart', startMach);
    for (const mach of gatesOf(sortie.checklist, index)) atMach('gate', mach);
    const last = nodes[nodes.length - 1];
    if (kindOf(log, last) === 'cruise') atNode('levelOff', last);
    const order = ({ kind }: Found) => CHECK_MOMENTS.indexOf(kind);
    return found.sort((a, b) => a.timeS - b.timeS || order(a) - order(b));
  });
}

/** The last node of the contact that ends a leg; -1 where there is none. */
function lastOfContact(log: Log, leg: number): number {
  return log.phaseOf.findLastIndex((index) => {
    const phase = log.phases[index];
    return phase?.leg === leg && phase.kind === 'contact';
  });
}

function firstAtPower(log: Log, nodes: readonly number[], power: number): number {
  return nodes.find((node) => log.columns.power[node] >= power - 1e-9) ?? -1;
}

/** The supersonic Machs of the climb's rows, and those at which the crew has steps of its own. */
function gatesOf(checklist: readonly CheckStep[], leg: number): number[] {
  const usual = machGates.filter((mach) => mach > 1);
  const own = checklist.flatMap((step) =>
    typeof step.moment === 'number' && (step.leg ?? leg) === leg ? [step.moment] : [],
  );
  const more = own.filter((mach) => !usual.some((row) => isSameMach(row, mach)));
  return [...usual, ...new Set(more)];
}

export function isSameMach(a: number, b: number): boolean {
  return Math.abs(a - b) < sameMach;
}
