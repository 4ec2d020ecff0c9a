// Drawings of the pattern, and the chart: one repeat in the symbols of the trade.
import { useEffect, useState } from "preact/hooks";
import { askInTurn } from "../flow";
import { laidSoFar, seen, size } from "../standing";

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
  return <Drawn kind="chart" words="The chart is being drawn" label="Charts" />;
}

export function Drawn(props: {
  kind: string;
  words: string;
  label: string;
  children?: preact.ComponentChildren;
}) {
  const { kind, words, label } = props;
  const [found, setFound] = useState<(Told & { refused?: string }) | null>(null);
  const now = seen.value;
  const name = now?.sizes[size.value] ?? "";
  useEffect(() => {
    let isOver = false;
    const wished = { kind, repeats: 1, size: name };
    void askInTurn<Told>("drawing", wished, () => !isOver).then((answer) => {
      if (answer) setFound(answer);
    });
    return () => {
      isOver = true;
    };
  }, [now, name]);
  if (!found) {
    const share = Math.round(100 * (laidSoFar.value?.share ?? 0));
    return (
      <p class="quiet empty" role="status">
        {words}
        {share ? `, ${share} %` : ""}.
      </p>
    );
  }
  if (found.refused) return <p class="quiet none">{found.refused}</p>;
  return (
    <div class="charts" tabIndex={0} role="region" aria-label={label}>
      {found.sheets.map((sheet) => (
        <figure>
          <img alt={sheet.says} src={`data:image/svg+xml,${encodeURIComponent(sheet.svg)}`} />
          <figcaption>{[sheet.title, ...sheet.notes].join(". ")}</figcaption>
        </figure>
      ))}
      {props.children}
    </div>
  );
}
