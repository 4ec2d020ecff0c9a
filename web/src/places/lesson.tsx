// The lesson: what has to be shown, scene by scene; and one that was filmed, held to the words.
import { useState } from "preact/hooks";
import { Files, type Kept, LayFile } from "../files";
import { ask } from "../flow";
import { type Block, SheetOf } from "../sheet";
import { useAnswer, useWords } from "./asking";
import { Told, Waiting } from "./waiting";

interface Scene {
  number: number;
  title: string;
  start: string;
  minutes: string;
  close: string;
  ready: string;
  show: string[];
  say: string[];
}

interface Found {
  first: Block[];
  length: string;
  scenes: Scene[];
  words: [number, number][];
  files: Kept[];
}

interface Heard {
  chapters: { time: string; row: string }[];
  slips: { message: string; why: string }[];
  not_shown: string[];
  left_out: string[];
  size: string;
}

export function Lesson() {
  const found = useAnswer<Found>("lesson");
  useWords(found?.words);
  if (!found) return <Waiting words="Looking for the smallest piece that shows every move." />;
  if (found.refused) return <p class="quiet">{found.refused}</p>;
  return (
    <>
      <h2>
        {found.scenes.length} scenes, {found.length} in all
      </h2>
      <ol class="film">
        {found.scenes.map((scene) => (
          <SceneOf scene={scene} />
        ))}
      </ol>
      <SheetOf blocks={found.first} />
      <h2>To keep</h2>
      <Files of="lesson" all={found.files} />
      <Filmed />
    </>
  );
}

function SceneOf({ scene }: { scene: Scene }) {
  return (
    <li>
      <span class="frame" aria-hidden="true">
        {scene.number}
      </span>
      <div>
        <h3>{scene.title}</h3>
        <p class="quiet small">
          {scene.start}, for {scene.minutes}. {scene.ready && `In hand: ${scene.ready}. `}
          Camera: {scene.close}.
        </p>
        <details>
          <summary>What to show, what to say</summary>
          <ul class="points">
            {scene.show.map((one) => (
              <li>{one}</li>
            ))}
          </ul>
          <p class="said">{scene.say.join(" ")}</p>
        </details>
      </div>
    </li>
  );
}

function Filmed() {
  const [heard, setHeard] = useState<Heard | null>(null);
  const take = async (name: string, text: string) => {
    setHeard(null);
    const told = await ask<Heard>("lesson", { words: text, key: name });
    if (told.refused) return told.refused;
    setHeard(told);
    const slips = told.slips.length;
    return slips === 0 ? "Nothing that is said contradicts the pattern." : `${slips} said otherwise than the pattern.`;
  };
  return (
    <>
      <h2>A lesson that is filmed</h2>
      <LayFile label="Choose its captions" kinds=".vtt,.srt,.txt" take={take}>
        <p>
          Lay its captions here, or a transcript with times. Each row is found in it, and what
          is said is held to the words.
        </p>
      </LayFile>
      {heard && (
        <>
          {heard.size && <p class="quiet">Held to the size {heard.size}.</p>}
          <Told all={heard.slips} />
          <Points title="Rows left out" all={heard.left_out} />
          <Points title="Never shown" all={heard.not_shown} />
          <h3>Chapters, to go under the film</h3>
          <ul class="chapters">
            {heard.chapters.map((one) => (
              <li>
                {one.time} {one.row}
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}

function Points({ title, all }: { title: string; all: string[] }) {
  if (all.length === 0) return null;
  return (
    <>
      <h3>{title}</h3>
      <ul class="points">
        {all.map((one) => (
          <li>{one}</li>
        ))}
      </ul>
    </>
  );
}
