// The pages of a finished copy as pictures, drawn when they come into sight.
import { useEffect, useRef, useState } from "preact/hooks";
import { askInTurn } from "../flow";
import { fetched } from "../server";

export interface Copy {
  name: string;
  what: string;
  bytes: number;
  /** A digest of its contents. */
  made: string;
}

interface Leaf {
  pages?: number;
  wide?: number;
  high?: number;
  png?: string;
}

interface Picture {
  url: string;
  pages: number;
}

const PICTURES = /\.(jpe?g|png)$/;
const known = new Map<string, Picture>();

export function Leaves({ copy }: { copy: Copy }) {
  const [pages, setPages] = useState(1);
  if (PICTURES.test(copy.name)) return <Photo copy={copy} />;
  if (!copy.name.endsWith(".pdf")) return null;
  return (
    <div class="leaves" tabIndex={0} role="region" aria-label={`Pages of ${copy.name}`}>
      {Array.from({ length: pages }, (_, at) => (
        <LeafOf copy={copy} at={at} told={setPages} />
      ))}
    </div>
  );
}

function LeafOf({ copy, at, told }: { copy: Copy; at: number; told: (pages: number) => void }) {
  const place = useRef<HTMLSpanElement>(null);
  const key = `${copy.made} ${at}`;
  const [picture, setPicture] = useState(known.get(key));
  useEffect(() => {
    if (picture) told(picture.pages);
    if (picture || !place.current) return;
    let isOver = false;
    const stop = whenSeen(place.current, () => {
      const wished = { key: copy.name, number: at };
      void askInTurn<Leaf>("leaf", wished, () => !isOver).then((leaf) => {
        if (!leaf?.png) return;
        const found = { url: `data:image/png;base64,${leaf.png}`, pages: leaf.pages ?? 1 };
        known.set(key, found);
        setPicture(found);
        told(found.pages);
      });
    });
    return () => {
      isOver = true;
      stop();
    };
  }, []);
  return (
    <span class="leaf" ref={place}>
      {picture ? (
        <img src={picture.url} alt={`Page ${at + 1} of ${picture.pages}`} />
      ) : (
        <span class="quiet small">{at + 1}</span>
      )}
    </span>
  );
}

/** A picture among the copies is its own picture. */
function Photo({ copy }: { copy: Copy }) {
  const place = useRef<HTMLSpanElement>(null);
  const [url, setUrl] = useState(known.get(copy.made)?.url ?? "");
  useEffect(() => {
    if (url || !place.current) return;
    return whenSeen(place.current, () => {
      void fetched(`/copy/${encodeURIComponent(copy.name)}`).then((data) => {
        if (!data) return;
        const type = copy.name.endsWith(".png") ? "image/png" : "image/jpeg";
        const found = URL.createObjectURL(new Blob([data], { type }));
        known.set(copy.made, { url: found, pages: 1 });
        setUrl(found);
      });
    });
  }, []);
  return (
    <span class="photo" ref={place}>
      {url && <img src={url} alt={copy.what} />}
    </span>
  );
}

function whenSeen(place: Element, call: () => void): () => void {
  const seen = new IntersectionObserver(([entry]) => {
    if (!entry?.isIntersecting) return;
    seen.disconnect();
    call();
  });
  seen.observe(place);
  return () => seen.disconnect();
}
