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

/** The longest prefix that decodes ends just before the fault. A binary search needs about 22 decodings of 5 MB. */
const firstFault = (bytes: Uint8Array): Decoded => {
  const decodes = (length: number): boolean => {
    try {
      // `stream` accepts a character that is cut off at the end, so only true faults count.
      new TextDecoder('utf-8', { fatal: true }).decode(bytes.subarray(0, length), { stream: true });
      return true;
    } catch {
      return false;
    }
  };
  let sound = 0;
  let faulty = bytes.length;
  if (decodes(faulty)) sound = faulty - 1;
  while (faulty - sound > 1) {
    const middle = (sound + faulty) >> 1;
    if (decodes(middle)) sound = middle;
    else faulty = middle;
  }
  const before = new TextDecoder('utf-8').decode(bytes.subarray(0, sound)).replace(/\r\n?/g, '\n');
  const lineStart = before.lastIndexOf('\n') + 1;
  return {
    ok: false,
    line: before.split('\n').length,
    column: before.length - lineStart + 1,
    byte: bytes[Math.min(sound, bytes.length - 1)] ?? 0,
  };
};
