// The words that a place decides, as they will be printed: what goes is struck out, what comes
// is written in.
import { computed, signal } from "@preact/signals";
import { words } from "./standing";
import type { Change } from "./told";

/** What the place at hand would change; null where nothing is chosen yet. */
export const proposed = signal<Change[] | null>(null);
/** Which words the place decides, where nothing is to be changed; null until that is known. */
export const concerned = signal<[number, number][] | null>(null);

interface Piece {
  kind: "same" | "goes" | "comes";
  text: string;
}

const lines = computed<Piece[][]>(() => {
  const text = words.value;
  const changes = (proposed.value ?? []).filter((one) => one.to <= text.length);
  const spans = changes.length
    ? changes.map((one): [number, number] => [one.from, one.to])
    : (concerned.value ?? []);
  return linesAround(text, spans).map(([from, to]) => piecesOf(text, from, to, changes));
});

/** The whole lines that hold some spans, each once. */
function linesAround(text: string, spans: [number, number][]): [number, number][] {
  const found: [number, number][] = [];
  for (const [start, end] of spans.toSorted((one, other) => one[0] - other[0])) {
    const from = text.lastIndexOf("\n", start - 1) + 1;
    const at = text.indexOf("\n", end);
    const to = at < 0 ? text.length : at;
    const last = found.at(-1);
    if (text.slice(start, end).includes("\n")) {
      for (let one = from; one < to; one = text.indexOf("\n", one) < 0 ? to : text.indexOf("\n", one) + 1)
        found.push([one, Math.min(to, text.indexOf("\n", one) < 0 ? to : text.indexOf("\n", one))]);
      continue;
    }
    if (last && from <= last[1]) last[1] = Math.max(last[1], to);
    else found.push([from, to]);
  }
  return found;
}

function piecesOf(text: string, from: number, to: number, changes: Change[]): Piece[] {
  const pieces: Piece[] = [];
  let at = from;
  for (const change of changes.filter((one) => one.from >= from && one.to <= to)) {
    pieces.push({ kind: "same", text: text.slice(at, change.from) });
    if (change.to > change.from)
      pieces.push({ kind: "goes", text: text.slice(change.from, change.to) });
    if (change.insert) pieces.push({ kind: "comes", text: change.insert });
    at = change.to;
  }
  pieces.push({ kind: "same", text: text.slice(at, to) });
  return pieces;
}

const MARKS = /\*\*(?=\S)([^*\n]+)\*\*|^#{1,6}\s+/gm;

/** Words without the marks of headings and labels. */
function plain(text: string): string {
  return text.replace(MARKS, "$1");
}

export function Pages() {
  const found = lines.value;
  const number = proposed.value?.length ?? 0;
  return (
    <section class="page decided" aria-label="The words that are decided here" tabIndex={0}>
      <div class="page-head">
        <h2>{number ? "What will be written" : "What the pattern says"}</h2>
      </div>
      {number > 0 && (
        <p class="quiet small">
          {number === 1 ? "One place changes" : `${number} places change`}. Nothing is written
          until you say so.
        </p>
      )}
      {found.length === 0 && concerned.value && <p class="quiet">The pattern says nothing of this yet.</p>}
      {found.slice(0, 120).map((pieces) => (
        <p class="line">
          {pieces.map(({ kind, text }) =>
            kind === "goes" ? <del>{text}</del> : kind === "comes" ? <ins>{text}</ins> : plain(text),
          )}
        </p>
      ))}
    </section>
  );
}
