import { crc32, deflateSync } from 'node:zlib';

/** A grey PNG with a dark diagonal, by the PNG specification (ISO/IEC 15948): a stand-in for a drawn figure. */
export function plainPng(width: number, height: number): Uint8Array {
  const rows = Buffer.concat(
    [...Array(height).keys()].map((y) => {
      const row = Buffer.alloc(width + 1, 0xe4);
      row[0] = 0;
      row[1 + Math.floor((y * width) / height)] = 0x24;
      return row;
    }),
  );
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head[8] = 8;
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return new Uint8Array(
    Buffer.concat([
      signature,
      chunk('IHDR', head),
      chunk('IDAT', deflateSync(rows)),
      chunk('IEND', Buffer.alloc(0)),
    ]),
  );
}

/** A part of a PNG file with its length and check sum. */
export function chunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(data.length);
  const check = Buffer.alloc(4);
  check.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, check]);
}
