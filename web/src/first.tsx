// The first run: her draft is laid on the page, or a cloth is taken from the shelf.
import { useEffect, useRef, useState } from "preact/hooks";
import { ask, begin, type Begun, beginWithDraft } from "./flow";
import { Hanging } from "./shelf";

interface Fabric {
  name: string;
  title: string;
  looks: string;
  level: string;
  chains: string;
  each: number;
  extra: number;
  rows: number;
}

interface Shelf {
  families: { name: string; fabrics: Fabric[] }[];
}

const KINDS = ".docx,.pdf,.html,.htm,.txt,.md";
const LARGEST = 20 * 1024 * 1024;

export function First() {
  const [said, setSaid] = useState("");
  const [isOver, setOver] = useState(false);
  const take = async (file: File | undefined | null) => {
    if (!file) return;
    if (file.size > LARGEST) {
      setSaid(`${file.name} is larger than 20 MB. Save a copy without its pictures.`);
      return;
    }
    setSaid(`Reading ${file.name}.`);
    setSaid(await beginWithDraft(file));
  };
  usePasted((text) => void take(new File([text], "pasted.txt")));
  return (
    <main class="first">
      <section
        class={isOver ? "lay over" : "lay"}
        aria-labelledby="lay-title"
        onDragOver={(event) => {
          event.preventDefault();
          setOver(true);
        }}
        onDragLeave={() => setOver(false)}
        onDrop={(event) => {
          event.preventDefault();
          setOver(false);
          void take(event.dataTransfer?.files[0]);
        }}
      >
        <h2 id="lay-title">Lay your draft here</h2>
        <p>
          Drop a file on this page: .docx, .pdf, .html, .txt or .md. Or paste the text. It is read
          on this computer and goes nowhere else.
        </p>
        <Choose take={take} />
        <p role="status">{said}</p>
      </section>
      <ShelfOf say={setSaid} />
    </main>
  );
}

function Choose({ take }: { take: (file: File | undefined) => Promise<void> }) {
  const input = useRef<HTMLInputElement>(null);
  const empty = () =>
    begin({ text: "# A new design\n\nWritten in US terms.\n\n", worksheet: "", told: [] });
  return (
    <p class="buttons">
      <input
        ref={input}
        class="hidden"
        type="file"
        accept={KINDS}
        aria-label="A draft"
        tabIndex={-1}
        onChange={() => void take(input.current?.files?.[0])}
      />
      <button type="button" class="go" onClick={() => input.current?.click()}>
        Choose a file
      </button>
      <button type="button" onClick={empty}>
        Begin with an empty page
      </button>
    </p>
  );
}

function ShelfOf({ say }: { say: (words: string) => void }) {
  const [shelf, setShelf] = useState<Shelf | null>(null);
  const [terms, setTerms] = useState<"US" | "UK">("US");
  useEffect(() => {
    void ask<Shelf>("shelf", { terms }).then(setShelf);
  }, [terms]);
  const takeDown = async (fabric: Fabric) => {
    say(`Taking ${fabric.title} from the shelf.`);
    const begun = await ask<Begun>("begin", { kind: fabric.name, terms });
    if (begun.refused) say(begun.refused);
    else begin(begun);
  };
  return (
    <section class="shelf" aria-labelledby="shelf-title">
      <div class="shelf-head">
        <h2 id="shelf-title">Or take one from the shelf</h2>
        <div role="group" aria-label="Terms" class="pair">
          {(["US", "UK"] as const).map((one) => (
            <button type="button" aria-pressed={one === terms} onClick={() => setTerms(one)}>
              {one} terms
            </button>
          ))}
        </div>
      </div>
      {!shelf && <p class="quiet">The shelf is being laid out.</p>}
      {shelf?.families.map((family) => (
        <section aria-label={family.name}>
          <h3>{family.name}</h3>
          <ul class="cloths">
            {family.fabrics.map((fabric) => (
              <li>
                <button type="button" onClick={() => void takeDown(fabric)}>
                  <Hanging name={fabric.name} terms={terms} />
                  <b>{fabric.title}</b>
                  <span>{overChains(fabric)}, {fabric.level.toLowerCase()}</span>
                  <span class="looks">{fabric.looks}</span>
                </button>
              </li>
            ))}
          </ul>
        </section>
      ))}
    </section>
  );
}

function overChains(fabric: Fabric): string {
  if (!fabric.chains) return "no repeat";
  return fabric.each === 1 ? "any number" : `${fabric.chains} ch`;
}

function usePasted(take: (text: string) => void): void {
  useEffect(() => {
    const pasted = (event: ClipboardEvent) => {
      const text = event.clipboardData?.getData("text/plain") ?? "";
      if (text.trim()) take(text);
    };
    addEventListener("paste", pasted);
    return () => removeEventListener("paste", pasted);
  }, []);
}
