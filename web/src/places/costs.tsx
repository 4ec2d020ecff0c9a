// The costs: hours, money, price and fees, and the copies that bring them back.
import { signal } from "@preact/signals";
import { useEffect, useState } from "preact/hooks";
import { note } from "../deciding";
import { useAnswer } from "./asking";
import { Waiting } from "./waiting";

interface Table {
  name: string;
  head: string;
  several: boolean;
  number: number;
  rows: [string, string][];
  keys: { name: string; says: string; is_number: boolean }[];
  now?: Record<string, string>;
}

interface Found {
  facts: [string, string][];
  how: string[];
  tables: Table[];
}

const how = signal<string[]>([]);

/** How the numbers come about, on the page. */
export function Sums() {
  return (
    <section class="page decided" aria-label="How it comes about" tabIndex={0}>
      <div class="page-head">
        <h2>How it comes about</h2>
      </div>
      {how.value.map((sentence) => (
        <p>{sentence}</p>
      ))}
    </section>
  );
}

export function Costs() {
  const found = useAnswer<Found>("costs");
  useEffect(() => {
    how.value = found?.how ?? [];
  }, [found]);
  if (!found) return <Waiting words="Adding up." />;
  if (found.refused) return <p class="quiet">{found.refused}</p>;
  return (
    <>
      <h2>What it comes to</h2>
      <dl class="facts">
        {found.facts.map(([name, value]) => (
          <div>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      {found.tables.map((table) => (
        <TableOf table={table} />
      ))}
    </>
  );
}

function TableOf({ table }: { table: Table }) {
  const [said, setSaid] = useState("");
  const noted = async (event: SubmitEvent) => {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const given = new FormData(form);
    const told = table.keys
      .map((key) => ({ key, word: String(given.get(key.name) ?? "").trim() }))
      .filter(({ key, word }) => word && word !== (table.now?.[key.name] ?? ""))
      .map(({ key, word }) => ({
        table: table.name,
        key: key.name,
        value: key.is_number ? Number(word.replace(",", ".")) : word,
        number: table.number,
      }));
    if (told.some((one) => Number.isNaN(one.value))) {
      setSaid("A number is wanted there.");
      return;
    }
    const refused = told.length ? await note(...told) : "";
    setSaid(refused || (told.length ? "Noted." : "Nothing is new in it."));
    if (!refused && table.several) form.reset();
  };
  return (
    <section>
      <h2>{table.head}</h2>
      {table.rows.length > 0 && (
        <dl class="facts">
          {table.rows.map(([what, value]) => (
            <div>
              <dt>{what || "\u2013"}</dt>
              <dd>{value}</dd>
            </div>
          ))}
        </dl>
      )}
      <form class="ask" onSubmit={(event) => void noted(event as unknown as SubmitEvent)}>
        {table.keys.map((key) => (
          <label>
            {key.says}{" "}
            <input
              name={key.name}
              size={key.is_number ? 6 : 14}
              inputMode={key.is_number ? "decimal" : "text"}
              required={table.several}
              defaultValue={table.now?.[key.name] ?? ""}
            />
          </label>
        ))}
        <button type="submit">Note it</button>
        <span role="status">{said}</span>
      </form>
    </section>
  );
}
