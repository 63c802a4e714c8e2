// A lesson in a link: its spec and seed stand after #, which no server is ever told.

const MARK = "#lesson=";
const LONGEST = 100_000; // signs of a link's part after #
const LARGEST = 1_000_000; // bytes of what it unpacks to
const GREATEST_SEED = 999_999_999;
const MOST_VERSIONS = 100;

/** What stands in a link is no lesson. `why` is a name in the catalogue of texts. */
export class NoLesson extends Error {
  constructor(why) {
    super(why);
    this.why = why;
  }
}

/** The part of an address after # that holds this lesson. */
export async function linked({ text, name, seed, versions, large, tint, key_words }) {
  const plain = JSON.stringify({ text, name, seed, versions, large, tint, key_words });
  const packed = new Blob([plain]).stream().pipeThrough(new CompressionStream("deflate-raw"));
  const bytes = new Uint8Array(await new Response(packed).arrayBuffer());
  let signs = "";
  for (const byte of bytes) signs += String.fromCharCode(byte);
  const coded = btoa(signs).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
  return MARK + coded;
}

/**
 * The lesson in the part of an address after #: {text, name, seed, versions, large, tint,
 * key_words}; null where there is none. It may have been written by anyone. Rejects with NoLesson.
 */
export async function fromLink(hash) {
  if (!hash.startsWith(MARK)) return null;
  if (hash.length > LONGEST) throw new NoLesson("too_long");
  const coded = hash.slice(MARK.length);
  if (!/^[\w-]+$/.test(coded)) throw new NoLesson("damaged");
  let plain = null;
  try {
    const signs = atob(coded.replaceAll("-", "+").replaceAll("_", "/"));
    const bytes = Uint8Array.from(signs, (sign) => sign.charCodeAt(0));
    plain = JSON.parse(await unpacked(bytes));
  } catch (error) {
    throw error instanceof NoLesson ? error : new NoLesson("damaged");
  }
  return checked(plain);
}

/** The text that was packed; no more of it is unpacked than a lesson may be long. */
async function unpacked(bytes) {
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate-raw"));
  const reader = stream.getReader();
  const parts = [];
  let length = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    length += value.length;
    if (length > LARGEST) {
      reader.cancel().catch(() => {});
      throw new NoLesson("too_long");
    }
    parts.push(value);
  }
  return new TextDecoder("utf-8", { fatal: true }).decode(
    new Uint8Array(await new Blob(parts).arrayBuffer()),
  );
}

function checked(plain) {
  const { text, name, seed, versions, large, tint, key_words } = plain ?? {};
  const whole = (value, least, most) =>
    Number.isInteger(value) && value >= least && value <= most;
  const good =
    typeof text === "string" &&
    text !== "" &&
    typeof name === "string" &&
    whole(seed, 0, GREATEST_SEED) &&
    whole(versions ?? 1, 1, MOST_VERSIONS) &&
    whole(large ?? 0, 0, 100) &&
    typeof (tint ?? "") === "string" &&
    typeof (key_words ?? "") === "string";
  if (!good) throw new NoLesson("damaged");
  return {
    text,
    name: /^[\w -]{1,80}\.yaml$/.test(name) ? name : "lesson.yaml",
    seed,
    versions: versions ?? 1,
    large: large ?? 0,
    tint: /^[a-z]{0,20}$/.test(tint ?? "") ? (tint ?? "") : "",
    key_words: /^[A-Za-z]{0,20}$/.test(key_words ?? "") ? (key_words ?? "") : "",
  };
}
