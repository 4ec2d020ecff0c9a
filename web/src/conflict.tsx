// The file holds another text than hers: both are shown, nothing is lost.
import { clock } from "./head";
import { settle } from "./flow";
import type { Conflict as Found } from "./standing";

export function Conflict({ found }: { found: Found }) {
  const [mine, theirs] = [found.mine.split("\n"), found.theirs.split("\n")];
  const what = found.file === "pattern" ? "pattern" : "worksheet";
  return (
    <main class="conflict">
      <h2>
        The {what} was changed outside the desk at {clock(found.when)}
      </h2>
      <p>
        Both texts are below; nothing is lost. Whichever you go on with, the other is kept among
        the earlier versions.
      </p>
      <div class="both">
        <Text title="Yours, on this page" lines={mine} others={new Set(theirs)}>
          <button type="button" class="go" onClick={() => settle(found.mine)}>
            Go on with yours
          </button>
        </Text>
        <Text title="The file, as it is now" lines={theirs} others={new Set(mine)}>
          <button type="button" class="go" onClick={() => settle(found.theirs)}>
            Go on with the file
          </button>
        </Text>
      </div>
    </main>
  );
}

function Text(props: {
  title: string;
  lines: string[];
  others: Set<string>;
  children: preact.ComponentChildren;
}) {
  return (
    <section aria-label={props.title}>
      <h3>{props.title}</h3>
      {props.children}
      <div class="text" tabIndex={0} role="region" aria-label={`${props.title}: the text`}>
        {props.lines.map((line) => (
          <p class={props.others.has(line) ? "" : "other"}>
            {props.others.has(line) ? line : <ins>{line || "\u00a0"}</ins>}
          </p>
        ))}
      </div>
    </section>
  );
}
