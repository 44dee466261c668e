/** The manoeuvre cards of a leg: after the tanker how slow, what may be pulled and what a push costs; at the top of the climb how slow. */
import type { LeastSpeeds, ManoeuvreRow, ManoeuvreTable, Plan, PushRecovery } from '../../core/plan/plan.ts';
import { bankText, heightLost, leastSpeed, limitText, namedWords } from '../manoeuvre.ts';
import { type Gauges, gaugesOf, read, shown } from '../units.ts';
import { type Card, type CardColumn, type Cell, cell, MOST_COLUMNS, words } from './card.ts';

export function manoeuvreCards(plan: Plan, leg: number): readonly Card[] {
  const gauges = gaugesOf(plan);
  return plan.manoeuvres
    .filter((table) => table.leg === leg && table.rows.length > 0)
    .flatMap((table) => [
      ...(table.rows[0].speeds.some(({ warning }) => warning !== null) ? [slowCard(table, gauges)] : []),
      ...(table.rows[0].pushes.length > 0 ? [pullCard(plan, table, gauges)] : []),
    ]);
}

function titleOf(table: ManoeuvreTable, gauges: Gauges): string {
  return `Manoeuvre ${table.name}, ${shown(gauges('pressureAltitudeM'), table.pressureAltitudeM)}`;
}

/** Low over the base: the height to have in hand at each bank before the pusher acts. */
export function lowPushCards(plan: Plan): readonly Card[] {
  const { lowPushes } = plan;
  if (lowPushes === null || lowPushes.rows.length === 0) return [];
  const gauges = gaugesOf(plan);
  const [height, fuel, airspeed] = ['geometricHeightM', 'fuelKg', 'calibratedAirspeedMS'].map(gauges);
  const [heaviest] = lowPushes.rows;
  // Wings level stands first; of the banks as many as a card holds, the steepest kept.
  const kept = (pushes: readonly PushRecovery[]) => [
    pushes[0],
    ...pushes.slice(1).slice(-(MOST_COLUMNS - 2)),
  ];
  return [
    {
      title: `Manoeuvre low over ${lowPushes.base}`,
      question: 'How low may I be at which bank?',
      answer: [lowAnswer(lowPushes.rows, gauges)],
      table: {
        columns: [
          { name: 'Fuel', unit: fuel.shortUnit, holds: 'figures' },
          ...kept(heaviest.pushes).map(
            ({ bankDeg }): CardColumn => ({
              name: bankDeg === 0 ? 'Level' : `${read(gauges('bankDeg'), bankDeg)}°`,
              unit: `${height.shortUnit} above ground; push at ${airspeed.shortUnit} below`,
              holds: 'figures',
            }),
          ),
        ],
        rows: lowPushes.rows.map(({ fuelKg, pushes }) => [
          cell(read(fuel, fuelKg, 'required')),
          ...kept(pushes).map(({ leastHeightM, from }) =>
            leastHeightM === null
              ? words('not level')
              : cell(heightLost(height, leastHeightM), leastSpeed(gauges, from)),
          ),
        ]),
      },
      notes: [
        'If the pusher acts in the slowest level turn at that bank, the aircraft is level again above this; power as before but no afterburner, wings levelled, pulled to the warning. So low, load factor and time make most of the height, not speed: fuel changes little of it.',
        lowClearance(plan, gauges),
        `For the air over ${lowPushes.base} at take-off, from ${shown(gauges('pressureAltitudeM'), lowPushes.pressureAltitudeM, 'required')}. Heights and speeds are rounded up.`,
      ],
    },
  ];
}

/** At the steepest bank, whatever the fuel. */
function lowAnswer(rows: NonNullable<Plan['lowPushes']>['rows'], gauges: Gauges): string {
  const pushes = rows.map((row) => row.pushes[row.pushes.length - 1]);
  const bank = shown(gauges('bankDeg'), pushes[0].bankDeg);
  const lost = rows.find((_, i) => pushes[i].leastHeightM === null);
  if (lost) return `At ${bank} of bank a push with ${shown(gauges('fuelKg'), lost.fuelKg)} is not recovered.`;
  const most = Math.max(...pushes.map(({ leastHeightM }) => leastHeightM ?? 0));
  return `At ${bank} of bank no lower than ${shown(gauges('geometricHeightM'), most, 'required')} above the ground, with any fuel.`;
}

function lowClearance({ manoeuvreRules: { clearanceM } }: Plan, gauges: Gauges): string {
  return clearanceM === 0
    ? 'The sortie asks for no clearance: none is in these heights.'
    : `${shown(gauges('geometricHeightM'), clearanceM, 'required')} of clearance are in these heights.`;
}

/** How slow: one row for each fuel on board. */
function slowCard(table: ManoeuvreTable, gauges: Gauges): Card {
  const airspeed = gauges('calibratedAirspeedMS');
  const [first] = table.rows;
  const [level, ...named] = first.speeds;
  // What the sortie names first stands first; a card holds four beside the fuel.
  const kept = named.slice(-(MOST_COLUMNS - 1));
  const left = named.length - kept.length;
  return {
    title: titleOf(table, gauges),
    question: 'How slow may I be?',
    answer: [
      `With ${shown(gauges('fuelKg'), first.fuelKg, 'required')} the warning sounds at ${leastSpeed(gauges, level.warning)}\u00a0${airspeed.shortUnit} in level flight, the push comes at ${leastSpeed(gauges, level.push)}\u00a0${airspeed.shortUnit}.`,
    ],
    table: {
      columns: [
        {
          name: 'Fuel',
          unit: `${gauges('fuelKg').shortUnit}; level warning ${airspeed.shortUnit} below`,
          holds: 'figures',
        },
        ...kept.map(
          (speeds): CardColumn => ({
            name: namedWords(gauges, speeds),
            unit: `${airspeed.shortUnit} to warning, push below`,
            holds: 'figures',
          }),
        ),
      ],
      rows: table.rows.map((row) => slowRow(row, kept.length, gauges)),
    },
    notes: [
      entered(first, gauges),
      ...(left > 0
        ? [
            `Left out for room: ${named
              .slice(0, left)
              .map((speeds) => namedWords(gauges, speeds))
              .join(', ')}.`,
          ]
        : []),
      'Speeds are rounded up, for this height.',
    ],
  };
}

function slowRow({ fuelKg, speeds }: ManoeuvreRow, most: number, gauges: Gauges): readonly Cell[] {
  const [level, ...named] = speeds;
  return [
    cell(read(gauges('fuelKg'), fuelKg, 'required'), leastSpeed(gauges, level.warning)),
    ...named
      .slice(-most)
      .map(({ warning, push }) =>
        warning === null ? words('none') : cell(leastSpeed(gauges, warning), leastSpeed(gauges, push)),
      ),
  ];
}

/** The worked line: what the lead of the warning adds while a manoeuvre is entered. */
function entered({ fuelKg, speeds }: ManoeuvreRow, gauges: Gauges): string {
  const unit = gauges('calibratedAirspeedMS').shortUnit;
  const told = (of: LeastSpeeds) =>
    `${namedWords(gauges, of)} ${leastSpeed(gauges, of.warning)}, entered ${leastSpeed(gauges, of.entered)}`;
  const [, ...named] = speeds;
  return `Entered at the usual rate the warning sounds earlier. With ${shown(gauges('fuelKg'), fuelKg, 'required')}, in ${unit}: ${named.map(told).join('; ')}.`;
}

/** What may be pulled at the speed flown there, each bound by itself, and what a push costs. */
function pullCard(plan: Plan, table: ManoeuvreTable, gauges: Gauges): Card {
  const [first] = table.rows;
  const speed = shown(gauges('calibratedAirspeedMS'), table.at.calibratedAirspeedMS);
  const height = gauges('geometricHeightM');
  const steepest = first.pushes.at(-1)?.bankDeg ?? 0;
  const steep = steepest === 0 ? '' : `, ${read(gauges('bankDeg'), steepest)}° below`;
  return {
    title: titleOf(table, gauges),
    question: `What may I pull at ${speed}, and what does a push cost?`,
    answer: [answer(first, gauges)],
    table: {
      columns: [
        { name: 'Fuel', unit: gauges('fuelKg').shortUnit, holds: 'figures' },
        { name: 'Warning', unit: 'g, bank below', holds: 'figures' },
        { name: 'Push', unit: 'g, bank below', holds: 'figures' },
        { name: 'Structure', unit: 'g; rolling, bank below', holds: 'figures' },
        { name: 'Push costs', unit: `${height.shortUnit} level${steep}`, holds: 'figures' },
      ],
      rows: table.rows.map((row) => pullRow(row, gauges)),
    },
    notes: [
      [
        `Pulled at the usual rate the warning sounds ${read(gauges('loadFactor'), table.leadLoadFactor, 'required')}\u00a0g earlier.`,
        ...heldNotes(plan, gauges),
      ].join(' '),
      `Push: from the slowest level turn until level, no afterburner, pulled to the warning${slower(first)}; ${clearance(plan, gauges)}`,
    ],
  };
}

/** Why a push out of level flight may cost more than one out of a turn. */
function slower({ pushes }: ManoeuvreRow): string {
  const [level, steep] = [pushes[0]?.lostM ?? 0, pushes.at(-1)?.lostM ?? 0];
  return level > steep ? '; wings level it comes slower, with more speed to regain' : '';
}

function heldNotes({ manoeuvreRules: { heldTo } }: Plan, gauges: Gauges): readonly string[] {
  if (heldTo.length === 0) return [];
  const each = heldTo.map(
    ({ fromFuelKg, loadFactor, source }) =>
      `${limitText(gauges, loadFactor)}\u00a0g from ${shown(gauges('fuelKg'), fromFuelKg)} on (${source})`,
  );
  return [`Held to ${each.join(', ')}.`];
}

function clearance({ manoeuvreRules: { clearanceM } }: Plan, gauges: Gauges): string {
  return clearanceM === 0
    ? 'no clearance above the ground is in them.'
    : `add ${shown(gauges('geometricHeightM'), clearanceM, 'required')} for the least height above the ground.`;
}

function answer({ fuelKg, bounds }: ManoeuvreRow, gauges: Gauges): string {
  const parts = [
    bounds.warning === null
      ? ''
      : `warning at ${limitText(gauges, bounds.warning)}\u00a0g or ${bankText(gauges, bounds.warning)}`,
    bounds.push === null ? '' : `push at ${limitText(gauges, bounds.push)}\u00a0g`,
    bounds.held === null ? '' : `held to ${limitText(gauges, bounds.held)}\u00a0g`,
    bounds.sustained === null ? '' : `thrust for ${limitText(gauges, bounds.sustained)}\u00a0g`,
  ].filter((part) => part !== '');
  return `With ${shown(gauges('fuelKg'), fuelKg, 'required')}: ${parts.join(', ')}.`;
}

function pullRow({ fuelKg, bounds, pushes }: ManoeuvreRow, gauges: Gauges): readonly Cell[] {
  const height = gauges('geometricHeightM');
  const [level, steep] = [pushes[0], pushes.at(-1)];
  return [
    cell(read(gauges('fuelKg'), fuelKg, 'required')),
    cell(limitText(gauges, bounds.warning), bankText(gauges, bounds.warning)),
    cell(limitText(gauges, bounds.push), bankText(gauges, bounds.push)),
    bounds.symmetric === null
      ? words('not computed')
      : cell(
          limitText(gauges, bounds.symmetric),
          `${limitText(gauges, bounds.rolling)}, ${bankText(gauges, bounds.rolling)}`,
        ),
    level === undefined || level.lostM === null
      ? words('not level')
      : cell(
          heightLost(height, level.lostM),
          steep === level || !steep ? '' : heightLost(height, steep.lostM),
        ),
  ];
}
