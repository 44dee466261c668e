/** Turns and level-offs of the log with what the trace knows of them. */
import type { Draft } from './draft.ts';
import type { LevelOff, MagneticTurn, TurnFlown } from './plan.ts';

/** Every turn from its roll-in to wings level, by true north. */
export function turnsOf({ log, crew }: Draft): Omit<TurnFlown, keyof MagneticTurn>[] {
  const { columns } = log;
  const takeOffS = crew.sortie.takeOff.timeS;
  return log.turns.map((turn) => {
    const change = (column: readonly number[]) => log.at(column, turn.endS) - log.at(column, turn.rollInS);
    const groundSpeedMS = log.footSpeedAt(turn.rollInS);
    const middleS = 0.5 * (turn.rollInS + turn.endS);
    return {
      ...turn,
      startS: turn.startS - takeOffS,
      rollInS: turn.rollInS - takeOffS,
      endS: turn.endS - takeOffS,
      leadS: turn.leadM / groundSpeedMS,
      groundSpeedMS,
      pressureAltitudeM: log.at(columns.pressureAltitudeM, turn.rollInS),
      loadFactor: log.at(columns.loadFactor, middleS),
      machChange: change(columns.mach),
      pressureAltitudeChangeM: change(columns.pressureAltitudeM),
    };
  });
}

/** Every level-off with the speeds and the rate of climb or descent with which it is begun. */
export function levelOffsOf({ log, crew }: Draft): LevelOff[] {
  const { columns } = log;
  const takeOffS = crew.sortie.takeOff.timeS;
  return log.captures.map((capture) => {
    const fromS = beginOf(log.columns, capture);
    const phase = log.phases.find(
      ({ startS, endS }) => capture.timeS > startS && capture.timeS <= endS + 1e-6,
    );
    return {
      ...capture,
      timeS: capture.timeS - takeOffS,
      phase: phase?.name ?? '',
      climbRateMS: log.at(columns.climbRateMS, fromS),
      fromS: fromS - takeOffS,
      machFrom: log.at(columns.mach, fromS),
      mach: log.at(columns.mach, capture.timeS),
      equivalentAirspeedMS: log.at(columns.equivalentAirspeedMS, capture.timeS),
    };
  });
}

/** The last moment before the level-off at which its lead was still to fly [s]. */
function beginOf(
  columns: { readonly timeS: readonly number[]; readonly pressureAltitudeM: readonly number[] },
  {
    timeS: levelS,
    pressureAltitudeM: goalM,
    leadM,
  }: { timeS: number; pressureAltitudeM: number; leadM: number },
): number {
  const { timeS, pressureAltitudeM } = columns;
  const away = (node: number) => Math.abs(pressureAltitudeM[node] - goalM);
  let node = timeS.findLastIndex((time) => time <= levelS + 1e-6);
  while (node > 0 && away(node - 1) < leadM) node--;
  if (node === 0) return timeS[0];
  const [far, near] = [away(node - 1), away(node)];
  const part = far > near ? (far - leadM) / (far - near) : 1;
  return timeS[node - 1] + Math.min(Math.max(part, 0), 1) * (timeS[node] - timeS[node - 1]);
}
