// What the page carries: gzip files, each as base64 text.

/** The bytes that base64 text stands for. */
export function bytesOf(text) {
  if (Uint8Array.fromBase64) return Uint8Array.fromBase64(text);
  const signs = atob(text);
  const bytes = new Uint8Array(signs.length);
  for (let at = 0; at < signs.length; at += 1) bytes[at] = signs.charCodeAt(at);
  return bytes;
}

/** What base64 text holds, unpacked while it is read. */
export function unpacked(text, type = "application/octet-stream") {
  const packed = new Blob([bytesOf(text)]).stream();
  return new Response(packed.pipeThrough(new DecompressionStream("gzip")), {
    headers: { "Content-Type": type },
  });
}
