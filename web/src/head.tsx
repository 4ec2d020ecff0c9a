// The head: the design's name, whether it is saved, and how she likes the page.
import { chosenUnits, SIZES, theme, type } from "./liking";
import { readIn } from "./worded";
import { folder, page, place, refusal, saved, saving, seen, showsKeys, units } from "./standing";

export function clock(when: Date): string {
  return when.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
}

export function Head() {
  const title = seen.value?.title || (page.value === "first" ? "The desk" : folder.value);
  return (
    <header class="head">
      <h1>{title}</h1>
      {page.value === "first" ? (
        <span class="quiet sub">nothing laid out yet</span>
      ) : (
        <Saved />
      )}
      <div class="likes" role="group" aria-label="How you like the page">
        {page.value === "desk" && seen.value?.terms && <Terms own={seen.value.terms} />}
        <button
          type="button"
          onClick={() => (chosenUnits.value = units.value === "in" ? "cm" : "in")}
        >
          <b>{units.value}</b>
          <span aria-hidden="true"> / {units.value === "in" ? "cm" : "in"}</span>
          <span class="hidden">: change the unit</span>
        </button>
        <button type="button" onClick={() => (type.value = (type.value + 1) % SIZES.length)}>
          {type.value === SIZES.length - 1 ? "Smaller type" : "Larger type"}
        </button>
        <button
          type="button"
          onClick={() => (theme.value = theme.value === "dark" ? "light" : "dark")}
        >
          {theme.value === "dark" ? "Light" : "Dark"}
        </button>
        <button type="button" onClick={() => (showsKeys.value = true)}>
          Keys
        </button>
      </div>
    </header>
  );
}

function Terms({ own }: { own: string }) {
  const other = own === "US" ? "UK" : "US";
  return (
    <button type="button" onClick={() => (readIn.value = other)}>
      <b>{own}</b>
      <span aria-hidden="true"> / {other}</span> terms
      <span class="hidden">: read it in {other} terms</span>
    </button>
  );
}

function Saved() {
  if (saving.value === "gone")
    return (
      <span class="saved red" role="alert">
        The desk has stopped. What you write stays in this page; start it again and it goes on.
      </span>
    );
  const when = saved.value;
  const words = saving.value === "writing" ? "Saving" : when ? `Saved ${clock(when)}` : "As saved";
  return (
    <button type="button" class="saved" onClick={() => (place.value = "earlier")}>
      {words}
      <span class="hidden">: earlier versions</span>
    </button>
  );
}

export function Refused() {
  return (
    <main class="refused">
      <h1>The desk is not open here</h1>
      <p>{refusal.value}</p>
    </main>
  );
}

/** Before anything could be opened. */
export function Silent() {
  return (
    <main class="refused">
      <h1>The desk does not answer</h1>
      <p>Start it again, and this page goes on by itself.</p>
    </main>
  );
}
