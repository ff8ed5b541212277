import { sha256Hex } from '../graph/digest.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

/** Whether the bytes with the other kind of line ends have the digest. */
const differsInLineEnds = (bytes: Uint8Array | undefined, written: string): boolean => {
  if (!bytes) return false;
  const isLineFeed = (byte: number): boolean => byte === 0x0a;
  const withLineFeeds = bytes.filter((byte, at) => !(byte === 0x0d && bytes[at + 1] === 0x0a));
  const withBoth: number[] = [];
  for (const byte of withLineFeeds) withBoth.push(...(isLineFeed(byte) ? [0x0d, byte] : [byte]));
  return [withLineFeeds, Uint8Array.from(withBoth)].some((each) => sha256Hex(each) === written);
};

export const rawDataChanged = defineCheck({
  code: 'raw-data-changed',
  level: 'error',
  title: 'Raw data have changed since they were recorded',
  basis: 'ISO 13485:2016 4.2.5 (records remain legible, identifiable and retrievable)',
  explain:
    'The digest of the raw-data file is not the one that the record gives. Every byte of the file counts: a corrected reading, a deleted row, but also a spreadsheet program that has written the file anew with other decimals. The verdict that is shown rests on data that nobody has approved.\n\nBring back the file as it was; the version history has it. If a correction is right, keep the old file, record a deviation with what was corrected and why, and enter the new digest; approvals of the record then lapse, as they should.',
  examines: 'records with a raw-data file',
  subjects: ({ graph, evidence }) =>
    [...evidence.values()].flatMap((found) => {
      const { record: id, dataFile, dataDigest } = found;
      const carrier =
        graph.recordOf('verification-record', id) ??
        graph.recordOf('validation-record', id) ??
        graph.recordOf('analysis', id);
      const method = graph.recordOf('test-method', id);
      const record = carrier ?? method;
      const written = carrier?.fields.data?.sha256 ?? method?.fields.study?.sha256;
      if (!record || record.status === 'retired' || !dataFile || !dataDigest || written === undefined)
        return [];
      return [{ record, dataFile, dataDigest, written, field: carrier ? 'data' : 'study' }];
    }),
  judge: ({ record, dataFile, dataDigest, written, field }, { files }) =>
    dataDigest === written
      ? []
      : [
          {
            place: placeOf(record, field, 'sha256'),
            message: `${dataFile} has changed since ${record.id} was written: its digest is ${dataDigest.slice(0, 12)}…, recorded ${written.slice(0, 12)}…`,
            hint: differsInLineEnds(files.get(dataFile)?.bytes, written)
              ? 'Only the line ends differ, as git changes them on Windows. Write "*.csv -text" into .gitattributes and check the file out again.'
              : 'Bring back the file as it was, or record a deviation and enter the new digest.',
            records: [record.id],
            related: [{ place: { file: dataFile, line: 1, column: 1 }, message: 'the file as it is now' }],
            data: { found: dataDigest, recorded: written },
          },
        ],
});
