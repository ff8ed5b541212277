import type { SiteInline, SitePage } from '../document/site.ts';
import type { TechnicalRecord } from '../records/record.ts';
import { text } from '../views/cells.ts';
import type { CompiledDocument } from '../views/compile-document.ts';
import { deliverableLinks, deliverableParts } from './deliverables.ts';
import { approvalWord, mark, pageLink, type SiteContext } from './site-context.ts';

/** The approvals of a copy are those of the record that it was written for. */
const answering = ({ record, each }: CompiledDocument): TechnicalRecord => each ?? record;

const filesCell = (compiled: CompiledDocument, context: SiteContext): readonly SiteInline[] =>
  deliverableLinks(compiled, context).flatMap((link, index) => [...(index === 0 ? [] : [text(', ')]), link]);

/** All documents that the file is compiled into. */
export const documentsPage = (context: SiteContext): SitePage => ({
  path: 'documents.html',
  title: 'Documents',
  under: 'documents.html',
  parts: [
    {
      kind: 'words',
      look: 'lead',
      children: [
        text(
          'Each has the same text as its Word form: both are compiled from the records at the same moment.',
        ),
      ],
    },
    {
      kind: 'grid',
      id: 'documents',
      caption: 'Documents',
      whenEmpty: 'There are no documents yet.',
      columns: [
        { title: 'Document', width: 40 },
        { title: 'Number', width: 16 },
        { title: 'Revision', width: 9 },
        { title: 'Status', width: 12, isChoice: true },
        { title: 'Approval', width: 12, isChoice: true },
        { title: 'Audience', width: 20, isHidden: true },
        { title: 'Record', width: 10 },
        ...(context.deliverables ? [{ title: 'Files', width: 12 }] : []),
      ],
      rows: context.documents.map((compiled) => ({
        cells: [
          [
            pageLink(
              context.documentPaths.get(compiled) ?? '',
              text(`${compiled.document.title}${compiled.each ? `, ${compiled.each.title}` : ''}`),
            ),
          ],
          [text(compiled.document.number)],
          [text(compiled.document.revision)],
          [mark(compiled.document.status)],
          [mark(approvalWord(answering(compiled).id, context))],
          [text(String(compiled.record.fields['audience'] ?? '–'))],
          [{ kind: 'record-reference', id: compiled.record.id }],
          ...(context.deliverables ? [filesCell(compiled, context)] : []),
        ],
      })),
    },
  ],
});

/** A document, whole. */
export const documentPage = (compiled: CompiledDocument, context: SiteContext): SitePage => {
  const { document, record, each } = compiled;
  const at = context.documents.indexOf(compiled);
  const neighbour = (other: CompiledDocument | undefined) =>
    other && {
      path: context.documentPaths.get(other) ?? '',
      title: `${other.document.number} ${other.document.title}`,
    };
  const [before, after] = [neighbour(context.documents[at - 1]), neighbour(context.documents[at + 1])];
  const above: readonly SiteInline[] = [
    pageLink('documents.html', text('Documents')),
    text(' / '),
    { kind: 'record-reference', id: record.id },
    ...(each ? ([text(' for '), { kind: 'record-reference', id: each.id }] as const) : []),
  ];
  return {
    path: context.documentPaths.get(compiled) ?? '',
    title: document.title,
    above,
    under: 'documents.html',
    ...(before ? { before } : {}),
    ...(after ? { after } : {}),
    citation: `${document.number} ${document.title}, revision ${document.revision}, ${document.status}, content as of ${document.date}`,
    parts: [...deliverableParts(compiled, context), { kind: 'document', document }],
  };
};
