// Words that a stitch is made by, lit while the pointer is on the stitch.
import { StateEffect, StateField } from "@codemirror/state";
import { Decoration, type DecorationSet, EditorView } from "@codemirror/view";
import type { Writing } from "./editor";

const setLit = StateEffect.define<{ span: [number, number] | null; row: number }>();
const WORDS = Decoration.mark({ class: "lit" });
const ROW = Decoration.line({ class: "lit-row" });

export const litWords = StateField.define<DecorationSet>({
  create: () => Decoration.none,
  update(found, transaction) {
    let now = found.map(transaction.changes);
    for (const effect of transaction.effects) {
      if (!effect.is(setLit)) continue;
      const { span, row } = effect.value;
      const length = transaction.newDoc.length;
      const all = [];
      if (row >= 0 && row <= length) all.push(ROW.range(transaction.newDoc.lineAt(row).from));
      if (span && span[0] < span[1] && span[1] <= length) all.push(WORDS.range(...span));
      now = Decoration.set(all, true);
    }
    return now;
  },
  provide: (field) => EditorView.decorations.from(field),
});

export function light(writing: Writing | null, span: [number, number] | null, row: number): void {
  writing?.view.dispatch({ effects: setLit.of({ span, row }) });
}
