// The sizes: the multiple, what each becomes, and the numbers that change in the words.
import { useEffect, useState } from "preact/hooks";
import { note, write } from "../deciding";
import { ask } from "../flow";
import { proposed } from "../pages";
import { place, told, units } from "../standing";
import type { Change, Length, Pitch } from "../told";
import { Outlines } from "./outlines";
import { useAnswer, useWords } from "./asking";
import { Told, Waiting } from "./waiting";

interface Made {
  repeats: number | null;
  chain: number | null;
  stitches: number | null;
  rows: number | null;
  sets: number | null;
  width: Pitch | null;
  height: Pitch | null;
}

interface Wanted {
  name: string;
  width: Length | null;
  height: Length | null;
  nearest: Made | null;
  below: Made | null;
  above: Made | null;
  reason: string;
  said: string[];
}

interface Multiple {
  each: number;
  extra: number;
  says: string;
}

interface Part {
  part: string;
  chains: Multiple | null;
  stitches: Multiple | null;
  rows: Multiple | null;
  reason: string;
  in_rounds: boolean;
  around: boolean;
  now: Made[];
  wanted: Wanted[];
  said: string[];
  chain: string[];
}

interface Found {
  parts: Part[];
  sizes: string[];
  words: [number, number][];
  tables: number;
  findings: { message: string; why: string }[];
  cautions: string[];
}

interface Rewriting {
  changes: Change[];
  open: { message: string; why: string }[];
  notes: string[];
}

export function Sizes() {
  const [wished, setWished] = useState({ width: "", height: "" });
  const found = useAnswer<Found>("sizes", wished);
  const [rewriting, setRewriting] = useState<Rewriting | null>(null);
  useWords(found?.words);
  useEffect(() => {
    proposed.value = rewriting?.changes ?? null;
  }, [rewriting]);
  if (!found) return <Waiting words="The sizes are being worked out." />;
  if (found.refused) return <p class="quiet">{found.refused}</p>;
  const main = found.parts.find((part) => part.wanted.length) ?? found.parts[0];
  const choose = async (made: Made) => {
    const given = { repeats: made.repeats, set_repeats: made.sets, write: true };
    setRewriting(await ask<Rewriting>("sizes", given));
  };
  return (
    <>
      {main && <Now part={main} sizes={found.sizes} />}
      <Ask wished={wished} setWished={setWished} />
      <Told all={found.findings} />
      {found.cautions.map((sentence) => (
        <p class="caution">{sentence}</p>
      ))}
      {main && main.wanted.length > 0 && (
        <WantedTable part={main} choose={(made) => void choose(made)} tables={found.tables} />
      )}
      {rewriting && <WriteIt rewriting={rewriting} done={() => setRewriting(null)} />}
      {main && (
        <details>
          <summary>How it came about</summary>
          {[...main.said, ...main.wanted.flatMap((one) => one.said), ...main.chain].map((sentence) => (
            <p class="quiet">{sentence}</p>
          ))}
        </details>
      )}
    </>
  );
}

function Now({ part, sizes }: { part: Part; sizes: string[] }) {
  const shapes = part.now
    .filter((made) => made.width && made.height)
    .map((made, at) => ({
      name: sizes[at] ?? "",
      width: made.width as Length,
      height: made.height as Length,
    }));
  return (
    <div class="two">
      {shapes.length > 0 && <Outlines sizes={shapes} />}
      <div>
        <h2>{part.part || "The piece"}, as it is written</h2>
        <p>{multiples(part)}</p>
        {part.reason && <p class="quiet">{part.reason}</p>}
        {part.now.map((made, at) => (
          <p>
            {sizes[at] && <b>{sizes[at]}: </b>}
            {inWords(made)}
          </p>
        ))}
      </div>
    </div>
  );
}

function multiples(part: Part): string {
  const told = [
    part.chains && any(part.chains, "chains"),
    part.stitches && any(part.stitches, "stitches"),
    part.rows && any(part.rows, part.in_rounds ? "rounds" : "rows"),
  ].filter(Boolean);
  return told.length ? `Worked over ${told.join("; ")}.` : "";
}

function any(multiple: Multiple, what: string): string {
  return multiple.each === 1 ? `any number of ${what}` : `a multiple of ${multiple.says} ${what}`;
}

function inWords(made: Made): string {
  const sizes = [
    made.width && `${told(made.width)} wide`,
    made.height && `${told(made.height)} high`,
  ].filter(Boolean);
  const numbers = [
    made.chain != null && `ch ${made.chain}`,
    made.stitches != null && `${made.stitches} sts`,
    made.rows != null && `${made.rows} rows`,
  ].filter(Boolean);
  return `${sizes.join(", ")}${sizes.length ? ": " : ""}${numbers.join(", ")}.`;
}

function Ask(props: {
  wished: { width: string; height: string };
  setWished: (wished: { width: string; height: string }) => void;
}) {
  const asked = (event: SubmitEvent) => {
    event.preventDefault();
    const given = new FormData(event.currentTarget as HTMLFormElement);
    const [width, height] = ["width", "height"].map((name) => {
      const words = String(given.get(name) ?? "").trim();
      return /^[\d.,/ ]+$/.test(words) ? `${words} ${units.value}` : words;
    });
    props.setWished({ width: width ?? "", height: height ?? "" });
  };
  return (
    <form class="ask" onSubmit={(event) => asked(event as unknown as SubmitEvent)}>
      <h2>Another size</h2>
      <label>
        How wide, in {units.value} <input name="width" size={8} defaultValue={props.wished.width} />
      </label>
      <label>
        How high, in {units.value} <input name="height" size={8} defaultValue={props.wished.height} />
      </label>
      <button type="submit">Work it out</button>
    </form>
  );
}

function WantedTable(props: { part: Part; choose: (made: Made) => void; tables: number }) {
  const { part } = props;
  return (
    <table class="wanted">
      <caption class="hidden">What each size becomes</caption>
      <thead>
        <tr>
          <th scope="col">You want</th>
          <th scope="col">Nearest widths</th>
          <th scope="col">Length</th>
        </tr>
      </thead>
      <tbody>
        {part.wanted.map((one) => (
          <tr>
            <th scope="row">
              <b>{one.name}</b>
              <br />
              <span class="quiet">{[told(one.width), told(one.height)].filter(Boolean).join(" × ")}</span>
            </th>
            <td>
              {one.reason ? (
                one.reason
              ) : (
                <Ways one={one} choose={props.choose} number={props.tables} />
              )}
            </td>
            <td>
              {one.nearest?.rows != null && (
                <>
                  <b>{one.nearest.rows} rows</b>
                  <br />
                  <span class="quiet">{told(one.nearest.height)}</span>
                </>
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Ways({ one, choose, number }: { one: Wanted; choose: (made: Made) => void; number: number }) {
  const ways = [one.below, one.nearest, one.above].filter((made) => made !== null);
  const each = ways.filter((made, at) => ways.findIndex((other) => other.repeats === made.repeats) === at);
  const chosen = each.findIndex((made) => made.repeats === one.nearest?.repeats);
  const [picked, setPicked] = useState(chosen);
  const keep = async () => {
    const keys: [string, unknown][] = [
      ["name", one.name],
      ["width", one.width ? told(one.width) : ""],
      ["height", one.height ? told(one.height) : ""],
    ];
    await note(
      ...keys.filter(([, value]) => value).map(([key, value]) => ({ table: "size", key, value, number })),
    );
  };
  return (
    <>
      <div class="ways" role="radiogroup" aria-label={`Nearest widths for ${one.name}`}>
        {each.map((made, at) => (
          <label>
            <input
              type="radio"
              name={`way-${one.name}`}
              checked={at === picked}
              onChange={() => {
                setPicked(at);
                choose(made);
              }}
            />
            <span>
              <b>{made.repeats ?? made.stitches}</b> {made.repeats != null ? "repeats" : "stitches"}
              <br />
              <span class="quiet">
                {told(made.width)}
                {made.chain != null ? `, ch ${made.chain}` : ""}
              </span>
            </span>
          </label>
        ))}
      </div>
      <p class="buttons">
        <button type="button" onClick={() => each[picked] && choose(each[picked])}>
          Show it in the words
        </button>
        <button type="button" class="word-button" onClick={() => void keep()}>
          Keep this wish in the worksheet
        </button>
      </p>
    </>
  );
}

function WriteIt({ rewriting, done }: { rewriting: Rewriting; done: () => void }) {
  const number = rewriting.changes.length;
  const written = () => {
    write(rewriting.changes, `${number} numbers written.`);
    done();
    place.value = "pattern";
  };
  return (
    <section class="note note-word" aria-label="What will be written">
      <div>
        <Told all={rewriting.open} />
        {rewriting.open.length === 0 && (
          <>
            <p>
              <strong>
                {number === 0
                  ? "The words say so already."
                  : `${number} ${number === 1 ? "place changes" : "places change"}, and every row closes with them.`}
              </strong>
            </p>
            {rewriting.notes.map((sentence) => (
              <p class="why">{sentence}</p>
            ))}
            {number > 0 && (
              <div class="do">
                <button type="button" class="go" onClick={written}>
                  Write this size
                </button>
                <button type="button" onClick={done}>
                  Leave it as it is
                </button>
              </div>
            )}
          </>
        )}
      </div>
    </section>
  );
}
