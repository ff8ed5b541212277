import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';

const w14 = 'http://schemas.microsoft.com/office/word/2010/wordml';
const w15 = 'http://schemas.microsoft.com/office/word/2012/wordml';
const wordTypes = 'application/vnd.openxmlformats-officedocument.wordprocessingml';

/** A comment as a reviewer leaves it. */
export interface LeftComment {
  readonly author: string;
  readonly text: string;
  readonly date?: string;
  readonly resolved?: boolean;
  /** Index of the comment that this one answers. */
  readonly answers?: number;
}

const run = (text: string): string => `<w:r><w:t xml:space="preserve">${text}</w:t></w:r>`;

/** Splits the run that holds the words, so that something can be put around them. */
const around = (xml: string, words: string, change: (inner: string) => string, within = words): string => {
  // The writer sets a blank that does not break before units; who searches in Word meets both.
  const pattern = (sought: string): string =>
    sought.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').replaceAll(' ', '[ \u00a0]');
  const text = new RegExp(`<w:t xml:space="preserve">[^<]*${pattern(within)}`).exec(xml);
  const at = text?.index ?? -1;
  const open = xml.lastIndexOf('<w:r>', at);
  const close = xml.indexOf('</w:r>', at) + '</w:r>'.length;
  const whole = xml.slice(open, close);
  const match = /^<w:r>((?:<w:rPr>.*?<\/w:rPr>)?)<w:t xml:space="preserve">([^<]*)<\/w:t><\/w:r>$/.exec(
    whole,
  );
  if (at === -1 || !match) throw new Error(`the document has no run with "${words}"`);
  const own = new RegExp(pattern(words)).exec(match[2] ?? '')?.[0] ?? words;
  const [before = '', ...others] = (match[2] ?? '').split(own);
  const after = others.join(own);
  return xml.slice(0, open) + run(before) + change(own) + run(after) + xml.slice(close);
};

/** What a reviewer does to a document, one thing after the other. */
export const reviewer = (bytes: Uint8Array) => {
  const parts = { ...unzipSync(bytes) };
  const comments: LeftComment[] = [];
  let xml = strFromU8(parts['word/document.xml'] ?? new Uint8Array());
  const by = (author: string, date = '2026-11-12T09:30:00Z') =>
    `w:id="${9000 + xml.length}" w:author="${author}" w:date="${date}"`;
  const add = (comment: LeftComment): number => comments.push(comment) - 1;
  const mark = (id: number, what: 'Start' | 'End') => `<w:commentRange${what} w:id="${id}"/>`;
  const reference = (id: number) => `<w:r><w:commentReference w:id="${id}"/></w:r>`;
  return {
    /** On the first of the words in the first run that holds `within`. */
    comment: (words: string, comment: LeftComment, within = words): number => {
      const id = add(comment);
      xml = around(
        xml,
        words,
        (inner) => `${mark(id, 'Start')}${run(inner)}${mark(id, 'End')}${reference(id)}`,
        within,
      );
      return id;
    },
    /** On everything from the first words to the last ones, over paragraphs. */
    commentOver: (from: string, to: string, comment: LeftComment): number => {
      const id = add(comment);
      xml = around(xml, from, (inner) => `${mark(id, 'Start')}${run(inner)}`);
      xml = around(xml, to, (inner) => `${run(inner)}${mark(id, 'End')}${reference(id)}`);
      return id;
    },
    reply: (to: number, comment: LeftComment): number => {
      const id = add({ ...comment, answers: to });
      xml = xml
        .replace(mark(to, 'Start'), mark(to, 'Start') + mark(id, 'Start'))
        .replace(
          mark(to, 'End') + reference(to),
          mark(to, 'End') + reference(to) + mark(id, 'End') + reference(id),
        );
      return id;
    },
    replace: (words: string, other: string, author: string): void => {
      xml = around(
        xml,
        words,
        (inner) =>
          `<w:del ${by(author)}><w:r><w:delText xml:space="preserve">${inner}</w:delText></w:r></w:del><w:ins ${by(author)}>${run(other)}</w:ins>`,
      );
    },
    insertParagraph: (after: string, text: string, author: string): void => {
      const end = xml.indexOf('</w:p>', xml.indexOf(after)) + '</w:p>'.length;
      xml = `${xml.slice(0, end)}<w:p><w:pPr><w:rPr><w:ins ${by(author)}/></w:rPr></w:pPr><w:ins ${by(author)}>${run(text)}</w:ins></w:p>${xml.slice(end)}`;
    },
    embolden: (words: string, author: string): void => {
      xml = around(
        xml,
        words,
        (inner) =>
          `<w:r><w:rPr><w:b/><w:rPrChange ${by(author)}><w:rPr/></w:rPrChange></w:rPr><w:t>${inner}</w:t></w:r>`,
      );
    },
    /** A change that nobody tracked. */
    swap: (words: string, other: string): void => {
      xml = around(xml, words, () => run(other));
    },
    dropProperties: (): void => {
      parts['docProps/custom.xml'] = strToU8(
        '<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/custom-properties"/>',
      );
    },
    save: (): Uint8Array => {
      const name = (index: number) => `0A00000${index}`;
      const head = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>';
      const word = 'xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main"';
      parts['word/document.xml'] = strToU8(xml);
      parts['word/comments.xml'] = strToU8(
        `${head}<w:comments ${word} xmlns:w14="${w14}">${comments
          .map(
            ({ author, text, date }, id) =>
              `<w:comment w:id="${id}" w:author="${author}" w:date="${date ?? '2026-11-12T09:00:00Z'}" w:initials="R"><w:p w14:paraId="${name(id)}">${run(text)}</w:p></w:comment>`,
          )
          .join('')}</w:comments>`,
      );
      parts['word/commentsExtended.xml'] = strToU8(
        `${head}<w15:commentsEx xmlns:w15="${w15}">${comments
          .map(
            ({ resolved, answers }, id) =>
              `<w15:commentEx w15:paraId="${name(id)}"${answers === undefined ? '' : ` w15:paraIdParent="${name(answers)}"`} w15:done="${resolved ? 1 : 0}"/>`,
          )
          .join('')}</w15:commentsEx>`,
      );
      const insert = (part: string, before: string, text: string) => {
        parts[part] = strToU8(strFromU8(parts[part] ?? new Uint8Array()).replace(before, text + before));
      };
      insert(
        '[Content_Types].xml',
        '</Types>',
        `<Override PartName="/word/comments.xml" ContentType="${wordTypes}.comments+xml"/><Override PartName="/word/commentsExtended.xml" ContentType="${wordTypes}.commentsExtended+xml"/>`,
      );
      insert(
        'word/_rels/document.xml.rels',
        '</Relationships>',
        '<Relationship Id="rIdComments" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/comments" Target="comments.xml"/><Relationship Id="rIdCommentsEx" Type="http://schemas.microsoft.com/office/2011/relationships/commentsExtended" Target="commentsExtended.xml"/>',
      );
      return zipSync(parts);
    },
  };
};
