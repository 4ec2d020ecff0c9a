// The pattern in the other terms, to be read beside her own.
import { signal } from "@preact/signals";
import { useEffect, useRef, useState } from "preact/hooks";
import { askInTurn } from "./flow";
import { seen } from "./standing";

/** The terms it is read in besides its own; null while it is not. */
export const readIn = signal<"US" | "UK" | null>(null);

interface Told {
  text: string;
  changed: number;
  notes: string[];
  differs: string;
}

export function Worded({ terms }: { terms: "US" | "UK" }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const [found, setFound] = useState<(Told & { refused?: string }) | null>(null);
  useEffect(() => {
    dialog.current?.showModal();
    let isOver = false;
    void askInTurn<Told>("worded", { terms }, () => !isOver).then((told) => told && setFound(told));
    return () => {
      isOver = true;
    };
  }, [terms]);
  const close = () => {
    readIn.value = null;
  };
  return (
    <dialog class="worded" ref={dialog} onClose={close} aria-labelledby="worded-title">
      <h2 id="worded-title">
        {seen.value?.title}, in {terms} terms
      </h2>
      <p class="quiet">
        {found
          ? found.refused ||
            (found.differs
              ? `${found.differs} would be another fabric, so look there first.`
              : "Read back, it is the same fabric, row for row.")
          : "It is being put into the other terms and read back."}
      </p>
      {found?.notes?.map((sentence) => (
        <p class="quiet">{sentence}</p>
      ))}
      <div class="reading" tabIndex={0} role="region" aria-label="The text">
        {found?.text?.split("\n").map((line) => (
          <p>{line.trim()}</p>
        ))}
      </div>
      <button type="button" class="go" onClick={close}>
        Back to your own words
      </button>
    </dialog>
  );
}
