/** What the parts of the form share: the data they show, the faults at their places, and what they do to the text. */
import { dirname } from 'pathe';
import { tick } from 'svelte';
import { keyWords } from '../../../present/names.ts';
import type { Session } from '../../session.svelte.ts';
import { textData } from '../../text-data.svelte.ts';
import { addValue, removeAt, swapWithNext } from '../../yaml-edit.ts';
import { choose, extend, include, write } from './edits.ts';
import { type FaultsAt, faultsAt } from './faults.ts';
import { type Choice, type Field, type Group, type List, type Part, partsOf, type Shape } from './form.ts';
import { suggestionsAt } from './suggest.ts';

export class SortieForm {
  private readonly session: Session;
  private readonly shape: Shape;
  /** Path of the part that was added or moved last. */
  shown = $state('');

  constructor(session: Session, shape: Shape) {
    this.session = session;
    this.shape = shape;
  }

  /** Where the text is no YAML the form shows what it said last, and nothing can be changed in it. */
  get isYaml(): boolean {
    return textData.isYaml;
  }

  readonly parts: readonly Part[] = $derived.by(() => partsOf(this.shape, textData.data, ''));
  readonly faults: FaultsAt = $derived.by(() => faultsAt(this.session.faults, this.session.path, this.parts));

  suggestions(path: string): readonly string[] {
    const { plan, atHand, path: file } = this.session;
    return suggestionsAt(path, { data: textData.data, plan, folder: dirname(file), files: atHand });
  }

  choiceWords(field: Field, choice: string): string {
    if (field.type === 'yes or no') return choice === 'true' ? 'yes' : 'no';
    return keyWords(choice);
  }

  write(field: Field, written: string): void {
    this.edit((text) => write(text, field, written));
  }

  extend(list: List, option?: string): void {
    this.edit((text) => extend(text, textData.data, list, option));
    void this.focus(`${list.path}.${list.items.length}`, 'input, select');
  }

  include(group: Group): void {
    this.edit((text) => include(text, textData.data, group));
    void this.focus(group.path, 'input, select');
  }

  /** A key of a user's choice, its value to be written. */
  addPair(path: string, key: string): void {
    this.edit((text) => addValue(text, `${path}.${key}`, ''));
  }

  choose(choice: Choice, option: string): void {
    this.edit((text) => choose(text, textData.data, choice, option));
  }

  remove(path: string): void {
    this.edit((text) => removeAt(text, path));
  }

  /** Moves an item up or down in its list; the keyboard goes with it. */
  move(list: string, index: number, by: -1 | 1): void {
    this.edit((text) => swapWithNext(text, list, by < 0 ? index - 1 : index));
    const buttons = by < 0 ? ['up', 'down'] : ['down', 'up'];
    void this.focus(`${list}.${index + by}`, ...buttons.map((to) => `[data-move="${to}"]:enabled`));
  }

  private edit(change: (text: string) => string): void {
    this.session.edit(change(this.session.text));
  }

  /** Opens a part and goes to what is found in it, by the first selector that finds something. */
  private async focus(path: string, ...selectors: string[]): Promise<void> {
    this.shown = path;
    await tick();
    await tick();
    const part = document.getElementById(`part-${path}`);
    const found = selectors.map((selector) => part?.querySelector<HTMLElement>(selector));
    found.find((element) => element)?.focus();
  }
}
