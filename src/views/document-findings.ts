import type { Explanation } from '../findings/explanation.ts';
import type { Finding, Place } from '../findings/finding.ts';

/** Findings that arise while documents are compiled. */
export const documentCodes = {
  'image-unusable': {
    title: 'A picture cannot be shown',
    level: 'error',
    explain:
      'The text names a picture that is not in the technical file, or that cannot be read. The document shows its alternative text in its place.\n\nPictures are SVG drawings and PNG pictures within the technical file, named by their path from the file that shows them: `![Section of the tip](pictures/tip.svg "Section of the tip {#tip}")`, in a paragraph of their own. The words in quotation marks become the caption.',
  },
  'image-part-left-out': {
    title: 'A part of a picture is left out',
    level: 'warning',
    explain:
      'A drawing may hold more than shapes and words: scripts, pages, pictures from elsewhere, links. None of these reaches a document, and what they would have shown is missing.\n\nTake them out of the drawing, or draw them as shapes.',
  },
  'unknown-view': {
    title: 'A view block has an unknown name',
    level: 'error',
    explain:
      'The info string of a fenced block is `plinth NAME`, and no view has that name. The table would be missing from the document.\n\nCorrect the name; `plinth explain` lists the views.',
  },
  'view-body-wrong': {
    title: 'A view block asks for something that does not exist',
    level: 'error',
    explain:
      'The YAML in the block is broken, or has a field or a value that the view does not know. A misspelt condition would silently show other rows, so it is an error.\n\nCorrect the line shown.',
  },
  'view-empty': {
    title: 'The condition of a view block leaves nothing to show',
    level: 'warning',
    explain:
      'The block has a condition, such as `where`, that no record meets, though the technical file has records of the kind. The table would say nothing, and a reader might take that for the state of the file.\n\nCorrect the condition. Where nothing is a possible answer, put the block between `:::when{records=TYPE status="approved"}` and `:::`.',
  },
  'condition-wrong': {
    title: 'A conditional section asks for something that does not exist',
    level: 'error',
    explain:
      'The text stands between `:::when{...}` (or `:::unless{...}`) and `:::`, and the condition has an unknown name: a record type, a status or a field. A section that is left out by a slip is missed by nobody, so it is an error, and the text stays.\n\nWrite `:::when{records=field-data}`, with `status="approved"` if you like, or in a document with `for_each` `:::when{each=exclusions}`.',
  },
  'unknown-value': {
    title: 'An inline value does not exist',
    level: 'error',
    explain:
      'The text asks for a number or wording (`:value[VR-09A/lower_bound]`, `:phrase[shelf_life]`, `:count[user-need]`, `:device[name]`, `:claim[CM-01]`) that the technical file does not hold. The document would have a hole where a reader expects a figure.\n\nCorrect the name; the message lists what there is.',
  },
  'document-older-than-records': {
    title: 'A document to be handed in is older than what it shows',
    level: 'warning',
    explain:
      'A submission hands in a document that was approved on one day and shows a record that was approved on a later one. The document is compiled from the records as they are, so the record stands in it; whoever approved the document has not seen it there. Of a document that is written for each record of a type, the approvals of that record count.\n\nAn approval on a cover is read as one of the pages behind it. Where a result was added afterwards, the conclusion above it may no longer be the right one.\n\nRead the document as it is now (`plinth build --only ID`), mend what no longer fits, and have it approved again.',
  },
  'house-style-unusable': {
    title: 'A house style cannot be used',
    level: 'error',
    explain:
      'The field `house_style` in plinth.yaml, or in the front matter of a document, names a Word file whose looks the documents are to take over. The file is not there, lies outside of the technical file, or is none that can be used: broken, too large, not from Word, or with macros. The documents were written in the usual look.\n\nA house style comes from outside and is not trusted: files of more than 20 MB, or of more than 60 MB unpacked, and files with macros (.docm, .dotm) are refused. Save the file as .docx or .dotx and name it by its path from plinth.yaml.',
  },
  'house-style-part-left-out': {
    title: 'A part of a house style is not taken over',
    level: 'warning',
    explain:
      "Styles, theme, paper, running heads and pictures of a house style are taken over. Left out is what reaches out of the file (linked pictures, links, an attached template), what runs or loads something (embedded objects, fields such as INCLUDEPICTURE or DDE), and what would show another document's words (dates of saving, file names, properties that documents do not have). Fields that stay are page numbers, title, subject, author, keywords, words of headings, and the properties Document Number, Revision, Record and Company.\n\nTake the part out of the house style, or put an embedded picture in place of a linked one.",
  },
} as const satisfies Record<string, Explanation>;

export type DocumentCode = keyof typeof documentCodes;

export const documentFinding = (
  code: DocumentCode,
  place: Place,
  message: string,
  records: readonly string[],
  hint: string,
): Finding => ({
  code,
  level: documentCodes[code].level,
  place,
  message,
  hint,
  records,
  related: [],
});
