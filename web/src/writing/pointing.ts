// A word that the pointer rests on is explained; a finding that is pressed opens its note.
import { EditorView } from "@codemirror/view";
import { ask } from "../flow";
import { loud, note, quiet, say } from "../standing";
import type { Word } from "../told";

const REST_MS = 300;

let resting = 0;
let asked = 0;

export async function lookAtWord(view: EditorView, at: number): Promise<void> {
  const number = ++asked;
  const told = await ask<Word>("word", { at });
  if (number !== asked || told.refused) return;
  if (!told.found) {
    if (note.value?.kind === "word") note.value = null;
    return;
  }
  if (told.end > view.state.doc.length) return;
  note.value = { kind: "word", word: told };
  say([told.says, ...told.more].join(" "));
}

export const pointing = EditorView.domEventHandlers({
  mousemove(event, view) {
    clearTimeout(resting);
    if (event.buttons || note.value?.kind === "finding") return false;
    const at = view.posAtCoords({ x: event.clientX, y: event.clientY });
    if (at === null || isInNote(event.target)) return false;
    const open = note.value;
    if (open?.kind === "word" && at >= open.word.start && at <= open.word.end) return false;
    resting = window.setTimeout(() => void lookAtWord(view, at), REST_MS);
    return false;
  },
  mouseleave() {
    clearTimeout(resting);
    return false;
  },
  click(event, view) {
    clearTimeout(resting);
    const at = view.posAtCoords({ x: event.clientX, y: event.clientY });
    if (at === null || isInNote(event.target)) return false;
    const found = [...loud.value, ...quiet.value].find((one) => one.start <= at && at <= one.end);
    if (found && (event.target as Element).closest(".slip, .advice"))
      note.value = { kind: "finding", at: found.start };
    else if (note.value) note.value = null;
    return false;
  },
});

function isInNote(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest(".note-place") !== null;
}
