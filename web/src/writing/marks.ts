// Marks at the words: labels, repeats, findings. They move with the words until the next
// answer comes.
import { RangeSetBuilder, StateEffect, StateField, type Text } from "@codemirror/state";
import { Decoration, type DecorationSet, EditorView } from "@codemirror/view";
import type { Finding, Seen } from "../told";

export const setSeen = StateEffect.define<Seen>();

const LABEL = Decoration.mark({ class: "label" });
const REPEAT = Decoration.mark({ class: "repeat" });
const SLIP = Decoration.mark({ class: "slip" });
const ADVICE = Decoration.mark({ class: "advice" });

export const marks = StateField.define<DecorationSet>({
  create: () => Decoration.none,
  update(found, transaction) {
    let now = found.map(transaction.changes);
    for (const effect of transaction.effects) {
      if (effect.is(setSeen)) now = markedBy(effect.value, transaction.newDoc);
    }
    return now;
  },
  provide: (field) => EditorView.decorations.from(field),
});

function markedBy(seen: Seen, text: Text): DecorationSet {
  const all = [
    ...seen.marks.labels.map(([from, to]) => LABEL.range(from, to)),
    ...seen.marks.repeats.map(([from, to]) => REPEAT.range(from, to)),
    ...seen.findings
      .filter((found) => found.text === "pattern")
      .map((found) => (found.loud ? SLIP : ADVICE).range(...wordsOf(found, text))),
  ].filter((range) => range.from < range.to && range.to <= text.length);
  return Decoration.set(all, true);
}

/** What a pencil would underline: at least a letter, and no more than a line. */
function wordsOf(found: Finding, text: Text): [number, number] {
  const start = Math.min(found.start, text.length);
  const line = text.lineAt(start);
  const end = Math.max(Math.min(found.end, line.to), Math.min(start + 1, line.to));
  return start === end && start > line.from ? [start - 1, end] : [start, end];
}

const HEADING = /^ {0,3}(#{1,6})[ \t]+(?=\S)/;
const BOLD = /^[ \t]*(?:[-+*] +)?(\*\*)[^*\s][^*\n]*?(\*\*)/;
const MARK = Decoration.mark({ class: "mark" });
const HIDDEN = Decoration.replace({});
const STRONG = Decoration.mark({ class: "label" });

/** Headings as headings and bold labels bold; their marks show where the cursor is. */
export function dressed(view: EditorView): DecorationSet {
  const found = new RangeSetBuilder<Decoration>();
  const { doc, selection } = view.state;
  const at = doc.lineAt(selection.main.head).number;
  const isIn = view.hasFocus;
  for (const { from, to } of view.visibleRanges) {
    for (let line = doc.lineAt(from); ; line = doc.line(line.number + 1)) {
      dress(found, line.text, line.from, isIn && line.number === at);
      if (line.to >= to || line.number === doc.lines) break;
    }
  }
  return found.finish();
}

function dress(
  found: RangeSetBuilder<Decoration>,
  text: string,
  at: number,
  isOpen: boolean,
): void {
  const shown = isOpen ? MARK : HIDDEN;
  const heading = HEADING.exec(text);
  if (heading) {
    const level = Math.min(heading[1]?.length ?? 1, 3);
    found.add(at, at, Decoration.line({ class: `heading heading-${level}` }));
    found.add(at, at + heading[0].length, shown);
    return;
  }
  if (!text.trim()) {
    found.add(at, at, Decoration.line({ class: "between" }));
    return;
  }
  const bold = BOLD.exec(text);
  if (!bold) return;
  const end = at + bold[0].length;
  const start = end - bold[0].trimStart().replace(/^[-+*] +/, "").length;
  found.add(start, start + 2, shown);
  found.add(start + 2, end - 2, STRONG);
  found.add(end - 2, end, shown);
}
