// The cloth beside the words: the fabric, and other ways to look at it.
import { effect } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { view } from "../standing";
import type { Writing } from "../writing/editor";
import { VIEWS } from "../views/all";

export function Cloth({ writing }: { writing: Writing | null }) {
  useEffect(() => effect(() => void view.value), []);
  const now = VIEWS.find((one) => one.name === view.value) ?? VIEWS[0];
  return (
    <section class="cloth" aria-label="The cloth" tabIndex={-1}>
      <div class="views" role="group" aria-label="Ways to look at it">
        {VIEWS.map((one) => (
          <button type="button" aria-pressed={one === now} onClick={() => (view.value = one.name)}>
            {one.title}
          </button>
        ))}
      </div>
      {now && <now.View writing={writing} />}
    </section>
  );
}
