import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';

/** A comment on the whole of every paragraph of a Word file that has words, as a tireless reviewer would leave them. */
export const commentEveryParagraph = (bytes: Uint8Array): Uint8Array => {
  const parts = { ...unzipSync(bytes) };
  const xml = strFromU8(parts['word/document.xml'] ?? new Uint8Array());
  let count = 0;
  const marked = xml.replace(/<w:p>(?:(?!<w:p>).)*?<\/w:p>/gs, (paragraph) => {
    const [, properties = '', runs = ''] =
      /^<w:p>((?:<w:pPr>.*?<\/w:pPr>)?)(.*)<\/w:p>$/s.exec(paragraph) ?? [];
    if (
      !/<w:t[ >][^<]*[^<\s]/.test(runs) ||
      properties.includes('TOC') ||
      properties.includes('TableofFigures')
    )
      return paragraph;
    const id = count;
    count += 1;
    return `<w:p>${properties}<w:commentRangeStart w:id="${id}"/>${runs}<w:commentRangeEnd w:id="${id}"/><w:r><w:commentReference w:id="${id}"/></w:r></w:p>`;
  });
  parts['word/document.xml'] = strToU8(marked);
  parts['word/comments.xml'] = strToU8(
    `<w:comments xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main">${Array.from(
      { length: count },
      (_, id) =>
        `<w:comment w:id="${id}" w:author="R" w:date="2026-11-12T09:00:00Z" w:initials="R"><w:p><w:r><w:t>${id}</w:t></w:r></w:p></w:comment>`,
    ).join('')}</w:comments>`,
  );
  const insert = (part: string, before: string, text: string) => {
    parts[part] = strToU8(strFromU8(parts[part] ?? new Uint8Array()).replace(before, text + before));
  };
  insert(
    '[Content_Types].xml',
    '</Types>',
    '<Override PartName="/word/comments.xml" ContentType="application/vnd.openxmlformats-officedocument.wordprocessingml.comments+xml"/>',
  );
  insert(
    'word/_rels/document.xml.rels',
    '</Relationships>',
    '<Relationship Id="rIdComments" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/comments" Target="comments.xml"/>',
  );
  return zipSync(parts, { level: 0 });
};
