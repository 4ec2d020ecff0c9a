// The desk while she works: the band, the page with its words, the cloth or a place, the tray.
import { effect } from "@preact/signals";
import { useEffect, useRef, useState } from "preact/hooks";
import { Band } from "./band";
import { Cloth } from "./cloth/cloth";
import { redo as redoDecision, undo as undoDecision } from "./deciding";
import { Keys } from "./keys";
import { Pages } from "./pages";
import { placeCalled } from "./places/all";
import { aside, cursor, place, saving, seen, showsKeys, size } from "./standing";
import { Strands } from "./strands";
import { Tray } from "./tray";
import { readIn, Worded } from "./worded";
import { redo, undo, type Writing, writingIn } from "./writing/editor";

const NARROW = "(max-width: 43.75rem)";

export function Desk() {
  const [writing, setWriting] = useState<Writing | null>(null);
  const isPattern = place.value === "pattern";
  const found = placeCalled(place.value);
  useEffect(() => effect(() => void (document.title = `${seen.value?.title || "The desk"}`)), []);
  useKeys(writing);
  return (
    <>
      <Band />
      <main class={isPattern ? "work" : "work decide"}>
        <Words setWriting={setWriting} hidden={!isPattern} />
        {!isPattern && found?.Page && <found.Page />}
        {!isPattern && !found?.Page && <Pages />}
        {isPattern && writing && <Strands writing={writing} />}
        {isPattern ? <Cloth writing={writing} /> : found && <PlaceOf Place={found.Place} title={found.title} />}
      </main>
      <Tray next={() => writing?.next(1)} />
      {showsKeys.value && <Keys />}
      {readIn.value && <Worded terms={readIn.value} />}
    </>
  );
}

function PlaceOf({ Place, title }: { Place: () => preact.JSX.Element; title: string }) {
  return (
    <section class="place" aria-label={title} tabIndex={-1}>
      <Place />
    </section>
  );
}

/** The page with the words; it stays as it is while something is decided beside it. */
function Words(props: { setWriting: (writing: Writing) => void; hidden: boolean }) {
  const paper = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (!paper.current) return;
    const narrow = matchMedia(NARROW);
    const writing = writingIn(paper.current, narrow.matches);
    props.setWriting(writing);
    narrow.addEventListener("change", () => location.reload());
    return () => writing.view.destroy();
  }, []);
  return (
    <section class="page" aria-label="The page" hidden={props.hidden}>
      <PageHead />
      <div class="paper" ref={paper} />
    </section>
  );
}

function PageHead() {
  const now = seen.value;
  const part = now?.parts.findLast((one) => one.start <= cursor.value)?.name;
  return (
    <div class="page-head">
      <h2>{part || "The pattern"}</h2>
      {now && now.sizes.length > 1 && (
        <div class="sizes" role="group" aria-label="Counts of size">
          {now.sizes.map((name, at) => (
            <button type="button" aria-pressed={at === size.value} onClick={() => (size.value = at)}>
              {name}
            </button>
          ))}
        </div>
      )}
      <span class="quiet heads">uses → makes</span>
      {aside.value && (
        <p class="aside">
          {aside.value}{" "}
          <button type="button" class="word-button" onClick={() => (aside.value = "")}>
            Good
          </button>
        </p>
      )}
    </div>
  );
}

function useKeys(writing: Writing | null): void {
  useEffect(() => {
    if (!writing) return;
    const pressed = (event: KeyboardEvent) => {
      if (pressedOn(event, writing)) event.preventDefault();
    };
    addEventListener("keydown", pressed);
    return () => removeEventListener("keydown", pressed);
  }, [writing]);
}

/** Keys that hold everywhere on the desk. */
function pressedOn(event: KeyboardEvent, writing: Writing): boolean {
  const isIn = (event.target as Element | null)?.closest?.(".cm-editor") != null;
  const isField = event.target instanceof HTMLInputElement;
  const mod = event.ctrlKey || event.metaKey;
  if (event.key === "F4") return focus(".band [aria-current]");
  if (event.key === "F9")
    return isIn ? focus(".cloth, .place") : place.value === "pattern" ? focus(".cm-content") : focus(".place");
  if (event.key === "F8" && !isIn) {
    place.value = "pattern";
    writing.next(event.shiftKey ? -1 : 1);
    return true;
  }
  if (mod && event.key === "/") {
    showsKeys.value = !showsKeys.value;
    return true;
  }
  if (mod && event.key === "s") return saving.value !== "gone";
  if (mod && event.key.toLowerCase() === "z" && !isIn && !isField) {
    const isPattern = place.value === "pattern";
    if (event.shiftKey) return (!isPattern && redoDecision()) || redo(writing.view);
    return (!isPattern && undoDecision()) || undo(writing.view);
  }
  return false;
}

function focus(what: string): boolean {
  const found = document.querySelector<HTMLElement>(what);
  found?.focus();
  return found !== null;
}
