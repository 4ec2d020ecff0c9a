// What stands on a sheet, as the desk has worded it: headings, words, lists, tables, drawings.

export type Block =
  | { is: "Heading"; words: string; level: number }
  | { is: "Words" | "Caution"; words: string }
  | { is: "Points"; items: string[]; numbered: boolean }
  | { is: "Grid"; head: string[]; rows: string[][]; caption: string; numbers: number[] }
  | { is: "Picture"; svg: string; words: string };

export function SheetOf({ blocks }: { blocks: Block[] }) {
  return (
    <>
      {blocks.map((block, at) => (
        <BlockOf block={block} under={headingOf(blocks, at)} />
      ))}
    </>
  );
}

/** The heading that a block stands under. */
function headingOf(blocks: Block[], at: number): string {
  const found = blocks.slice(0, at).findLast((block) => block.is === "Heading");
  return found?.is === "Heading" ? found.words : "";
}

function BlockOf({ block, under }: { block: Block; under: string }) {
  switch (block.is) {
    case "Heading":
      return block.level === 1 ? <h2>{block.words}</h2> : <h3>{block.words}</h3>;
    case "Words":
      return <p>{block.words}</p>;
    case "Caution":
      return <p class="caution">{block.words}</p>;
    case "Points":
      return block.numbered ? (
        <ol class="points numbered">{items(block.items)}</ol>
      ) : (
        <ul class="points">{items(block.items)}</ul>
      );
    case "Grid":
      return <Grid {...block} under={under} />;
    case "Picture":
      return (
        <figure class="drawn">
          <img alt={block.words} src={`data:image/svg+xml,${encodeURIComponent(block.svg)}`} />
        </figure>
      );
  }
}

function items(all: string[]) {
  return all.map((one) => <li>{one}</li>);
}

interface GridProps {
  head: string[];
  rows: string[][];
  caption: string;
  numbers: number[];
  under: string;
}

function Grid(grid: GridProps) {
  const mark = (column: number) => (grid.numbers.includes(column) ? "number" : undefined);
  return (
    <div class="scrolls" tabIndex={0} role="region" aria-label={grid.caption || grid.under || grid.head.join(", ")}>
      <table class="grid">
        {grid.caption && <caption>{grid.caption}</caption>}
        <thead>
          <tr>
            {grid.head.map((cell, column) => (
              <th scope="col" class={mark(column)}>
                {cell}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {grid.rows.map((row) => (
            <tr>
              {row.map((cell, column) => (
                <td class={mark(column)}>{cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
