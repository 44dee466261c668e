/** The tanker matrix in rows and sentences: what still can be done, with which reserve, and until when. */
import type { TankerCase, TankerFault, TankerMatrix, TankerRecovery } from '../core/plan/plan.ts';
import { upperFirst } from './names.ts';
import type { Table } from './table.ts';
import { hoursMinutes } from './time.ts';
import { type Gauges, margin } from './units.ts';

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

/** Down to the minute: what is printed is still in time. */
function decideWords(recovery: TankerRecovery | undefined): string {
  const { decideByS = null } = recovery ?? {};
  return decideByS === null ? 'none' : hoursMinutes(Math.floor(decideByS / 60) * 60);
}

/** What the whole comes to. */
export function tankerSentences({ cases, lateS }: TankerMatrix): readonly string[] {
  const unsafe = cases.filter(({ safe }) => !safe);
  const words = ({ faults }: TankerCase) => faults.map((fault) => faultWords(fault, lateS)).join(' and ');
  if (unsafe.length === 0) return [`In all ${cases.length} cases the crew lands with its reserve.`];
  return unsafe.map((one) => `${upperFirst(words(one))}: the crew does not land with its reserve.`);
}
