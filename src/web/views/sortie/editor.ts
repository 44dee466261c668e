/** The text of the sortie in an editor: what is typed goes to the session, what the session does comes back. */
import { defaultKeymap } from '@codemirror/commands';
import { yaml } from '@codemirror/lang-yaml';
import { bracketMatching, HighlightStyle, indentOnInput, syntaxHighlighting } from '@codemirror/language';
import { type Diagnostic, lintGutter, setDiagnostics } from '@codemirror/lint';
import { Annotation, EditorState } from '@codemirror/state';
import { drawSelection, EditorView, highlightActiveLine, keymap, lineNumbers } from '@codemirror/view';
import { tags } from '@lezer/highlight';
import type { Fault } from '../../../files/faults.ts';
import type { Session } from '../../session.svelte.ts';

/** On a change that came from the session. */
const fromSession = Annotation.define<boolean>();

/** So long a pause ends one step of undo. */
const pauseMs = 700;

const style = HighlightStyle.define([
  { tag: tags.comment, color: 'var(--quiet)', fontStyle: 'normal' },
  { tag: [tags.propertyName, tags.definition(tags.propertyName)], fontWeight: '700' },
]);

const theme = EditorView.theme({
  '&': { height: '100%', color: 'var(--ink)', backgroundColor: 'var(--ground)' },
  '&.cm-focused': { outline: '3px solid var(--help-a)', outlineOffset: '2px' },
  '.cm-scroller': { fontFamily: 'ui-monospace, monospace', fontSize: 'var(--small)', lineHeight: '1.5' },
  '.cm-content': { caretColor: 'var(--ink)' },
  '.cm-cursor': { borderLeftColor: 'var(--ink)' },
  '.cm-gutters': {
    backgroundColor: 'var(--ground)',
    color: 'var(--quiet)',
    borderRight: '1px solid var(--rule)',
  },
  '.cm-activeLine, .cm-activeLineGutter': { backgroundColor: 'var(--tint)' },
  '&.cm-focused > .cm-scroller > .cm-selectionLayer .cm-selectionBackground, .cm-selectionBackground': {
    backgroundColor: 'var(--rule)',
  },
  '.cm-lintRange-error': { backgroundImage: 'none', borderBottom: '2px dashed var(--ink)' },
  '.cm-gutter-lint .cm-lint-marker-error': { content: 'normal', fontWeight: '700', color: 'var(--ink)' },
  '.cm-gutter-lint .cm-lint-marker-error::before': { content: '"!"' },
  '.cm-tooltip': { backgroundColor: 'var(--ground)', color: 'var(--ink)', border: '1px solid var(--quiet)' },
  '.cm-diagnostic-error': { borderLeft: '3px solid var(--ink)' },
});

/** Files that are dropped here are opened by the page, not written into the text. */
function holdsFiles(event: DragEvent): boolean {
  return event.dataTransfer?.types.includes('Files') ?? false;
}

export class SortieEditor {
  private readonly session: Session;
  private readonly view: EditorView;
  private pause: ReturnType<typeof setTimeout> | undefined;

  constructor(parent: HTMLElement, session: Session) {
    this.session = session;
    const undo = (back: boolean) => () => {
      this.release();
      if (back) session.undo();
      else session.redo();
      return true;
    };
    const keys = keymap.of([
      { key: 'Mod-z', run: undo(true), shift: undo(false), stopPropagation: true },
      { key: 'Mod-y', run: undo(false), stopPropagation: true },
      ...defaultKeymap,
    ]);
    const extensions = [
      [
        lineNumbers(),
        lintGutter(),
        drawSelection({ cursorBlinkRate: 0 }),
        highlightActiveLine(),
        bracketMatching(),
        indentOnInput(),
        EditorView.lineWrapping,
      ],
      [yaml(), syntaxHighlighting(style), theme, keys],
      EditorView.contentAttributes.of({ 'aria-label': 'Text of the sortie', tabindex: '0' }),
      EditorView.domEventHandlers({ blur: () => this.release(), drop: holdsFiles }),
      EditorView.updateListener.of(({ docChanged, transactions, state }) => {
        if (docChanged && !transactions.some((one) => one.annotation(fromSession)))
          this.type(state.doc.toString());
      }),
    ];
    this.view = new EditorView({ parent, state: EditorState.create({ doc: session.text, extensions }) });
  }

  /** Takes over a text that was changed elsewhere; what is the same at both ends stays, with cursor and scroll. */
  show(text: string): void {
    const old = this.view.state.doc.toString();
    if (old === text) return;
    const most = Math.min(old.length, text.length);
    let same = 0;
    while (same < most && old[same] === text[same]) same++;
    let tail = 0;
    while (tail < most - same && old.at(-1 - tail) === text.at(-1 - tail)) tail++;
    this.view.dispatch({
      changes: { from: same, to: old.length - tail, insert: text.slice(same, text.length - tail) },
      annotations: fromSession.of(true),
    });
  }

  /** Marks the faults that have a line in this text. */
  mark(faults: readonly Fault[]): void {
    const marks = faults
      .filter(({ place }) => place.file === this.session.path && place.line > 0)
      .map((fault): Diagnostic => {
        const from = this.offset(fault);
        const line = this.view.state.doc.lineAt(from);
        return { from, to: line.to, severity: 'error', message: fault.message };
      });
    this.view.dispatch(setDiagnostics(this.view.state, marks));
  }

  /** Puts the cursor at the place of a fault. */
  goTo(fault: Fault): void {
    this.reveal(this.offset(fault));
    this.view.focus();
  }

  /** Brings a place of the text into sight, without taking the keyboard there. */
  reveal(anchor: number): void {
    this.view.dispatch({
      selection: { anchor },
      effects: EditorView.scrollIntoView(anchor, { y: 'center' }),
    });
  }

  close(): void {
    this.release();
    this.view.destroy();
  }

  private offset({ place: { line, column } }: Fault): number {
    const { doc } = this.view.state;
    const at = doc.line(Math.min(Math.max(line, 1), doc.lines));
    return Math.min(at.from + Math.max(column - 1, 0), at.to);
  }

  /** What is typed without a pause is one step of undo. */
  private type(text: string): void {
    this.session.hold();
    this.session.edit(text);
    clearTimeout(this.pause);
    this.pause = setTimeout(() => this.release(), pauseMs);
  }

  private release(): void {
    clearTimeout(this.pause);
    this.session.release();
  }
}
