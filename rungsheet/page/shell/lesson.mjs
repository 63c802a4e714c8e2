export function open(host, lesson) {
  host.append(document.getElementById("first-sheet"));
}

export function close() {}
