// The chart: one repeat with its edges, in the symbols of the trade.
import { useEffect, useState } from "preact/hooks";
import { askInTurn } from "../flow";
import { progress, seen, size } from "../standing";

interface Sheet {
  title: string;
  says: string;
  svg: string;
  notes: string[];
}

interface Told {
  sheets: Sheet[];
}

export function Chart() {
  const [found, setFound] = useState<(Told & { refused?: string }) | null>(null);
  const now = seen.value;
  const name = now?.sizes[size.value] ?? "";
  useEffect(() => {
    let isOver = false;
    const wished = { kind: "chart", repeats: 1, size: name };
    void askInTurn<Told>("drawing", wished, () => !isOver).then((answer) => {
      if (answer) setFound(answer);
    });
    return () => {
      isOver = true;
    };
  }, [now, name]);
  if (!found) {
    const share = Math.round(100 * (progress.value?.share ?? 0));
    return <p class="quiet empty">The chart is being drawn{share ? `, ${share} %` : ""}.</p>;
  }
  if (found.refused) return <p class="quiet empty">{found.refused}</p>;
  return (
    <div class="charts" tabIndex={0} role="region" aria-label="Charts">
      {found.sheets.map((sheet) => (
        <figure>
          <img alt={sheet.says} src={`data:image/svg+xml,${encodeURIComponent(sheet.svg)}`} />
          <figcaption>{[sheet.title, ...sheet.notes].join(". ")}</figcaption>
        </figure>
      ))}
    </div>
  );
}
