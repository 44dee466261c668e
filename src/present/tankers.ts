/** The tanker matrix in rows and sentences: what still can be done, with which reserve, and until when. */
import type { TankerCase, TankerFault, TankerMatrix, TankerOwn, TankerRecovery } from '../core/plan/plan.ts';
import { upperFirst } from './names.ts';
import type { Table } from './table.ts';
import { clock, hoursMinutes } from './time.ts';
import { figures, type Gauges, margin, shown } from './units.ts';

export function faultWords({ tanker, trouble }: TankerFault, lateS: number): string {
  if (trouble === 'absent') return `${tanker} absent`;
  if (trouble === 'half') return `${tanker} with half its fuel`;
  return `${tanker} ${Math.round(lateS / 60)}\u00a0min late`;
}

export function tankersTable({ cases, lateS }: TankerMatrix, gauges: Gauges): Table {
  const { shortUnit } = gauges('fuelKg');
  return {
    title: '',
    columns: [
      { name: 'Case', unit: '', align: 'left' },
      { name: 'On with the sortie', unit: '', align: 'left' },
      { name: 'In hand', unit: shortUnit, align: 'right' },
      { name: 'Turn away to', unit: '', align: 'left' },
      { name: 'Over reserve', unit: shortUnit, align: 'right' },
      { name: 'To dump', unit: shortUnit, align: 'right' },
      { name: 'Decide by', unit: 'h:min', align: 'right' },
    ],
    rows: cases.map((one) => {
      const last = one.recoveries.at(-1);
      return [
        one.faults.map((fault) => faultWords(fault, lateS)).join(', '),
        goesOnWords(one),
        kilograms(one.goesOn?.leastInHandKg ?? null, gauges),
        last?.base ?? 'none',
        kilograms(last?.overReserveKg ?? null, gauges),
        dumpWords(last, gauges),
        decideWords(last),
      ];
    }),
  };
}

function goesOnWords({ goesOn }: TankerCase): string {
  if (goesOn === null) return 'no';
  return goesOn.flyable ? 'yes' : `no: ${goesOn.failure}`;
}

function kilograms(kg: number | null, gauges: Gauges): string {
  return kg === null ? 'none' : margin(gauges('fuelKg'), kg).figure;
}

/** Above the greatest mass on landing, up; empty where nothing is. */
export function dumpWords(recovery: TankerRecovery | undefined, gauges: Gauges): string {
  const fuel = gauges('fuelKg');
  const kg = recovery?.aboveLandingMassKg ?? 0;
  return kg === 0 ? '' : figures(fuel, fuel.differenceFromSi(kg), 'required');
}

/** Down to the minute: what is printed is still in time. */
function decideWords(recovery: TankerRecovery | undefined): string {
  const { decideByS = null } = recovery ?? {};
  return decideByS === null ? 'none' : hoursMinutes(Math.floor(decideByS / 60) * 60);
}

/** What the whole comes to. */
export function tankerSentences({ cases, lateS }: TankerMatrix, gauges: Gauges): readonly string[] {
  const words = ({ faults }: TankerCase) => faults.map((fault) => faultWords(fault, lateS)).join(' and ');
  const unsafe = cases.filter(({ safe }) => !safe);
  const short = cases.flatMap((one) =>
    one.tankers.flatMap(({ tanker, overReserveKg }) =>
      overReserveKg === null || overReserveKg >= 0 ? [] : [{ one, tanker, overReserveKg }],
    ),
  );
  return [
    ...(unsafe.length === 0 ? [`In all ${cases.length} cases the crew lands with its reserve.`] : []),
    ...unsafe.map((one) => `${upperFirst(words(one))}: the crew does not land with its reserve.`),
    ...short.map(
      ({ one, tanker, overReserveKg }) =>
        `${upperFirst(words(one))}: ${tanker} itself lands ${shown(gauges('fuelKg'), -overReserveKg, 'required')} below its reserve.`,
    ),
  ];
}

/** "Ewer One: on station from 15:20Z, 26 min before the contact; ...". */
export function tankerOwnSentences(own: TankerOwn, takeOff: string, gauges: Gauges): readonly string[] {
  const fuel = gauges('fuelKg');
  const at = (seconds: number) => clock(takeOff, seconds);
  const earlyS = own.firstContactS - own.onStationS;
  const early =
    earlyS < 0
      ? `${Math.ceil(-earlyS / 60)}\u00a0min AFTER the contact`
      : `${Math.floor(earlyS / 60)}\u00a0min before the contact`;
  const waits = `${own.tanker}: on station from ${at(own.onStationS)}, ${early}; burns ${shown(fuel, own.waitedKg, 'required')} waiting and ${shown(fuel, own.contactKg, 'required')} in contact.`;
  const { home, overReserveKg, canWaitS } = own;
  if (home === null || overReserveKg === null || canWaitS === null)
    return [waits, 'Its way home is not computed: the weather does not reach so far.'];
  const way = `Leaves at ${at(own.leavesS)} for ${home.base}, ${shown(gauges('distanceM'), home.distanceM, 'required')}, ${hoursMinutes(home.durationS)}, ${shown(fuel, home.burntKg, 'required')}: lands at ${at(home.landsS)}`;
  return overReserveKg < 0
    ? [waits, `${way} with ${shown(fuel, -overReserveKg, 'required')} LESS than its reserve.`]
    : [
        waits,
        `${way} with ${shown(fuel, overReserveKg, 'available')} over its reserve. It can leave as late as ${at(Math.floor((own.leavesS + canWaitS) / 60) * 60)}.`,
      ];
}
