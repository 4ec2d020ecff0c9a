// Beside every row what it uses and makes, and the column of its stripe.
import { type Extension, type Range, RangeSet, StateField, type Text } from "@codemirror/state";
import {
  type BlockInfo, Decoration, EditorView, gutter, GutterMarker, WidgetType,
} from "@codemirror/view";
import { inkOn } from "../colour";
import { type Printed, printedRows } from "../standing";
import { yarnOf } from "../yarn";
import type { Row, Seen } from "../told";
import { setSeen } from "./marks";
import { setSize } from "./size";

const RING =
  '<svg viewBox="0 0 120 40" preserveAspectRatio="none" aria-hidden="true"><path d="M12 25C8 9 45 4 78 5c26 1 39 8 36 18-3 11-35 14-65 13C20 35 5 29 9 18 13 11 25 7 42 6"/></svg>';

/** What is written beside a row: small words, the number that counts, whether it is ringed. */
interface Said {
  small: string;
  strong: string;
  second?: string;
}

export function countOf(printed: Printed, size: number): Said {
  const wrong = printed.rows.find((row) => !row.agrees);
  if (wrong) return wrongCount(wrong, size);
  const first = printed.rows[0];
  const last = printed.rows.at(-1);
  const makes = last?.makes[size] ?? last?.makes[0];
  const uses = first?.uses[size] ?? first?.uses[0];
  if (makes == null) return { small: "", strong: "" };
  if (first?.foundation) return { small: "", strong: `${makes}`, second: "" };
  return { small: `${uses ?? ""} \u2192 `, strong: `${makes}` };
}

function wrongCount(row: Row, size: number): Said {
  const at = (list: (number | null)[]) => list[size] ?? list[0] ?? null;
  const [uses, below, makes, stated] = [row.uses, row.below, row.makes, row.stated].map(at);
  if (uses != null && below != null && uses > below)
    return { small: `has ${below}`, strong: `needs ${uses}`, second: "ring" };
  if (uses != null && below != null && uses < below)
    return { small: `has ${below}`, strong: `uses ${uses}`, second: "ring" };
  if (stated != null && makes != null && stated !== makes)
    return { small: `says ${stated}`, strong: `makes ${makes}`, second: "ring" };
  return { small: "", strong: makes == null ? "open" : `makes ${makes}`, second: "ring" };
}

class Count extends GutterMarker {
  constructor(readonly said: Said) {
    super();
  }

  override eq(other: Count): boolean {
    return JSON.stringify(other.said) === JSON.stringify(this.said);
  }

  override toDOM(): Node {
    return countElement(this.said);
  }
}

export function countElement(said: Said): HTMLElement {
  const whole = document.createElement("span");
  whole.className = "count";
  const small = document.createElement("span");
  small.textContent = said.small;
  const strong = document.createElement("b");
  strong.textContent = said.strong;
  if (said.second === "ring") {
    const ring = document.createElement("span");
    ring.className = "ring";
    ring.innerHTML = RING;
    ring.prepend(strong);
    whole.append(small, document.createElement("br"), ring);
  } else {
    whole.append(small, strong);
    if (said.second === "") whole.append(" ch");
  }
  return whole;
}

/** A piece of the column of stripes, in the colour of its yarn. */
class Stripe extends GutterMarker {
  constructor(
    readonly hex: string,
    readonly letter: string,
    readonly end: string,
  ) {
    super();
    this.elementClass = `stripe ${end}`;
  }

  override eq(other: Stripe): boolean {
    return (
      other.hex === this.hex && other.letter === this.letter && other.end === this.end
    );
  }

  override toDOM(): Node {
    const piece = document.createElement("span");
    piece.textContent = this.letter;
    if (this.hex) {
      piece.style.background = this.hex;
      if (!this.hex.includes("(")) piece.style.color = inkOn(this.hex);
    }
    return piece;
  }
}

interface Margins {
  seen: Seen | null;
  size: number;
  counts: RangeSet<Count>;
  stripes: RangeSet<Stripe>;
}

const NONE: Margins = {
  seen: null,
  size: 0,
  counts: RangeSet.empty,
  stripes: RangeSet.empty,
};

const margins = StateField.define<Margins>({
  create: () => NONE,
  update(found, transaction) {
    let { seen, size } = found;
    let isNew = false;
    for (const effect of transaction.effects) {
      if (effect.is(setSeen)) [seen, isNew] = [effect.value, true];
      if (effect.is(setSize)) [size, isNew] = [effect.value, true];
    }
    if (isNew && seen) return laidOut(seen, size, transaction.newDoc);
    if (!transaction.docChanged) return found;
    return {
      ...found,
      counts: found.counts.map(transaction.changes),
      stripes: found.stripes.map(transaction.changes),
    };
  },
});

function laidOut(seen: Seen, size: number, text: Text): Margins {
  const printed = printedRows(seen.rows).filter((row) => row.end <= text.length);
  const counts = printed.map((row) =>
    new Count(countOf(row, size)).range(text.lineAt(row.end).from),
  );
  return {
    seen,
    size,
    counts: RangeSet.of(counts, true),
    stripes: RangeSet.of([...stripesOf(seen, printed, text)], true),
  };
}

/** The rows of one label in their colours, each as high as its share of them. */
function fillOf(seen: Seen, start: number): string {
  const runs = seen.stripes.filter(([place]) => place === start);
  if (runs.length < 2) return "";
  const total = runs.reduce((sum, [, , rows]) => sum + rows, 0);
  let before = 0;
  const stops = runs.map(([, name, rows]) => {
    const from = before;
    before += rows;
    const hex = yarnOf(seen, [name]).hex || "var(--bench)";
    return `${hex} ${((100 * from) / total).toFixed(2)}% ${((100 * before) / total).toFixed(2)}%`;
  });
  return `linear-gradient(${stops.join(", ")})`;
}

function* stripesOf(seen: Seen, printed: Printed[], text: Text) {
  let before = { hex: "?", letter: "", part: "?", line: 0 };
  for (const [at, row] of printed.entries()) {
    const part = row.rows[0]?.part ?? "";
    const own = yarnOf(seen, row.rows.flatMap((one) => one.colours));
    const fill = fillOf(seen, row.start);
    const yarn = fill ? { hex: fill, letter: "" } : own;
    const from = text.lineAt(row.start).number;
    const to = text.lineAt(row.end).number;
    const isSame = before.part === part && before.hex === yarn.hex;
    const next = printed[at + 1];
    const goesOn = next?.rows[0]?.part === part;
    for (let line = before.line + 1; before.part === part && line < from; line++)
      yield new Stripe(before.hex, "", "").range(text.line(line).from);
    for (let line = from; line <= to; line++) {
      const letter = line === from && !isSame ? yarn.letter : "";
      const ends = [
        line === from && before.part !== part ? "begins" : "",
        line === from && before.part === part && !isSame ? "changes" : "",
        line === to && !goesOn ? "ends" : "",
      ];
      yield new Stripe(yarn.hex, letter, ends.join(" ").trim()).range(text.line(line).from);
    }
    before = { ...yarn, part, line: to };
  }
}

/** A note under a row goes on in the colour of the row. */
function beside(view: EditorView, block: BlockInfo): GutterMarker | null {
  const { stripes } = view.state.field(margins);
  const line = view.state.doc.lineAt(block.from);
  let found: Stripe | null = null;
  stripes.between(line.from, line.from, (_, __, stripe) => {
    found = stripe;
  });
  const piece = found as Stripe | null;
  if (!piece || piece.end.includes("ends")) return null;
  return new Stripe(piece.hex, "", "");
}

const counts = (side: "before" | "after") =>
  gutter({
    class: "counts",
    side,
    markers: (view) => view.state.field(margins).counts,
    initialSpacer: () => new Count({ small: "888 \u2192 ", strong: "888" }),
  });

const column = (side: "before" | "after") =>
  gutter({
    class: "column",
    side,
    renderEmptyElements: true,
    markers: (view) => view.state.field(margins).stripes,
    widgetMarker: (view, _, block) => beside(view, block),
    lineMarkerChange: () => false,
  });

class CountLine extends WidgetType {
  constructor(readonly said: Said) {
    super();
  }

  override eq(other: CountLine): boolean {
    return JSON.stringify(other.said) === JSON.stringify(this.said);
  }

  override toDOM(): HTMLElement {
    const line = document.createElement("div");
    line.className = "count-line";
    line.append(countElement(this.said));
    return line;
  }
}

/** Where there is no room beside the words, the counts stand on lines of their own. */
const countLines = EditorView.decorations.compute([margins], (state) => {
  const found: Range<Decoration>[] = [];
  state.field(margins).counts.between(0, state.doc.length, (from, _, count) => {
    const widget = new CountLine(count.said);
    found.push(Decoration.widget({ widget, block: true, side: 0 }).range(state.doc.lineAt(from).to));
  });
  return Decoration.set(found, true);
});

/** On a wide page both stand to the right; on a narrow one the column leads on the left. */
export function margin(isNarrow: boolean): Extension {
  return isNarrow
    ? [margins, countLines, column("before")]
    : [margins, counts("after"), column("after")];
}
