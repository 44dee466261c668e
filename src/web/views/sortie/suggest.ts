/** Words that can be written in a field because something of that name is there. */
import { relative } from 'pathe';
import type { Plan } from '../../../core/plan/plan.ts';

/** What a sortie can name. */
export interface AtHand {
  /** Data of the sortie as written. */
  readonly data: unknown;
  readonly plan: Plan | null;
  /** Folder of the sortie, and paths of all files that are there. */
  readonly folder: string;
  readonly files: readonly string[];
}

type Suggest = (at: AtHand) => readonly string[];

const bases: Suggest = ({ data }) => names(data, 'bases');
const tankers: Suggest = ({ data }) => names(data, 'tankers');
const legs: Suggest = ({ data }) => names(data, 'legs');

/** Ends of paths, with what they name. */
const suggestions: readonly (readonly [RegExp, Suggest])[] = [
  [/^takeOff\.base$|\.land$|\.divert$/, bases],
  [/\.refuel\.tanker$/, tankers],
  [/^checklist\.\d+\.leg$/, legs],
  [/\.power$/, ({ plan }) => plan?.aircraft.settings ?? []],
  [/^pads$/, ({ plan }) => plan?.limits.map(({ key }) => key) ?? []],
  [/^aircraft\.deck$/, (at) => inFolder(at, /\/deck\.yaml$/).map((path) => path.replace('/deck.yaml', ''))],
  [
    /^weather\.file$/,
    (at) => inFolder(at, /\.(nc|nc4|grib2?|grb2?|txt|csv)$/i).filter((path) => !isOfDeck(path)),
  ],
  [/^areas\.file$/, (at) => inFolder(at, /\.(geojson|json)$/i)],
];

export function suggestionsAt(path: string, at: AtHand): readonly string[] {
  return suggestions.find(([pattern]) => pattern.test(path))?.[1](at) ?? [];
}

function names(data: unknown, key: string): string[] {
  const list = (data as Readonly<Record<string, unknown>> | null)?.[key];
  if (!Array.isArray(list)) return [];
  return list
    .map((item) => String((item as { name?: unknown } | null)?.name ?? ''))
    .filter((name) => name !== '');
}

function inFolder({ folder, files }: AtHand, kind: RegExp): string[] {
  return files.filter((path) => kind.test(path)).map((path) => relative(folder, path));
}

function isOfDeck(path: string): boolean {
  return /(^|\/)decks\//.test(path);
}
