// The list of keys, for whoever would rather not reach for the pointer.
import { useEffect, useRef } from "preact/hooks";
import { showsKeys } from "./standing";

const KEYS: [string, string][] = [
  ["F8, Shift + F8", "to the next finding, to the one before"],
  ["Ctrl + Enter", "write the change that a note offers"],
  ["Esc", "close the note"],
  ["F2", "explain the word at the cursor"],
  ["Alt + ↑, Alt + ↓", "from row to row; the counts are said"],
  ["F4", "to the band; arrows along it, Enter opens"],
  ["F9", "from the page to the cloth or place, and back"],
  ["Ctrl + Z, Ctrl + Shift + Z", "undo, do again"],
  ["On a stripe: Space", "take hold, lay down; arrows move it and give it rows; Esc puts it back"],
  ["On the cloth: + and −", "closer, further; arrows move it, 0 shows the whole"],
  ["Ctrl + /", "this list"],
];

export function Keys() {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  const close = () => {
    showsKeys.value = false;
  };
  return (
    <dialog class="keys" ref={dialog} onClose={close} aria-labelledby="keys-title">
      <h2 id="keys-title">Keys</h2>
      <dl>
        {KEYS.map(([key, what]) => (
          <div>
            <dt>{key}</dt>
            <dd>{what}</dd>
          </div>
        ))}
      </dl>
      <button type="button" class="go" onClick={close}>
        Back to work
      </button>
    </dialog>
  );
}
