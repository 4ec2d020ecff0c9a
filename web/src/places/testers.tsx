// The testers: what they report, what it comes to, and the sheet they report on.
import { Files, type Kept, LayFile } from "../files";
import { ask, look } from "../flow";
import { type Block, SheetOf } from "../sheet";
import { units } from "../standing";
import { useAnswer, useWords } from "./asking";
import { Told, Waiting } from "./waiting";

interface Found {
  files: Kept[];
  says?: string;
  each?: Block[];
  come_to?: Block[];
  findings?: { message: string; why: string }[];
  words?: [number, number][];
}

export function Testers() {
  const found = useAnswer<Found>("testers", { units: units.value });
  useWords(found?.words);
  if (!found) return <Waiting words="Looking for what they report." />;
  if (found.refused && !found.files) return <p class="quiet">{found.refused}</p>;
  const take = async (name: string, text: string) => {
    const told = await ask<Found>("testers", { words: text, write: true });
    void look();
    return told.refused ?? `${name} is in the folder, as trials.csv.`;
  };
  return (
    <>
      {found.refused && <p class="quiet">{found.refused}</p>}
      {found.each ? (
        <Reported found={found} />
      ) : (
        <>
          <h2>No testers yet</h2>
          <p class="quiet">
            Give them the sheet. What they send back goes into one file, a line for each, and it
            is read here: their units, their order, their gaps.
          </p>
        </>
      )}
      <h2>The sheet for testers</h2>
      <Files of="testers" all={found.files} />
      <LayFile label="Choose a file of reports" kinds=".csv,.txt" take={take}>
        <p>
          Lay the file of reports here. An earlier one stays beside it.
        </p>
      </LayFile>
    </>
  );
}

function Reported({ found }: { found: Found }) {
  return (
    <>
      <h2>{found.says}</h2>
      <Told all={found.findings ?? []} />
      <SheetOf blocks={found.each ?? []} />
      <SheetOf blocks={found.come_to ?? []} />
    </>
  );
}
