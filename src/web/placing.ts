/**
 * Where files that a user gives are put so that the sortie finds them: what a sortie names by its path goes there, what has
 * the name of a file that is there takes its place, and the rest lies beside the sortie.
 */
import { basename, dirname, extname, join, resolve } from 'pathe';
import { parseDocument } from 'yaml';
import { PLAN_FORMAT } from '../core/plan/plan.ts';

/** A file as it was given, with the folders it was in, such as "sandmartin/drag.csv". */
export interface Given {
  readonly path: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** The sortie that is open. */
export interface OpenSortie {
  readonly path: string;
  readonly text: string;
}

export interface Placed {
  readonly files: ReadonlyMap<string, Uint8Array<ArrayBuffer>>;
  /** Path of the sortie that is to be opened; null where there was none among the files. */
  readonly sortie: string | null;
  /** A plan to be looked at. */
  readonly plan: Given | null;
  /** What was taken, in sentences. */
  readonly words: readonly string[];
}

/** Absolute paths of what a sortie names. */
interface Names {
  readonly deck: string | null;
  readonly weather: string | null;
  readonly areas: string | null;
}

/** What a sortie can name, beside decks: weather, areas, tables of a deck. */
type Kind = 'sortie' | 'deck' | 'plan' | 'other' | 'unknown';

const known = ['.nc', '.nc4', '.grib', '.grib2', '.grb', '.grb2', '.txt', '.csv', '.geojson', '.json'];

export function place(given: readonly Given[], open: OpenSortie, atHand: readonly string[]): Placed {
  const kinds = new Map(given.map((file) => [file, kindOf(file)]));
  const of = (kind: Kind) => given.filter((file) => kinds.get(file) === kind);
  const files = new Map<string, Uint8Array<ArrayBuffer>>();
  const words: string[] = [];
  const folder = dirname(open.path);

  const sorties = of('sortie').map((file) => ({
    file,
    path: resolve(file.path.includes('/') ? '/' : folder, file.path),
  }));
  for (const { file, path } of sorties) {
    files.set(path, file.bytes);
    words.push(`Sortie ${basename(path)} was taken.`);
  }
  const [first] = sorties;
  const sortie = first ? { path: first.path, text: textOf(first.file) } : open;
  const names = namesOf(sortie);

  const left = new Set(of('other'));
  for (const file of of('deck')) {
    const from = dirname(file.path);
    const to = deckFolder(from, names, dirname(sortie.path));
    const members = [...left].filter((one) => dirname(one.path) === from && /\.csv$/i.test(one.path));
    for (const member of [file, ...members]) {
      if (member !== file && namedPath(member, names)) continue;
      files.set(join(to, basename(member.path)), member.bytes);
      left.delete(member);
    }
    words.push(deckWords(to, names, atHand));
  }
  for (const file of left) {
    const path = namedPath(file, names) ?? samePath(file, names, atHand) ?? ownPath(file, sortie.path);
    files.set(path, file.bytes);
    words.push(fileWords(path, names, atHand));
  }
  for (const { path } of of('unknown'))
    words.push(`${basename(path)} is no file that a sortie can name: it was left out.`);
  const [plan = null] = of('plan');
  return { files, sortie: first?.path ?? null, plan, words };
}

/** By the format that a file says it has, else by the end of its name. */
function kindOf(file: Given): Kind {
  const end = extname(file.path).toLowerCase();
  if (end === '.yaml' || end === '.yml') {
    const format = /^format:\s*["']?ramrise-(sortie|deck)\b/m.exec(textOf(file))?.[1];
    return format === 'deck' || basename(file.path) === 'deck.yaml' ? 'deck' : 'sortie';
  }
  if (end === '.json' && new RegExp(`"format":\\s*"${PLAN_FORMAT}"`).test(textOf(file).slice(0, 1000)))
    return 'plan';
  return known.includes(end) ? 'other' : 'unknown';
}

function namesOf({ path, text }: OpenSortie): Names {
  const document = parseDocument(text);
  const at = (...keys: string[]): string | null => {
    const name = document.errors.length === 0 ? document.getIn(keys) : null;
    return typeof name === 'string' && name !== '' ? resolve(dirname(path), name) : null;
  };
  return { deck: at('aircraft', 'deck'), weather: at('weather', 'file'), areas: at('areas', 'file') };
}

/** A deck goes where the sortie names one of that name, or where it was given without its folder; else beside that one. */
function deckFolder(from: string, { deck }: Names, sortieFolder: string): string {
  if (deck === null) return resolve(sortieFolder, from === '.' ? 'deck' : basename(from));
  return from === '.' || basename(from) === basename(deck) ? deck : join(dirname(deck), basename(from));
}

/** The path by which the sortie names a file, or the file that tells its source. */
function namedPath({ path }: Given, { weather, areas }: Names): string | null {
  for (const one of [weather, areas]) {
    if (one !== null && basename(one) === basename(path)) return one;
    if (one !== null && basename(path).startsWith(`${basename(one)}.`))
      return join(dirname(one), basename(path));
  }
  return null;
}

/** The path of a file of the same name that is there, first of the sortie's deck. */
function samePath({ path }: Given, { deck }: Names, atHand: readonly string[]): string | null {
  const same = atHand.filter((one) => basename(one) === basename(path));
  return same.find((one) => deck !== null && dirname(one) === deck) ?? same[0] ?? null;
}

/** In the folders in which it was given, else beside the sortie. */
function ownPath({ path }: Given, sortie: string): string {
  return path.includes('/') ? resolve('/', path) : join(dirname(sortie), path);
}

function deckWords(folder: string, { deck }: Names, atHand: readonly string[]): string {
  const there = atHand.some((path) => dirname(path) === folder) ? ' in place of the one that was there' : '';
  const flown = folder === deck ? '' : '; the sortie names another: write it in Aircraft, Deck';
  return `Deck ${basename(folder)} was taken${there}${flown}.`;
}

function fileWords(path: string, names: Names, atHand: readonly string[]): string {
  const there = atHand.includes(path) ? ' in place of the one that was there' : '';
  const { deck, weather, areas } = names;
  const flown =
    path === weather || path === areas || dirname(path) === deck || path.endsWith('.attribution.txt');
  const hint = /\.(geojson|json)$/i.test(path) ? 'Areas, File' : 'Weather, File';
  return `${basename(path)} was taken${there}${flown ? '' : `; to use it, write it in ${hint}`}.`;
}

function textOf({ bytes }: Given): string {
  return new TextDecoder().decode(bytes);
}
