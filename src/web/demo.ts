/** The demonstration that is open on the first visit: its plan, and the files it was made from. */
import firstUrl from '../../.cache/web/first.json?url';
import planUrl from '../../.cache/web/plan.json?url';
import type { Plan } from '../core/plan/plan.ts';
import type { Session } from './session.svelte.ts';

const urls = import.meta.glob(
  [
    '../../examples/*.yaml',
    '../../examples/*.geojson',
    '../../examples/weather/*',
    '../../decks/*/*.yaml',
    '../../decks/*/*.csv',
    '!**/README.md',
  ],
  { query: '?url', import: 'default', eager: true },
) as Record<string, string>;

const demoPath = '/examples/long-loop.yaml';

/** Shows the demo's plan as it was made with the program, so far as the first screen shows it. */
export async function openDemo(session: Session): Promise<void> {
  const [plan, text] = await Promise.all([
    planAt(firstUrl),
    fetch(urls['../../examples/long-loop.yaml']).then((answer) => answer.text()),
  ]);
  session.open(demoPath, text, plan);
}

/** Gives the rest of the plan, and to the planner the files of all examples, which are much larger than what is shown first. */
export async function giveRest(session: Session): Promise<void> {
  session.complete(await planAt(planUrl));
  const files = await Promise.all(
    Object.entries(urls).map(async ([path, url]) => {
      const answer = await fetch(url);
      return [path.replace('../..', ''), new Uint8Array(await answer.arrayBuffer())] as const;
    }),
  );
  session.planner.put(new Map(files.filter(([path]) => !session.atHand.includes(path))));
}

async function planAt(url: string): Promise<Plan> {
  return (await fetch(url)).json();
}
