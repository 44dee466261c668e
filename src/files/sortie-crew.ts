/** The crew's times as a sortie file has them: what does not go together is told. */
import type { CrewTimes } from '../core/plan/sortie.ts';
import type { SortieFile } from './sortie-schema.ts';
import type { Path } from './yaml.ts';

type Tell = (path: Path, message: string) => void;
type Written = NonNullable<SortieFile['crew']>;

/** null where the file says nothing of the crew. */
export function crewTimes({ crew, takeOff }: SortieFile, tell: Tell): CrewTimes | null {
  if (crew === undefined) return null;
  const { duty, prebreathe, oxygen } = crew;
  dutyFaults(crew, takeOff.time, tell);
  prebreatheFaults(crew, tell);
  oxygenFaults(crew, takeOff.time, tell);
  return {
    duty: duty ? { reportS: duty.reports, mostS: duty.most, afterLandingS: duty.afterLanding } : null,
    prebreathe: Array.isArray(prebreathe)
      ? prebreathe.map(({ above, time }) => ({ aboveM: above, timeS: time }))
      : (prebreathe ?? null),
    oxygen: oxygen ? { fromS: oxygen.from ?? null, lastsS: oxygen.lasts, reserveS: oxygen.reserve } : null,
  };
}

function dutyFaults({ duty }: Written, takeOffS: number, tell: Tell): void {
  if (duty === undefined) return;
  const path = ['crew', 'duty'];
  if (!(duty.reports <= takeOffS)) tell([...path, 'reports'], 'the crew reports after the take-off');
  if (!(duty.most > 0)) tell([...path, 'most'], 'a duty has a length above 0');
  if (!(duty.afterLanding >= 0)) tell([...path, 'afterLanding'], 'duty does not end before the landing');
}

function prebreatheFaults({ prebreathe }: Written, tell: Tell): void {
  if (!Array.isArray(prebreathe)) return;
  prebreathe.forEach(({ above, time }, i) => {
    if (i === 0) return;
    const before = prebreathe[i - 1];
    if (!(above > before.above)) tell(['crew', 'prebreathe', i, 'above'], 'write the altitudes rising');
    if (!(time >= before.time))
      tell(['crew', 'prebreathe', i, 'time'], 'a higher cabin does not ask for less time');
  });
}

function oxygenFaults({ oxygen, prebreathe }: Written, takeOffS: number, tell: Tell): void {
  if (oxygen === undefined) return;
  const path = ['crew', 'oxygen'];
  if (prebreathe !== undefined && oxygen.from !== undefined && !(oxygen.from <= takeOffS))
    tell([...path, 'from'], 'the crew goes on oxygen after the take-off, before which it has to prebreathe');
  if (!(oxygen.reserve >= 0 && oxygen.reserve < oxygen.lasts))
    tell([...path, 'reserve'], 'a reserve is from 0 to less than what lasts');
}
