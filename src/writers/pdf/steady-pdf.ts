/** What differs between two runs of LibreOffice: the time (PDF 1.7, 14.3.3), and file identifiers made from it (14.4). */
const timePattern = /\/(CreationDate|ModDate)\(D:(\d{14})/g;
const identifierPattern = /(?<=\/ID ?\[ ?<)[0-9A-F]{32}|(?<=\/ID ?\[ ?<[0-9A-F]{32}>\s?<)[0-9A-F]{32}/g;
const checksumPattern = /(?<=\/DocChecksum \/)[0-9A-F]{32}/g;

/**
 * Entries of the role map that give a standard structure type another meaning (PDF 1.7, 14.8.4; ISO 14289-1, 7.1 forbids
 * it): a style named "Quote" becomes the tag /Quote, which LibreOffice maps to a paragraph.
 */
const remappedPattern =
  /(?<=\n)\/(?:Quote|Note|Code|Figure|Caption|Form|Formula|Index|Reference|Art|Sect|Div|BlockQuote)\/P(?=\n)/g;

/**
 * A PDF with the time of its document and identifiers of its content, so that the same document gives the same bytes,
 * and with tags that mean what the standard says.
 * Every replacement has the length of what it replaces, so that the table of offsets still holds.
 *
 * @param date ISO date; the time is midnight
 * @param digestOf SHA-256 in hexadecimal digits
 */
export const steadyPdf = (
  bytes: Uint8Array,
  date: string,
  digestOf: (bytes: Uint8Array) => string,
): Uint8Array => {
  const time = `${date.replaceAll('-', '')}000000`;
  // Latin-1 keeps each byte as one character.
  const text = Buffer.from(bytes).toString('latin1');
  const timed = /^\d{14}$/.test(time)
    ? text.replace(timePattern, (_, name: string) => `/${name}(D:${time}`)
    : text;
  const mapped = timed.replace(remappedPattern, (entry) => ' '.repeat(entry.length));
  const blank = '0'.repeat(32);
  const bare = mapped.replace(identifierPattern, blank).replace(checksumPattern, blank);
  const identifier = digestOf(new Uint8Array(Buffer.from(bare, 'latin1')))
    .slice(0, 32)
    .toUpperCase();
  return new Uint8Array(
    Buffer.from(mapped.replace(identifierPattern, identifier).replace(checksumPattern, identifier), 'latin1'),
  );
};
