// The editor of the pattern's text: plain words, undo without end, and what is proven of them.
import {
  defaultKeymap, history, historyKeymap, redo, undo,
} from "@codemirror/commands";
import { Annotation, EditorState, type Extension, Prec, Transaction } from "@codemirror/state";
import { drawSelection, EditorView, keymap, ViewPlugin } from "@codemirror/view";
import { look, onSeen, onTaken, touched } from "../flow";
import { onChange } from "../deciding";
import {
  cursor, loud, note, printedRows, quiet, say, seen, size, words,
} from "../standing";
import type { Change, Finding } from "../told";
import { dressed, marks, setSeen } from "./marks";
import { countOf, margin } from "./margins";
import { lookAtWord, pointing } from "./pointing";
import { notes, setNote } from "./notes";
import { setSize } from "./size";
import { rowAtHand } from "./row_at_hand";
import { litWords } from "./lit";

const TAKEN = Annotation.define<boolean>();
const UNDO_STEPS = 1_000_000;

export interface Writing {
  view: EditorView;
  next(step: number): void;
  write(): void;
  explain(): void;
  close(): void;
  step(by: number): void;
}

export function writingIn(parent: HTMLElement, isNarrow: boolean): Writing {
  const doing = {
    write: (change: Change) => written(view, change),
    close: () => close(view),
    next: (step: number) => next(view, step),
  };
  const nonce = document.querySelector<HTMLMetaElement>("meta[name=desk-nonce]")?.content;
  const extensions: Extension[] = [
    EditorView.cspNonce.of(nonce ?? ""),
    EditorView.lineWrapping,
    EditorView.contentAttributes.of({
      "aria-label": "The pattern",
      tabindex: "0",
      spellcheck: "false",
      autocorrect: "off",
      autocapitalize: "off",
    }),
    drawSelection(),
    history({ minDepth: UNDO_STEPS }),
    Prec.high(keymap.of(keysOf(() => writing))),
    keymap.of([...defaultKeymap.filter((key) => key.key !== "Alt-ArrowUp" && key.key !== "Alt-ArrowDown" && key.key !== "Mod-/" && key.key !== "Mod-Enter"), ...historyKeymap]),
    marks,
    notes(doing),
    margin(isNarrow),
    rowAtHand,
    litWords,
    pointing,
    ViewPlugin.define(
      (view) => ({
        decorations: dressed(view),
        update(update) {
          if (update.docChanged || update.viewportChanged || update.selectionSet || update.focusChanged)
            this.decorations = dressed(update.view);
        },
      }),
      { decorations: (plugin) => plugin.decorations },
    ),
    EditorView.updateListener.of((update) => {
      if (update.docChanged) {
        words.value = update.state.doc.toString();
        const isTaken = update.transactions.some((one) => one.annotation(TAKEN));
        if (!isTaken) touched("pattern");
        void look();
      }
      if (update.selectionSet || update.docChanged) cursor.value = update.state.selection.main.head;
    }),
  ];
  const view: EditorView = new EditorView({
    state: EditorState.create({ doc: words.value, extensions }),
    parent,
  });
  const writing: Writing = {
    view,
    next: (step) => next(view, step),
    write: () => writeOpen(view),
    explain: () => void lookAtWord(view, view.state.selection.main.head),
    close: () => close(view),
    step: (by) => stepRow(view, by),
  };
  void document.fonts.ready.then(() => view.requestMeasure());
  onSeen((text, told) => shown(view, text, told));
  onTaken((text) => taken(view, text));
  onChange((changes) =>
    view.dispatch({ changes, userEvent: "input.decided", scrollIntoView: false }),
  );
  size.subscribe((number) => view.dispatch({ effects: setSize.of(number) }));
  note.subscribe((open) => placeNote(view, open));
  return writing;
}

/** An answer: shown if the text is still the one that was asked about. */
function shown(view: EditorView, text: string, told: NonNullable<typeof seen.value>): void {
  if (view.state.doc.length !== text.length || view.state.doc.toString() !== text) return;
  view.dispatch({ effects: setSeen.of(told), annotations: Transaction.addToHistory.of(false) });
  seen.value = told;
  // Told to whoever waits for the marks, as a test does.
  document.documentElement.dataset.seen = String(text.length);
  const open = note.value;
  if (open?.kind === "finding") {
    const still = [...loud.value, ...quiet.value].some((found) => found.start === open.at);
    if (!still) note.value = null;
    else placeNote(view, open);
  }
}

/** The text of another, in the place of this one; undo brings it back. */
function taken(view: EditorView, text: string): void {
  const old = view.state.doc.toString();
  let start = 0;
  const shorter = Math.min(old.length, text.length);
  while (start < shorter && old[start] === text[start]) start++;
  let end = 0;
  while (end < shorter - start && old.at(-1 - end) === text.at(-1 - end)) end++;
  view.dispatch({
    changes: { from: start, to: old.length - end, insert: text.slice(start, text.length - end) },
    annotations: TAKEN.of(true),
  });
}

function written(view: EditorView, change: Change): void {
  note.value = null;
  view.dispatch({
    changes: change,
    selection: { anchor: change.from + change.insert.length },
    userEvent: "input.mended",
    scrollIntoView: true,
  });
  view.focus();
  say(change.insert ? `Written: ${change.insert}.` : "Taken out.");
}

function writeOpen(view: EditorView): void {
  const open = note.value;
  if (open?.kind !== "finding") return;
  const found = findings().find((one) => one.start === open.at);
  if (found?.edit) written(view, found.edit);
}

function close(view: EditorView): void {
  note.value = null;
  view.focus();
}

function findings(): Finding[] {
  const all = [...loud.value, ...quiet.value];
  return all.sort((one, other) => one.start - other.start);
}

/** The next finding from the cursor, what has to be mended before what is to consider. */
function next(view: EditorView, step: number): void {
  const all = (loud.value.length ? loud.value : quiet.value).toSorted((a, b) => a.start - b.start);
  if (!all.length) {
    say("Nothing to mend.");
    return;
  }
  const at = note.value?.kind === "finding" ? note.value.at : view.state.selection.main.head - (step > 0 ? 1 : 0);
  const found =
    step > 0
      ? (all.find((one) => one.start > at) ?? all[0])
      : (all.findLast((one) => one.start < at) ?? all.at(-1));
  if (!found) return;
  view.dispatch({
    selection: { anchor: found.start },
    effects: EditorView.scrollIntoView(found.start, { y: "center" }),
  });
  note.value = { kind: "finding", at: found.start };
  view.focus();
  say(`${found.message} ${found.edit ? "Control Enter writes the change." : ""}`);
}

function placeNote(view: EditorView, open: typeof note.value): void {
  if (!open) {
    view.dispatch({ effects: setNote.of(null) });
    return;
  }
  if (open.kind === "word") {
    view.dispatch({ effects: setNote.of({ at: open.word.start, shown: open }) });
    return;
  }
  const all = findings();
  const number = all.findIndex((found) => found.start === open.at);
  const finding = all[number];
  if (!finding) return;
  view.dispatch({
    effects: setNote.of({
      at: finding.end,
      shown: { kind: "finding", finding, number: number + 1, of: all.length },
    }),
  });
}

/** From row to row; what a row uses and makes is said. */
function stepRow(view: EditorView, by: number): void {
  const rows = printedRows(seen.value?.rows ?? []);
  const at = view.state.selection.main.head;
  const found = by > 0 ? rows.find((row) => row.start > at) : rows.findLast((row) => row.end < at);
  const row = found ?? (by > 0 ? rows.at(-1) : rows[0]);
  if (!row) return;
  view.dispatch({
    selection: { anchor: row.start },
    effects: EditorView.scrollIntoView(row.start, { y: "center" }),
  });
  const count = countOf(row, size.value);
  say(`${row.rows[0]?.printed || "Foundation"}: ${count.small.replace("\u2192", "makes")} ${count.strong}`);
}

function keysOf(of: () => Writing) {
  const done = (act: (writing: Writing) => void) => () => {
    act(of());
    return true;
  };
  return [
    { key: "F8", run: done((w) => w.next(1)), shift: done((w) => w.next(-1)) },
    { key: "Mod-Enter", run: done((w) => w.write()) },
    { key: "F2", run: done((w) => w.explain()) },
    { key: "Alt-ArrowUp", run: done((w) => w.step(-1)) },
    { key: "Alt-ArrowDown", run: done((w) => w.step(1)) },
    {
      key: "Escape",
      run: () => {
        if (!note.value) return false;
        of().close();
        return true;
      },
    },
  ];
}

export { redo, undo };
