// Files that she keeps, and files that she lays on the desk.
import { useRef, useState } from "preact/hooks";
import { ask } from "./flow";
import { units } from "./standing";

export interface Kept {
  keep: string;
  says: string;
}

interface Made {
  file?: { name: string; data: string };
}

/** A button for each file that a place can make; it is handed to the browser, which keeps it. */
export function Files({ of, all, wished = {} }: { of: string; all: Kept[]; wished?: object }) {
  const [said, setSaid] = useState("");
  const keep = async (one: Kept) => {
    setSaid("It is being made.");
    const made = await ask<Made>(of, { ...wished, keep: one.keep, units: units.value });
    if (made.file) hand(made.file.name, Uint8Array.from(atob(made.file.data), (c) => c.charCodeAt(0)));
    setSaid(made.refused ?? (made.file ? `${made.file.name} is made.` : ""));
  };
  return (
    <p class="buttons">
      {all.map((one) => (
        <button type="button" onClick={() => void keep(one)}>
          {one.says}
        </button>
      ))}
      <span role="status">{said}</span>
    </p>
  );
}

function hand(name: string, data: BlobPart): void {
  const url = URL.createObjectURL(new Blob([data], { type: "application/octet-stream" }));
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

const LARGEST = 2 * 1024 * 1024;

interface LayProps {
  label: string;
  kinds: string;
  take: (name: string, text: string) => Promise<string>;
  children?: preact.ComponentChildren;
}

/** A place to lay a file of words: dropped on it, or chosen. What `take` answers is said. */
export function LayFile({ label, kinds, take, children }: LayProps) {
  const input = useRef<HTMLInputElement>(null);
  const [isOver, setOver] = useState(false);
  const [said, setSaid] = useState("");
  const taken = async (file: File | undefined) => {
    if (!file) return;
    if (file.size > LARGEST) {
      setSaid(`${file.name} is larger than any such file.`);
      return;
    }
    setSaid(`Reading ${file.name}.`);
    setSaid(await take(file.name, await file.text()));
  };
  const over = (event: DragEvent, is: boolean) => {
    event.preventDefault();
    setOver(is);
  };
  return (
    <div
      class={isOver ? "lay-file over" : "lay-file"}
      onDragOver={(event) => over(event, true)}
      onDragLeave={(event) => over(event, false)}
      onDrop={(event) => {
        over(event, false);
        void taken(event.dataTransfer?.files[0]);
      }}
    >
      {children}
      <input
        ref={input}
        class="hidden"
        type="file"
        accept={kinds}
        aria-label={label}
        tabIndex={-1}
        onChange={() => {
          void taken(input.current?.files?.[0]);
          if (input.current) input.current.value = "";
        }}
      />
      <button type="button" onClick={() => input.current?.click()}>
        {label}
      </button>{" "}
      <span role="status">{said}</span>
    </div>
  );
}
