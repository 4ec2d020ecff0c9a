// The page of the desk: what stands on it depends on what was opened.
import { render } from "preact";
import "./desk.css";
import { Conflict } from "./conflict";
import { First } from "./first";
import { Head, Refused, Silent } from "./head";
import { Desk } from "./desk";
import { open } from "./flow";
import { conflict, page, saving, spoken } from "./standing";

function Page() {
  return (
    <>
      {page.value === "waiting" && saving.value === "gone" && <Silent />}
      {page.value === "refused" && <Refused />}
      {page.value === "first" && (
        <div class="desk">
          <Head />
          <First />
        </div>
      )}
      {page.value === "desk" && (
        <div class="desk">
          <Head />
          {conflict.value && <Conflict found={conflict.value} />}
          <div class="at-work" hidden={conflict.value !== null}>
            <Desk />
          </div>
        </div>
      )}
      <p class="spoken" role="status" aria-live="polite">
        {spoken.value}
      </p>
    </>
  );
}

const place = document.getElementById("desk");
if (place) render(<Page />, place);
void open();
