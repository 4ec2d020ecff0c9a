// The band: every place of the desk with what is decided there. It is the way about.
import { useEffect, useRef } from "preact/hooks";
import { PLACES } from "./places/all";
import { place, seen } from "./standing";

export function Band() {
  const list = useRef<HTMLUListElement>(null);
  useEffect(() => {
    const current = list.current?.querySelector<HTMLElement>("[aria-current]");
    if (current && list.current)
      list.current.scrollLeft = Math.max(0, (current.parentElement?.offsetLeft ?? 0) - 80);
  }, [place.value]);
  const decided = seen.value?.decided ?? {};
  return (
    <nav aria-label="Places">
      <ul class="band" ref={list}>
        {PLACES.filter((one) => one.name in decided || one.name === "pattern").map((one) => {
          const words = decided[one.name] ?? "";
          const isHere = one.name === place.value;
          const isRed = one.name === "pattern" && words.endsWith("to mend");
          return (
            <li>
              <button
                type="button"
                class={isRed ? "red" : ""}
                aria-current={isHere ? "page" : undefined}
                onClick={() => (place.value = one.name)}
                onKeyDown={(event) => along(event)}
              >
                <span>{one.title}</span>
                <b>{words || "\u2013"}</b>
              </button>
            </li>
          );
        })}
      </ul>
    </nav>
  );
}

/** The arrows go along the band. */
function along(event: KeyboardEvent): void {
  const step = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
  if (!step) return;
  const item = (event.currentTarget as HTMLElement).parentElement;
  const next = step > 0 ? item?.nextElementSibling : item?.previousElementSibling;
  const button = next?.querySelector("button");
  if (!button) return;
  event.preventDefault();
  button.focus();
}
