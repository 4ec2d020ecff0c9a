// While an answer is worked out, and where there is none.
import { stopAsking } from "../flow";
import { progress } from "../standing";

export function Waiting({ words }: { words: string }) {
  return (
    <p class="quiet waiting" role="status">
      {words} {progress.value?.share ? `${Math.round(100 * progress.value.share)} %.` : ""}{" "}
      <button type="button" class="word-button" onClick={() => void stopAsking()}>
        Stop
      </button>
    </p>
  );
}

export function Told({ all }: { all: { message: string; why: string }[] }) {
  return (
    <>
      {all.map((one) => (
        <section class="note">
          <p>
            <strong>{one.message}</strong>
          </p>
          {one.why && <p class="why">{one.why}</p>}
        </section>
      ))}
    </>
  );
}
