/** The tanker cards: one to join by, in the languages of both crews, and one for the time in contact. */
import type { Plan, Refuelling, Rendezvous } from '../../core/plan/plan.ts';
import { courseWords, magneticNotes, placeWords } from '../course.ts';
import { powerWords, upperFirst } from '../names.ts';
import { legAt } from '../phases.ts';
import { lessThanAsked, recoverySentences } from '../sentences.ts';
import { clock, hoursMinutes, minutesSeconds } from '../time.ts';
import { figures, gaugesOf, read, rounded, shown } from '../units.ts';
import { type Card, type CardColumn, type CardTable, type Cell, cell, words } from './card.ts';

/** Steps of the four languages, so fine that one can be checked against the others. */
const MACH_STEP = 0.001;

/** Where, how high, and which speed each crew means. */
export function joinCard(plan: Plan, index: number): Card {
  const at = plan.refuellings[index];
  const rendezvous = plan.rendezvous[index];
  const gauges = gaugesOf(plan);
  const altitude = gauges('pressureAltitudeM');
  const offset = shown(gauges('temperatureOffsetK'), rendezvous.temperatureOffsetK);
  const leg = legAt(plan, at.contactS);
  return {
    title: `${at.tanker}: join`,
    question: 'Where, how high, and which speed does each crew mean?',
    answer: [
      `${shown(altitude, rendezvous.pressureAltitudeM)} pressure altitude, track ${courseWords(at.track)}.`,
      `Contact at ${placeWords(rendezvous)}, ${hoursMinutes(at.contactS)} (${clock(plan.takeOff, at.contactS)}).`,
      ...recoverySentences(plan, leg),
    ],
    table: speedTable(plan, rendezvous),
    notes: [
      `One speed in four languages at ${shown(gauges('temperatureK'), rendezvous.temperatureK)}, ISA ${offset.startsWith('−') ? '' : '+'}${offset}; small, the true airspeed of the standard day.`,
      'The greatest is the tanker\u2019s own Mach limit, rounded down; what is left is the difference of the two as printed.',
      ...magneticNotes(plan, [{ name: at.tanker, compass: at.track.compass }]),
    ],
  };
}

function speedTable(plan: Plan, { contact, greatest, trueAirspeedOnStandardDayMS }: Rendezvous): CardTable {
  const gauges = gaugesOf(plan);
  const row = (name: string, key: keyof typeof contact, below = ''): readonly Cell[] => {
    const gauge = gauges(key);
    const step = key === 'mach' ? MACH_STEP : gauge.step;
    const text = (si: number, side: 'nearest' | 'available') => figures(gauge, gauge.fromSi(si), side, step);
    const set = rounded(gauge.fromSi(contact[key]), step, 'nearest');
    const left = rounded(gauge.fromSi(greatest[key]), step, 'available') - set;
    return [
      words(name, gauge.shortUnit === name ? '' : gauge.unit),
      cell(text(contact[key], 'nearest'), below),
      cell(text(greatest[key], 'available')),
      cell(figures(gauge, left, 'nearest', step)),
    ];
  };
  const standard = read(gauges('trueAirspeedMS'), trueAirspeedOnStandardDayMS);
  return {
    columns: [
      { name: 'Language', unit: 'and its unit', holds: 'words' },
      { name: 'Contact', unit: 'receiver and tanker', holds: 'figures' },
      { name: 'Greatest', unit: 'tanker', holds: 'figures' },
      { name: 'Left', unit: 'to the greatest', holds: 'figures' },
    ],
    rows: [
      row('Calibrated', 'calibratedAirspeedMS'),
      row('Equivalent', 'equivalentAirspeedMS'),
      row('Mach', 'mach'),
      row('True', 'trueAirspeedMS', standard),
    ],
  };
}

/** How much and how long, and whether the receiver can stay on as weight comes. */
export function contactCard(plan: Plan, index: number): Card {
  const at = plan.refuellings[index];
  const gauges = gaugesOf(plan);
  const fuel = gauges('fuelKg');
  const perMinute = figures(fuel, fuel.fromSi(at.rateKgS * 60));
  const burner =
    at.afterburnerFromKg === null
      ? 'No afterburner is needed.'
      : `One engine goes into afterburner after ${shown(fuel, at.afterburnerFromKg, 'available')}.`;
  return {
    title: `${at.tanker}: in contact`,
    question: 'How much, how long, and can I stay on as weight comes?',
    answer: [
      `Take ${shown(fuel, at.takenKg, 'required')} in ${minutesSeconds(at.disconnectS - at.contactS)} at ${perMinute}\u00a0${fuel.unit} a minute.`,
      ...lessThanAsked(plan, at).map((text) => `${text}.`),
      `${burner} Thrust left: at least ${Math.floor(at.leastThrustMargin * 100)}\u00a0% of what is needed.`,
    ],
    table: contactTable(plan, at),
    notes: [
      `${shown(fuel, at.burntKg, 'required')} are burnt meanwhile; ${shown(fuel, at.offloadLeftKg, 'available')} of the offload are left in the tanker; the contact runs over ${shown(gauges('distanceM'), plan.rendezvous[index].trackM, 'required')}.`,
      `Rounded: fuel on board down, to take and burnt up, to ${fuel.step} ${fuel.unit}.`,
    ],
  };
}

interface Moment {
  readonly name: string;
  readonly timeS: number;
  /** Index of its node of the trace. */
  readonly node: number;
}

function contactTable(plan: Plan, at: Refuelling): CardTable {
  const moments = momentsOf(plan, at);
  const { columns: trace } = plan.trace;
  const [fuel, mass, cg] = ['fuelKg', 'massKg', 'cgFraction'].map(gaugesOf(plan));
  const row = (name: string, after: string, content: (moment: Moment) => Cell): readonly Cell[] => [
    words(name, after),
    ...moments.map(content),
  ];
  const heads = moments.map(({ name }): CardColumn => ({ name, unit: '', holds: 'figures' }));
  return {
    columns: [{ name: 'What', unit: '', holds: 'words' }, ...heads],
    rows: [
      row('Time', 'h:min from take-off', ({ timeS }) =>
        cell(hoursMinutes(timeS), clock(plan.takeOff, timeS)),
      ),
      row('On the boom', 'min:s', ({ timeS }) => cell(minutesSeconds(timeS - at.contactS))),
      row('Fuel on board', `${fuel.unit}, mass below`, ({ node }) =>
        cell(read(fuel, trace.fuelKg[node], 'available'), read(mass, trace.massKg[node])),
      ),
      row('Centre of gravity', cg.unit, ({ node }) => cell(read(cg, trace.cgFraction[node]))),
      ...at.enginesAtDisconnect.map((engine) =>
        row(`${upperFirst(engine.name)} engine`, 'power', (moment) =>
          words(powerAt(plan, at, engine, moment)),
        ),
      ),
    ],
  };
}

/** Both engines are alike until one is lit: that with the most power at disconnect. */
function powerAt(
  plan: Plan,
  at: Refuelling,
  engine: { readonly power: number },
  { name, node }: Moment,
): string {
  if (name === 'Contact') return powerWords(plan, plan.trace.columns.power[node]);
  if (name === 'Disconnect') return powerWords(plan, engine.power);
  return engine.power === Math.max(...at.enginesAtDisconnect.map(({ power }) => power)) ? 'lit' : 'stays dry';
}

/** Contact, where one engine goes into afterburner if it does, and disconnect. */
function momentsOf(plan: Plan, at: Refuelling): readonly Moment[] {
  const { phases, trace } = plan;
  const { timeS } = trace.columns;
  const moment = (name: string, atS: number): Moment => ({
    name,
    timeS: atS,
    node: timeS.findIndex((t, i) => t >= atS - 1e-3 && phases[trace.phase[i]].kind === 'contact'),
  });
  const lit = plan.events.find(
    (event) => event.kind === 'afterburner' && event.timeS > at.contactS && event.timeS < at.disconnectS,
  );
  return [
    moment('Contact', at.contactS),
    ...(lit === undefined ? [] : [moment('Afterburner', lit.timeS)]),
    moment('Disconnect', at.disconnectS),
  ];
}
