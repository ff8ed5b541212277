/** Text of a file, or the place of the first byte that is not UTF-8. */
export type Decoded =
  | { readonly ok: true; readonly text: string }
  | {
      readonly ok: false;
      readonly line: number;
      readonly column: number;
      readonly byte: number;
    };

/** Decodes UTF-8 strictly. A byte-order mark is dropped and CRLF and CR become LF, so that places and digests agree on every system. */
export const decodeText = (bytes: Uint8Array): Decoded => {
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    return {
      ok: true,
      text: text.includes('\r') ? text.replace(/\r\n?/g, '\n') : text,
    };
  } catch {
    return firstFault(bytes);
  }
};

/** The place of the first byte that no UTF-8 text can hold there. A binary search needs about 22 decodings of 5 MB. */
const firstFault = (bytes: Uint8Array): Decoded => {
  const decodes = (length: number, whole: boolean): boolean => {
    try {
      // `stream` accepts a character that is cut off at the end, so only true faults count.
      new TextDecoder('utf-8', { fatal: true }).decode(bytes.subarray(0, length), { stream: !whole });
      return true;
    } catch {
      return false;
    }
  };
  let sound = 0;
  let faulty = bytes.length;
  if (decodes(faulty, false)) sound = faulty;
  while (faulty - sound > 1) {
    const middle = (sound + faulty) >> 1;
    if (decodes(middle, false)) sound = middle;
    else faulty = middle;
  }
  // The sound part may end within a character (of at most four bytes) that the fault cuts off: it starts the fault.
  while (sound > 0 && !decodes(sound, true)) sound -= 1;
  const before = new TextDecoder('utf-8').decode(bytes.subarray(0, sound)).replace(/\r\n?/g, '\n');
  const lineStart = before.lastIndexOf('\n') + 1;
  return {
    ok: false,
    line: before.split('\n').length,
    column: before.length - lineStart + 1,
    byte: bytes[sound] ?? 0,
  };
};
