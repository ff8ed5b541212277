/** The bytes that a PNG picture starts with (W3C PNG, 2nd edition, 5.2). */
export const pngSignature: readonly number[] = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/** CRC-32 of ISO 3309, as annex D of the PNG specification (W3C PNG, 2nd edition) gives it, for each byte. */
const crcOfByte: readonly number[] = Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit += 1) rest = rest & 1 ? 0xedb88320 ^ (rest >>> 1) : rest >>> 1;
  return rest >>> 0;
});

/** The check sum that ends each chunk of a PNG picture. */
export const crc32 = (bytes: Uint8Array): number => {
  let rest = 0xffffffff;
  for (const byte of bytes) rest = (crcOfByte[(rest ^ byte) & 0xff] as number) ^ (rest >>> 8);
  return (rest ^ 0xffffffff) >>> 0;
};

/** Bytes one after the other. */
export const joined = (parts: readonly Uint8Array[]): Uint8Array => {
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
};
