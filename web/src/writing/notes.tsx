// The one note that is open: under its row, in the page, as a pencil would write it.
import { type EditorState, StateEffect, StateField } from "@codemirror/state";
import { Decoration, type DecorationSet, EditorView, WidgetType } from "@codemirror/view";
import { render } from "preact";
import { seen } from "../standing";
import type { Change, Finding, Word } from "../told";
import { WordSymbol } from "../symbol";

export type Shown =
  | { kind: "finding"; finding: Finding; number: number; of: number }
  | { kind: "word"; word: Word };

export const setNote = StateEffect.define<{ at: number; shown: Shown } | null>();

/** What can be done from a note; the editor does it. */
export interface Doing {
  write(change: Change): void;
  close(): void;
  next(step: number): void;
}

class NoteWidget extends WidgetType {
  constructor(
    readonly shown: Shown,
    readonly doing: Doing,
  ) {
    super();
  }

  override eq(other: NoteWidget): boolean {
    return JSON.stringify(other.shown) === JSON.stringify(this.shown);
  }

  override toDOM(): HTMLElement {
    const element = document.createElement("div");
    element.className = "note-place";
    element.contentEditable = "false";
    render(<NoteOf shown={this.shown} doing={this.doing} />, element);
    return element;
  }

  override destroy(element: HTMLElement): void {
    render(null, element);
  }

  override ignoreEvent(): boolean {
    return true;
  }
}

export function notes(doing: Doing) {
  return StateField.define<DecorationSet>({
    create: () => Decoration.none,
    update(found, transaction) {
      let now = found.map(transaction.changes);
      for (const effect of transaction.effects) {
        if (effect.is(setNote)) now = placed(effect.value, transaction.state, doing);
      }
      return now;
    },
    provide: (field) => EditorView.decorations.from(field),
  });
}

function placed(
  note: { at: number; shown: Shown } | null,
  state: EditorState,
  doing: Doing,
): DecorationSet {
  if (!note) return Decoration.none;
  const line = state.doc.lineAt(Math.min(note.at, state.doc.length));
  const widget = new NoteWidget(note.shown, doing);
  return Decoration.set([Decoration.widget({ widget, block: true, side: 1 }).range(line.to)]);
}

function NoteOf({ shown, doing }: { shown: Shown; doing: Doing }) {
  if (shown.kind === "word") return <WordNote word={shown.word} />;
  return <FindingNote {...shown} doing={doing} />;
}

function FindingNote(props: {
  finding: Finding;
  number: number;
  of: number;
  doing: Doing;
}) {
  const { finding, doing } = props;
  const { edit } = finding;
  return (
    <section class={finding.loud ? "note" : "note note-quiet"} aria-label="Note">
      <p>
        <strong>{finding.message}</strong>
      </p>
      {finding.why && <p class="why">{finding.why}</p>}
      {finding.sizes.length > 0 && <p class="why">In {finding.sizes.join(", ")}.</p>}
      {finding.related.map(([, , said]) => (
        <p class="why">{said}</p>
      ))}
      <div class="do">
        {edit && (
          <button type="button" class="go" onClick={() => doing.write(edit)}>
            {named(edit)}
          </button>
        )}
        <button type="button" onClick={() => doing.close()}>
          Leave it for now
        </button>
        <span class="key">
          {edit ? "Ctrl + Enter. " : ""}
          {props.of > 1 ? `${props.number} of ${props.of}; the next: F8` : ""}
        </span>
      </div>
    </section>
  );
}

/** What a change will write, in a few words. */
function named(edit: Change): string {
  const words = edit.insert.trim().replace(/\s+/g, " ");
  if (!words) return "Take it out";
  return words.length > 48 ? `Write \u201c${words.slice(0, 45)}\u2026\u201d` : `Write \u201c${words}\u201d`;
}

function WordNote({ word }: { word: Word }) {
  const rest = word.says.slice(word.word.length);
  return (
    <section class="note note-word" aria-label="The word">
      <WordSymbol stitch={word.symbol} terms={seen.value?.terms ?? "US"} />
      <div>
        <p>
          <strong>{word.word}</strong>
          {rest}
        </p>
        {word.more.map((said) => (
          <p class="why">{said}</p>
        ))}
      </div>
    </section>
  );
}
