/** The cards of whether a receiver stays on as weight comes: thrust by mass taken, and one burner to be lit. */
import type { ContactRow, ContactStudy, LightCase, Plan } from '../../core/plan/plan.ts';
import { CASES, contactSentences, lightNotes, MARKS, percent, rudderSentences } from '../contact.ts';
import { upperFirst } from '../names.ts';
import { figures, gaugesOf, NOT_COMPUTED, numeral, read, rounded, type Side } from '../units.ts';
import { type Card, type Cell, cell, MOST_ROWS, words } from './card.ts';

export function contactStudyCards(plan: Plan, index: number): readonly Card[] {
  const study = plan.contacts[index];
  if (study === undefined || study.rows.length < 2) return [];
  const light = lightCard(plan, study);
  return [thrustCard(plan, study), ...(light === null ? [] : [light])];
}

function thrustCard(plan: Plan, study: ContactStudy): Card {
  const gauges = gaugesOf(plan);
  const [fuel, mass, rate, thrust] = ['fuelKg', 'massKg', 'climbRateMS', 'thrustN'].map(gauges);
  const force = (newton: number) => figures(thrust, thrust.fromSi(newton), 'available', 0.1);
  const rudder = ({ rudderDeg }: ContactRow) =>
    rudderDeg === null || Math.abs(rudderDeg) < 0.05 ? '' : `rudder ${numeral(rudderDeg, 0.1)}°`;
  const row = (of: ContactRow): readonly Cell[] => [
    cell(read(fuel, of.takenKg, 'available'), of.mark === null ? '' : MARKS[of.mark]),
    cell(percent(of.margin), `± ${numeral(rounded(of.marginSpread * 100, 1, 'required'), 1)}`),
    cell(force(of.moreN), `${force(of.lessN)} less`),
    of.descentMS < 0
      ? cell(figures(rate, rate.fromSi(of.descentMS), 'nearest', 10), rudder(of))
      : words('level'),
    cell(numeral(rounded(of.greatestBankDeg, 1, 'available'), 1), `${percent(of.turnMargin)} % left`),
  ];
  return {
    title: `${study.tanker}: thrust in contact`,
    question: 'Does thrust last as weight comes, and what then?',
    answer: contactSentences(plan, study),
    table: {
      columns: [
        { name: 'Taken', unit: fuel.unit, holds: 'figures' },
        { name: 'Left', unit: '% of needed, ± spread', holds: 'figures' },
        { name: 'More', unit: `${thrust.unit} to follow with`, holds: 'figures' },
        { name: 'Or down', unit: `${rate.shortUnit}, dry`, holds: 'figures' },
        { name: 'Bank', unit: `at most; at ${numeral(study.bankDeg, 1)}° below`, holds: 'figures' },
      ],
      rows: kept(study.rows, study.litFollowsKg === null ? MOST_ROWS : MOST_ROWS - 1).map(row),
    },
    notes: [
      `From ${read(mass, study.rows[0].massKg)} to ${read(mass, study.rows[study.rows.length - 1].massKg)}\u00a0${mass.unit}. More and less are on the engines that follow the tanker: all of them while dry, the dry ones beside a lit one, at last that one.`,
      [...rudderSentences(plan, study), 'Thrust left, more and bank are rounded down.'].join(' '),
    ],
  };
}

/** Rows with a name, and of the others as many as there is room for, spread evenly. */
function kept(rows: readonly ContactRow[], most: number): readonly ContactRow[] {
  const named = rows.filter(({ mark }) => mark !== null);
  const others = rows.filter(({ mark }) => mark === null);
  const room = Math.max(0, most - named.length);
  const every = Math.max(1, Math.ceil(others.length / Math.max(1, room)));
  const chosen = new Set([...named, ...(room === 0 ? [] : others.filter((_, i) => i % every === 0))]);
  return rows.filter((row) => chosen.has(row)).slice(0, most);
}

/** null where no burner has to be lit, or what it takes is not known. */
function lightCard(plan: Plan, study: ContactStudy): Card | null {
  const { light, tanker } = study;
  if (light === null) return null;
  const gauges = gaugesOf(plan);
  const [length, speed] = ['pressureAltitudeM', 'windSpeedMS'].map(gauges);
  const far = (metres: number | null, side: Side = 'required'): Cell =>
    metres === null ? words('lost') : cell(figures(length, length.differenceFromSi(metres), side, 1));
  const fast = (si: number, side: Side = 'required'): Cell =>
    cell(figures(speed, speed.differenceFromSi(si), side, 0.1));
  const after = ({ afterS }: LightCase): string =>
    afterS === null ? `seen after ${numeral(light.failureSeenS, 0.1)} s` : `after ${numeral(afterS, 0.1)} s`;
  const [sentence] = contactSentences(plan, study).filter(
    (text) => text.startsWith('Light ') || text.startsWith('No moment'),
  );
  return {
    title: `${tanker}: light one burner`,
    question: `When do I light the ${light.engine} one, and what does the closure come to?`,
    answer: [sentence ?? NOT_COMPUTED],
    table: {
      columns: [
        { name: 'It', unit: 'and after how long', holds: 'words' },
        { name: 'Forward', unit: length.shortUnit, holds: 'figures' },
        { name: 'Aft', unit: length.shortUnit, holds: 'figures' },
        { name: 'Closure', unit: speed.shortUnit, holds: 'figures' },
      ],
      rows: [
        ...light.cases.map((of): readonly Cell[] => [
          words(upperFirst(CASES[of.name]), after(of)),
          far(of.foreM),
          far(of.aftM),
          fast(of.closureMS),
        ]),
        [
          words('Room', 'in the envelope'),
          far(light.foreLimitM, 'available'),
          far(light.aftLimitM, 'available'),
          fast(light.closureLimitMS, 'available'),
        ],
      ],
    },
    notes: [
      ...lightNotes(plan, light),
      'One engine is lit a few seconds before the other is brought back (common practice).',
    ],
  };
}
