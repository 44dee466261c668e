/** Opens what is dropped on the page or picked, and saves the sortie and its plan. */
import { basename, dirname } from 'pathe';
import type { Plan } from '../core/plan/plan.ts';
import { sha256 } from '../files/fingerprint.ts';
import { planText, readPlanText } from '../files/plan.ts';
import { type Given, place } from './placing.ts';
import type { Session } from './session.svelte.ts';

/** Takes files in; a sortie among them is opened, else the open one is planned again with them. */
export async function take(session: Session, given: readonly Given[]): Promise<void> {
  if (given.length === 0) return;
  const { files, sortie, plan, words } = place(given, session, session.atHand);
  keepText(session);
  session.planner.put(new Map(files));
  const wordsOfPlan = plan ? openPlan(session, plan) : '';
  if (!plan && sortie) openSortie(session, sortie);
  else if (!plan && !session.looking) session.replan();
  session.notice = [...words, wordsOfPlan].join(' ').trim();
}

/** Opens a sortie that is there; what was changed in the open one stays with it. */
export function openSortie(session: Session, path: string): void {
  keepText(session);
  const text = session.planner.text(path);
  if (text !== null) session.open(path, text);
}

/** Sorties among the files that are there, with their titles. */
export function sortiesAtHand(session: Session): { readonly path: string; readonly title: string }[] {
  return session.atHand
    .filter((path) => /\.ya?ml$/.test(path) && basename(path) !== 'deck.yaml')
    .map((path) => {
      const text = session.planner.text(path) ?? '';
      const title = /^title:\s*["']?(.+?)["']?\s*$/m.exec(text)?.[1] ?? basename(path);
      return { path, title };
    });
}

export function saveSortie(session: Session): void {
  download(basename(session.path), session.text, 'application/yaml');
  session.saved = session.text;
}

/** Saves the plan as `ramrise plan` writes it; it is the last one where the text has faults. An edit before it is whole ends it. */
export async function savePlan(session: Session): Promise<void> {
  const plan = await session.wholePlan();
  if (plan) download('plan.json', planText(plan), 'application/json');
}

export async function filesPicked(list: FileList): Promise<Given[]> {
  return Promise.all([...list].map((file) => read(file, file.webkitRelativePath || file.name)));
}

/** Files that were dropped, with those in dropped folders. */
export async function filesDropped(dropped: readonly (FileSystemEntry | File)[]): Promise<Given[]> {
  const found = await Promise.all(
    dropped.map(async (one) => (one instanceof File ? [await read(one, one.name)] : within(one))),
  );
  return found.flat();
}

async function within(entry: FileSystemEntry): Promise<Given[]> {
  if (entry.isFile) {
    const file = await new Promise<File>((done, failed) => (entry as FileSystemFileEntry).file(done, failed));
    return [await read(file, entry.fullPath.replace(/^\//, ''))];
  }
  const reader = (entry as FileSystemDirectoryEntry).createReader();
  const found: Given[] = [];
  for (;;) {
    // A reader gives the entries of a folder in parts, the last of them empty.
    const part = await new Promise<FileSystemEntry[]>((done, failed) => reader.readEntries(done, failed));
    if (part.length === 0) return found;
    for (const one of part) found.push(...(await within(one)));
  }
}

async function read(file: File, path: string): Promise<Given> {
  return { path, bytes: new Uint8Array(await file.arrayBuffer()) };
}

function keepText(session: Session): void {
  if (session.looking || session.planner.text(session.path) === session.text) return;
  session.planner.put(new Map([[session.path, new TextEncoder().encode(session.text)]]));
}

/** Opens a plan with the sortie that it was made from where that is there, else to look at; says which, or why it cannot. */
function openPlan(session: Session, { path, bytes }: Given): string {
  const name = basename(path);
  let plan: Plan;
  try {
    plan = readPlanText(new TextDecoder().decode(bytes), name);
  } catch (error) {
    return (error as Error).message;
  }
  const made = plan.inputs.find(({ role }) => role === 'sortie');
  const sortie = session.atHand.find((at) => sha256(session.planner.text(at) ?? '') === made?.sha256);
  if (sortie) {
    session.open(sortie, session.planner.text(sortie) ?? '', plan);
    return `${name} is shown as it was made, with the sortie that it was made from.`;
  }
  session.look(`${dirname(session.path)}/${name}`, plan);
  return `${name} is shown as it was made; its sortie is not here, so it cannot be changed.`;
}

function download(name: string, text: string, type: string): void {
  const url = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  URL.revokeObjectURL(url);
}
