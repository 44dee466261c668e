/** What the text of the sortie says, read once for all that show it or move a value of it. */
import { session } from './session.svelte.ts';
import { documentOf } from './yaml-edit.ts';

class TextData {
  /** Data of the last text that was YAML. */
  private last: unknown = null;

  private readonly read = $derived.by((): { data: unknown; isYaml: boolean } => {
    const document = documentOf(session.text);
    const isYaml = document.errors.length === 0;
    if (isYaml) this.last = document.toJS();
    return { data: this.last, isYaml };
  });

  /** Where the text is no YAML, what it said last. */
  get data(): unknown {
    return this.read.data;
  }

  get isYaml(): boolean {
    return this.read.isYaml;
  }
}

export const textData = new TextData();
