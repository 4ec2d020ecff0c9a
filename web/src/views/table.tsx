// The cloth as a table: all that the picture shows, in words, for whoever does not see it.
import { seen, size } from "../standing";
import type { Row } from "../told";
import type { Writing } from "../writing/editor";

export function Table({ writing }: { writing: Writing | null }) {
  const now = seen.value;
  if (!now) return <p class="quiet">Nothing is counted yet.</p>;
  const at = (list: (number | null)[]) => list[size.value] ?? list[0] ?? "";
  const parts = [...new Set(now.rows.map((row) => row.part))];
  const go = (row: Row) => {
    writing?.view.dispatch({ selection: { anchor: row.start }, scrollIntoView: true });
    writing?.view.focus();
  };
  return (
    <div class="table" tabIndex={0} role="region" aria-label="All rows">
      {parts.map((part) => (
        <table>
          <caption>{part || "The pattern"}</caption>
          <thead>
            <tr>
              <th scope="col">Row</th>
              <th scope="col" class="number">Uses</th>
              <th scope="col" class="number">Makes</th>
              <th scope="col">Yarn</th>
              <th scope="col">To mend</th>
            </tr>
          </thead>
          <tbody>
            {now.rows.filter((row) => row.part === part).map((row) => (
              <tr>
                <th scope="row">
                  <button type="button" class="word-button" onClick={() => go(row)}>
                    {row.printed || "Foundation"}
                    {row.times > 1 ? ` (${row.times} rows)` : ""}
                  </button>
                </th>
                <td class="number">{row.foundation ? "" : at(row.uses)}</td>
                <td class="number">{at(row.makes)}</td>
                <td>{row.colours.join(", ")}</td>
                <td class={row.agrees ? "" : "red"}>{row.agrees ? "" : "does not close"}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ))}
    </div>
  );
}
