import type { Explanation } from '../findings/explanation.ts';

/** Findings that arise while Markdown is compiled into the document model. */
export const markdownCodes = {
  'raw-html': {
    title: 'A document contains HTML',
    level: 'error',
    explain:
      'HTML means something in a browser and nothing in Word, and it could carry a script. So it is refused and left out of every document.\n\nWrite it as Markdown. HTML comments are allowed: they are remarks for authors and are not printed.',
  },
  'unsafe-link': {
    title: 'A link has an unsafe target',
    level: 'error',
    explain:
      "Only http, https and mailto links leave a document. A target such as `javascript:` or `file:` could run a program or show a path of somebody's machine.\n\nLink to a web address, or write the text without a link.",
  },
  'image-without-alternative': {
    title: 'A picture has no alternative text',
    level: 'error',
    explain:
      'Readers who cannot see the picture need words for it, and auditors of accessibility ask for them.\n\nWrite what the picture shows between the square brackets: `![Section of the tip](tip.png)`.',
  },
  'unknown-anchor': {
    title: 'A cross-reference leads nowhere',
    level: 'error',
    explain:
      'The text refers to a heading, table or figure (`[](#matrix)`) that the document does not have, so the reader would find an empty reference.\n\nCorrect the name, or give the heading, table or figure that anchor.',
  },
  'unknown-directive': {
    title: 'A directive is unknown',
    level: 'error',
    explain:
      'The block `:::name` or the inline value `:name[...]` is none that documents know, so its meaning would be lost, or a misspelt value would be printed as it was typed.\n\nUse `:value[...]`, `:phrase[...]`, `:count[...]`, `:device[...]`, `:title[...]`, `:each[...]` or `:claim[...]` within a line; a backslash before the colon keeps the text itself. As blocks use `:::landscape`, `:::caution`, `:::note`, `:::when`, `:::unless` or `::page-break`.',
  },
  'directive-unbalanced': {
    title: 'A block is opened and not closed, or closed and not opened',
    level: 'error',
    explain:
      'A block such as `:::landscape` or `:::when` ends at a line of as many colons. Where that line is missing, the block runs to the end of the text: all of it is printed on landscape pages, or depends on the condition. A line of colons that closes nothing would be printed as it stands.\n\nClose each block once. A block that holds another one needs more colons than that: `::::note` around `:::when`.',
  },
  'footnote-missing': {
    title: 'A footnote is referred to and not there',
    level: 'error',
    explain:
      'The text refers to a footnote (`[^9]`) that is written nowhere in it, so the mark would be printed as it was typed.\n\nWrite the footnote on a line of its own (`[^9]: The text.`), outside of blocks such as `:::landscape`, or delete the mark. A backslash before the bracket keeps the text itself.',
  },
  'unreadable-markdown': {
    title: 'A body cannot be read',
    level: 'error',
    explain:
      'The text is nested so deeply that it cannot be parsed, so nothing of it reaches the document.\n\nReduce the nesting of quotes and lists.',
  },
  'lossy-markdown': {
    title: 'Something in the text cannot be shown',
    level: 'warning',
    explain:
      'The document model has no place for what stands at the line shown, so the document shows less than the text. The message says what is lost.\n\nWrite it in another way.',
  },
  'heading-level-jump': {
    title: 'A heading skips a level',
    level: 'warning',
    explain:
      'A heading of level 3 directly below one of level 1 confuses numbering and screen readers.\n\nUse the next level.',
  },
  'control-character': {
    title: 'The text contains a control character',
    level: 'warning',
    explain:
      'Characters that cannot be printed are not allowed in Word files. Characters that turn the direction of the text around them (U+202A to U+202E, U+2066 to U+2069) are not seen themselves, and make a text read otherwise than it is stored and approved. Both are replaced by a visible sign.\n\nDelete the character at the place shown.',
  },
} as const satisfies Record<string, Explanation>;

export type MarkdownCode = keyof typeof markdownCodes;
