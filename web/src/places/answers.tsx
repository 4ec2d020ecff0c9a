// The makers' questions: what one asks on the right with its working, the letter on the left.
import { signal } from "@preact/signals";
import { useEffect, useState } from "preact/hooks";
import { Files, type Kept } from "../files";
import { askInTurn } from "../flow";
import { say, seen } from "../standing";
import { useAnswer } from "./asking";
import { Waiting } from "./waiting";

interface Found {
  fields: { name: string; says: string; like: string }[];
  lies: string[];
  sizes: string[];
  files: Kept[];
}

interface Replied {
  letter?: string;
  short?: string;
  replies?: { question: string; answered: boolean; working: string[] }[];
}

const replied = signal<(Replied & { refused?: string }) | null>(null);

export function Answers() {
  const found = useAnswer<Found>("answers");
  const [asked, setAsked] = useState<Record<string, string> | null>(null);
  const [said, setSaid] = useState("");
  useEffect(() => {
    if (!asked) return;
    let isOver = false;
    setSaid("Working it out.");
    void askInTurn<Replied>("answers", { asked }, () => !isOver).then((told) => {
      if (!told) return;
      replied.value = told;
      setSaid(told.refused ?? (told.letter ? "The letter is on the page." : "Ask something first."));
    });
    return () => {
      isOver = true;
    };
  }, [asked, seen.value]);
  useEffect(() => () => void (replied.value = null), []);
  if (!found) return <Waiting words="Looking what can be asked." />;
  if (found.refused) return <p class="quiet">{found.refused}</p>;
  const submit = (event: SubmitEvent) => {
    event.preventDefault();
    const given = new FormData(event.currentTarget as HTMLFormElement);
    const words = [...given].map(([name, word]) => [name, String(word).trim()]);
    setAsked(Object.fromEntries(words.filter(([, word]) => word)));
  };
  return (
    <>
      <h2>What a maker asks</h2>
      <form class="asked" onSubmit={(event) => submit(event as unknown as SubmitEvent)}>
        {found.fields.map((field) => (
          <label>
            {field.says}
            <input name={field.name} aria-describedby={`like-${field.name}`} autocomplete="off" />
            <span class="quiet small" id={`like-${field.name}`}>
              as in {field.like}
            </span>
          </label>
        ))}
        <Choice name="lies" says="How it lies, where it should lie flat" all={found.lies} none="not asked" />
        {found.sizes.length > 1 && (
          <Choice name="size" says="Which size she makes" all={found.sizes} none={found.sizes[0] ?? ""} />
        )}
        <p class="buttons">
          <button type="submit" class="go">
            Answer her
          </button>
          <span role="status">{said}</span>
        </p>
      </form>
      <Working />
      <h2>A sheet of help, to go with the pattern</h2>
      <Files of="answers" all={found.files} />
    </>
  );
}

function Choice({ name, says, all, none }: { name: string; says: string; all: string[]; none: string }) {
  const others = all.filter((one) => one !== none);
  return (
    <label>
      {says}
      <select name={name}>
        <option value="">{none}</option>
        {others.map((one) => (
          <option value={one}>{one}</option>
        ))}
      </select>
    </label>
  );
}

function Working() {
  const told = replied.value?.replies?.filter((one) => one.working.length) ?? [];
  if (!told.length) return null;
  return (
    <>
      <h2>How the numbers come about</h2>
      {told.map((reply) => (
        <>
          <h3>{reply.question}</h3>
          {reply.working.map((sentence) => (
            <p class="quiet">{sentence}</p>
          ))}
        </>
      ))}
    </>
  );
}

/** The letter, on the page. */
export function Letter() {
  const now = replied.value;
  return (
    <section class="page decided letter" aria-label="The letter" tabIndex={0}>
      <div class="page-head">
        <h2>The letter</h2>
      </div>
      {!now?.letter && (
        <p class="quiet">Say what she asks, and the reply is written here, ready to paste.</p>
      )}
      {now?.letter && (
        <>
          <p class="buttons">
            <Copy says="Copy the letter" text={now.letter} />
            <Copy says="Copy it without the working" text={now.short ?? ""} />
          </p>
          {now.letter.split("\n").map((line) => (
            <p class="line">{line || "\u00a0"}</p>
          ))}
        </>
      )}
    </section>
  );
}

function Copy({ says, text }: { says: string; text: string }) {
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(text);
      say("Copied.");
    } catch {
      say("The browser does not let it be copied: mark the words and copy them.");
    }
  };
  return (
    <button type="button" onClick={() => void copy()}>
      {says}
    </button>
  );
}
