// The row at hand: the line that holds the cursor, lightly shaded.
import { RangeSet, RangeSetBuilder } from "@codemirror/state";
import {
  Decoration, type DecorationSet, type EditorView, gutterLineClass, GutterMarker, ViewPlugin,
  type ViewUpdate,
} from "@codemirror/view";

const AT = Decoration.line({ class: "at-hand" });

const words = ViewPlugin.fromClass(
  class {
    decorations: DecorationSet;

    constructor(view: EditorView) {
      this.decorations = at(view);
    }

    update(update: ViewUpdate): void {
      if (update.docChanged || update.selectionSet) this.decorations = at(update.view);
    }
  },
  { decorations: (plugin) => plugin.decorations },
);

function at(view: EditorView): DecorationSet {
  const found = new RangeSetBuilder<Decoration>();
  const line = view.state.doc.lineAt(view.state.selection.main.head);
  if (line.text.trim()) found.add(line.from, line.from, AT);
  return found.finish();
}

const BESIDE = new (class extends GutterMarker {
  override elementClass = "at-hand";
})();

const beside = gutterLineClass.compute(["selection", "doc"], (state) => {
  const line = state.doc.lineAt(state.selection.main.head);
  return line.text.trim() ? RangeSet.of([BESIDE.range(line.from)]) : RangeSet.empty;
});

export const rowAtHand = [words, beside];
